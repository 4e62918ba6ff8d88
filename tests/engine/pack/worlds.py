"""Formations with rules and a court that packs are tested on, and seeded positions and terms to play from."""

from __future__ import annotations

import json
import random
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from engine.floor.alignment import Alignment, Position
from engine.floor.court import Court, half_court
from engine.floor.formations import FORMATIONS, Formation
from engine.floor.shapes import read as read_formation
from engine.floor.shapes import write
from engine.game.closure import closure
from engine.game.licences import Licence, Licences
from engine.game.steps import Step
from engine.motion.speeds import LEVELS
from engine.pack import pack
from engine.rules.actions import Action, parse
from engine.rules.rule_sets import DEFAULT, RuleSet, at_stage, read, shipped


@dataclass(frozen=True)
class World:
    """A formation, a rule set and a court."""

    name: str
    formation: Formation
    rules: RuleSet
    court_name: str = "fiba"

    @property
    def court(self) -> Court:
        return half_court(self.court_name)

    @property
    def ships(self) -> bool:
        """Whether the tables know its movements, so that nothing is searched for."""
        return self.rules is DEFAULT and FORMATIONS.get(self.formation.name) == self.formation


def screening_rules() -> RuleSet:
    """Return rules with every lane choice, screens on the help side among them, and few ball actions."""
    data = json.loads(files("engine.rules").joinpath("rulesets", "pass_and_cut.json").read_text("utf-8"))
    lane = ["fill", "flash", "post_screen", "help_screen", "follow"]
    data |= {"name": "screening", "lane": lane, "stages": []}
    data["actions"] = ["pass", "skip", "post_entry", "back_cut", "kick_out", "high_low", "dump_off", "shot"]
    return read(data)


def lopsided() -> Formation:
    """Return a formation of a coach's own whose left wing stands wide of where the right one does."""
    made = write(FORMATIONS["five_out"]) | {"name": "lopsided"}
    wing = next(item for item in made["ring"] if item["spot"] == "left_wing")
    wing["angle"] += 7.0
    return read_formation(made)


SHIPPED = [World(name, formation, DEFAULT) for name, formation in FORMATIONS.items()]
SCREENING = World("screening", FORMATIONS["five_out"], screening_rules(), "nba")
LOPSIDED = World("lopsided", lopsided(), shipped("drive_and_kick"), "nfhs")
WORLDS = [*SHIPPED, SCREENING, LOPSIDED]


@cache
def closed(world: World) -> dict[Alignment, tuple[Step, ...]]:
    """Return the closure of a world."""
    return closure(world.formation, world.rules)


@cache
def packed(world: World) -> str:
    """Return the pack of a world as it is sent."""
    whole = pack(world.formation, world.rules, world.court)
    return json.dumps(whole, ensure_ascii=False, separators=(",", ":"))


@cache
def written(world: World) -> dict[Alignment, Action | None]:
    """Return the alignments in a pack, read out of its columns, and the default choice in each."""
    made = json.loads(packed(world))
    spots, rows = made["spots"], made["rows"]
    columns = (*rows["spots"], rows["ball"], rows["cutter"], rows["freed"], rows["default"])
    found = {}
    for values in zip(*columns, strict=True):
        low, high, ball, cutter, freed, default = (ord(value) - ord("]") for value in values)
        occupied = {spot for at, spot in enumerate(spots) if (low | high << 7) >> at & 1}
        alignment = Alignment(
            frozenset(occupied),
            spots[ball],
            spots[cutter - 1] if cutter else None,
            freed=spots[freed - 1] if freed else None,
        )
        found[alignment] = parse(made["actions"][default - 1][0]) if default else None
    return found


@dataclass(frozen=True)
class Terms:
    """On which terms a position is played from: pace, what is taught, and what each of the five may do."""

    level: float
    stage: int | None
    rules: RuleSet
    licences: Licences

    @property
    def wire(self) -> dict[str, object]:
        """The form a screen has them in."""
        licences = {
            str(number): {"may": None if one.may is None else sorted(one.may), "lane": list(one.lane)}
            for number, one in self.licences.items()
        }
        taught = None if self.stage is None else sorted(self.rules.actions | self.rules.lane)
        return {"level": self.level, "installed": taught, "licences": licences}


def some_terms(dice: random.Random, rules: RuleSet, ring: Sequence[str]) -> Terms:
    """Return terms at random: often none, else a stage, or licences and tendencies."""
    stage, licences = None, {}
    draw = dice.random()
    if draw < 0.3 and rules.stages:
        stage = dice.randrange(len(rules.stages))
    elif draw < 0.7:
        kinds = sorted(rules.actions | rules.lane)
        wishes = [*sorted(rules.lane), *(f"fill:{spot}" for spot in ring), "post_up:left_block"]
        licences = {
            number: Licence(
                frozenset(dice.sample(kinds, min(len(kinds), 5))) if dice.random() < 0.6 else None,
                tuple(dice.sample(wishes, 2)) if dice.random() < 0.7 else (),
            )
            for number in range(1, 6)
            if dice.random() < 0.7
        }
    return Terms(dice.choice(LEVELS), stage, at_stage(rules, stage), licences)


def seated(dice: random.Random, alignment: Alignment) -> Position:
    """Return a position of ``alignment`` with the five anywhere on its spots."""
    numbers = dice.sample(range(1, 6), 5)
    return Position(alignment, tuple(zip(sorted(alignment.occupied), numbers, strict=True)))
