"""Who may see and who may coach, as JSON for the coach's page."""

from __future__ import annotations

from typing import Any, Final

from flask import Blueprint, request
from flask.typing import ResponseReturnValue
from sqlalchemy.orm import Session

from webapp.access.adding import last_sheet, ways_of
from webapp.access.devices import presented
from webapp.access.keys import coach_key, find_key, keys_of, require_head_coach, turn_off_key
from webapp.access.links import codes_of, links_of, make_code, make_link, turn_off_link
from webapp.boards import messages
from webapp.services import services
from webapp.store.tables import Admission, Key, Link
from webapp.web.addresses import qr_code, share_address
from webapp.wire import schemas
from webapp.wire.refusals import Refused

access: Final = Blueprint("access", __name__, url_prefix="/api")


@access.get("/board/<board_id>/access")
def listing(board_id: str) -> dict[str, Any]:
    """List a board's links and the join codes that work, the devices that coach, the recovery sheet, and how
    many follow the board.
    """
    with services().store.read() as session:
        board, mine = coach_key(session, board_id, presented(request))
        links, keys = links_of(session, board), keys_of(session, board)
        codes = codes_of(session, board.id)
        ways, sheet = ways_of(session, board.team_id), last_sheet(session, board.team_id)
        by = {key_id: session.get_one(Key, way.by_id).name for key_id, way in ways.items()}
    return {
        "links": [_link(link) for link in links],
        "codes": codes,
        "keys": [_key(key, mine, ways.get(key.id), by.get(key.id)) for key in keys],
        "sheet": _sheet(sheet) if mine.role == "head_coach" else None,
        "viewers": services().relay.viewers(board_id),
        "role": mine.role,
    }


def _link(link: Link) -> dict[str, Any]:
    # The secret is not kept, so its address cannot be shown again.
    shown = {"id": link.id, "kind": link.kind, "name": link.name, "made": link.made, "uses": link.uses}
    return {**shown, "by_code": link.code_id is not None, "url": None}


def _key(key: Key, mine: Key, way: Admission | None, by: str | None) -> dict[str, Any]:
    """``way``: what let it in, by its id, so that who gave a code sees it used; ``by``: who gave it."""
    shown = {"id": key.id, "name": key.name, "role": key.role, "made": key.made, "seen": key.seen}
    came = {"kind": way.kind, "by": by, "id": way.id} if way else None
    return {**shown, "this": key.id == mine.id, "came": came}


def _sheet(sheet: Admission | None) -> dict[str, Any] | None:
    """The newest recovery sheet, unless it was turned off."""
    if sheet is None or sheet.revoked is not None:
        return None
    return {"id": sheet.id, "made": sheet.made, "used": sheet.used}


@access.post("/board/<board_id>/links")
def new_link(board_id: str) -> ResponseReturnValue:
    """Make a viewing link, or, for a head coach, a coaching link."""
    wanted = schemas.read_body(schemas.NEW_LINK, request.get_data())
    with services().store.write() as session:
        _, mine = coach_key(session, board_id, presented(request))
        if wanted["kind"] == "coach":
            require_head_coach(mine)
        link = make_link(session, board_id, wanted["kind"], wanted["name"])
    base, note = share_address(coaching=link.kind == "coach")
    url = base + link.path
    shown = {"id": link.id, "kind": link.kind, "name": link.name, "url": url, "qr": qr_code(url)}
    return {**shown, "note": note}, 201


@access.post("/board/<board_id>/code")
def new_code(board_id: str) -> ResponseReturnValue:
    """Make a join code, of the viewing link it is shown with if one is named."""
    wanted = schemas.read_body(schemas.NEW_CODE, request.get_data())
    settings = services().settings
    with services().store.write() as session:
        coach_key(session, board_id, presented(request))
        made = make_code(
            session,
            board_id,
            settings.join_code_life_s,
            settings.join_code_live_max_count,
            wanted.get("link"),
        )
    base, note = share_address()
    return {
        "id": made.id,
        "code": made.code,
        "expires_s": settings.join_code_life_s,
        "url": f"{base}/join",
        "qr": qr_code(f"{base}/join?code={made.code}"),
        "note": note,
    }, 201


@access.delete("/links/<link_id>")
def end_link(link_id: str) -> dict[str, Any]:
    """Turn a link off, with the codes, links and keys that came of it, and close every screen that is open
    because of them.
    """
    with services().store.write() as session:
        link = session.get(Link, link_id)
        if link is None:
            raise Refused("no_link")
        _, mine = coach_key(session, link.board_id, presented(request))
        ended = turn_off_link(session, link_id, mine)
    closed = services().relay.revoke(ended.links, messages.gone(Refused("gone_link")))
    closed += services().relay.revoke(ended.keys, messages.gone(Refused("gone_key")))
    return {"id": link_id, "closed": closed, "keys": len(ended.keys)}


@access.delete("/keys/<key_id>")
def end_key(key_id: str) -> dict[str, Any]:
    """Turn a device's key off and close its screens."""
    with services().store.write() as session:
        key = turn_off_key(session, key_id, _mine(session.get(Key, key_id), _live_keys(session)))
    return {"id": key.id, "closed": services().relay.revoke([key.id], messages.gone(Refused("gone_key")))}


@access.patch("/keys/<key_id>")
def rename_key(key_id: str) -> dict[str, Any]:
    """Give a device's key another name: one's own, or, for a head coach, any of the team's."""
    name = schemas.read_body(schemas.RENAME, request.get_data())["name"]
    with services().store.write() as session:
        key = session.get(Key, key_id)
        mine = _mine(key, _live_keys(session))
        if key is None or key.revoked is not None:
            raise Refused("no_such_key")
        if key.id != mine.id:
            require_head_coach(mine)
        key.name = name
    return {"id": key_id, "name": name}


def _live_keys(session: Session) -> list[Key]:
    return [key for key in find_key(session, presented(request)) if key.revoked is None]


def _mine(key: Key | None, held: list[Key]) -> Key:
    """Return the asking device's key in the team of ``key``."""
    if key is None:
        raise Refused("no_such_key")
    mine = [own for own in held if own.team_id == key.team_id and own.role != "viewer"]
    if not mine:
        raise Refused("no_such_key")
    return max(mine, key=lambda own: (own.id == key.id, own.role == "head_coach"))
