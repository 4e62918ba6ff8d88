"""Where a board stands, as values: the chain played so far and what redo would bring back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Final, NamedTuple, Self

from engine import script
from engine.errors import QuintetError
from engine.floor.alignment import Position, start
from engine.floor.court import half_court
from engine.floor.formations import Formation
from engine.game import recover
from engine.game.licences import Licence, Licences
from engine.game.play import NOBODY_LIMITED, advance
from engine.rules.actions import parse
from engine.rules.rule_sets import RuleSet, at_stage
from engine.words.spoken import Said, say
from webapp.team.squad import NOBODY, Member, Places, seated
from webapp.wire.refusals import Refused

#: What a sentence may end with, in whatever language.
_ENDS: Final = (".", "!", "?", "…", "。")

#: Why nobody gets back on spots any more, and nothing is played as drawn.
OVER: Final = Said("refusals.chain.possession_ended_with_shot")

#: The team's words and signals, by kind of action: ``{"drive": {"call": "Go", "signal": "fist up"}}``.
Calls = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class Card:
    """What a board is called and set to. ``level`` is the speed factor.

    ``formation`` and ``rules_ref`` name ``shape`` and ``rules``, a version of the team's own or what ships.
    ``stage``: index of the teaching stage, ``None`` for all. ``places``: who plays which place;
    ``roster``: the whole squad.
    """

    id: str
    name: str
    team_id: str
    team: str
    formation: str
    shape: Formation
    formation_name: str
    court: str
    level: float
    rules_ref: str
    rules: RuleSet
    stage: int | None = None
    places: Places = NOBODY
    roster: tuple[Member, ...] = ()
    calls: Calls = field(default_factory=lambda: MappingProxyType({}))

    @property
    def squad(self) -> tuple[Member | None, ...]:
        """The players on places 1 to 5."""
        return seated(self.places, self.roster)

    @property
    def bench(self) -> tuple[Member, ...]:
        """The players who have no place."""
        return tuple(member for member in self.roster if member.id not in self.places)

    @property
    def installed(self) -> RuleSet:
        """The rules with only what is taught so far."""
        return at_stage(self.rules, self.stage)

    @property
    def licences(self) -> Licences:
        """What the players on places 1 to 5 may do; nobody is named who may do everything."""
        free = Licence()
        found = {n: member.licence for n, member in enumerate(self.squad, start=1) if member is not None}
        return {n: licence for n, licence in found.items() if licence != free}


@dataclass(frozen=True, slots=True)
class Tag:
    """Which chain is being played: its id, its name ("" for none), and whether the playbook keeps it."""

    id: str
    name: str
    kept: bool


@dataclass(frozen=True, slots=True)
class Played:
    """One step of a chain: its node in the tree, its one or two actions, the position before and after."""

    node: int
    actions: tuple[str, ...]
    before: Position
    after: Position


class Earlier(NamedTuple):
    """A chain that was on a board. ``line``: its steps, ``depth`` of them played when it was left at ``at``.

    ``to``: the chain that replaced it, by its id, where an undo of that leads back here; else "". Times in
    seconds since 1970. ``name``: what it is called in the playbook, "" if it is not there.
    """

    chain: str
    name: str
    formation: str
    rules: str
    line: tuple[tuple[str, ...], ...]
    depth: int
    at: int
    to: str


@dataclass(frozen=True, slots=True)
class BoardState:
    """A board at one moment. ``seq`` counts its changes; ``change`` is the id and the kind of the last one.

    ``steps`` is the chain from ``root`` on; ``ahead`` is what redo brings back, nearest first. ``notice``: a
    sentence for the coaches about what could not be brought back from the store. ``earlier``: the chains that
    gave way to others here, the last first. ``arrived``: the last change put this chain on the board, so that
    an undo of it brings back the one before. ``at``: when it last changed, seconds since 1970.
    """

    card: Card
    seq: int
    change: tuple[str, str] | None
    root: int
    chain: Tag
    steps: tuple[Played, ...]
    ahead: tuple[Played, ...]
    notice: str | None = None
    earlier: tuple[Earlier, ...] = ()
    arrived: bool = False
    at: int = 0

    @property
    def cursor(self) -> int:
        """The node the board stands at."""
        return self.steps[-1].node if self.steps else self.root

    @property
    def tip(self) -> int:
        """The node redo leads to."""
        return self.ahead[-1].node if self.ahead else self.cursor

    @property
    def position(self) -> Position:
        """Where everybody stands."""
        return self.steps[-1].after if self.steps else start(self.card.shape)

    def cut(self, depth: int) -> Self:
        """Return the board with the chain up to ``depth`` steps, the rest ahead of it."""
        return replace(self, steps=self.steps[:depth], ahead=(*self.steps[depth:], *self.ahead))

    def grown(self, step: Played) -> Self:
        """Return the board one step on. If that step is what lies ahead anyway, the rest stays ahead."""
        same = bool(self.ahead) and self.ahead[0].node == step.node
        return replace(self, steps=(*self.steps, step), ahead=self.ahead[1:] if same else ())

    def undone(self) -> Self:
        """Return the board one step back. Raises ``Refused`` at the start."""
        if not self.steps:
            raise Refused("nothing_to_undo")
        return self.cut(len(self.steps) - 1)

    def redone(self) -> Self:
        """Return the board one step on again. Raises ``Refused`` if nothing lies ahead."""
        if not self.ahead:
            raise Refused("nothing_to_redo")
        return self.grown(self.ahead[0])


def play(
    position: Position,
    actions: Sequence[str],
    formation: Formation,
    rules: RuleSet,
    licences: Licences = NOBODY_LIMITED,
) -> Position:
    """Return where ``actions`` lead. Raises ``Refused`` with the engine's sentence if they are not legal."""
    try:
        if any(text.startswith((recover.PREFIX, script.PREFIX)) for text in actions):
            if len(actions) > 1:
                raise Refused("pair")
            if position.alignment.over:
                raise illegal(str(OVER))
            return _beside_the_rules(position, actions[0], formation, rules)
        kinds = [parse(text).is_lane_choice for text in actions]
        if len(kinds) == 2 and kinds != [True, False]:
            raise Refused("pair")
        return advance(position, actions, formation, rules, licences)[0]
    except QuintetError as error:
        raise illegal(str(error)) from None


def _beside_the_rules(position: Position, text: str, formation: Formation, rules: RuleSet) -> Position:
    if text.startswith(script.PREFIX):
        drawn = script.read(text, formation)
        script.check(drawn, formation, rules)
        return drawn.position(position)
    found = recover.read(text, formation)
    recover.check(found, formation, rules)
    return found.position(position.player(position.alignment.ball))


def illegal(sentence: str) -> Refused:
    """Return the refusal of something that is not legal, for the reason in ``sentence``."""
    return Refused("illegal", why=sentence if sentence.endswith(_ENDS) else sentence + ".")


def act(card: Card, position: Position, actions: Sequence[str]) -> Position:
    """Return where ``actions`` lead on a board: legal, taught already, and each player's own to choose.

    A scripted step goes by no rule, so it is never too early for one. Raises ``Refused``.
    """
    if actions[0].startswith(script.PREFIX):
        return play(position, actions, card.shape, card.rules)
    try:
        return play(position, actions, card.shape, card.installed, card.licences)
    except Refused:
        if card.installed is not card.rules:
            play(position, actions, card.shape, card.rules, card.licences)  # refused all the same: says why
            raise illegal(
                say("refusals.chain.belongs_later_teaching_stage", choices=repr(" ".join(actions)))
            ) from None
        raise


#: Running that may be saved, in all, by other spots than a screen has chosen, metres. Screens know spots to
#: the whole centimetre, so each of five runs may be out by 0.7 cm.
_AS_GOOD_M: Final = 0.05


def get_back(
    card: Card,
    position: Position,
    where: Mapping[str, Sequence[int]],
    wanted: Mapping[str, str] | None = None,
) -> str:
    """Return the text form of the recovery from ``where``, places to whole centimetres.

    ``wanted``: the spot each player has been sent to by a screen that worked it out itself; where that is as
    good, it holds. Raises ``Refused`` after a shot.
    """
    if position.alignment.over:
        raise illegal(str(OVER))
    metres = {int(place): (x / 100, y / 100) for place, (x, y) in where.items()}
    ball = position.player(position.alignment.ball)
    court = half_court(card.court)
    best = recover.recovery(metres, ball, court, card.shape, card.rules)
    if wanted is not None:
        other = recover.Recovery(best.where, tuple(sorted((spot, int(n)) for n, spot in wanted.items())))
        if recover.is_as_good(other, best, court, card.shape, card.rules, _AS_GOOD_M):
            return other.text
    return best.text


def replay(
    formation: Formation, rules: RuleSet, nodes: Iterable[tuple[int, tuple[str, ...]]]
) -> tuple[Played, ...]:
    """Return the steps that the nodes of a stored chain, root left out, make from the start.

    Ends before the first step that is not legal (any more), as what ships may change.
    """
    position, steps = start(formation), []
    for node, actions in nodes:
        try:
            after = play(position, actions, formation, rules)
        except Refused:
            break
        steps.append(Played(node, actions, position, after))
        position = after
    return tuple(steps)
