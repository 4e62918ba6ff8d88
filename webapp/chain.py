"""Where a board stands, as values: the chain played so far and what redo would bring back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Self

from engine.actions import parse
from engine.alignment import Position, start
from engine.errors import QuintetError
from engine.formations import FORMATIONS, Formation
from engine.play import advance
from webapp.refusals import Refused


@dataclass(frozen=True, slots=True)
class Card:
    """What a board is called and set to. ``level`` is the speed factor."""

    id: str
    name: str
    team: str
    formation: str
    court: str
    level: float

    @property
    def shape(self) -> Formation:
        """The formation itself."""
        return FORMATIONS[self.formation]


@dataclass(frozen=True, slots=True)
class Played:
    """One step of a chain: its node in the tree, its one or two actions, the position before and after."""

    node: int
    actions: tuple[str, ...]
    before: Position
    after: Position


@dataclass(frozen=True, slots=True)
class Standing:
    """A board at one moment. ``seq`` counts its changes; ``change`` is the id and the kind of the last one.

    ``steps`` is the chain from ``root`` on; ``ahead`` is what redo brings back, nearest first.
    """

    card: Card
    seq: int
    change: tuple[str, str] | None
    root: int
    steps: tuple[Played, ...]
    ahead: tuple[Played, ...]

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


def play(position: Position, actions: Sequence[str], formation: Formation) -> Position:
    """Return where ``actions`` lead. Raises ``Refused`` with the engine's sentence if they are not legal."""
    try:
        kinds = [parse(text).is_lane_choice for text in actions]
        if len(kinds) == 2 and kinds != [True, False]:
            raise Refused("pair")
        return advance(position, actions, formation)[0]
    except QuintetError as error:
        sentence = str(error)
        raise Refused("illegal", why=sentence if sentence.endswith(".") else sentence + ".") from None


def replay(formation: Formation, nodes: Iterable[tuple[int, tuple[str, ...]]]) -> tuple[Played, ...]:
    """Return the steps that the nodes of a stored chain, root left out, make from the start."""
    position, steps = start(formation), []
    for node, actions in nodes:
        after = play(position, actions, formation)
        steps.append(Played(node, actions, position, after))
        position = after
    return tuple(steps)
