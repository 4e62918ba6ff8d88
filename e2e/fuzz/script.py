"""What a seed tells people and lines to do: steps as plain values, drawn beforehand, so that they can be
read, written down and done again.

``("act", who, depth, pick)``: an action of those on offer, after so many steps (1: after all of them).
``("hand", who, depth, texts)``: a step drawn by hand, one text for each formation.
``("undo" | "redo" | "fresh", who)``; ``("recover", who, depth, where)``;
``("form" | "pace", who, pick)``: another formation, another level, where the app lets him choose.
``("open", who, remembered, which, depth)``: one of the other ways told of, or of the lines he has played.
``("cut" | "drop" | "stall" | "mute" | "slow" | "back", device)``, ``("fray", device, way, bytes)``: see
``wire.py``; ``back`` makes the line good again, and lets so much time pass that the device notices what
became of its lines.
``("close", device, hasty)``: the app is closed and opened again, hasty: before it has written anything down.
``("calm",)``: everybody with a good line comes to know the same.
``("kill", how)``: the server is killed, ``"all"`` of it or its ``"first"`` process alone, or finds that it
has been ``"followed"`` by another on the same data; ``("start",)``.
"""

from __future__ import annotations

import random
from typing import Any, Final

from engine.floor.formations import FORMATIONS
from tests.scripts import some_script

Step = tuple[Any, ...]

COACHES: Final = ("ann", "bo")
VIEWERS: Final = ("cem", "dee", "eli")
DEVICES: Final = COACHES + VIEWERS

STEPS: Final = 45
#: How often each thing is tried, of so many hundreds.
_PLAYS: Final = {
    "act": 38,
    "hand": 3,
    "undo": 12,
    "redo": 8,
    "recover": 5,
    "fresh": 3,
    "open": 7,
    "form": 2,
    "pace": 1,
}
_LINES: Final = {"cut": 7, "drop": 3, "fray": 6, "stall": 3, "mute": 2, "slow": 2, "close": 5, "calm": 8}
#: A line in trouble is good again with this chance, each step.
_BETTER: Final = 0.12


def script(seed: int) -> list[Step]:
    """Return the steps of a seed. The server is killed in one seed of ten."""
    draw = random.Random(seed)
    steps: list[Step] = []
    bad: list[str] = []
    kill_at = draw.randrange(10, STEPS - 10) if seed % 10 == 3 else -1
    start_at = -1
    while len(steps) < STEPS:
        if kill_at == len(steps):
            start_at = len(steps) + draw.randrange(1, 9)
            steps.append(("kill", draw.choice(("all", "first", "followed"))))
        elif start_at == len(steps):
            steps.append(("start",))
        elif bad and draw.random() < _BETTER:
            device = bad.pop(draw.randrange(len(bad)))
            steps.append(("back", device))
        else:
            steps.append(_step(draw, bad))
    if start_at >= len(steps):
        steps.append(("start",))
    return steps


def _step(draw: random.Random, bad: list[str]) -> Step:
    kinds = _PLAYS | _LINES
    kind = draw.choices(list(kinds), list(kinds.values()))[0]
    if kind in _PLAYS:
        return _play(draw, kind, draw.choice(COACHES))
    if kind == "calm":
        return (kind,)
    device = draw.choice(COACHES) if draw.random() < 0.7 else draw.choice(VIEWERS)
    if kind == "close":
        return kind, device, draw.random() < 0.25
    if kind == "fray":
        way = draw.choice(("up", "down"))
        return kind, device, way, draw.randrange(300 if way == "up" else 3000)
    if kind != "drop" and device not in bad:
        bad.append(device)
    return kind, device


def _play(draw: random.Random, kind: str, who: str) -> Step:
    depth = 1.0 if draw.random() < 0.75 else _part(draw)
    if kind == "act":
        return kind, who, depth, _part(draw)
    if kind == "hand":
        return kind, who, depth, {name: some_script(draw, shape).text for name, shape in FORMATIONS.items()}
    if kind == "recover":
        where = {str(n): [draw.randrange(-740, 741), draw.randrange(-100, 1200)] for n in range(1, 6)}
        return kind, who, min(depth, 0.999), where
    if kind == "open":
        return kind, who, draw.random() < 0.6, _part(draw), _part(draw)
    if kind in ("form", "pace"):
        return kind, who, _part(draw)
    return kind, who


def _part(draw: random.Random) -> float:
    return draw.randrange(1000) / 1000


def written(steps: list[Step]) -> str:
    """Return steps as Python, one a line, to be kept with a test."""
    return "".join(f"    {step!r},\n" for step in steps)
