"""Where five players stand: the nameless alignment the rules read, and the lineup beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from engine.floor.formations import LANE, POSTS, Formation
from engine.words.spoken import say


class Alignment(NamedTuple):
    """A position with no names in it; hashable, immutable, all that the rules may look at.

    ``occupied``: the spots with a player on them. ``ball``: the one of them that has the ball.
    ``cutter``: the lane spot of a cutter who has not yet chosen where to go, or ``None``.
    ``over``: a shot has been taken and nothing more is legal. ``freed``: the spot of a mate whose defender
    has just been screened; his catch in the very next action is marked as freed.
    """

    occupied: frozenset[str]
    ball: str
    cutter: str | None = None
    over: bool = False
    freed: str | None = None


@dataclass(frozen=True, slots=True)
class Position:
    """An alignment and who stands where: ``lineup`` holds (spot, player number), sorted by spot.

    ``off``: (player, x, y) of all five, in whole centimetres, where a scripted step has left them off spots.
    The lineup then says which spots they last stood on, and nothing is legal until they are back on some.
    """

    alignment: Alignment
    lineup: tuple[tuple[str, int], ...]
    off: tuple[tuple[int, int, int], ...] = ()

    def player(self, spot: str) -> int:
        """Return the number of the player on ``spot``; raise ``KeyError`` if it is empty."""
        return dict(self.lineup)[spot]

    def where(self) -> dict[int, str]:
        """Return the spot of every player, by number in rising order."""
        return {number: spot for spot, number in sorted(self.lineup, key=lambda pair: pair[1])}

    def carried(self, after: Alignment, travel: Mapping[str, str]) -> Position:
        """Return the position with ``after`` as its alignment and each player moved along ``travel``."""
        lineup = tuple(sorted((travel.get(spot, spot), number) for spot, number in self.lineup))
        return Position(after, lineup)


def problems(alignment: Alignment, formation: Formation) -> tuple[str, ...]:
    """Return every way in which ``alignment`` is not a position between two actions, as sentences.

    An empty result means: five players on five different spots of the formation, one of them with the
    ball, at most one in the lane, and nobody in the lane but a ball handler or the one cutter.
    """
    spots = set(formation.ring) | set(POSTS) | set(LANE)
    found = []
    if len(alignment.occupied) != 5:
        found.append(say("refusals.alignment.must_five_players_on", occupied=len(alignment.occupied)))
    for spot in sorted(alignment.occupied - spots):
        found.append(say("refusals.alignment.not_spot", spot=spot, name=formation.name))
    if alignment.ball not in alignment.occupied:
        found.append(say("refusals.alignment.ball_at_where_nobody", ball=alignment.ball))
    if alignment.cutter is not None and alignment.cutter not in LANE:
        found.append(say("refusals.alignment.cutter_stands_lane_not", cutter=alignment.cutter))
    if alignment.cutter is not None and alignment.cutter == alignment.ball:
        found.append(say("refusals.alignment.cutter_who_has_not"))
    in_lane = sorted(alignment.occupied & set(LANE))
    if len(in_lane) > 1:
        found.append(say("refusals.alignment.two_players_lane"))
    for spot in in_lane:
        if spot not in (alignment.ball, alignment.cutter):
            found.append(say("refusals.alignment.player_at_lane_without", spot=spot))
    if alignment.cutter is not None and alignment.cutter not in alignment.occupied:
        found.append(say("refusals.alignment.cutter_but_nobody_stands"))
    if sum(spot in POSTS for spot in alignment.occupied) > formation.posts:
        found.append(say("refusals.alignment.more_than_posts_taken", posts=formation.posts))
    return tuple(found)


def start(formation: Formation) -> Position:
    """Return the position a formation starts from."""
    where = dict(formation.start)
    alignment = Alignment(frozenset(where.values()), where[formation.ball])
    return Position(alignment, tuple(sorted((spot, number) for number, spot in where.items())))
