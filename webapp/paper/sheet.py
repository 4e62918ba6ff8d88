"""A chain made ready for paper: where it starts and what happens, as the engine works it out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Self

from engine import script
from engine.floor.alignment import Position, start
from engine.floor.court import Point, half_court, places
from engine.floor.formations import FORMATIONS, Formation
from engine.floor.spot_names import formation_title
from engine.game import recover
from engine.game.play import advance
from engine.game.rebounding import backs
from engine.game.recover import Recovery
from engine.game.sentences import Phrase, words
from engine.game.steps import Step
from engine.motion import Timeline, timeline
from engine.motion.film import Film, standing
from engine.rules.rule_sets import SHIPPED
from engine.script import Script, telling
from engine.script.laying import known, metres
from engine.words.spoken import say, table
from webapp.boards.ink import Drawn
from webapp.chains.state import Calls, Card, Played
from webapp.paper import scripted
from webapp.paper.filming import add, staying
from webapp.paper.marks import LYING, Who
from webapp.team.squad import Member
from webapp.wire.engine_values import recovered


@dataclass(frozen=True, slots=True)
class Act:
    """One step of a chain. ``number`` counts from 1; ``steps`` is empty for what goes by no rule.

    That is a recovery (``back``) or a drawing (``script``, ending on the spots of the sheet's own court).
    ``lies``: where the ball lies on the floor before the step, in whole centimetres, if it does. ``say``: its
    one or two actions as phrases, with their kinds in ``kinds``; ``who``: one phrase a player. ``extras``:
    where defenders, a coach and cones stand, in metres, who are still there from a drawing before.
    """

    number: int
    before: Position
    after: Position
    steps: tuple[Step, ...]
    back: Recovery | None
    script: Script | None
    lies: tuple[int, int] | None
    kinds: tuple[str, ...]
    say: tuple[Phrase, ...]
    who: Mapping[int, Phrase]
    extras: Mapping[str, Point] = field(default_factory=dict)


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

    @cached_property
    def extent(self) -> tuple[Point, ...]:
        """All places that drawings among the steps have to show, out of bounds or not, in metres."""
        return tuple(
            place for act in self.acts if act.script is not None for place in scripted.extent(act.script)
        )

    @property
    def defended(self) -> bool:
        """Whether there are defenders in a drawing among the steps."""
        drawn = (act.script for act in self.acts if act.script is not None)
        return any(who.startswith("x") for script in drawn for who, _, _ in script.places)

    def standing(self, act: Act | None) -> dict[Who, Point]:
        """Return where everybody, and a ball that lies on the floor, is when a step begins, in metres."""
        if act is None:
            return self.stood(self.start)
        found: dict[Who, Point] = {}
        if act.script is not None:
            found = {known(who): metres(x, y) for who, x, y in act.script.places}
        elif act.back is not None:
            found = {number: metres(x, y) for number, x, y in act.back.where}
        else:
            found = self.stood(act.before)
        found.update(act.extras)
        lies = act.lies if act.script is None else act.script.ball
        return found if lies is None or isinstance(lies, int) else {**found, LYING: metres(*lies)}

    def stood(self, position: Position) -> dict[Who, Point]:
        """Return where the five stand in a position, on spots or off them, in metres."""
        if position.off:
            return {number: metres(x, y) for number, x, y in position.off}
        return {number: self.spots[spot] for number, spot in position.where().items()}

    def holder(self, act: Act | None) -> int:
        """Return who has the ball when a step begins; 0 for nobody."""
        if act is not None and act.script is not None:
            return act.script.ball if isinstance(act.script.ball, int) else 0
        position = self.start if act is None else act.before
        lies = act is not None and act.lies is not None
        return 0 if lies or position.alignment.over else position.player(position.alignment.ball)

    def timeline(self, act: Act) -> Timeline:
        """Return the timeline of a step that is not a recovery; a drawing has its own times at any level."""
        if act.script is not None:
            return scripted.timeline(act.script)
        return timeline(act.steps, half_court(self.court), self.formation, self.level)

    def part(self, first: int, last: int) -> Self:
        """Return the sheet of the steps ``first`` to ``last`` only, counted from 1."""
        acts = self.acts[first - 1 : last]
        return replace(self, acts=acts, start=acts[0].before if acts else self.start)


def _rules_title(card: Card) -> str:
    key = f"rule_sets.{card.rules_ref}.title"
    return say(key) if card.rules_ref in SHIPPED else card.rules.title


def sheet(card: Card, steps: Sequence[Played], title: str, note: str = "") -> Sheet:
    """Return the sheet of a chain played with a board's court, level, squad and calls.

    ``card`` has the formation and the rules the chain was played by.
    """
    formation = formation_title(card.formation) if card.formation in FORMATIONS else card.formation_name
    return Sheet(
        title=title,
        note=note,
        team=card.team,
        about=(formation, _rules_title(card), table("court", "courts").get(card.court, card.court)),
        formation=card.shape,
        court=card.court,
        level=card.level,
        start=steps[0].before if steps else start(card.shape),
        acts=_acts(card, steps),
        total=len(steps),
        squad=card.squad,
        calls=card.calls,
    )


def _acts(card: Card, steps: Sequence[Played]) -> tuple[Act, ...]:
    made: list[Act] = []
    lies: tuple[int, int] | None = None
    film: Film | None = None
    for number, played in enumerate(steps, start=1):
        act = _act(number, played, card, lies)
        lies = None if act.script is None else act.script.lies
        # Nobody but who is drawn is there until something has been drawn.
        if act.script is not None and film is None:
            film = standing(dict.fromkeys(played.before.where(), Point(0.0, 0.0)), 1)
        elif act.script is None and film is not None:
            act = replace(act, extras=staying(film))
        if film is not None:
            add(film, act, card.court, card.shape, card.level)
        made.append(act)
    return tuple(made)


def _act(number: int, played: Played, card: Card, lies: tuple[int, int] | None) -> Act:
    before, after, text = played.before, played.after, played.actions[0]
    formation, court = card.shape, half_court(card.court)
    if text.startswith(script.PREFIX):
        found = script.read(text, formation).placed(places(court, formation))
        phrases = telling.words(found)
        kind = f"script_{found.kind}"
        return Act(number, before, after, (), None, found, lies, (kind,), phrases.chain, phrases.who)
    if text.startswith(recover.PREFIX):
        back = recover.read(text, formation)
        who = recovered(back, after, places(court, formation))
        return Act(number, before, after, (), back, None, lies, ("recover",), (("recover", {}),), who)
    _, steps = advance(before, played.actions, formation, card.rules)
    last = steps[-1]
    shot = last.action.kind == "shot"
    said = words(before, steps, backs(last.before, court, formation) if shot else ())
    kinds = tuple(step.action.kind for step in steps)
    return Act(number, before, after, steps, None, None, lies, kinds, said.chain, said.who)
