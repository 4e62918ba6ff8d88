"""What must be on every screen after some taps, worked out by the engine from their text forms alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from engine.floor.alignment import Position, start
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.game.play import advance
from engine.game.rebounding import backs
from engine.game.sentences import sentence, words
from engine.game.steps import Step

COURT = "fiba"


@dataclass
class Play:
    """A chain of taps in a formation; a tap is one text form, or two with a space between."""

    formation_name: str
    taps: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.formation = FORMATIONS[self.formation_name]
        self.position = self.before = start(self.formation)
        self.sentences: list[str] = []
        self.steps: tuple[Step, ...] = ()
        taps, self.taps = self.taps, []
        for tap in taps:
            self.play(tap)

    def play(self, tap: str) -> str:
        """Play a tap; return what it is called on the court, in the list and in the chain."""
        self.before = self.position
        self.position, self.steps = advance(self.position, tap.split(), self.formation)
        self.taps.append(tap)
        said = words(self.before, self.steps)
        self.sentences.append(", then ".join(sentence("chain", phrase) for phrase in said.chain))
        return self.sentences[-1]

    def preview(self, tap: str) -> str:
        """Return what a tap is called, without playing it."""
        return Play(self.formation_name, [*self.taps, tap]).sentences[-1]

    @property
    def actions(self) -> list[list[str]]:
        """The taps as they stand on the wire."""
        return [tap.split() for tap in self.taps]

    def told(self, section: str) -> dict[int, str]:
        """Return the sentence of each player for the last tap; ``section``: who, or you."""
        last = self.steps[-1]
        back: Sequence[str] = ()
        if last.action.kind == "shot":
            back = backs(last.before, half_court(COURT), self.formation)
        said = words(self.before, self.steps, back)
        return {
            number: sentence(section, (key, {"p": number, **given}))
            for number, (key, given) in said.who.items()
        }

    @property
    def standing(self) -> dict[str, object]:
        """The position as screens show it: spots by number, and who has the ball."""
        return standing(self.position)


def standing(position: Position) -> dict[str, object]:
    """Return who stands where, and who has the ball."""
    return {
        "at": {str(number): spot for number, spot in position.where().items()},
        "ball": position.player(position.alignment.ball),
    }
