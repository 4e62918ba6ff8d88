"""Taking a team along as a file, and bringing one in: first looked at, then decided, all or nothing."""

from __future__ import annotations

import hashlib
import json
import unicodedata
from typing import Any, Final

from flask import Blueprint, Response, current_app, jsonify, render_template, request
from flask.sansio.blueprints import BlueprintSetupState
from flask.typing import ResponseReturnValue
from marshmallow import Schema, fields
from sqlalchemy.orm import Session

from webapp.access.devices import device_name, hand_over, presented
from webapp.access.keys import find_key, make_key, require_head_coach
from webapp.base.fields import OneOf
from webapp.base.limits import TryLimit
from webapp.base.settings import ROOT
from webapp.boards import teams
from webapp.services import services
from webapp.store.tables import Board, Key, Team
from webapp.transfer import document
from webapp.transfer.changes import KINDS, Item, compare, seen
from webapp.web.team_access import asking
from webapp.wire import schemas
from webapp.wire.refusals import Refused

moving: Final = Blueprint("moving", __name__)

Json = dict[str, Any]

_SCHEMA: Final = ROOT / "static" / "schema" / "team-1.json"


def _whose(**given: Any) -> OneOf:
    return OneOf(("mine", "theirs", "both"), load_default="mine", **given)


class _Decided(Schema):
    """What the coach has decided; it stands in the address, as the file is all that is in the body."""

    board = fields.String(validate=schemas.ID)
    seen = fields.String(required=True, validate=schemas.ID)
    team = _whose()
    players = _whose()
    lineups = _whose()
    designs = _whose()
    boards = _whose()
    chains = _whose()


_DECIDED: Final = _Decided()


#: Files looked at for each team made, as a file may be looked at again and again before it comes in.
_LOOKS_A_TEAM: Final = 3
_LOOKS: Final = "quintet-looks"
_HOUR_S: Final = 3600


@moving.record
def limit_looks(setup: BlueprintSetupState) -> None:
    """Let nobody without a team keep the server busy with files."""
    each = _LOOKS_A_TEAM * setup.app.extensions["quintet"].settings.teams_address_count
    setup.app.extensions[_LOOKS] = TryLimit(each, 10 * each, _HOUR_S)


@moving.get("/schema/team-1.json")
def schema() -> Response:
    """Return the JSON Schema of the file that a team is taken along in."""
    response = Response(_SCHEMA.read_bytes(), content_type="application/schema+json; charset=utf-8")
    response.add_etag()
    response.make_conditional(request)
    return response


@moving.get("/api/team/everything")
def everything() -> Response:
    """Return all that a team has, as a file to bring to another server; keys and links are not in it."""
    with services().store.read() as session:
        team = asking(session).team
        text = document.text(document.write(session, team.id))
    response = Response(text, content_type="application/json; charset=utf-8")
    response.headers["Content-Disposition"] = f'attachment; filename="{_file_name(team.name)}"'
    return response


def _file_name(team: str) -> str:
    plain = unicodedata.normalize("NFKD", team).encode("ascii", "ignore").decode().lower()
    words = "".join(letter if letter.isalnum() else " " for letter in plain).split()
    return "-".join(["quintet", *words]) + ".json"


@moving.get("/import")
def page() -> str:
    """Show the page that takes a team along as a file, or brings one in: as a new team or into one here."""
    with services().store.read() as session:
        mine = _teams(session)
    most = services().settings.import_max_bytes
    return render_template("import.html", teams=mine, chosen=_chosen(mine), most=most)


def _held(session: Session) -> list[Key]:
    return [key for key in find_key(session, presented(request)) if key.revoked is None]


def _teams(session: Session) -> list[tuple[Board, str, bool]]:
    """Return each team this device coaches: a board of it, its name, and whether as its head coach.

    The board is the one asked from (``?board=``), if it is the team's.
    """
    held = [key for key in _held(session) if key.role != "viewer"]
    leading = {key.team_id for key in held if key.role == "head_coach"}
    found: dict[str, tuple[Board, str, bool]] = {}
    for board, team in teams.boards_of(session, held):
        if board.team_id not in found or board.id == request.args.get("board"):
            found[board.team_id] = (board, team, board.team_id in leading)
    return list(found.values())


def _chosen(mine: list[tuple[Board, str, bool]]) -> str:
    asked = request.args.get("board")
    return next((board.id for board, _, _ in mine if board.id == asked), "")


@moving.post("/api/import/look")
def look() -> Json:
    """Say what is in a file and, for ``?board=``, what of it clashes with that team; change nothing."""
    from webapp.transfer.read_document import read

    if "board" not in request.args and not current_app.extensions[_LOOKS].allow(request.remote_addr or ""):
        raise Refused("too_many_teams")
    with services().store.read() as session:
        _into(session)  # asked before the file is read, which takes time
    raw = _file()
    with services().checks.place():
        found = read(raw)
    with services().store.read() as session:
        team = _into(session)
        items, mark = _beside(session, team, raw, found)
        here = _here(session, found["team"]["id"])
    return {
        "team": {"name": found["team"]["name"], "made": found["team"]["made"]},
        "counts": _counts(found),
        "here": here,
        "into": None if team is None else team.name,
        "items": None if team is None else seen(items),
        "seen": mark,
    }


@moving.post("/api/import")
def do() -> ResponseReturnValue:
    """Bring a file in, as it was looked at: into the team of ``?board=``, or as a new team.

    Of a new team, this device becomes the head coach's. Everything comes in, or nothing does.
    """
    from webapp.transfer.bring import bring, new_team
    from webapp.transfer.read_document import read

    shared = services()
    decided = schemas.checked(_DECIDED, request.args.to_dict())
    if "board" not in decided and not shared.team_limit.allow(request.remote_addr or ""):
        raise Refused("too_many_teams")
    with shared.store.read() as session:
        _into(session)
    raw = _file()
    with shared.checks.place():
        found = read(raw)
    key = None
    with shared.store.write() as session:
        team = _into(session)
        items, mark = _beside(session, team, raw, found)
        if mark != decided["seen"]:
            raise Refused("moved_on")
        if team is None:
            team = new_team(session, found["team"])
            key = make_key(session, team.id, "head_coach", device_name(request.user_agent.string))
        boards = bring(session, team, items, {kind: decided[kind] for kind in KINDS})
    shared.boards.team_changed(team.id)
    shared.inks.brought(team.id)
    board = decided.get("board", boards[0])
    response = jsonify(board=board, url=f"/board/{board}")
    if key is not None:
        hand_over(response, key, shared.settings.cookie_life_days, request.is_secure)
        response.status_code = 201
    return response


def _file() -> bytes:
    request.max_content_length = services().settings.import_max_bytes
    return request.get_data(cache=False)


def _into(session: Session) -> Team | None:
    """Return the team of ``?board=``, if it says one. Raises ``Refused`` unless a head coach asks."""
    if "board" not in request.args:
        return None
    who = asking(session)
    require_head_coach(who.key)
    return who.team


def _beside(
    session: Session, team: Team | None, raw: bytes, found: Json
) -> tuple[dict[str, list[Item]], str]:
    """Return the file's things beside the team's own, and a mark of both, to be told by."""
    mine = None if team is None else document.write(session, team.id)
    items = compare(mine, found)
    mark = hashlib.sha256(raw + b"\0" + json.dumps(seen(items)).encode()).hexdigest()[:32]
    return items, mark


def _here(session: Session, team_id: str) -> Json | None:
    """Return the very team of the file, if this device coaches it here."""
    keys = [key for key in _held(session) if key.team_id == team_id]
    boards = teams.boards_of(session, keys)
    if not boards:
        return None
    board, name = boards[0]
    return {"board": board.id, "name": name, "head": any(key.role == "head_coach" for key in keys)}


def _counts(found: Json) -> dict[str, int]:
    live = [item for item in found["designs"] if item["deleted"] is None]
    chains = [item for item in found["chains"] if item["deleted"] is None]
    return {
        "players": len(found["players"]),
        "lineups": len(found["lineups"]),
        "rules": sum(item["kind"] == "rules" for item in live),
        "formations": sum(item["kind"] == "formation" for item in live),
        "boards": len(found["boards"]),
        "chains": sum(item["kept"] for item in chains),
        "drawn": sum(len(item.get("ink", ())) for item in chains),
        "played": sum(not item["kept"] and len(item["tree"]) > 1 for item in chains),
    }
