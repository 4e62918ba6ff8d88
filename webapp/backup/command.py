"""The commands ``python3 -m webapp backup`` and ``restore``: save the data to a file, and bring it back."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from webapp.backup.check import CannotUse
from webapp.backup.restore import restore
from webapp.backup.take import take, usual_name
from webapp.base.settings import BadSetting, Settings, from_environment


def main(argv: Sequence[str]) -> int:
    """Carry out one command; return the exit status: 0, or 1 with one sentence on standard error."""
    options = _parser(argv[0]).parse_args(argv[1:])
    given = {} if options.data is None else {"data_dir": options.data.resolve()}
    try:
        settings = from_environment(os.environ, **given)
        print(_backup(settings, options.file) if argv[0] == "backup" else _restore(settings, options.file))
    except (CannotUse, BadSetting) as error:
        print(error, file=sys.stderr)
        return 1
    return 0


def _parser(command: str) -> argparse.ArgumentParser:
    taking = command == "backup"
    parser = argparse.ArgumentParser(
        prog=f"python3 -m webapp {command}",
        description=(
            "Save the data to one file, while the server runs or not, and check that file."
            if taking
            else "Bring the data back from a file that 'backup' wrote, with the server stopped. What is "
            "there now is kept beside it."
        ),
    )
    parser.add_argument(
        "file",
        type=Path,
        metavar="FILE",
        nargs="?" if taking else None,
        help="where to write it, never over anything (default: a name with the time in it, in this folder)"
        if taking
        else "the backup",
    )
    parser.add_argument("--data", type=Path, metavar="DIR", help="folder of the boards (default .quintet)")
    return parser


def _backup(settings: Settings, file: Path | None) -> str:
    target = (file or Path()).resolve()
    if target.is_dir():
        target /= usual_name()
    contents = take(settings.database, target)
    said = (
        f"Saved {contents} to {target} ({target.stat().st_size / 1e6:.1f} MB) and checked it. Whoever has "
        "this file has all your teams' data: keep it where only you can reach it."
    )
    if (settings.data_dir / "authority").exists():
        said += (
            " The certificate that your tablets trust is not in it, so that nobody can pass for this "
            "computer with it."
        )
    return said


def _restore(settings: Settings, file: Path) -> str:
    done = restore(file.resolve(), settings.database, settings.data_dir / "server.lock")
    said = f"Restored {done.contents} from {file}."
    if not done.contents.newest:
        said += " It was written by an older Quintet and has been brought up to date."
    if done.aside is not None:
        said += f" What was there before is kept in {done.aside}: restore that file to go back."
    return (
        said + " Links and devices are as they were then: look through them under Share, and turn off again "
        "what should be off."
    )
