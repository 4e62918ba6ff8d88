"""The invented team that a new server begins with: a squad, four plays, and one of them on its board."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from sqlalchemy.orm import Session

from engine.floor.formations import FIVE_OUT, FOUR_OUT_ONE_IN
from engine.rules.rule_sets import DEFAULT
from webapp.base.tokens import new_id
from webapp.boards.teams import make_team
from webapp.chains import history
from webapp.chains.lines_of_play import Line
from webapp.chains.state import replay
from webapp.plays import playbook
from webapp.plays.playbook import ChainWithLine
from webapp.store.tables import Board
from webapp.team import squad
from webapp.wire.schemas import PLACES

DEMO_TEAM: Final = "Harbour Herons"
DEMO_BOARD: Final = "Tuesday practice"
#: Index of what is being taught: with it everything that the plays need is taught, and no more.
DEMO_STAGE: Final = 2

#: Numbers and first names. The first five play the place of their number, so that the discs read 1 to 5.
DEMO_SQUAD: Final = (
    ("1", "Robin"),
    ("2", "Noor"),
    ("3", "Sam"),
    ("4", "Juno"),
    ("5", "Kit"),
    ("7", "Remy"),
    ("8", "Alex"),
    ("11", "Toni"),
    ("14", "Charlie"),
)

#: From the left sideline: 5 screens for 2, who comes to the top for the ball; everybody ends on a spot.
_INBOUND: Final = (
    "script:as=side;at=1,-800,420,2,-250,400,3,245,330,4,520,60,5,70,560;ball=1;"
    "go=5,s,0,80,-130,500;go=2,c,60,130,-240,560,-120,690,0,715;go=3,c,100,90,400,400,506,506;"
    "go=4,c,110,70,700,0;go=5,c,200,120,-330,460,-506,506;go=1,c,240,130,-720,200,-700,0;do=p,180,230,1,2;"
    "on=1,left_corner,2,top,3,right_wing,4,right_corner,5,left_wing"
)


@dataclass(frozen=True, slots=True)
class DemoPlay:
    """A play of the demo team. ``line``: its steps; ``branch``: another line from the same start, or none."""

    name: str
    note: str
    formation: str
    line: Line
    branch: Line = ()
    tags: tuple[str, ...] = ()
    pinned: bool = False
    occasion: str = ""


#: The first of them stands on the board.
DEMO_PLAYS: Final = (
    DemoPlay(
        "Swing and drive",
        "Pass, cut, fill. When the lane is open, drive and look for the corner.",
        FIVE_OUT.name,
        (
            ("pass:right_wing",),
            ("fill:left_corner", "pass:top"),
            ("fill:right_corner", "drive:left"),
            ("kick_out:left_corner",),
        ),
        tags=("half court",),
        pinned=True,
        occasion="timeout",
    ),
    DemoPlay(
        "Dribble at the wing",
        "No drive after the back cut? Bring the ball back to the top.",
        FIVE_OUT.name,
        (
            ("dribble_at:right_wing",),
            ("fill:left_corner", "drive:right"),
            ("kick_out:right_corner",),
        ),
        branch=(
            ("dribble_at:right_wing",),
            ("fill:left_corner", "pass:top"),
            ("fill:right_corner", "pass:left_wing"),
        ),
        tags=("half court",),
    ),
    DemoPlay(
        "Sideline to the top",
        "2 waits for the screen. Once the ball is in, everybody plays on by rule.",
        FIVE_OUT.name,
        ((_INBOUND,), ("pass:right_wing",), ("fill:left_corner", "drive:right")),
        tags=("sideline",),
    ),
    DemoPlay(
        "Slot to slot",
        "Four out, one in: if the helper leaves 5, the ball goes to 5.",
        FOUR_OUT_ONE_IN.name,
        (("pass:left_slot",), ("fill:right_wing", "drive:right"), ("dump_off:right_block",)),
        tags=("half court",),
    ),
)


def make_demo(session: Session) -> Board:
    """Store the invented team, with a play on its board that nobody has looked at yet."""
    board = make_team(session, DEMO_TEAM, DEMO_BOARD)
    places = {}
    for number, name in DEMO_SQUAD:
        member = squad.add_player(session, board.team_id, {"number": number, "name": name})
        if number in PLACES:
            places[number] = member.id
    board.stage = DEMO_STAGE
    board.places = squad.write_places(tuple(places[place] for place in PLACES))
    on_board, *_ = [_store(session, board, play, age) for age, play in enumerate(DEMO_PLAYS)]
    _open(session, board, on_board, DEMO_PLAYS[0].line)
    return board


def _store(session: Session, board: Board, play: DemoPlay, age: int) -> ChainWithLine:
    """Save a play. ``age``: how many seconds ago it was used, so that plays are listed in their order."""
    names = (new_id(), play.formation, DEFAULT.name)
    brought = playbook.bring(session, board.team_id, board.id, *names, play.line)
    chain = brought.chain
    if play.branch:
        playbook.grow(session, chain, play.branch)
    chain.line_id = brought.nodes[-1]
    playbook.keep(session, chain)
    playbook.describe(chain, _described(play))
    chain.used = int(time.time()) - age
    return brought


def _described(play: DemoPlay) -> dict[str, Any]:
    words: dict[str, Any] = {"name": play.name, "note": play.note, "tags": list(play.tags)}
    return words | {"pinned": play.pinned, "occasion": play.occasion}


def _open(session: Session, board: Board, brought: ChainWithLine, line: Sequence[Sequence[str]]) -> None:
    standing = history.load(session, board.id)
    card = standing.card
    steps = replay(card.shape, card.rules, zip(brought.nodes, map(tuple, line), strict=True))
    tag = history.tag_of(session, brought.root)
    opened = replace(standing, root=brought.root, chain=tag, steps=steps, ahead=())
    history.record(session, history.numbered(opened, "demo", "open"), None)
