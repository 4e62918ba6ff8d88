"""What a new server begins with: a team to look at, whose every play the engine plays to its end."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot
from pathlib import Path

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from engine import script
from engine.floor.alignment import Position, start
from engine.floor.court import half_court, spots
from engine.floor.formations import FIVE_OUT, FORMATIONS, Formation
from engine.game.play import advance
from engine.rules.rule_sets import DEFAULT, at_stage
from tests.server import LiveServer
from tests.webapp.screens import Device
from webapp.boards.demo import DEMO_PLAYS, DEMO_SQUAD, DEMO_STAGE, DemoPlay, make_demo
from webapp.plays.playbook import actions_of, line_to, tree
from webapp.plays.playbook_schemas import read_op
from webapp.store.database import Store
from webapp.store.tables import Board, Chain, Node
from webapp.team.squad_schemas import NEW_PLAYER

TAUGHT = at_stage(DEFAULT, DEMO_STAGE)
LINES = [
    pytest.param(play, line, id=f"{play.name}-{number}")
    for play in DEMO_PLAYS
    for number, line in enumerate(filter(None, (play.line, play.branch)))
]


@pytest.fixture
def session(tmp_path: Path) -> Iterator[Session]:
    store = Store(tmp_path / "quintet.sqlite3")
    with store.write() as session:
        make_demo(session)
    with store.read() as session:
        yield session
    store.close()


def drawn_in(play: DemoPlay) -> list[script.Script]:
    texts = [text for step in play.line for text in step if text.startswith(script.PREFIX)]
    return [script.read(text, FORMATIONS[play.formation]) for text in texts]


def played(position: Position, actions: tuple[str, ...], formation: Formation) -> Position:
    """Return where a step leads by what is taught already; a drawn one, where it was drawn to."""
    if actions[0].startswith(script.PREFIX):
        drawn = script.read(actions[0], formation)
        script.check(drawn, formation, TAUGHT)
        return drawn.position(position)
    return advance(position, actions, formation, TAUGHT)[0]


@pytest.mark.parametrize(("play", "line"), LINES)
def test_every_play_of_the_demo_is_legal_to_its_end(
    play: DemoPlay, line: tuple[tuple[str, ...], ...]
) -> None:
    """By the rules as far as they are taught at the demo's stage."""
    formation = FORMATIONS[play.formation]
    position = start(formation)
    for actions in line:
        position = played(position, actions, formation)
    assert not position.alignment.over
    assert position.off == ()


def test_the_demo_has_a_pinned_play_a_branch_a_drawn_inbound_and_one_in_four_out() -> None:
    assert len(DEMO_PLAYS) == 4
    assert [play.pinned for play in DEMO_PLAYS].count(True) == 1
    assert any(play.branch for play in DEMO_PLAYS)
    assert {drawn.kind for play in DEMO_PLAYS for drawn in drawn_in(play)} == {"side"}
    assert {play.formation for play in DEMO_PLAYS} == {"five_out", "four_out_one_in"}


def test_the_drawn_inbound_begins_out_of_bounds_and_ends_on_spots_at_a_pace_people_run() -> None:
    (drawn,) = [drawn for play in DEMO_PLAYS for drawn in drawn_in(play)]
    court = half_court("fiba")
    where = {who: (x / 100, y / 100) for who, x, y in drawn.places}
    assert [who for who, (x, _) in where.items() if abs(x) > court.sideline] == [str(drawn.ball)]
    assert drawn.placed(spots(court, FIVE_OUT)) == drawn
    for run in drawn.runs:
        way = [where[run.who], *((x / 100, y / 100) for x, y in run.points)]
        metres = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(way))
        assert 1.5 < metres / (run.lasts / 100) < 6.5  # common practice: from a walk to a sprint
        where[run.who] = way[-1]


def test_the_demo_is_stored_with_its_branches_as_a_coach_would_have_saved_it(session: Session) -> None:
    kept = session.scalars(select(Chain).where(Chain.kept).order_by(Chain.used.desc()))
    for play, chain in zip(DEMO_PLAYS, kept, strict=True):
        assert (chain.name, chain.note, chain.pinned) == (play.name, play.note, play.pinned)
        assert session.get_one(Node, chain.root_id).formation == play.formation
        nodes = tree(session, [chain.root_id])[chain.root_id]
        assert actions_of(nodes, line_to(nodes, chain.line_id)) == play.line
        ends = {node.id for node in nodes} - {node.parent for node in nodes}
        lines = {actions_of(nodes, line_to(nodes, end)) for end in ends}
        assert lines == set(filter(None, (play.line, play.branch)))


def test_a_play_of_the_demo_is_one_that_could_come_in_from_a_device(session: Session) -> None:
    """It goes past no schema when it is made, so it is held to what any other play is."""
    board = session.scalars(select(Board)).one()
    for play in DEMO_PLAYS:
        names = {"name": play.name, "note": play.note, "tags": list(play.tags)}
        refs = {
            "formation": play.formation,
            "rules": DEFAULT.name,
            "line": [list(step) for step in play.line],
        }
        op = {"op": "save", "id": "o", "chain": "c", "board": board.id, **refs, **names}
        assert read_op(op) == op
    for number, name in DEMO_SQUAD:
        assert NEW_PLAYER.load({"number": number, "name": name}) == {"number": number, "name": name}


def test_the_demo_board_is_ready(demo_server: LiveServer) -> None:
    """The pinned play is on it, just opened; a squad of nine plays and sits; the stage is set."""
    device = Device(demo_server)
    device.open_coaching_link(demo_server.coach_url)
    with device.coach() as coach:
        state = coach.state
        assert (state["board"]["team"], state["board"]["name"]) == ("Harbour Herons", "Tuesday practice")
        assert coach.chain() == [list(step) for step in DEMO_PLAYS[0].line]
        assert (state["chain"]["name"], state["ahead"], state["arrived"]) == (DEMO_PLAYS[0].name, 0, True)
        assert state["board"]["stage"] == DEMO_STAGE
        assert [state["squad"][place]["number"] for place in "12345"] == ["1", "2", "3", "4", "5"]
        assert len({*state["squad"]}) + len(state["bench"]) == len(DEMO_SQUAD) == 9
        assert coach.wait("offers")["offers"]


def test_an_undo_on_the_demo_board_takes_steps_back_and_starts_nothing_else(demo_server: LiveServer) -> None:
    device = Device(demo_server)
    device.open_coaching_link(demo_server.coach_url)
    with device.coach() as coach:
        before = coach.state["chain"]["id"]
        assert coach.state["earlier"] == []
        coach.change("undo")
        assert (coach.hello()["chain"]["id"], len(coach.steps)) == (before, len(DEMO_PLAYS[0].line) - 1)
        coach.change("redo")


@pytest.fixture
def demo_server(data_dir: Path) -> Iterator[LiveServer]:
    """A server on new data of its own."""
    server = LiveServer(data_dir).start()
    yield server
    server.stop()
