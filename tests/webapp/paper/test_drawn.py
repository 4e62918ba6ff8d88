"""Ink on paper: over its own step's diagram, where it was drawn, each tool and look told apart in grey."""

from __future__ import annotations

from dataclasses import replace

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.conftest import make_team, shared_of
from tests.webapp.paper.chains import five_steps, look
from tests.webapp.plays.test_playbook import did, saving
from webapp.boards.ink import Drawn
from webapp.paper.diagram import diagram
from webapp.paper.floor import View, plan
from webapp.paper.marks import Mark, Stroke
from webapp.store.tables import Chain, Ink, Place

LINE = ((-200.0, 500.0, 0.5), (0.0, 520.0, 0.5), (200.0, 500.0, 0.5))


def ink(drawn: Drawn, number: int = 2, view: View | None = None, of: int | None = None) -> list[Stroke]:
    """The marks of ``drawn`` on step ``number`` in the diagram of step ``of``."""
    sheet = replace(five_steps(), ink={number: (drawn,)})
    act = sheet.acts[(number if of is None else of) - 1]
    marks: tuple[Mark, ...] = diagram(sheet, act, look(view)).marks
    return [mark for mark in marks if isinstance(mark, Stroke) and mark.kind == "ink"]


@pytest.mark.parametrize("view", [View(), View(turned=True), View(mirrored=True), View(True, True)])
def test_it_lies_where_it_was_drawn_however_the_floor_is_turned(view: View) -> None:
    sheet = five_steps()
    (pen,) = ink(Drawn(0, 0, LINE), view=view)
    seen = plan(sheet.court, sheet.formation, view)
    assert pen.points == [pytest.approx(seen.at((x / 100, y / 100))) for x, y, _ in LINE]


def test_it_lies_over_its_own_step_and_no_other() -> None:
    assert ink(Drawn(0, 0, LINE), number=2, of=2)
    assert not ink(Drawn(0, 0, LINE), number=2, of=1)
    assert not ink(Drawn(0, 0, LINE), number=2, of=3)
    assert ink(Drawn(0, 0, LINE), number=0, of=1)  # before the first step: with the first one


def test_tools_and_colours_are_told_apart_in_black_and_grey() -> None:
    def said(tool: int, colour: int) -> tuple[object, ...]:
        marks = ink(Drawn(tool, colour, LINE))
        return tuple((m.width, m.shade, m.fill, m.dash, m.pieces) for m in marks)

    found = [said(tool, colour) for tool in range(7) for colour in range(3)]
    assert len(set(found)) == len(found)


@pytest.mark.parametrize("tool", range(7))
def test_a_dot_is_seen(tool: int) -> None:
    assert ink(Drawn(tool, 0, LINE[:1]))


def drawn_on(app: Flask, node: int, chain: str) -> None:
    with shared_of(app).store.write() as session:
        points = "[0,300,50,90,9,0]"
        session.add(Ink(node_id=node, id="s", chain_id=chain, tool=2, colour=0, points=points, made=1))


@pytest.mark.parametrize("file", ["page.svg", "moving.svg"])
def test_what_was_drawn_on_the_board_is_printed(app: Flask, client: FlaskClient, file: str) -> None:
    board = make_team(client)
    address = f"/board/{board}/print/{file}"
    assert 'class="ink"' not in client.get(address).text
    with shared_of(app).store.read() as session:
        root = session.get_one(Place, board).root_id
        chain = session.query(Chain).filter_by(root_id=root).one().id
    drawn_on(app, root, chain)
    assert 'class="ink"' in client.get(address).text


def test_what_was_drawn_on_a_play_is_printed_and_copied_with_it(app: Flask, client: FlaskClient) -> None:
    board = make_team(client)
    did(client, saving(board))
    with shared_of(app).store.read() as session:
        end = session.get_one(Chain, "c1").line_id
    drawn_on(app, end, "c1")
    did(client, {"op": "duplicate", "chain": "c1", "as": "c2", "name": "Again"})
    for chain in ("c1", "c2"):
        assert 'class="ink"' in client.get(f"/board/{board}/print/page.svg?chain={chain}").text
