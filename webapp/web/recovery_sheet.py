"""The recovery sheet: a page to print, whose code lets one device in as the head coach's, once."""

from __future__ import annotations

from typing import Final

from flask import Blueprint, render_template, request
from markupsafe import Markup
from sqlalchemy.orm import Session

from webapp.access.adding import grouped, last_sheet, make_sheet
from webapp.access.devices import presented
from webapp.access.keys import coach_key, require_head_coach
from webapp.base.languages import long_date
from webapp.services import services
from webapp.store.tables import Key, Team
from webapp.web.addresses import qr_code, share_address

recovery_sheet: Final = Blueprint("recovery_sheet", __name__)

#: Letters read and typed at a time.
_GROUP: Final = 5


@recovery_sheet.get("/sheet/<board_id>")
def sheet(board_id: str) -> str:
    """Say how it stands with the team's recovery sheet, and offer to make one."""
    with services().store.read() as session:
        board, mine = coach_key(session, board_id, presented(request))
        require_head_coach(mine)
        team = session.get_one(Team, board.team_id)
        last = last_sheet(session, team.id)
        used_by = None if last is None or last.key_id is None else session.get_one(Key, last.key_id)
        here = used_by is not None and used_by.id == mine.id
    return render_template(
        "sheet_state.html", board=board, team=team, last=last, used_by=used_by, here=here, day=long_date
    )


@recovery_sheet.post("/sheet/<board_id>")
def new_sheet(board_id: str) -> str:
    """Make a new recovery sheet and show it, this once, to be printed; the one before stops working."""
    with services().store.write() as session:
        board, mine = coach_key(session, board_id, presented(request))
        team = session.get_one(Team, board.team_id)
        made = make_sheet(session, mine)
        name = _name(session, mine.id)
    base, note = share_address(coaching=True)
    return render_template(
        "sheet.html",
        board=board,
        team=team,
        code=grouped(made.code, _GROUP).split(" "),
        base=base.split("//", 1)[-1],
        note=note,
        qr=Markup(qr_code(f"{base}/add?code={made.code}")),
        day=long_date(made.made),
        printed_from=name,
    )


def _name(session: Session, key_id: str) -> str:
    return session.get_one(Key, key_id).name
