"""Command line: ``python -m engine replay FORMATION`` and ``python -m engine perft FORMATION N``."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable, Iterator, Sequence

from engine.floor.alignment import Position, start
from engine.floor.formations import FORMATIONS, Formation
from engine.game.graph import perft
from engine.game.lane import default_choice
from engine.game.moves import legal
from engine.game.play import BadSequence, advance
from engine.words.spoken import listed, say


def describe(position: Position, formation: Formation) -> dict[str, object]:
    """Return what ``replay`` prints for a position."""
    alignment = position.alignment
    default = default_choice(alignment, formation)
    return {
        "occupied": dict(position.lineup),
        "ball": alignment.ball,
        "cutter": alignment.cutter,
        "over": alignment.over,
        "legal": [action.text for action in legal(alignment, formation)],
        "default": None if default is None else default.text,
    }


def replay(lines: Iterable[str], formation: Formation) -> Iterator[str]:
    """Return one line of JSON for each line of actions separated by single spaces."""
    for line in lines:
        text = line.rstrip("\r\n")
        try:
            position, _ = advance(start(formation), text.split(" ") if text else [], formation)
            yield json.dumps(describe(position, formation))
        except BadSequence as error:
            yield json.dumps({"error": str(error), "at": error.at})


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python -m engine",
        description=say("server.replay.play_motion_offence_by"),
        epilog="\n".join(
            (
                say("server.replay.examples"),
                say("server.replay.formations", names=listed(FORMATIONS, "comma")),
            )
        ),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, text in (
        ("replay", say("server.replay.play_sequences_on_standard")),
        ("perft", say("server.replay.print_how_many_legal")),
    ):
        command = commands.add_parser(name, help=text, description=text)
        command.add_argument("formation", choices=list(FORMATIONS), metavar="FORMATION")
        if name == "perft":
            command.add_argument("length", type=_length, metavar="N")
    return parser.parse_args(argv)


def _length(text: str) -> int:
    if not text.isascii() or not text.isdigit():
        raise argparse.ArgumentTypeError(say("server.replay.n_whole_number_from", text=repr(text)))
    return int(text)


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line and return its exit status: 0, or 1 if standard input cannot be read."""
    arguments = _arguments(argv)
    formation = FORMATIONS[arguments.formation]
    if arguments.command == "perft":
        print(perft(formation, arguments.length))
        return 0
    if sys.stdin is None:
        return _unreadable()
    try:
        # Bytes that are no text become a mark no action holds, so they are an error of their line alone.
        lines = (raw.decode("utf-8", "replace") for raw in sys.stdin.buffer)
        for answer in replay(lines, formation):
            print(answer, flush=True)
    except BrokenPipeError:
        sys.stderr.close()
    except OSError:
        return _unreadable()
    return 0


def _unreadable() -> int:
    print(say("server.replay.standard_input_cannot_read"), file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())
