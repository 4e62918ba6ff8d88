"""What is said, and in which language: chosen for each request, and put into pages by key."""

from __future__ import annotations

import json
import re
from typing import Final

from flask import Flask, request
from markupsafe import Markup, escape
from sqlalchemy.orm import Session

from engine.words.language import ABOUT, ENGLISH_TAG, Language, english
from engine.words.spoken import speak, spoken
from webapp.access.devices import presented
from webapp.access.keys import find_key
from webapp.access.links import find_link
from webapp.base.languages import chosen
from webapp.services import services
from webapp.store.tables import Board, Key, Link, Team
from webapp.wire.refusals import Refused

_STRONG: Final = re.compile(r"\*\*(.+?)\*\*")
_SLOT: Final = re.compile(r"\{(\w+)\}")
#: What the browser itself says, as capabilities; pages in English have it packed with their modules.
BROWSERS: Final = (
    ABOUT,
    "board",
    "check",
    "court",
    "drawn",
    "findings",
    "general",
    "hints",
    "huddle",
    "ink",
    "pace",
    "plays",
    "print",
    "rule_sets",
    "rules",
    "share",
    "steps",
    "team",
    "transfer",
    "viewer",
)


def said(key: str, /, **given: object) -> Markup:
    """Return a text as HTML: ``**so**`` is strong, slots are escaped unless they are HTML themselves."""
    language = spoken()
    template = _STRONG.sub(r"<strong>\1</strong>", str(escape(language.text(key, given.get("n")))))
    return Markup(_SLOT.sub(lambda slot: str(escape(language.written(slot[1], given[slot[1]]))), template))


def texts() -> Markup:
    """Return what a page carries for the browser to speak: nothing in English."""
    language = spoken()
    if language.tag == ENGLISH_TAG:
        return Markup("")
    told = json.dumps({name: language.tables[name] for name in BROWSERS}, ensure_ascii=False)
    return Markup(f'<script type="application/json" id="texts">{in_page(told)}</script>')


def in_page(text: str) -> Markup:
    """Return JSON as it may stand in a page's ``script``: it has these signs within its strings only."""
    for sign in "<>&":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)


def register(app: Flask) -> None:
    """Let templates say texts by key, and answer every request in its language."""
    app.jinja_env.globals.update(say=said, language=spoken, texts=texts)

    @app.before_request
    def choose() -> None:
        """Speak the language of the team that is asked for, else the one the browser asks for."""
        known = services().languages
        if len(known) > 1:
            speak(_asked_for())

    @app.teardown_request
    def done(_error: BaseException | None) -> None:
        """What is done next on this thread is not for who asked."""
        speak(english())


def _asked_for() -> Language:
    shared = services()
    with shared.store.read() as session:
        team = _team(session)
        tag = "" if team is None else team.language
    return chosen(shared.languages, tag, request.accept_languages)


def _team(session: Session) -> Team | None:
    """Return the team whose board or link is asked for, or the only one this device has a key to."""
    given = request.view_args or {}
    board_id = given.get("board_id") or request.args.get("board")
    if "token" in given:
        try:
            board_id = find_link(
                session, given["token"], "coach" if request.path.startswith("/c/") else "view"
            ).board_id
        except Refused:
            return None
    if "link_id" in given:
        link = session.get(Link, given["link_id"])
        board_id = None if link is None else link.board_id
    if "key_id" in given:
        key = session.get(Key, given["key_id"])
        return None if key is None else session.get(Team, key.team_id)
    if board_id:
        board = session.get(Board, board_id)
        return None if board is None else session.get(Team, board.team_id)
    teams = {key.team_id for key in find_key(session, presented(request)) if key.revoked is None}
    return session.get(Team, teams.pop()) if len(teams) == 1 else None
