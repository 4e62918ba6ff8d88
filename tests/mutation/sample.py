"""Which faults are tried: so many from each part of the code, evenly over it, the same for the same seed."""

from __future__ import annotations

import random
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.mutation.faults import Fault, compiles, faults

ROOT = Path(__file__).resolve().parent.parent.parent


@dataclass(frozen=True)
class Area:
    """Part of the code: files that match ``patterns``, none of ``but``; ``count`` of its faults are tried."""

    name: str
    count: int
    patterns: tuple[str, ...]
    but: tuple[str, ...] = ()

    def files(self) -> list[Path]:
        """Return its files, in order."""
        found = {path for pattern in self.patterns for path in ROOT.glob(pattern)}
        return sorted(path for path in found if not any(path.match(pattern) for pattern in self.but))


AREAS = (
    Area("engine", 100, ("engine/**/*.py",), ("engine/motion/*.py",)),
    Area("motion", 50, ("engine/motion/*.py",)),
    Area(
        "webapp", 50,
        (
            *(f"webapp/{room}/*.py" for room in ("store", "chains", "plays", "access")),
            *(f"webapp/{name}.py" for name in ("boards/boards", "web/access", "web/join", "web/adding*")),
        ),
    ),
)  # fmt: skip


def all_faults(area: Area) -> list[Fault]:
    """Return every fault of an area, file by file."""
    found: list[Fault] = []
    for path in area.files():
        found += faults(path.relative_to(ROOT).as_posix(), path.read_bytes())
    return found


@cache
def sampled(seed: int, share: float = 1.0) -> list[tuple[Area, Fault]]:
    """Return those to try: every so-many-th fault of each area from a random one on."""
    found: list[tuple[Area, Fault]] = []
    for area in AREAS:
        there = all_faults(area)
        count = min(len(there), round(area.count * share))
        step = len(there) / count
        begin = random.Random(f"{seed} {area.name}").random() * step
        for number in range(count):
            at = int(begin + number * step)
            while not compiles(there[at].applied((ROOT / there[at].path).read_bytes())):
                at = (at + 1) % len(there)
            found.append((area, there[at]))
    return found
