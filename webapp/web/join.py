"""Joining by code: six characters, typed by a player, become a viewing link of their own."""

from __future__ import annotations

from typing import Final

from flask import Blueprint, redirect, render_template, request
from flask.typing import ResponseReturnValue

from webapp.access.links import use_code
from webapp.services import services
from webapp.wire import schemas
from webapp.wire.refusals import Refused

join: Final = Blueprint("join", __name__)


@join.get("/join")
def ask() -> str:
    """Show the form; an address with the code in it has it filled in already."""
    return render_template("join.html", code=request.args.get("code", "")[:12], complaint=None)


@join.post("/join")
def enter() -> ResponseReturnValue:
    """Go to a viewing link made for whoever typed a working code."""
    shared = services()
    typed = request.form.get("code", "")[:12]
    try:
        if not shared.join_limit.allow(request.remote_addr or ""):
            raise Refused("too_many_tries")
        code = schemas.read_form(schemas.JOIN, request.form)["code"]
        with shared.store.write() as session:
            link = use_code(session, code)
    except Refused as refusal:
        return render_template("join.html", code=typed, complaint=str(refusal)), refusal.status
    return redirect(link.path, 303)
