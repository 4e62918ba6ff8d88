"""A rule set: what is installed, and for each trigger which movement each role makes."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Final

from engine.errors import QuintetError
from engine.floor.formations import Formation
from engine.rules.actions import BALL_ACTIONS, LANE_CHOICES
from engine.rules.catalogue import CATALOGUE
from engine.rules.vocabulary import CUTTER_PLACES, MOVEMENTS, TRIGGERS
from engine.words.spoken import listed, say

VERSION: Final = 1

#: Rule sets that ship, in the order they are shown; the first is the default.
SHIPPED: Final = ("pass_and_cut", "pass_and_screen_away", "drive_and_kick", "first_steps")

#: Actions that cannot be left out: a possession must be able to end, and a waiting cutter to get out.
ALWAYS: Final = frozenset(name for name, kind in CATALOGUE.items() if kind.is_always)


@dataclass(frozen=True, slots=True)
class Stage:
    """A teaching stage: its title, and the actions and lane choices it adds to those before it."""

    title: str
    adds: frozenset[str]


@dataclass(frozen=True, slots=True)
class Known:
    """A finding the rule set's authors know of: ``finding`` is a kind, or "kind:what it is about".

    ``formation``: the only formation it is known for, or ``None``. ``why``: why it is meant to be so.
    """

    finding: str
    formation: str | None
    why: str


Responses = Mapping[str, Mapping[str, tuple[str, ...]]]


@dataclass(frozen=True, slots=True, eq=False)
class RuleSet:
    """One team's agreement.

    ``actions`` and ``lane``: what is installed. ``responses``: trigger to role to the movements tried in
    order until one has somewhere to go. ``posts``: how many post spots may be taken at once, ``None`` for
    the formation's own number. ``cutter``: the places a cutter goes to who chooses nothing,
    the first that is free; after them, and without any, the home spot nearest to the ball. Two rule sets are
    equal only if they are the same object, so that answers can be cached by it.
    """

    name: str
    title: str
    about: str
    actions: frozenset[str]
    lane: frozenset[str]
    responses: Responses
    posts: int | None = None
    cutter: tuple[str, ...] = ()
    stages: tuple[Stage, ...] = ()
    known: tuple[Known, ...] = ()

    def posts_in(self, formation: Formation) -> int:
        """Return how many post spots may be taken at once in a formation."""
        return formation.posts if self.posts is None else self.posts

    def has(self, kind: str) -> bool:
        """Whether an action or lane choice is installed."""
        return kind in self.actions or kind in self.lane


@lru_cache(maxsize=256)
def at_stage(rules: RuleSet, stage: int | None) -> RuleSet:
    """Return the rule set with only what its first ``stage`` + 1 stages install; ``None`` for all of it."""
    if stage is None or not rules.stages or stage >= len(rules.stages):
        return rules
    installed = ALWAYS.union(*(step.adds for step in rules.stages[: stage + 1]))
    return replace(rules, actions=rules.actions & installed, lane=rules.lane & installed)


class BadRules(QuintetError):
    """A rule set that cannot be used; ``problems`` lists every one as (place, sentence)."""

    def __init__(self, problems: list[tuple[str, str]]) -> None:
        super().__init__(" ".join(f"{place}: {sentence}" for place, sentence in problems))
        self.problems = problems


def read(data: Mapping[str, Any]) -> RuleSet:
    """Make a rule set of its JSON form; raise ``BadRules`` naming every problem with its place."""
    problems = find_problems(data)
    if problems:
        raise BadRules(problems)
    responses = {
        trigger: MappingProxyType(
            {role: (do,) if isinstance(do, str) else tuple(do) for role, do in roles.items()}
        )
        for trigger, roles in data["responses"].items()
    }
    return RuleSet(
        name=data["name"],
        title=data["title"],
        about=data["about"],
        actions=frozenset(data["actions"]) | (ALWAYS & BALL_ACTIONS.keys()),
        lane=frozenset(data["lane"]) | (ALWAYS & LANE_CHOICES.keys()),
        responses=MappingProxyType(responses),
        posts=data.get("posts"),
        cutter=tuple(data.get("cutter", ())),
        stages=tuple(Stage(stage["title"], frozenset(stage["adds"])) for stage in data.get("stages", ())),
        known=tuple(
            Known(item["finding"], item.get("formation"), item["why"]) for item in data.get("known", ())
        ),
    )


def find_problems(data: Mapping[str, Any]) -> list[tuple[str, str]]:
    """Return every (place, sentence) that is wrong with a rule set whose shape has been checked."""
    problems = []
    if data["version"] != VERSION:
        problems.append(
            (
                "version",
                say("refusals.rule_sets.file_version_reads", version=data["version"], version_2=VERSION),
            )
        )
    for place, known in (("actions", BALL_ACTIONS), ("lane", LANE_CHOICES)):
        for kind in data[place]:
            if kind not in known:
                problems.append(
                    (
                        place,
                        say(
                            "refusals.rule_sets.no_choose_from",
                            kind=repr(kind),
                            choices=listed(known, "comma"),
                        ),
                    )
                )
    for place in data.get("cutter", ()):
        if place not in CUTTER_PLACES:
            choices = listed(CUTTER_PLACES, "comma")
            problems.append(
                ("cutter", say("refusals.rule_sets.no_place_of_cutter", place=repr(place), choices=choices))
            )
    installed = {*data["actions"], *data["lane"], *ALWAYS}
    for number, stage in enumerate(data.get("stages", ())):
        for kind in stage["adds"]:
            if kind not in installed:
                problems.append(
                    (f"stages.{number}", say("refusals.rule_sets.not_among_what_rule", kind=repr(kind)))
                )
    for trigger, roles in data["responses"].items():
        if trigger not in TRIGGERS:
            problems.append((f"responses.{trigger}", say("refusals.rule_sets.no_such_trigger")))
            continue
        for role, do in roles.items():
            place = f"responses.{trigger}.{role}"
            if role not in TRIGGERS[trigger]:
                problems.append(
                    (
                        place,
                        say("refusals.rule_sets.nobody_has_role_after", trigger=trigger.replace("_", " ")),
                    )
                )
                continue
            for movement in [do] if isinstance(do, str) else do:
                if movement not in MOVEMENTS:
                    problems.append((place, say("refusals.rule_sets.no_movement", movement=repr(movement))))
                elif role not in MOVEMENTS[movement]:
                    problems.append(
                        (place, say("refusals.rule_sets.not_movement_for_role", movement=repr(movement)))
                    )
    return problems


@cache
def shipped(name: str) -> RuleSet:
    """Return a rule set that ships; raise ``KeyError`` for another name."""
    if name not in SHIPPED:
        raise KeyError(name)
    return read(json.loads(files("engine.rules").joinpath("rulesets", f"{name}.json").read_text("utf-8")))


DEFAULT: Final = shipped(SHIPPED[0])
