"""Legal actions and their steps per second, beside python-chess making and unmaking legal moves.

Chess is the yardstick because python-chess is a well-kept rules engine in the same language: both generate
what is legal in a position and carry each of it out. A "node" is one action (or move) generated and applied.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import chess

from engine.floor.alignment import Alignment, start
from engine.floor.formations import FORMATIONS, Formation
from engine.game.compiled import Game
from engine.game.graph import reach
from engine.game.moves import generate, steps
from engine.game.steps import Step
from engine.rules.rule_sets import DEFAULT

SECONDS = 1.0


def chess_nodes() -> int:
    """Generate and make every legal move of positions three plies deep from the initial one, once."""
    board, nodes = chess.Board(), 0

    def walk(depth: int) -> None:
        nonlocal nodes
        for move in board.legal_moves:
            board.push(move)
            nodes += 1
            if depth > 1:
                walk(depth - 1)
            board.pop()

    walk(3)
    return nodes


def engine_nodes(
    formation: Formation,
    alignments: list[Alignment],
    work_out: Callable[[Alignment, Formation], tuple[Step, ...]],
) -> int:
    """Work out every legal action of ``alignments`` and the step it causes, once."""
    return sum(len(work_out(alignment, formation)) for alignment in alignments)


def first_sight(formation: Formation, alignments: list[Alignment]) -> int:
    """Do the same with tables that are empty at the beginning."""
    game = Game(formation, DEFAULT)
    return sum(len(game.outcomes(alignment)[0]) for alignment in alignments)


def rate(work: Callable[[], int]) -> float:
    """Return nodes per second over about ``SECONDS``, after one warming round."""
    work()
    nodes, begin = 0, time.perf_counter()
    while (spent := time.perf_counter() - begin) < SECONDS:
        nodes += work()
    return nodes / spent


def main() -> None:
    """Print the ratios, one line a formation."""
    yardstick = rate(chess_nodes)
    print(f"python-chess: {yardstick:,.0f} legal moves generated and made a second (= 1.00)")
    for formation in FORMATIONS.values():
        live = [alignment for alignment in reach(formation).alignments if not alignment.over]
        assert start(formation).alignment in live
        plain = rate(lambda: engine_nodes(formation, live, generate))  # noqa: B023
        empty = rate(lambda: first_sight(formation, live))  # noqa: B023
        cached = rate(lambda: engine_nodes(formation, live, steps))  # noqa: B023
        print(
            f"{formation.name}: without cache {plain / yardstick:.2f}, compiled anew as well "
            f"{empty / yardstick:.2f}, cached {cached / yardstick:.2f}  "
            f"({plain:,.0f}, {empty:,.0f} and {cached:,.0f} a second)"
        )


if __name__ == "__main__":
    main()
