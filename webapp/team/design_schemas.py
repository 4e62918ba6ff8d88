"""The JSON forms of rule sets and formations: their shape, checked here, and their meaning, by the engine.

Everything wrong is named at once, each with its place: the shape first, and if that is right, the meaning.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from typing import Any, Final

from marshmallow import Schema, ValidationError, fields, validate

from engine.floor import shapes
from engine.floor.court import PERIMETER_OFFSET_M
from engine.floor.formations import POSTS, RING_NAMES, Formation
from engine.floor.shapes import BadFormation
from engine.rules import rule_sets as rules
from engine.rules.actions import BALL_ACTIONS, KINDS, LANE_CHOICES
from engine.rules.rule_sets import RuleSet
from engine.rules.vocabulary import CUTTER_PLACES
from engine.words.spoken import later, say
from webapp.base.fields import Line, Name, Number, WholeNumber, YesNo, complaints
from webapp.wire import schemas
from webapp.wire.refusals import Problems

_WORD_MAX: Final = 40
TITLE_MAX: Final = 60
_ABOUT_MAX: Final = 400
_POSTS_MAX: Final = 5
_SPOTS_MAX: Final = len(RING_NAMES) + 3  # a few too many, so that the engine can say which is there twice


def _word(**given: Any) -> fields.String:
    return fields.String(validate=validate.Length(1, _WORD_MAX), **given)


class _Response(fields.Field[Any]):
    """One movement, or several of which the first that has somewhere to go counts."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> Any:
        words = value if isinstance(value, list) else [value]
        if not 1 <= len(words) <= 6 or not all(isinstance(w, str) and 0 < len(w) <= _WORD_MAX for w in words):
            raise ValidationError(say("refusals.design.must_movement_or_list"))
        return value


class _Stage(Schema):
    title = Line(1, TITLE_MAX, required=True)
    adds = fields.List(_word(), required=True, validate=validate.Length(0, len(KINDS)))


class _Known(Schema):
    finding = Line(1, 80, required=True)
    formation = Line(1, _WORD_MAX, allow_none=True)
    why = Line(1, _ABOUT_MAX, required=True)


class _Rules(Schema):
    version = WholeNumber(required=True)
    name = Line(0, 80)
    title = Line(1, TITLE_MAX, required=True)
    about = Line(0, _ABOUT_MAX, required=True)
    posts = WholeNumber(
        required=True,
        allow_none=True,
        validate=validate.Range(
            0, _POSTS_MAX, error=later("refusals.design.must_number_from_or", posts_max=_POSTS_MAX)
        ),
    )
    actions = fields.List(_word(), required=True, validate=validate.Length(0, len(KINDS)))
    lane = fields.List(_word(), required=True, validate=validate.Length(0, len(KINDS)))
    cutter = fields.List(_word(), validate=validate.Length(0, len(CUTTER_PLACES)))
    stages = fields.List(fields.Nested(_Stage()), validate=validate.Length(0, schemas.STAGES_MAX))
    known = fields.List(fields.Nested(_Known()), validate=validate.Length(0, 20))
    responses = fields.Dict(
        _word(),
        fields.Dict(_word(), _Response(), validate=validate.Length(0, 30)),
        required=True,
        validate=validate.Length(0, 30),
    )


class _RingSpot(Schema):
    spot = _word(required=True)
    angle = Number(-10, 190, required=True)
    offset = Number(0, shapes.FURTHEST_M)
    home = YesNo(required=True)


class _MovedSpot(Schema):
    spot = fields.String(
        required=True, validate=validate.OneOf(POSTS, error=later("refusals.design.must_post_spot"))
    )
    x = Number(-10, 10, required=True)
    y = Number(-5, 15, required=True)


class _Formation(Schema):
    version = WholeNumber(
        required=True, validate=validate.Equal(shapes.VERSION, error=later("refusals.fields.equal"))
    )
    name = Name(required=True)
    ring = fields.List(fields.Nested(_RingSpot()), required=True, validate=validate.Length(0, _SPOTS_MAX))
    moved = fields.List(
        fields.Nested(_MovedSpot()), load_default=list, validate=validate.Length(0, len(POSTS))
    )
    posts = WholeNumber(
        required=True,
        validate=validate.Range(
            0, _POSTS_MAX, error=later("refusals.design.must_number_from", posts_max=_POSTS_MAX)
        ),
    )
    start = fields.Dict(_word(), _word(), required=True, validate=validate.Length(0, 10))
    ball = WholeNumber(required=True)


_RULES: Final = _Rules()
_FORMATION: Final = _Formation()


def read_rules(data: Any) -> tuple[dict[str, Any], RuleSet]:
    """Return a rule set's JSON form, checked, and the rule set. Raises ``Problems``.

    The same form gives the same rule set, so that what has been worked out for it is used again.
    """
    clean = _checked(_RULES, data, rules_problems)
    return clean, _rules(_text(clean))


def rules_problems(form: Mapping[str, Any]) -> list[tuple[str, str]]:
    """Return all that is wrong with the meaning of a rule set's JSON form; parts may be missing from it."""
    blank = {"version": rules.VERSION, "actions": [*BALL_ACTIONS], "lane": [*LANE_CHOICES], "responses": {}}
    found = rules.find_problems({**blank, **form})
    lists: list[tuple[str, Sequence[str]]] = [(place, form.get(place, ())) for place in ("actions", "lane")]
    lists += [("cutter", form.get("cutter", ()))]
    lists += [(f"stages.{n}", stage["adds"]) for n, stage in enumerate(form.get("stages", ()))]
    return found + [problem for place, kinds in lists for problem in _twice(place, kinds)]


def _twice(place: str, words: Sequence[str]) -> list[tuple[str, str]]:
    return [
        (place, say("refusals.design.twice", word=repr(word)))
        for word in sorted(set(words))
        if words.count(word) > 1
    ]


@lru_cache(maxsize=128)
def _rules(text: str) -> RuleSet:
    data = json.loads(text)
    return rules.read({"name": data["title"], **data})


def read_formation(data: Any) -> tuple[dict[str, Any], Formation]:
    """Return a formation's JSON form, checked, and the formation. Raises ``Problems``."""
    clean = _checked(_FORMATION, data, formation_problems)
    return clean, _formation(_text(clean))


def formation_form(data: Any) -> dict[str, Any]:
    """Return a formation's JSON form, its shape checked but not its meaning. Raises ``Problems``."""
    return schemas.checked(_FORMATION, data)


def formation_problems(form: Mapping[str, Any]) -> list[tuple[str, str]]:
    """Return all that is wrong with the meaning of a formation's JSON form; nothing if parts are missing."""
    if not _FORMATION.fields.keys() <= form.keys():
        return []
    twice = _twice("moved", [item["spot"] for item in form["moved"]])
    try:
        shapes.read(engine_form(form))
    except BadFormation as error:
        return error.problems + twice
    return twice


@lru_cache(maxsize=128)
def _formation(text: str) -> Formation:
    return shapes.read(engine_form(json.loads(text)))


def engine_form(form: Mapping[str, Any]) -> dict[str, Any]:
    """Return a formation's JSON form under a name that the engine has no tables for.

    The engine keeps tables of routes by the names of what ships, which are the only ones with underscores.
    """
    name = "".join(letter if letter.isalnum() else " " for letter in form["name"])
    return {**form, "name": name}


def draft_formation(form: Mapping[str, Any]) -> Formation:
    """Return the formation in a JSON form of which only the shape has been checked: to be measured."""
    ring = form["ring"]
    return Formation(
        name="a draft",
        ring=tuple(item["spot"] for item in ring),
        ring_angles=tuple(item["angle"] for item in ring),
        home=frozenset(item["spot"] for item in ring if item["home"]),
        posts=form["posts"],
        start=(),
        ball=form["ball"],
        offsets=tuple(item.get("offset", PERIMETER_OFFSET_M) for item in ring),
        moved=tuple((item["spot"], item["x"], item["y"]) for item in form["moved"]),
    )


Meaning = Callable[[Mapping[str, Any]], list[tuple[str, str]]]


def _checked(schema: Schema, data: Any, meaning: Meaning) -> dict[str, Any]:
    """Return ``data`` with its shape and its meaning checked; of a bad one, the sound parts are read too."""
    try:
        clean = schema.load(data)
        problems = meaning(clean)
    except ValidationError as error:
        problems = list(complaints(error.messages))
        if isinstance(error.valid_data, dict) and isinstance(error.messages, dict):
            sound = {k: v for k, v in error.valid_data.items() if k not in error.messages}
            problems += meaning(sound)
    if problems:
        raise Problems(problems)
    assert isinstance(clean, dict)
    return clean


def _text(form: Mapping[str, Any]) -> str:
    return json.dumps(form, sort_keys=True, ensure_ascii=False)
