"""Chains to print: given ones, and random ones over all formations, courts and rule sets."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import strategies as st

from engine.alignment import Position, start
from engine.court import half_court
from engine.formations import FIVE_OUT, FORMATIONS, Formation
from engine.play import advance, offers
from engine.recover import recovery
from engine.rules import DEFAULT, SHIPPED, RuleSet, shipped
from engine.standards import STANDARDS
from webapp.chain import Calls, Card, Played, play
from webapp.paper.floor import View
from webapp.paper.look import Look
from webapp.paper.sheet import Sheet, sheet
from webapp.squad import Member

#: A pass and cut, a fill with the pass after it, a drive, a kick-out, a shot.
FIVE_STEPS = (
    ("pass:right_wing",),
    ("fill:left_corner", "pass:top"),
    ("fill:right_corner", "drive:left"),
    ("kick_out:left_corner",),
    ("shot",),
)

FACES = {n: str(n) for n in range(1, 6)}
VIEWS = [View(turned, mirrored) for turned in (False, True) for mirrored in (False, True)]


def card(
    formation: Formation = FIVE_OUT,
    rules: RuleSet = DEFAULT,
    court: str = "fiba",
    *,
    roster: tuple[Member, ...] = (),
    calls: Calls | None = None,
) -> Card:
    return Card(
        id="b",
        name="First",
        team_id="t",
        team="Quay Otters",
        formation=formation.name,
        shape=formation,
        formation_name=formation.name,
        court=court,
        level=1.0,
        rules_ref=rules.name,
        rules=rules,
        places=tuple(member.id for member in roster) or (None,) * 5,
        roster=roster,
        calls=calls or {},
    )


def played(board: Card, chain: Sequence[tuple[str, ...]]) -> list[Played]:
    position, made = start(board.shape), []
    for node, actions in enumerate(chain):
        after = play(position, actions, board.shape, board.rules)
        made.append(Played(node, actions, position, after))
        position = after
    return made


def five_steps(**given: object) -> Sheet:
    board = card(**given)  # type: ignore[arg-type]
    return sheet(board, played(board, FIVE_STEPS), "Swing and drive")


def look(view: View | None = None, size: float = 1.0) -> Look:
    return Look(view or View(), FACES, size)


def back(board: Card, position: Position, where: dict[int, tuple[float, float]]) -> tuple[str, ...]:
    """A recovery from ``where``, metres."""
    ball = position.player(position.alignment.ball)
    return (recovery(where, ball, half_court(board.court), board.shape, board.rules).text,)


@st.composite
def sheets(draw: st.DrawFn, longest: int = 5) -> Sheet:
    """Any chain that can be played, recoveries from anywhere included."""
    board = card(
        FORMATIONS[draw(st.sampled_from(sorted(FORMATIONS)))],
        shipped(draw(st.sampled_from(SHIPPED))),
        draw(st.sampled_from(sorted(STANDARDS))),
    )
    chain: list[tuple[str, ...]] = []
    position = start(board.shape)
    for _ in range(draw(st.integers(0, longest))):
        if position.alignment.over:
            break
        if draw(st.integers(0, 5)) == 0:
            place = st.tuples(st.integers(-8, 8), st.integers(-2, 13))
            where = {n: draw(place) for n in range(1, 6)}
            actions = back(board, position, {n: (float(x), float(y)) for n, (x, y) in where.items()})
            position = play(position, actions, board.shape, board.rules)
        else:
            offer = draw(st.sampled_from(offers(position, board.shape, board.rules)))
            actions = tuple(action.text for action in offer.actions)
            position, _ = advance(position, actions, board.shape, board.rules)
        chain.append(actions)
    return sheet(board, played(board, chain), "Any chain")
