"""Reading a document that comes from outside: anything may be in it, and one sentence says what is wrong."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final, NoReturn

from marshmallow import ValidationError

from engine.floor.formations import FORMATIONS, Formation
from engine.rules.rule_sets import SHIPPED, RuleSet, shipped
from engine.words.spoken import Said, listed, say
from webapp.base.fields import complaints
from webapp.chains.lines_of_play import unplayable
from webapp.plays import playbook, playbook_schemas
from webapp.team import designs
from webapp.team.design_schemas import read_formation, read_rules
from webapp.team.squad import BLANK
from webapp.transfer.document import FORMAT, VERSION
from webapp.transfer.document_schemas import DOCUMENT, NODES_MAX
from webapp.wire.refusals import Problems, Refused

Json = dict[str, Any]
#: What each ref of a document names.
Shapes = dict[str, Formation]
Rulings = dict[str, RuleSet]

_WORD_MAX: Final = 40
_DEEP: Final = Said("refusals.team_file_reading.not_team_saved_by")


def read(raw: bytes) -> Json:
    """Return the document in a file, checked to the last step. Raises ``Refused`` (``bad_file``)."""
    found = _parsed(raw)
    if not isinstance(found, dict) or found.get("format") != FORMAT:
        raise _bad(say("refusals.team_file_reading.not_team_saved_by_quintet"))
    version = found.get("version")
    if isinstance(version, int) and version > VERSION:
        raise _bad(say("refusals.team_file_reading.was_saved_by_newer", version=version))
    try:
        document = DOCUMENT.load(found)
    except ValidationError as error:
        raise _bad(_first(complaints(error.messages))) from None
    except RecursionError:
        raise _bad(str(_DEEP)) from None
    assert isinstance(document, dict)
    document["players"] = [{**BLANK, **player} for player in document["players"]]
    calls = document["team"]["calls"]
    document["team"]["calls"] = {kind: said for kind, call in calls.items() if (said := _said(call))}
    for problem in _problems(document):
        raise _bad(problem)
    return document


def _said(call: Mapping[str, str]) -> dict[str, str]:
    return {what: words for what, words in sorted(call.items()) if words}


def _bad(why: str) -> Refused:
    return Refused("bad_file", why=why)


def _parsed(raw: bytes) -> Any:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _bad(say("refusals.team_file_reading.not_text_file_no")) from None
    try:
        return json.loads(text, parse_constant=_no_number, object_pairs_hook=_each_once)
    except json.JSONDecodeError as error:
        raise _bad(say("refusals.team_file_reading.file_damaged_or_no", lineno=error.lineno)) from None
    except RecursionError:
        raise _bad(str(_DEEP)) from None
    except _Odd as error:
        raise _bad(str(error)) from None
    except ValueError:
        raise _bad(say("refusals.team_file_reading.number_file_cannot_one")) from None


class _Odd(Exception):
    """JSON that one reader would take for this and another for that."""


def _no_number(name: str) -> NoReturn:
    raise _Odd(say("refusals.team_file_reading.number_file_none", name=name))


def _each_once(pairs: list[tuple[str, Any]]) -> Json:
    found = dict(pairs)
    if len(found) < len(pairs):
        name = Counter(name for name, _ in pairs).most_common(1)[0][0]
        raise _Odd(say("refusals.team_file_reading.file_damaged_twice_one", name=_plain(name)))
    return found


def _plain(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in text[:_WORD_MAX])


def _first(found: Iterable[tuple[str, str]]) -> str:
    place, sentence = next(iter(found))
    return say("refusals.team_file_reading.something_file_not_right", place=_where(place), sentence=sentence)


def _where(place: str) -> str:
    """Return a place as people say it: ``players.0.number`` is "players 1, number"."""
    words: list[str] = []
    for part in place.split("."):
        if part.isdecimal() and words:
            words[-1] += f" {int(part) + 1}"
        else:
            words.append(_plain(part))
    return listed(words, "comma")


def _problems(document: Json) -> Iterator[str]:
    """Yield what is wrong with the meaning of a document whose shape is right."""
    for kind in ("players", "lineups", "designs", "boards", "chains"):
        yield from _twice(
            say("refusals.team_file_reading.id", kind=kind), (item["id"] for item in document[kind])
        )
    yield from _twice(
        say("refusals.team_file_reading.number"), (player["number"] for player in document["players"])
    )
    if sum(len(chain["tree"]) for chain in document["chains"]) > NODES_MAX:
        yield say("refusals.team_file_reading.more_than_steps_file", nodes_max=NODES_MAX)
    if sum(_in_playbook(chain) for chain in document["chains"]) > playbook.KEPT_MAX:
        yield say("refusals.team_file_reading.more_than_chains_playbook", kept_max=playbook.KEPT_MAX)
    yield from _place_problems(document)
    yield from _board_problems(document)
    shapes, rulings = dict(FORMATIONS), {name: shipped(name) for name in SHIPPED}
    yield from _design_problems(document, shapes, rulings)
    for thing in (*document["boards"], *document["chains"]):
        if thing["formation"] not in shapes:
            yield say("refusals.team_file_reading.formation_neither_file_nor", formation=thing["formation"])
        if thing["rules"] not in rulings:
            yield say("refusals.team_file_reading.rules_neither_file_nor", rules=thing["rules"])
    for chain in document["chains"]:
        yield from _chain_problems(chain, shapes, rulings)


def _in_playbook(chain: Json) -> bool:
    return chain["kept"] and chain["deleted"] is None


def _twice(what: str, words: Iterable[str]) -> Iterator[str]:
    word, count = Counter(words).most_common(1)[0] if (words := list(words)) else ("", 0)
    if count > 1:
        yield say("refusals.team_file_reading.twice", what=what, word=word)


def _place_problems(document: Json) -> Iterator[str]:
    players = {player["id"] for player in document["players"]}
    for thing in (*document["lineups"], *document["boards"]):
        who = [player for player in thing["places"].values() if player is not None]
        if not players.issuperset(who):
            yield say("refusals.team_file_reading.somebody_on_place_not", name=thing["name"])
        if len(set(who)) < len(who):
            yield say("refusals.team_file_reading.somebody_has_two_places", name=thing["name"])


def _board_problems(document: Json) -> Iterator[str]:
    boards = {board["id"] for board in document["boards"]}
    chains = {chain["id"]: chain for chain in document["chains"]}
    for chain in document["chains"]:
        if chain["board"] not in boards:
            yield say("refusals.team_file_reading.board_chain_was_begun", chain=_called(chain))
        size = len(chain["tree"])
        drawn = (page["step"] for page in chain.get("ink", ()))
        if not all(index < size for index in (chain["line"], *drawn, *chain.get("stopped", ()))):
            yield say("refusals.team_file_reading.chain_names_step_does", chain=_called(chain))
    for board in document["boards"]:
        stands = board["stands"]
        found = chains.get(stands["chain"])
        if found is None:
            yield say("refusals.team_file_reading.chain_board_stands_not", name=board["name"])
            continue
        if max(stands["node"], stands["tip"]) >= len(found["tree"]):
            yield say("refusals.team_file_reading.board_stands_at_step", name=board["name"])
        elif stands["node"] not in path(found["tree"], stands["tip"]):
            yield say("refusals.team_file_reading.what_lies_ahead_on", name=board["name"])


def _called(chain: Json) -> str:
    return f"“{chain['name']}”" if chain["name"] else chain["id"]


def path(tree: list[list[Any]], index: int) -> list[int]:
    """Return the indices from a tree's start to one of its nodes, both with them."""
    found = []
    while index != -1:
        found.append(index)
        index = tree[index][0]
    return found[::-1]


def _design_problems(document: Json, shapes: Shapes, rulings: Rulings) -> Iterator[str]:
    """Check the designs and add what their refs name to ``shapes`` and ``rulings``."""
    for kind in ("rules", "formation"):
        own = [design for design in document["designs"] if design["kind"] == kind]
        live = sum(design["deleted"] is None for design in own)
        if len(own) > designs.KEPT_MAX or live > designs.OWN_MAX:
            yield say(
                "refusals.team_file_reading.more_than_here",
                own_max=designs.OWN_MAX,
                what=kind if kind == "rules" else "formations",
            )
    for design in document["designs"]:
        numbers = [version["version"] for version in design["versions"]]
        if numbers != list(range(1, len(numbers) + 1)):
            yield say("refusals.team_file_reading.versions_must_counted_from", id=design["id"])
        for version in design["versions"]:
            ref = designs.ref_of(design["kind"], design["id"], version["version"])
            try:
                if design["kind"] == "rules":
                    clean, rulings[ref] = read_rules(version["data"])
                else:
                    clean, shapes[ref] = read_formation(version["data"])
            except Problems as error:
                place, sentence = error.problems[0]
                yield say(
                    "refusals.team_file_reading.something_not_right",
                    ref=ref,
                    place=_where(place),
                    sentence=sentence,
                )
                return
            # Kept as it was written unless reading it has tidied something up.
            version["data"] = version["data"] if version["data"] == clean else clean


def _chain_problems(chain: Json, shapes: Shapes, rulings: Rulings) -> Iterator[str]:
    tree, depths = chain["tree"], [0]
    for parent, _, _ in tree[1:]:
        depths.append(depths[parent] + 1)
    if max(depths) > playbook_schemas.LINE_MAX:
        yield say(
            "refusals.team_file_reading.chain_has_more_than",
            chain=_called(chain),
            line_max=playbook_schemas.LINE_MAX,
        )
    steps = [(parent, actions) for parent, actions, _ in tree]
    found = unplayable(shapes[chain["formation"]], rulings[chain["rules"]], steps)
    known = set(chain.pop("stopped", ()))
    for index, why in found.items():
        if index not in known:
            yield say(
                "refusals.team_file_reading.chain_cannot_played_at",
                chain=_called(chain),
                depths=depths[index],
                why=why,
            )
