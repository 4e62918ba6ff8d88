"""Set up a place to run in: a virtual environment beside the code, with what pyproject.toml asks for.

Standard library only, as it runs before anything is installed. ``ensure`` returns when the running
interpreter has all it needs; otherwise it makes or mends ``.venv`` and starts the same command again in it.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
import tomllib
from collections.abc import Sequence
from pathlib import Path

from engine.words.spoken import say

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
#: Set to anything to use the running interpreter as it is, set up by other means.
SKIP = "QUINTET_NO_SETUP"


def requirements(extras: Sequence[str]) -> list[str]:
    """Return what pyproject.toml asks for, the named extras included."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    found = list(project["dependencies"])
    for extra in extras:
        found += project["optional-dependencies"][extra]
    return found


def ensure(module: str, extras: Sequence[str] = ()) -> None:
    """Return once the requirements are met in ``.venv``; else set it up and run ``module`` again in it.

    Exits with one sentence when that cannot be done.
    """
    if os.environ.get(SKIP):
        return
    wanted = requirements(extras)
    python = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    stamp = VENV / ("quintet-" + "-".join(("base", *extras)) + ".stamp")
    mark = hashlib.sha256("\n".join((sys.version, *wanted)).encode()).hexdigest()
    ready = python.exists() and stamp.exists() and stamp.read_text("utf-8") == mark
    if not ready:
        print(say("server.bootstrap.setting_up_once_about"), file=sys.stderr, flush=True)
        _make(python)
        _install(python, wanted)
        stamp.write_text(mark, "utf-8")
    if Path(sys.prefix).resolve() == VENV.resolve():
        return
    command = [str(python), "-m", module, *sys.argv[1:]]
    if os.name == "nt":
        raise SystemExit(subprocess.call(command, cwd=ROOT))
    os.chdir(ROOT)
    os.execv(command[0], command)


def _make(python: Path) -> None:
    if python.exists():
        return
    plain = [sys.executable, "-m", "venv", str(VENV)]
    if subprocess.run(plain, capture_output=True, check=False).returncode == 0:
        return
    # Some systems leave out the part of venv that brings pip; their own pip can fill the environment instead.
    bare = [*plain[:3], "--clear", "--without-pip", str(VENV)]
    if subprocess.run(bare, capture_output=True, check=False).returncode != 0:
        raise SystemExit(say("server.bootstrap.pythons_venv_missing_nothing"))


def _install(python: Path, wanted: Sequence[str]) -> None:
    has_pip = subprocess.run([str(python), "-m", "pip", "--version"], capture_output=True, check=False)
    pip = [str(python), "-m", "pip"]
    if has_pip.returncode != 0:
        pip = [sys.executable, "-m", "pip", "--python", str(python)]
    command = [*pip, "install", "--quiet", "--disable-pip-version-check", *wanted]
    if subprocess.run(command, check=False, stdout=sys.stderr).returncode != 0:
        raise SystemExit(say("server.bootstrap.packages_could_not_installed"))


if __name__ == "__main__":
    # ``python3 -m webapp.bootstrap [EXTRA...]`` sets up and stops there.
    ensure("webapp.bootstrap", sys.argv[1:])
