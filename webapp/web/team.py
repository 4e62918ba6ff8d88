"""The team's page, and as JSON its squad, lineups and calls."""

from __future__ import annotations

import json
from typing import Any, Final

from flask import Blueprint, Response, render_template, request
from flask.typing import ResponseReturnValue
from sqlalchemy.orm import Session

from engine.rules.actions import BALL_ACTIONS, LANE_CHOICES
from engine.rules.catalogue import CATALOGUE
from engine.rules.rule_sets import ALWAYS
from engine.rules.vocabulary import MOVEMENTS, OPTIONAL, TRIGGERS
from webapp.access.keys import require_head_coach
from webapp.services import services
from webapp.store.tables import Team
from webapp.team import designs, squad, squad_schemas
from webapp.team.designs import DesignForm
from webapp.web.team_access import asking, board_of
from webapp.wire import schemas
from webapp.wire.refusals import Refused

team: Final = Blueprint("team", __name__)

_VOCABULARY: Final[dict[str, Any]] = {
    "triggers": {trigger: list(roles) for trigger, roles in TRIGGERS.items()},
    "movements": {movement: sorted(roles) for movement, roles in MOVEMENTS.items()},
    "actions": list(BALL_ACTIONS),
    "lane": list(LANE_CHOICES),
    "always": sorted(ALWAYS, reverse=True),
    "optional": sorted(OPTIONAL),
    "happens": {name: list(kind.triggers) for name, kind in CATALOGUE.items()},
}


@team.get("/team")
def page() -> str:
    """Show the page where a team's rules, formations and squad are kept; ``?board=`` says from where."""
    with services().store.read() as session:
        who = asking(session)
        board = board_of(session, who)
    if board is None:
        raise Refused("no_board")
    return render_template("team.html", board=board, team=who.team, key=who.key)


@team.get("/api/team")
def show() -> dict[str, Any]:
    """Return all that the team has, in short, and the words that rules are made of."""
    with services().store.read() as session:
        found = asking(session).team
        rules = [*designs.all_shipped("rules"), *designs.own(session, found.id, "rules")]
        formations = [*designs.all_shipped("formation"), *designs.own(session, found.id, "formation")]
        people, lineups = squad.players(session, found.id), squad.lineups(session, found.id)
    return {
        "name": found.name,
        "players": [member.shown() for member in people],
        "lineups": lineups,
        "rules": [_rules(item) for item in rules],
        "formations": [_formation(item) for item in formations],
        "calls": json.loads(found.calls),
        "language": found.language,
        "languages": [[tag, language.name] for tag, language in services().languages.items()],
        "vocabulary": _VOCABULARY,
    }


def _rules(found: DesignForm) -> dict[str, Any]:
    return {
        "ref": found.newest_ref,
        "title": found.title,
        "about": found.shown["about"],
        "shipped": found.shipped,
        "version": found.version,
        "stages": [stage["title"] for stage in found.shown.get("stages", ())],
    }


def _formation(found: DesignForm) -> dict[str, Any]:
    # What ships has a name in the table of words; it goes by that.
    name = found.ref if found.shipped else found.title
    return {"ref": found.newest_ref, "name": name, "shipped": found.shipped, "version": found.version}


@team.post("/api/team/players")
def new_player() -> ResponseReturnValue:
    """Take a player into the squad."""
    given = schemas.read_all(squad_schemas.NEW_PLAYER, request.get_data())
    with services().store.write() as session:
        found = asking(session).team
        member = squad.add_player(session, found.id, given)
    services().boards.team_changed(found.id)
    return member.shown(), 201


@team.patch("/api/team/players/<player_id>")
def change_player(player_id: str) -> dict[str, Any]:
    """Change what is said of a player."""
    given = schemas.read_all(squad_schemas.CHANGED_PLAYER, request.get_data())
    with services().store.write() as session:
        found = asking(session).team
        member = squad.change_player(session, found.id, player_id, given)
    services().boards.team_changed(found.id)
    return member.shown()


@team.delete("/api/team/players/<player_id>")
def delete_player(player_id: str) -> dict[str, Any]:
    """Take a player out of the squad; he can be brought back for a month."""
    with services().store.write() as session:
        found = asking(session).team
        squad.delete_player(session, found.id, player_id)
    services().boards.team_changed(found.id)
    return {"id": player_id, "restore": f"/api/team/players/{player_id}/restore"}


@team.post("/api/team/players/<player_id>/restore")
def restore_player(player_id: str) -> dict[str, Any]:
    """Bring a player back."""
    schemas.read_all(squad_schemas.NOTHING, request.get_data())
    with services().store.write() as session:
        found = asking(session).team
        member = squad.restore_player(session, found.id, player_id)
    services().boards.team_changed(found.id)
    return member.shown()


@team.put("/api/team/language")
def change_language() -> dict[str, Any]:
    """Change what the team is spoken to in."""
    known = services().languages
    language = squad_schemas.read_language(request.get_data(), known)
    with services().store.write() as session:
        session.get_one(Team, asking(session).team.id).language = language
    return {"language": language}


@team.put("/api/team/calls")
def change_calls() -> dict[str, Any]:
    """Keep the team's own words and signals."""
    calls = squad_schemas.read_calls(request.get_data())
    with services().store.write() as session:
        found = asking(session).team
        session.get_one(Team, found.id).calls = json.dumps(calls, ensure_ascii=False)
    services().boards.team_changed(found.id)
    return {"calls": calls}


@team.post("/api/team/lineups")
def new_lineup() -> ResponseReturnValue:
    """Keep a lineup."""
    given = schemas.read_all(squad_schemas.NEW_LINEUP, request.get_data())
    with services().store.write() as session:
        made = squad.add_lineup(session, asking(session).team.id, given["name"], given["places"])
    return made, 201


@team.patch("/api/team/lineups/<lineup_id>")
def change_lineup(lineup_id: str) -> dict[str, Any]:
    """Change a lineup."""
    given = schemas.read_all(squad_schemas.CHANGED_LINEUP, request.get_data())
    with services().store.write() as session:
        return squad.change_lineup(session, asking(session).team.id, lineup_id, given)


@team.delete("/api/team/lineups/<lineup_id>")
def delete_lineup(lineup_id: str) -> dict[str, Any]:
    """Take a lineup out; it can be brought back for a month."""
    with services().store.write() as session:
        squad.delete_lineup(session, asking(session).team.id, lineup_id)
    return {"id": lineup_id, "restore": f"/api/team/lineups/{lineup_id}/restore"}


@team.post("/api/team/lineups/<lineup_id>/restore")
def restore_lineup(lineup_id: str) -> dict[str, Any]:
    """Bring a lineup back."""
    schemas.read_all(squad_schemas.NOTHING, request.get_data())
    with services().store.write() as session:
        return squad.restore_lineup(session, asking(session).team.id, lineup_id)


@team.get("/api/team/export")
def export() -> Response:
    """Return all that is kept about the squad, as a file."""
    with services().store.read() as session:
        kept = _kept(session, asking(session).team)
    text = json.dumps(kept, ensure_ascii=False, indent=1)
    response = Response(text + "\n", content_type="application/json; charset=utf-8")
    response.headers["Content-Disposition"] = 'attachment; filename="squad.json"'
    return response


def _kept(session: Session, found: Team) -> dict[str, Any]:
    return {
        "version": 1,
        "team": found.name,
        "players": [member.shown() for member in squad.players(session, found.id)],
        "lineups": squad.lineups(session, found.id),
        "calls": json.loads(found.calls),
    }


@team.delete("/api/team/squad")
def erase() -> dict[str, Any]:
    """Erase all players and lineups for good, those taken out before included; for a head coach."""
    schemas.read_all(squad_schemas.ERASE, request.get_data())
    with services().store.write() as session:
        who = asking(session)
        require_head_coach(who.key)
        count = squad.erase(session, who.team.id)
    services().store.scrub()
    services().boards.team_changed(who.team.id)
    return {"erased": count}
