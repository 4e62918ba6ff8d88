"""Private copies of the checkout, which faults may be put into."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from tests.mutation.sample import ROOT

#: What is kept between runs: results, and what was measured.
KEPT = ROOT / ".artifacts" / "mutation"


class Copy:
    """A folder with all files of the checkout as they are now, and a place of its own for temporary files."""

    def __init__(self, name: str) -> None:
        self._whole = Path(tempfile.gettempdir()) / f"quintet-mutation-{os.getpid()}-{name}"
        self.folder, self.temporary = self._whole / "copy", self._whole / "tmp"
        self._runner: subprocess.Popen[str] | None = None
        self.temporary.mkdir(parents=True, exist_ok=True)
        command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
        listed = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
        for name in filter(None, listed.split("\0")):
            if (ROOT / name).is_file():
                (self.folder / name).parent.mkdir(parents=True, exist_ok=True)
                shutil.copy2(ROOT / name, self.folder / name)

    def environment(self) -> dict[str, str]:
        """Return what to run its tests with."""
        return {**os.environ, "QUINTET_NO_SETUP": "1", "TMPDIR": str(self.temporary)}

    def run(self, arguments: Sequence[str], environment: Mapping[str, str], s: float) -> dict[str, Any]:
        """Run pytest in it, for ``s`` seconds at most; see runner.py for what is returned."""
        if self._runner is None:
            self._runner = subprocess.Popen(
                [sys.executable, "-m", "tests.mutation.runner"],
                cwd=self.folder,
                env=self.environment(),
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                text=True,
                start_new_session=True,
            )
        assert self._runner.stdin is not None
        assert self._runner.stdout is not None
        wanted = {"arguments": [*arguments], "environment": {**environment}, "s": s}
        print(json.dumps(wanted), file=self._runner.stdin, flush=True)
        answer: dict[str, Any] = json.loads(self._runner.stdout.readline())
        return answer

    def end_left_over(self) -> None:
        """Kill what a test that was cut short has left running: whatever works in this copy, or names it."""
        for process in Path("/proc").glob("[0-9]*"):
            try:
                place = (process / "cwd").resolve()
            except OSError:  # it has ended, or is somebody else's
                continue
            ours = self._runner is not None and int(process.name) == self._runner.pid
            if not ours and (place == self.folder or self.folder in place.parents):
                try:
                    os.kill(int(process.name), signal.SIGKILL)
                except ProcessLookupError:
                    continue

    def remove(self) -> None:
        """Remove it."""
        if self._runner is not None:
            self._runner.kill()
            self._runner.wait()
        shutil.rmtree(self._whole, ignore_errors=True)
