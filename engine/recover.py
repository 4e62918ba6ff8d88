"""Back on spots: after somebody is lost or dragged away, where everybody goes so that play can go on."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot

from engine.alignment import Alignment, Position
from engine.court import Court, spots
from engine.formations import CROWDS, POSTS, Formation
from engine.movements import is_open
from engine.rules import DEFAULT, RuleSet

Place = tuple[float, float]


def recover(
    where: Mapping[int, Place], ball: int, court: Court, formation: Formation, rules: RuleSet = DEFAULT
) -> Position:
    """Return the position with everybody on a spot that takes the least total running, in straight lines.

    ``where``: five players by number, in metres; ``ball``: who has the ball. Spots are the ring's and the
    posts', no more posts than the rules allow and none of them crowded. Exact: no other such position takes
    less (to a tenth of a millimetre; at equal totals the first in the order of the spots).
    """
    places = spots(court, formation)
    known = (*formation.ring, *POSTS)
    limit = rules.posts_in(formation)
    numbers = sorted(where)
    far = {n: [_metres(where[n], places[spot]) for spot in known] for n in numbers}
    # The least each of the players still to be placed can run: no branch can do better than that.
    rest = [0.0] * (len(numbers) + 1)
    for i in range(len(numbers) - 1, -1, -1):
        rest[i] = rest[i + 1] + min(far[numbers[i]])
    best: tuple[float, tuple[str, ...]] = (float("inf"), ())

    def place(i: int, total: float, taken: tuple[str, ...]) -> None:
        nonlocal best
        if total + rest[i] >= best[0] - 1e-4:
            return
        if i == len(numbers):
            best = total, taken
            return
        distances = far[numbers[i]]
        for at in sorted(range(len(known)), key=distances.__getitem__):
            if _fits(known[at], taken, limit):
                place(i + 1, total + distances[at], (*taken, known[at]))

    place(0, 0.0, ())
    lineup = dict(zip(best[1], numbers, strict=True))
    spot_of = {number: spot for spot, number in lineup.items()}
    return Position(Alignment(frozenset(lineup), spot_of[ball]), tuple(sorted(lineup.items())))


def nearest_open(alignment: Alignment, place: Place, court: Court, formation: Formation) -> str:
    """Return the spot a lost player at ``place`` takes: the nearest that is open beside the other four.

    ``alignment``: where the others stand (a spot of his own may be left out of it).
    """
    places = spots(court, formation)
    others = alignment.occupied
    candidates = [spot for spot in formation.ring if spot not in others]
    candidates += [post for post in POSTS if is_open(post, others, formation.posts)]
    return min(candidates, key=lambda spot: (round(_metres(place, places[spot]), 4), spot))


def _fits(spot: str, taken: tuple[str, ...], limit: int) -> bool:
    if spot in taken:
        return False
    if spot not in POSTS:
        # A corner may be filled beside a short corner, but nobody is sent to a short corner beside one.
        return not any(other in POSTS for other in taken if other in CROWDS.get(spot, ()))
    return CROWDS[spot].isdisjoint(taken) and sum(other in POSTS for other in taken) < limit


def _metres(a: Place, b: Place) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])
