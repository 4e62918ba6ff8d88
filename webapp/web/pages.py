"""Pages: home, new team, opening a link, the coach's board, the phone's view, and the app's own files."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Final

from flask import Blueprint, Response, make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from sqlalchemy.orm import Session

from engine.words.spoken import say, spoken
from webapp.access.devices import device_name, hand_over, presented, renew
from webapp.access.keys import coach_key, find_key, make_key, opens, raise_role, teams_lost
from webapp.access.links import find_link
from webapp.base.settings import ROOT
from webapp.boards.teams import boards_of, make_team
from webapp.plays.playbook import pinned_of
from webapp.services import services
from webapp.store.tables import Board, Team
from webapp.web.words import in_page
from webapp.wire import schemas
from webapp.wire.refusals import Refused

pages: Final = Blueprint("pages", __name__)


@pages.get("/")
def home() -> str:
    """Show the boards this device coaches, and how to make or join one."""
    return _home()


def _home(complaint: str | None = None) -> str:
    with services().store.read() as session:
        held = [key for key in find_key(session, presented(request)) if key.role != "viewer"]
        boards = boards_of(session, [key for key in held if key.revoked is None])
        pinned = _pinned(session, boards)
    off = bool(teams_lost(held))
    return render_template("home.html", boards=boards, pinned=pinned, complaint=complaint, off=off)


def _pinned(session: Session, boards: Sequence[tuple[Board, str]]) -> list[tuple[str, list[tuple[str, str]]]]:
    """Return the plays that teams have pinned, by the team's name: what each is called, and its address.

    A play opens on the board it was begun on, or where that is not among ``boards``, on the team's first.
    """
    found = []
    for team_id, name in dict.fromkeys((board.team_id, team) for board, team in boards):
        mine = [board.id for board, _ in boards if board.team_id == team_id]
        plays = [
            (play.name, f"/board/{play.board_id if play.board_id in mine else mine[0]}?play={play.id}")
            for play in pinned_of(session, team_id)
        ]
        if plays:
            found.append((name, plays))
    return found


@pages.post("/teams")
def new_team() -> ResponseReturnValue:
    """Make a team and its first board for whoever asks; this device becomes the head coach's."""
    shared = services()
    try:
        names = schemas.read_form(schemas.NEW_TEAM, request.form)
    except Refused as refusal:
        return _home(str(refusal)), refusal.status
    if not shared.team_limit.allow(request.remote_addr or ""):
        raise Refused("too_many_teams")
    with shared.store.write() as session:
        board = make_team(session, names["team"], names["board"])
        key = make_key(session, board.team_id, "head_coach", device_name(request.user_agent.string))
    response = make_response(redirect(url_for("pages.board", board_id=board.id), 303))
    hand_over(response, key, shared.settings.cookie_life_days, request.is_secure)
    return response


@pages.get("/c/<token>")
def coaching_link(token: str) -> ResponseReturnValue:
    """Give this device its own key, unless it has one, and go to the board."""
    shared = services()
    if request.method == "HEAD":  # a preview made by a chat programme is no device
        return Response()
    new = None
    with shared.store.write() as session:
        link = find_link(session, token, "coach")
        link.uses += 1
        board = session.get_one(Board, link.board_id)
        mine = [
            key
            for key in find_key(session, presented(request))
            if key.revoked is None and opens(key, board) and key.role != "viewer"
        ]
        if mine:
            raise_role(mine[0], link)
        else:
            everywhere = link.role == "head_coach"
            new = make_key(
                session,
                board.team_id,
                link.role,
                device_name(request.user_agent.string),
                None if everywhere else board.id,
                link.id,
            )
    response = make_response(redirect(url_for("pages.board", board_id=link.board_id), 303))
    if new is not None:
        hand_over(response, new, shared.settings.cookie_life_days, request.is_secure)
    return response


@pages.get("/board/<board_id>")
def board(board_id: str) -> Response:
    """Show the coach's page, and let the device's key live on."""
    with services().store.read() as session:
        found, key = coach_key(session, board_id, presented(request))
        team = session.get_one(Team, found.team_id)
    page = render_template("board.html", board=found, team=team, key=key, socket=f"/live/board/{found.id}")
    response = make_response(page)
    renew(response, request, found.team_id, services().settings.cookie_life_days)
    return response


@pages.get("/v/<token>")
def view(token: str) -> str:
    """Show the page that follows a board, with how it stands, to be drawn before the live line is there."""
    shared = services()
    with shared.store.write() as session:
        link = find_link(session, token, "view")
        if request.method != "HEAD":
            link.uses += 1
        found = session.get_one(Board, link.board_id)
        team = session.get_one(Team, found.team_id)
    stands = in_page(shared.boards.seen(found.id))
    return render_template("view.html", board=found, team=team, socket=f"/live/view/{token}", stands=stands)


@pages.get("/manifest.webmanifest")
def manifest() -> Response:
    """Return the description by which a device installs the app."""
    described = json.loads((ROOT / "static" / "manifest.webmanifest").read_bytes())
    described |= {
        "lang": spoken().tag,
        "dir": spoken().direction,
        "description": say("pages.app.description"),
    }
    return _cached(json.dumps(described, ensure_ascii=False).encode(), "application/manifest+json")


@pages.get("/sw.js")
def worker() -> Response:
    """Return the service worker; it stands at the top so that it covers every page."""
    return _file("sw.js", "text/javascript")


@pages.get("/care")
def care() -> str:
    """Say what to mind before anybody plays what a board shows."""
    return render_template("care.html")


@pages.get("/offline")
def offline() -> str:
    """Return what a device shows of an address that is not on it, when it is without a network."""
    return render_template("offline.html")


def _file(name: str, kind: str) -> Response:
    path = ROOT / "static" / name
    if not path.is_file():
        raise Refused("not_found")
    return _cached(path.read_bytes(), kind)


def _cached(content: bytes, kind: str) -> Response:
    response = Response(content, content_type=f"{kind}; charset=utf-8")
    response.add_etag()
    response.headers["Cache-Control"] = "no-cache"
    response.make_conditional(request)
    return response
