"""What a document would change in a team: what is new, the same, or different, before anything is done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from webapp.transfer import inks

Json = dict[str, Any]
Status = Literal["new", "same", "different"]

#: What is decided about by itself, in the order it is asked.
KINDS: Final = ("team", "players", "lineups", "designs", "boards", "chains")

#: What does not make two things different: when, and what a step's place in a list happens to be.
_LEFT_OUT: Final = frozenset(("made", "used", "board", "stopped"))


@dataclass(frozen=True, slots=True)
class Item:
    """One thing of a document beside what is here.

    ``mine``: the thing here it belongs to, by its id, or for a player by his number. ``twin``: another thing
    here that goes by the same name.
    """

    theirs: Json
    mine: Json | None
    status: Status
    twin: bool = False


def compare(mine: Json | None, theirs: Json) -> dict[str, list[Item]]:
    """Return every thing of the document ``theirs`` beside the team's own document, by kind."""
    if mine is None:
        return {kind: [Item(item, None, "new") for item in _things(theirs, kind)] for kind in KINDS}
    return {kind: _kind(kind, _things(mine, kind), _things(theirs, kind)) for kind in KINDS}


def _things(document: Json, kind: str) -> list[Json]:
    return [document["team"]] if kind == "team" else document[kind]


def _kind(kind: str, mine: list[Json], theirs: list[Json]) -> list[Item]:
    if kind == "team":
        same = all(mine[0][part] == theirs[0][part] for part in ("name", "calls"))
        return [Item(theirs[0], mine[0], "same" if same else "different")]
    by_id = {thing["id"]: thing for thing in mine}
    taken = {thing["id"] for thing in theirs if thing["id"] in by_id}
    by_number = {thing["number"]: thing for thing in mine if kind == "players" and thing["id"] not in taken}
    if kind == "players":
        theirs = sorted(theirs, key=lambda player: (int(player["number"]), len(player["number"])))
    names = {name_of(thing).casefold() for thing in mine if not thing.get("deleted")}
    found = []
    for thing in theirs:
        own = by_id.get(thing["id"]) or by_number.get(thing.get("number", ""))
        if own is None:
            twin = kind != "players" and bool(name_of(thing)) and name_of(thing).casefold() in names
            found.append(Item(thing, None, "new", twin))
        else:
            found.append(Item(thing, own, "same" if _told(own) == _told(thing) else "different"))
    return found


def _told(thing: Json) -> Json:
    known = {name: value for name, value in thing.items() if name not in _LEFT_OUT}
    if "tree" in thing:
        words = _words(thing["tree"])
        known |= {
            "tree": set(words),
            "line": words[thing["line"]],
            "ink": inks.told_apart(thing.get("ink", ()), words),
        }
    if "stands" in thing:
        known["stands"] = thing["stands"]["chain"]
    if "versions" in thing:
        known["versions"] = [version["data"] for version in thing["versions"]]
    return known


def _words(tree: list[list[Any]]) -> list[tuple[str, ...]]:
    """Return the actions that lead to each node of a tree."""
    found: list[tuple[str, ...]] = [()]
    for parent, actions, _ in tree[1:]:
        found.append((*found[parent], actions))
    return found


def name_of(thing: Json) -> str:
    """Return what people call a thing of a document."""
    if "versions" in thing:
        data = thing["versions"][-1]["data"]
        return str(data["title"] if thing["kind"] == "rules" else data["name"])
    if "number" in thing:
        return f"{thing['number']} {thing['name']}".strip()
    return str(thing["name"])


def seen(items: Mapping[str, list[Item]]) -> Json:
    """Return for each kind what is to be shown: how much is new and the same, and what clashes."""
    return {
        kind: {
            "new": sum(item.status == "new" for item in found),
            "same": sum(item.status == "same" for item in found),
            "different": [
                {"theirs": name_of(item.theirs), "mine": name_of(item.mine)}
                for item in found
                if item.status == "different" and item.mine is not None
            ],
            "twins": [name_of(item.theirs) for item in found if item.twin],
        }
        for kind, found in items.items()
    }
