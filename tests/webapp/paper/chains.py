"""Chains to print: given ones, and random ones over all formations, courts and rule sets."""

from __future__ import annotations

import random
from collections.abc import Sequence

from hypothesis import strategies as st

from engine.floor.alignment import Position, start
from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT, FORMATIONS, Formation
from engine.floor.standards import STANDARDS
from engine.game.play import advance, offers
from engine.game.recover import recovery
from engine.rules.rule_sets import DEFAULT, SHIPPED, RuleSet, shipped
from tests.engine.script.scripts import scripts
from tests.scripts import some_script
from webapp.chains.state import Calls, Card, Played, play
from webapp.paper.floor import View
from webapp.paper.look import Look
from webapp.paper.sheet import Sheet, sheet
from webapp.team.squad import Member

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


#: Everybody and everything there can be, apart enough to be drawn where it stands; 1 is out of bounds.
CROWDED = (
    "script:as=base;at=1,200,-210,2,-420,250,3,0,520,4,420,250,5,200,130,x1,200,-20,x2,-280,250,x3,0,390,"
    "x4,290,250,x5,60,130,c,-830,500,k1,-600,800,k6,600,800;ball=1;"
    "go=5,s,0,80,-250,130;go=x5,c,20,80,-60,200;go=2,c,60,120,-60,120,300,40;go=3,c,60,150,250,640,500,560;"
    "go=x2,c,80,120,-150,120,150,60;go=x3,c,80,150,300,540;go=4,c,200,160,-120,700;go=1,c,230,200,660,-20;"
    "go=2,d,240,100,350,420;do=p,150,190,1,2;do=p,360,400,2,3"
)


def off_spots(text: str = CROWDED, **given: object) -> Sheet:
    """A drawing that leaves somebody off spots, and a recovery from where it leaves them."""
    board = card(**given)  # type: ignore[arg-type]
    ends = played(board, [(text,)])[-1].after
    where = {number: (x / 100, y / 100) for number, x, y in ends.off}
    return sheet(board, played(board, [(text,), back(board, ends, where)]), "Under the rim")


def goes_on(text: str, count: int, **given: object) -> Sheet:
    """A drawing that ends on spots, and ``count`` steps by rule after it."""
    board, chain = card(**given), [(text,)]  # type: ignore[arg-type]
    for _ in range(count):
        offer = offers(played(board, chain)[-1].after, board.shape, board.rules)[0]
        chain.append(tuple(action.text for action in offer.actions))
    return sheet(board, played(board, chain), "Side out")


@st.composite
def scripted_sheets(draw: st.DrawFn, *, far: bool = False) -> Sheet:
    """Any drawing there can be, among steps by rule. ``far``: nobody need be anywhere near the floor."""
    board = card(
        FORMATIONS[draw(st.sampled_from(sorted(FORMATIONS)))], court=draw(st.sampled_from(sorted(STANDARDS)))
    )
    chain: list[tuple[str, ...]] = []
    position = start(board.shape)
    for _ in range(draw(st.integers(1, 4))):
        if position.alignment.over:
            break
        if not chain or draw(st.booleans()):
            one = some_script(random.Random(draw(st.integers(0, 10**6))), board.shape, board.rules)
            if far:
                one = draw(scripts(board.shape, on_spots=False))
            actions: tuple[str, ...] = (one.text,)
        elif position.off:
            where = {number: (x / 100, y / 100) for number, x, y in position.off}
            actions = back(board, position, where)
        else:
            offer = draw(st.sampled_from(offers(position, board.shape, board.rules)))
            actions = tuple(action.text for action in offer.actions)
        position = play(position, actions, board.shape, board.rules)
        chain.append(actions)
    return sheet(board, played(board, chain), "Any drawing")


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
