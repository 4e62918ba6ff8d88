"""What everybody has done and seen, written down beside the app, and what must hold of it at any moment."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from engine.floor.alignment import Position, start
from engine.floor.formations import FORMATIONS
from engine.rules.rule_sets import shipped
from engine.words.spoken import say
from webapp.chains.state import play
from webapp.wire.engine_values import position_wire

#: What a device reports of whose undo came too late.
TOO_LATE = f"said: {say('board.undo_too_late')}"

Line = tuple[tuple[str, ...], ...]
Report = dict[str, Any]


def line_of(steps: Sequence[Sequence[str]]) -> Line:
    """Return a line as a value."""
    return tuple(tuple(step) for step in steps)


@dataclass
class Done:
    """Something a coach did, and the line on the board after it. ``chain``: empty for one the server makes;
    ``line``: none where only the server could tell.

    ``kept``: his device said that it will remember it. ``gone``: it waits for no answer any more. ``unsure``:
    the app was closed before either.
    """

    who: str
    kind: str
    chain: str
    line: Line | None
    formation: str
    kept: bool = False
    gone: bool = False
    unsure: bool = False

    @property
    def safe(self) -> bool:
        """Whether it may not be lost any more."""
        return self.kept or (self.gone and not self.unsure)


@dataclass
class Known:
    """What one device has been seen to show. ``quiet``: nothing can have reached it since ``last``."""

    last: Report | None = None
    heard: int = -1
    quiet: bool = False


@dataclass
class Model:
    """Everything done and seen in one seed."""

    rules: str = "pass_and_cut"
    done: dict[str, Done] = field(default_factory=dict)
    #: The line and the steps ahead of it after so many changes, as some device showed them.
    at: dict[int, tuple[Line, int, str]] = field(default_factory=dict)
    devices: dict[str, Known] = field(default_factory=dict)
    refusals_expected: bool = False

    def __post_init__(self) -> None:
        self._positions: dict[tuple[str, Line], Position] = {}
        self._rules = shipped(self.rules)

    def position(self, formation: str, line: Line) -> Position:
        """Return where a line leads, played by the engine. Raises ``Refused`` if it is not legal."""
        shape, key = FORMATIONS[formation], (formation, line)
        if key not in self._positions:
            before = self.position(formation, line[:-1]) if line else start(shape)
            self._positions[key] = play(before, line[-1], shape, self._rules) if line else before
        return self._positions[key]

    def stands(self, formation: str, line: Line) -> Report:
        """Return how everybody stands after a line, as a screen should tell it."""
        return _told(position_wire(self.position(formation, line)))

    def saw(self, device: str, now: Report) -> None:
        """Hold what a device shows to what must be true of it."""
        known = self.devices.setdefault(device, Known())
        # Whose undo comes too late on a bad line is told so.
        told = [text for text in now["faults"] if text != TOO_LATE]
        faults = [text for text in told if not (self.refusals_expected and text.startswith("said"))]
        assert not faults, f"{device}: {faults}"
        for seq in now["heard"]:
            assert seq >= known.heard, f"{device} heard of {seq} changes after {known.heard}"
            known.heard = seq
        for seq, first, steps, ahead, formation in now["seen"]:
            told = line_of(steps), ahead, formation
            assert first == 0
            before = self.at.setdefault(seq, told)
            assert before == told, f"{device} showed {told} after {seq} changes, not {before}"
        for steps, stands, formation in now["shown"]:
            there = self.stands(formation, line_of(steps))
            assert there == _told(stands), f"{device} showed {stands} after {steps}, not {there}"
        if not now["known"]:
            return
        line = line_of(now["line"])
        if now["chain"] is not None:  # what lies ahead of a coach can be played too
            self.position(now["formation"], line + line_of(now["undone"]))
        assert self.stands(now["formation"], line) == _told(now["stands"]), (
            f"{device}: {line} leads elsewhere"
        )
        if known.quiet and known.last is not None:
            for part in ("chain", "formation", "line", "undone"):
                was, is_now = known.last[part], now[part]
                assert was == is_now, f"{device}: {part} became {is_now} by itself, it was {was}"
        for chain, aside, whole in now["asides"]:
            assert whole, f"{device}: only {aside} of a line of {chain} was kept"
        for sent in now["pending"]:
            if sent["kept"] and sent["id"] in self.done:
                self.done[sent["id"]].kept = True
        waiting = {sent["id"] for sent in now["pending"]}
        for message_id, did in self.done.items():
            if did.who == device and message_id not in waiting:
                did.gone = True
        known.last = now

    def did(self, who: str, kind: str, told: dict[str, Any], given: tuple[Any, ...]) -> None:
        """Write down what a coach did, and hold his screen to showing it."""
        before, now, did = told["before"], told["now"], told["did"]
        was, line = line_of(before["line"]), line_of(now["line"])
        way = was + line_of(before["undone"])

        def played(step: tuple[str, ...]) -> tuple[Line, int]:
            # If the line goes on like this anyway, the rest of it stays ahead.
            depth = did["depth"]
            return (*way[:depth], step), len(way) - depth - 1 if way[depth : depth + 1] == (step,) else 0

        def went() -> tuple[Line, int]:
            # To another branch or chain, back or on again.
            to = did["to"]
            return line_of(to["line"][: to["depth"]]), len(to["line"]) - to["depth"]

        # What only the server can show leaves the board as it is until then.
        unseen = told["made"][:1] and told["made"][0]["kind"] == "other"
        expected: dict[str, Callable[[], tuple[Line, int]]] = {
            "act": lambda: played(tuple(did["a"])),
            "hand": lambda: played(tuple(did["a"])),
            "recover": lambda: played(line[-1]),
            "undo": lambda: went() if did["to"] else (was[:-1], before["ahead"] + 1),
            "redo": lambda: went() if did["to"] else (way[: len(was) + 1], before["ahead"] - 1),
            "fresh": lambda: ((), 0),
            "pace": lambda: (was, before["ahead"]),
            "form": lambda: ((), 0),
            "open": lambda: (line_of(given[1][: given[2]]), len(given[1]) - given[2]),
        }
        wanted, ahead = (was, before["ahead"]) if unseen else expected[kind]()
        assert line == wanted, f"{who}: after {kind} the screen shows {line}, not {wanted}"
        assert ahead == now["ahead"], f"{who}: after {kind} {now['ahead']} steps lie ahead, not {ahead}"
        assert len(told["made"]) == 1, f"{who}: {kind} sent {told['made']}"
        chain = now["chain"]
        if unseen and kind == "open":
            chain, line = given[0], line_of(given[1][: given[2]])
        elif unseen and kind == "form":
            chain, line = "", ()
        # Without a pack nobody knows where a player gets back to; and a pace can be set while a line is on
        # its way.
        known = kind != "pace" and not (unseen and kind == "recover")
        if kind in ("undo", "redo"):  # of what the server alone knows, while that is on its way
            waiting = [self.done[sent["id"]] for sent in before["pending"] if sent["id"] in self.done]
            known = not any(each.kind == "recover" and each.line is None for each in waiting)
        for sent in told["made"]:
            self.done[sent["id"]] = Done(who, kind, chain, line if known else None, now["formation"])

    def closes(self, who: str, now: Report) -> None:
        """Note what may be lost: closed before it was written down, as itself or as a line set aside."""
        for sent in now["pending"]:
            for message_id, did in self.done.items():
                aside = sent["kind"] == "keep" and sent["chain"] == did.chain and did.who == who
                line = did.line or ()
                covered = aside and line_of(sent["line"])[: len(line)] == line
                if not sent["kept"] and (message_id == sent["id"] or covered):
                    did.unsure = True
        self.devices[who].quiet = False

    def played(self, who: str) -> list[tuple[str, Line, str]]:
        """Return the lines a coach has played, with chain and formation, that cannot be lost."""
        mine = [one for one in self.done.values() if one.who == who and one.safe]
        return [(one.chain, one.line, one.formation) for one in mine if one.line]


def _told(stands: Report) -> Report:
    """Return a position with who is off his spot, but not where, nor where a ball lies: that depends on the
    court."""
    return {
        **{key: told for key, told in stands.items() if key != "lies"},
        "off": sorted(stands.get("off", {})),
    }
