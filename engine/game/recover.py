"""Back on spots: after somebody is lost or dragged away, where everybody goes so that play can go on."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import Final

from engine.errors import IllegalAction, UnreadableAction
from engine.floor.alignment import Alignment, Position
from engine.floor.court import Court, spots
from engine.floor.formations import CROWDS, POSTS, Formation
from engine.rules.movements import is_open
from engine.rules.rule_sets import DEFAULT, RuleSet
from engine.words.spoken import say

Place = tuple[float, float]

#: How the text form of a recovery begins.
PREFIX: Final = "recover:"


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


@dataclass(frozen=True, slots=True)
class Recovery:
    """A recovery as it is kept: where everybody was (whole centimetres) and the spot he went back to.

    Its text form is ``recover:1=top@-12,640;2=...``, players in rising order. The spots are kept with it, so
    that it means the same on another court.
    """

    where: tuple[tuple[int, int, int], ...]
    lineup: tuple[tuple[str, int], ...]

    @property
    def text(self) -> str:
        """The text form, as :func:`read` reads it."""
        spot_of = {number: spot for spot, number in self.lineup}
        return PREFIX + ";".join(f"{n}={spot_of[n]}@{x},{y}" for n, x, y in self.where)

    def position(self, ball: int) -> Position:
        """Return the position it ends in, player ``ball`` having the ball."""
        spot_of = {number: spot for spot, number in self.lineup}
        return Position(Alignment(frozenset(spot_of.values()), spot_of[ball]), self.lineup)


def recovery(
    where: Mapping[int, Place], ball: int, court: Court, formation: Formation, rules: RuleSet = DEFAULT
) -> Recovery:
    """Return the recovery from ``where`` (see :func:`recover`)."""
    places = tuple((n, round(x * 100), round(y * 100)) for n, (x, y) in sorted(where.items()))
    return Recovery(places, recover(where, ball, court, formation, rules).lineup)


def is_as_good(
    other: Recovery, best: Recovery, court: Court, formation: Formation, rules: RuleSet, within: float
) -> bool:
    """Whether ``other`` is a recovery too, and takes no more than ``within`` metres more running."""
    spots_of = tuple(spot for spot, _ in other.lineup)
    if len(set(spots_of)) != 5 or not {*spots_of} <= {*formation.ring, *POSTS}:
        return False
    limit = rules.posts_in(formation)
    if not all(_fits(spot, spots_of[:i], limit) for i, spot in enumerate(spots_of)):
        return False
    return _running(other, court, formation) <= _running(best, court, formation) + within


def _running(one: Recovery, court: Court, formation: Formation) -> float:
    places, spot_of = spots(court, formation), {number: spot for spot, number in one.lineup}
    return sum(_metres((x / 100, y / 100), places[spot_of[n]]) for n, x, y in one.where)


def read(text: str, formation: Formation) -> Recovery:
    """Read a recovery's text form; raise ``UnreadableAction`` if it is none of this formation."""
    found = re.fullmatch(PREFIX + ";".join([r"([1-5])=([a-z_]+)@(-?\d{1,4}),(-?\d{1,4})"] * 5), text)
    if found is None:
        raise UnreadableAction(say("refusals.recover.cannot_read_not_recovery", text=repr(text[:40])))
    parts = [found.groups()[i : i + 4] for i in range(0, 20, 4)]
    numbers = [int(part[0]) for part in parts]
    where = tuple((int(n), int(x), int(y)) for n, _, x, y in parts)
    lineup = tuple(sorted((spot, int(n)) for n, spot, _, _ in parts))
    spots_of = {spot for spot, _ in lineup}
    if numbers != [1, 2, 3, 4, 5] or len(spots_of) != 5 or not spots_of <= {*formation.ring, *POSTS}:
        raise UnreadableAction(say("refusals.recover.cannot_read_does_not", text=repr(text[:40])))
    return Recovery(where, lineup)


def check(found: Recovery, formation: Formation, rules: RuleSet = DEFAULT) -> None:
    """Raise ``IllegalAction`` unless everybody's spot is one that :func:`recover` could have sent him to."""
    posts = [spot for spot, _ in found.lineup if spot in POSTS]
    if len(posts) > rules.posts_in(formation):
        raise IllegalAction(say("refusals.recover.more_posts_would_taken"))
    if any(not CROWDS[spot].isdisjoint(posts) for spot in posts):
        raise IllegalAction(say("refusals.recover.two_players_would_stand"))


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
