"""The playbook as JSON: read as a whole, and changed by parcels of what was done on a device."""

from __future__ import annotations

import hashlib
import json
import time
from collections.abc import Callable, Mapping
from typing import Any, Final

from flask import Blueprint, Response, request
from sqlalchemy.orm import Session

from engine.words.spoken import say
from webapp.plays import playbook as book
from webapp.plays.listing import listing
from webapp.plays.playbook_schemas import PARCEL, read_op
from webapp.services import services
from webapp.store.tables import Chain, Done
from webapp.web.team_access import asking
from webapp.wire import schemas
from webapp.wire.refusals import Problems, Refused

playbook: Final = Blueprint("playbook", __name__, url_prefix="/api")

Json = dict[str, Any]


@playbook.get("/chains")
def chains() -> Response:
    """Return the team's playbook; unchanged since the ``ETag`` that a device has, it is not sent again."""
    with services().store.read() as session:
        found = listing(session, asking(session).team.id)
    text = json.dumps(found, ensure_ascii=False, separators=(",", ":"))
    version = hashlib.sha256(text.encode()).hexdigest()[:16]
    body = f'{{"version":"{version}","chains":{text}}}'
    response = Response(body, content_type="application/json; charset=utf-8")
    response.set_etag(version)
    response.make_conditional(request)
    return response


@playbook.post("/sync")
def sync() -> Json:
    """Do what was done on a device, in order; each change once, and a bad one does not stop the others."""
    request.max_content_length = services().settings.sync_max_bytes
    given = schemas.read_all(PARCEL, request.get_data())
    with services().store.read() as session:
        team_id = asking(session).team.id
    done, boards_change = [], False
    for op in given["ops"]:
        answer, tell = _do(op)
        done.append(answer)
        boards_change = boards_change or tell
    if boards_change:
        services().boards.team_changed(team_id)
    return {"done": done}


def _do(given: Any) -> tuple[Json, bool]:
    """Do one change in a transaction of its own. Return the answer, and whether boards are to be told."""
    named = given.get("id") if isinstance(given, dict) else None
    name = named if isinstance(named, str) else None
    try:
        op = read_op(given)
        with services().store.write() as session:
            team_id = asking(session).team.id
            if session.get(Done, (op["id"], team_id)) is not None:
                return {"id": name, "ok": True}, False
            answer, tell = _OPS[op["op"]](session, team_id, op)
            session.add(Done(id=op["id"], team_id=team_id, made=int(time.time())))
    except Problems as error:
        place, sentence = error.problems[0]
        return {
            "id": name,
            "ok": False,
            "code": error.code,
            "message": say("general.label", what=place, whose=sentence),
        }, False
    except Refused as error:
        return {"id": name, "ok": False, "code": error.code, "message": str(error)}, False
    return {"id": name, "ok": True, **answer}, tell


Done_ = tuple[Json, bool]


def _brought(brought: book.ChainWithLine, of: int) -> Json:
    """Return what is to be said of a line that is not legal to its end: it is kept as far as it is."""
    if brought.legal == of:
        return {}
    return {"legal": brought.legal, "of": of, "message": brought.why}


def _bring(session: Session, team_id: str, op: Json) -> book.ChainWithLine:
    most = services().settings.chain_max_count
    refs = (op["formation"], op["rules"])
    return book.bring(session, team_id, op["board"], op["chain"], *refs, op["line"], most)


def _save(session: Session, team_id: str, op: Json) -> Done_:
    brought = _bring(session, team_id, op)
    book.keep(session, brought.chain)
    book.describe(brought.chain, op)
    brought.chain.line_id = brought.nodes[-1] if brought.nodes else brought.root
    return _brought(brought, len(op["line"])), book.is_stood_on(session, brought.chain)


def _line(session: Session, team_id: str, op: Json) -> Done_:
    brought = _bring(session, team_id, op)
    return _brought(brought, len(op["line"])), brought.new and book.is_stood_on(session, brought.chain)


def _edit(session: Session, team_id: str, op: Json) -> Done_:
    chain = book.own(session, team_id, op["chain"])
    book.describe(chain, op)
    said: Json = {}
    if "line" in op:
        brought = book.grow(session, chain, op["line"], services().settings.chain_max_count)
        chain.line_id = brought.nodes[-1] if brought.nodes else brought.root
        said = _brought(brought, len(op["line"]))
    return said, book.is_stood_on(session, chain)


def _delete(session: Session, team_id: str, op: Json) -> Done_:
    chain = book.own(session, team_id, op["chain"])
    chain.deleted = chain.deleted or int(time.time())
    return {}, book.is_stood_on(session, chain)


def _restore(session: Session, team_id: str, op: Json) -> Done_:
    chain = book.own(session, team_id, op["chain"])
    book.keep(session, chain)
    return {}, book.is_stood_on(session, chain)


def _duplicate(session: Session, team_id: str, op: Json) -> Done_:
    book.copy(session, _live(session, team_id, op), op["to"], op.get("name"))
    return {}, False


def _renew(session: Session, team_id: str, op: Json) -> Done_:
    chain = _live(session, team_id, op)
    brought = book.renew(session, chain, op["to"], op.get("name"))
    return {"legal": brought.legal}, False


def _live(session: Session, team_id: str, op: Json) -> Chain:
    chain = book.own(session, team_id, op["chain"])
    if chain.deleted is not None:
        raise Refused("no_chain")
    return chain


_OPS: Final[Mapping[str, Callable[[Session, str, Json], Done_]]] = {
    "save": _save,
    "line": _line,
    "edit": _edit,
    "delete": _delete,
    "restore": _restore,
    "duplicate": _duplicate,
    "renew": _renew,
}
