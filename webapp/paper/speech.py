"""A step in the team's words: what a coach calls, the action as a heading, a sentence for each player."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.floor.spot_names import beginning
from engine.game.sentences import Phrase, sentence
from engine.words.spoken import listed, say
from webapp.chains.state import Calls
from webapp.paper.fonts import UNKNOWN, written
from webapp.paper.sheet import Act, Sheet
from webapp.team.squad import Member

_SAME = ("stay",)

#: From here on, scripts may run from right to left; the mark keeps what stands round such a name in order.
_TURNING = "\u0590"
_MARK = "\u200e"


@dataclass(frozen=True, slots=True)
class Speech:
    """How a sheet speaks. ``named``: players by name. ``mirrored``: left and right change over in words."""

    squad: Sequence[Member | None]
    calls: Calls
    named: bool = False
    mirrored: bool = False

    def face(self, place: int) -> str:
        """Return the number on a player's disc, told apart where a place nobody is on has it too."""
        member = self.squad[place - 1]
        if member is not None:
            return member.number
        return say("board.position_short", place=place) if self._taken(place) else str(place)

    def name(self, place: int) -> str:
        """Return a player's name, "" if he has none or names are not asked for or cannot be written."""
        member = self.squad[place - 1]
        name = written(member.name) if self.named and member is not None else ""
        if UNKNOWN in name:
            return ""
        return f"{_MARK}{name}{_MARK}" if max(name, default="") >= _TURNING else name

    def label(self, place: int) -> str:
        """Return what sentences call a player: a number that somebody else wears is told apart."""
        taken = self._taken(place)
        return self.name(place) or (say("board.position", place=place) if taken else self.face(place))

    def _taken(self, place: int) -> bool:
        worn = {member.number for member in self.squad if member is not None}
        return self.squad[place - 1] is None and str(place) in worn

    def heading(self, act: Act) -> str:
        """Return the actions of a step, the team's own word beside each."""
        said = []
        for kind, phrase in zip(act.kinds, act.say, strict=True):
            call = self._call(kind)[0]
            action = self._say("chain", phrase)
            said.append(say("general.called", action=action, call=call) if call else action)
        return beginning(listed(said, "then"))

    def called(self, act: Act) -> list[str]:
        """Return what is called and shown by hand for a step: "Call “Go”, fist up."."""
        return [text for kind in act.kinds if (text := self.call(kind))]

    def call(self, kind: str) -> str:
        """Return how a kind of action is called, as a sentence; "" if the team has no word for it."""
        call, signal = self._call(kind)
        if call and signal:
            return say("general.call_it.both", call=call, signal=signal)
        if call:
            return say("general.call_it.call", call=call)
        return say("general.call_it.signal", signal=signal) if signal else ""

    def sentences(self, act: Act, *, standing: bool = True) -> list[str]:
        """Return one sentence a player; without ``standing``, none of those who only stay where they are."""
        return [self._say("who", phrase) for phrase in act.who.values() if standing or phrase[0] not in _SAME]

    def roster(self) -> str:
        """Return numbers and names of the players on places, "" if names are not asked for."""
        pairs = [(self.face(place), self.name(place)) for place in range(1, 6)]
        return listed(
            (say("general.player", number=face, name=name) for face, name in pairs if name), "facts"
        )

    def _call(self, kind: str) -> tuple[str, str]:
        entry = self.calls.get(kind, {})
        return written(entry.get("call", "")), written(entry.get("signal", ""))

    def _say(self, section: str, phrase: Phrase) -> str:
        key, given = phrase
        if self.mirrored:
            given = {slot: _other(value) if slot in "sd" else value for slot, value in given.items()}
        return sentence(section, (key, given), name=self.label)


def speech(sheet: Sheet, *, named: bool, mirrored: bool) -> Speech:
    """Return how ``sheet`` speaks."""
    return Speech(sheet.squad, sheet.calls, named, mirrored)


def _other(value: int | str) -> int | str:
    if not isinstance(value, str):
        return value
    side, rest = value[:4], value[4:]
    return "right" + rest if side == "left" else "left" + value[5:] if value.startswith("right") else value
