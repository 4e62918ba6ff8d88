"""The checker on each formation, cold, and how its time grows with the number of perimeter spots.

Printed as ratios to plain exploration (every reachable position and step, unchecked), in the same run.
"""

from __future__ import annotations

import subprocess
import sys
import time
from dataclasses import replace

from engine.checker import check
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS, RING_NAMES, Formation
from engine.game.graph import reach
from engine.rules.rule_sets import DEFAULT

ANGLES = dict(zip(RING_NAMES, (180.0, 147.0, 110.0, 90.0, 70.0, 33.0, 0.0), strict=True))

#: Perimeter spots of the growing formations: three to seven, the middle first.
GROWING = (
    ("left_wing", "top", "right_wing"),
    ("left_wing", "left_slot", "right_slot", "right_wing"),
    ("left_corner", "left_wing", "top", "right_wing", "right_corner"),
    ("left_corner", "left_wing", "left_slot", "right_slot", "right_wing", "right_corner"),
    RING_NAMES,
)

COLD = """
import time
from engine.checker import check
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.rules.rule_sets import DEFAULT
begin = time.perf_counter()
report = check(DEFAULT, FORMATIONS[{name!r}], half_court("fiba"))
print(time.perf_counter() - begin, report.positions, report.steps)
"""


def with_ring(ring: tuple[str, ...]) -> Formation:
    """Return a formation on ``ring`` with two posts, three players on its middle spots."""
    middle = sorted(ring, key=lambda spot: abs(ring.index(spot) - (len(ring) - 1) / 2))[:3]
    start = ((1, middle[0]), (2, middle[1]), (3, middle[2]), (4, "left_block"), (5, "right_block"))
    angles = tuple(ANGLES[spot] for spot in ring)
    base = FORMATIONS["three_out_two_in"]
    name = f"ring_of_{len(ring)}"
    return replace(base, name=name, ring=ring, ring_angles=angles, home=frozenset(middle), start=start)


def main() -> None:
    """Print one line a formation, then one a ring size."""
    print("check of the default rules, cold, nameless; exploring alone = 1.00")
    for name, formation in FORMATIONS.items():
        begin = time.perf_counter()
        reach(formation)
        plain = time.perf_counter() - begin
        done = subprocess.run(
            [sys.executable, "-c", COLD.format(name=name)], capture_output=True, text=True, check=True
        )
        seconds, positions, steps = done.stdout.split()
        took = float(seconds)
        print(f"{name}: {took / plain:.2f} ({took:.2f} s; {positions} positions, {steps} steps)")
    print("growth with the number of perimeter spots; three spots = 1.0")
    first = 0.0
    for ring in GROWING:
        begin = time.perf_counter()
        report = check(DEFAULT, with_ring(ring), half_court("fiba"))
        took = time.perf_counter() - begin
        first = first or took
        print(f"{len(ring)} spots: time {took / first:.1f}, positions {report.positions}, {took:.2f} s")


if __name__ == "__main__":
    main()
