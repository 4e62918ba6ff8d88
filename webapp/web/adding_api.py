"""Adding a device and ending a recovery sheet, as JSON; and what a device that is turned off must forget."""

from __future__ import annotations

from typing import Any, Final

from flask import Blueprint, Response, jsonify, request
from flask.typing import ResponseReturnValue
from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.access.adding import grouped, make_device_code, turn_off_sheet
from webapp.access.adding_schemas import NEW_DEVICE_CODE, NOTHING
from webapp.access.devices import forget, presented
from webapp.access.keys import coach_key, find_key, strongest, teams_lost
from webapp.services import services
from webapp.store.tables import Admission, Board
from webapp.web.addresses import qr_code, share_address
from webapp.wire import schemas
from webapp.wire.refusals import Refused

admission: Final = Blueprint("admission", __name__, url_prefix="/api")


@admission.post("/board/<board_id>/device-code")
def new_device_code(board_id: str) -> ResponseReturnValue:
    """Make a code that adds one device."""
    role = schemas.read_body(NEW_DEVICE_CODE, request.get_data())["role"]
    life_s = services().settings.device_code_life_s
    with services().store.write() as session:
        board, mine = coach_key(session, board_id, presented(request))
        made = make_device_code(session, board, mine, role, life_s)
    base, note = share_address(coaching=True)
    return {
        "id": made.id,
        "code": grouped(made.code, 4),
        "role": role,
        "expires_s": life_s,
        "url": base,
        "qr": qr_code(f"{base}/add?code={made.code}"),
        "note": note,
    }, 201


@admission.delete("/sheets/<sheet_id>")
def end_sheet(sheet_id: str) -> dict[str, Any]:
    """Turn the recovery sheet off."""
    with services().store.write() as session:
        sheet = session.get(Admission, sheet_id)
        mine = None if sheet is None else strongest(find_key(session, presented(request)), sheet.team_id)
        if mine is None:
            raise Refused("no_sheet")
        turn_off_sheet(session, sheet_id, mine)
    return {"id": sheet_id}


@admission.get("/device")
def device() -> dict[str, Any]:
    """Say what the asking device may keep and what it must forget: ids of teams and of their boards."""
    with services().store.read() as session:
        held = find_key(session, presented(request))
        lost = teams_lost(held)
        kept = {key.team_id for key in held if key.role != "viewer"} - lost
        return {"off": _ids(session, lost), "kept": _ids(session, kept)}


def _ids(session: Session, teams: set[str]) -> list[str]:
    boards = session.scalars(select(Board.id).where(Board.team_id.in_(teams)))
    return sorted(teams) + sorted(boards)


@admission.post("/device/forgotten")
def forgotten() -> Response:
    """Take the keys that are turned off from a device that has wiped what it had by them."""
    schemas.read_body(NOTHING, request.get_data())
    with services().store.read() as session:
        lost = teams_lost(find_key(session, presented(request)))
    response = jsonify(forgotten=len(lost))
    for team_id in lost:
        forget(response, team_id)
    return response
