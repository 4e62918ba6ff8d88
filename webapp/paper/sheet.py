"""A chain made ready for paper: where it starts and what happens, as the engine works it out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Self

from engine import recover
from engine.alignment import Position, start
from engine.court import Point, half_court, places
from engine.formations import Formation
from engine.motion import Timeline, timeline
from engine.moves import Step
from engine.play import advance
from engine.rebounding import backs
from engine.recover import Recovery
from engine.rules import RuleSet
from engine.sentences import Phrase, locale, words
from webapp.chain import Calls, Card, Played
from webapp.ink import Drawn
from webapp.squad import Member


@dataclass(frozen=True, slots=True)
class Act:
    """One step of a chain. ``number`` counts from 1; ``steps`` is empty for a recovery, and ``back`` says it.

    ``say``: its one or two actions as phrases, with their kinds in ``kinds``; ``who``: one phrase a player.
    """

    number: int
    before: Position
    after: Position
    steps: tuple[Step, ...]
    back: Recovery | None
    kinds: tuple[str, ...]
    say: tuple[Phrase, ...]
    who: Mapping[int, Phrase]


@dataclass(frozen=True)
class Sheet:
    """What a chain's papers tell. ``about``: formation, rules, court in words. ``level``: speed factor.

    ``squad``: who plays places 1 to 5. ``total``: the steps of the whole chain, of which ``acts`` may be a
    part. ``ink``: what was drawn by hand after so many steps.
    """

    title: str
    note: str
    team: str
    about: tuple[str, ...]
    formation: Formation
    court: str
    level: float
    start: Position
    acts: tuple[Act, ...]
    total: int
    squad: tuple[Member | None, ...]
    calls: Calls
    ink: Mapping[int, tuple[Drawn, ...]] = field(default_factory=dict)

    def drawn(self, act: Act | None) -> tuple[Drawn, ...]:
        """Return what was drawn over a step; what was drawn before the first one lies over that one too."""
        number = 0 if act is None else act.number
        before = self.ink.get(0, ()) if number == 1 else ()
        return (*before, *self.ink.get(number, ()))

    @cached_property
    def spots(self) -> Mapping[str, Point]:
        """Where the formation's spots lie, in metres."""
        return places(half_court(self.court), self.formation)

    def timeline(self, act: Act) -> Timeline:
        """Return the timeline of a step that is not a recovery."""
        return timeline(act.steps, half_court(self.court), self.formation, self.level)

    def part(self, first: int, last: int) -> Self:
        """Return the sheet of the steps ``first`` to ``last`` only, counted from 1."""
        acts = self.acts[first - 1 : last]
        return replace(self, acts=acts, start=acts[0].before if acts else self.start)


def sheet(card: Card, steps: Sequence[Played], title: str, note: str = "") -> Sheet:
    """Return the sheet of a chain played with a board's court, level, squad and calls.

    ``card`` has the formation and the rules the chain was played by.
    """
    names = locale()
    formation = names["formations"].get(card.formation_name, card.formation_name)
    return Sheet(
        title=title,
        note=note,
        team=card.team,
        about=(formation, card.rules.title, names["courts"].get(card.court, card.court)),
        formation=card.shape,
        court=card.court,
        level=card.level,
        start=steps[0].before if steps else start(card.shape),
        acts=tuple(
            _act(number, played, card.shape, card.rules, card.court)
            for number, played in enumerate(steps, start=1)
        ),
        total=len(steps),
        squad=card.squad,
        calls=card.calls,
    )


def _act(number: int, played: Played, formation: Formation, rules: RuleSet, court: str) -> Act:
    before, after = played.before, played.after
    if played.actions[0].startswith(recover.PREFIX):
        back = recover.read(played.actions[0], formation)
        who: dict[int, Phrase] = {n: ("recover", {"p": n, "s": spot}) for n, spot in after.where().items()}
        return Act(number, before, after, (), back, ("recover",), (("recover", {}),), who)
    _, steps = advance(before, played.actions, formation, rules)
    last = steps[-1]
    shot = last.action.kind == "shot"
    said = words(before, steps, backs(last.before, half_court(court), formation) if shot else ())
    kinds = tuple(step.action.kind for step in steps)
    return Act(number, before, after, steps, None, kinds, said.chain, said.who)
