"""The commands ``python3 -m webapp backup`` and ``restore``: save the data to a file, and bring it back."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from engine.words.spoken import listed, say
from webapp.backup.integrity import CannotUse
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
            say("server.backup.save_data_one_file") if taking else say("server.backup.bring_data_back_from")
        ),
    )
    parser.add_argument(
        "file",
        type=Path,
        metavar="FILE",
        nargs="?" if taking else None,
        help=say("server.backup.where_write_never_over") if taking else say("server.backup.backup"),
    )
    parser.add_argument(
        "--data", type=Path, metavar="DIR", help=say("server.backup.folder_boards_default_quintet")
    )
    return parser


def _backup(settings: Settings, file: Path | None) -> str:
    target = (file or Path()).resolve()
    if target.is_dir():
        target /= usual_name()
    contents = take(settings.database, target)
    said = [
        say(
            "server.backup.saved_mb_checked_whoever",
            contents=contents,
            target=target,
            st_size=f"{target.stat().st_size / 1e6:.1f}",
        )
    ]
    if (settings.data_dir / "authority").exists():
        said.append(say("server.backup.certificate_your_tablets_trust"))
    return listed(said, "sentences")


def _restore(settings: Settings, file: Path) -> str:
    done = restore(file.resolve(), settings.database, settings.data_dir / "server.lock")
    said = [say("server.backup.restored_from", contents=done.contents, file=file)]
    if not done.contents.newest:
        said.append(say("server.backup.was_written_by_older"))
    if done.aside is not None:
        said.append(say("server.backup.what_was_before_kept", aside=done.aside))
    return listed((*said, say("server.backup.links_devices_as_they")), "sentences")
