"""Pages for a device that has no key, or none any more: typing a code, and being told it is turned off."""

from __future__ import annotations

from typing import Final

from flask import Blueprint, make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from webapp.access.adding import admit
from webapp.access.adding_schemas import ADD_DEVICE, TYPED_MAX_CHARS
from webapp.access.devices import device_name, hand_over, presented
from webapp.access.keys import find_key, teams_lost
from webapp.services import services
from webapp.wire import schemas
from webapp.wire.refusals import Refused

admission_pages: Final = Blueprint("admission_pages", __name__)


@admission_pages.get("/add")
def ask() -> str:
    """Show the field for a code; an address with the code in it has it filled in already.

    Opening an address uses nothing up: programmes that look at links before people do would lose the code.
    """
    return render_template("add.html", code=request.args.get("code", "")[:TYPED_MAX_CHARS], complaint=None)


@admission_pages.post("/add")
def enter() -> ResponseReturnValue:
    """Give the device a key of its own for a code that works, and go to the board."""
    shared = services()
    typed = request.form.get("code", "")[:TYPED_MAX_CHARS]
    try:
        if not shared.device_limit.allow(request.remote_addr or ""):
            raise Refused("too_many_tries")
        form = schemas.read_form(ADD_DEVICE, request.form)
        name = device_name(request.user_agent.string, "app" in form)
        with shared.store.write() as session:
            done = admit(session, form["code"], find_key(session, presented(request)), name)
    except Refused as refusal:
        return render_template("add.html", code=typed, complaint=str(refusal)), refusal.status
    by_sheet = done.kind == "sheet" and done.new is not None
    to = "recovery_sheet.sheet" if by_sheet else "pages.board"
    response = make_response(redirect(url_for(to, board_id=done.board_id), 303))
    if done.new is not None:
        hand_over(response, done.new, shared.settings.cookie_life_days, request.is_secure)
    return response


@admission_pages.get("/off")
def off() -> ResponseReturnValue:
    """Tell a device that it is turned off; its page forgets what it had kept."""
    with services().store.read() as session:
        lost = teams_lost(find_key(session, presented(request)))
    if lost:
        raise Refused("gone_key")
    return redirect(url_for("pages.home"), 303)
