"""A coach's own formation: read from its JSON form, with every problem named at once.

Perimeter spots are kept as a direction from the basket and a distance outside the three-point line, so that
they move with the court; posts as places in metres.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from math import atan2, degrees, hypot
from typing import Any, Final

from engine.errors import QuintetError
from engine.floor.court import CORNER_DROP_DEG, Court, half_court, spots
from engine.floor.formations import CROWDS, POSTS, RING_NAMES, Formation
from engine.floor.spot_names import beginning, spot_form
from engine.words.spoken import say

VERSION: Final = 1

#: No two spots of a formation lie nearer than this, metres: two players' shoulders and a ball between them.
#: Common practice, no source.
APART_M: Final = 1.0

#: How far outside the three-point line a perimeter spot may lie, metres.
FURTHEST_M: Final = 3.0

#: How many perimeter spots belong to the resting shape.
HOME_MIN: Final = 3
HOME_MAX: Final = 5


class BadFormation(QuintetError):
    """A formation that cannot be used; ``problems`` lists every one as (place, sentence)."""

    def __init__(self, problems: list[tuple[str, str]]) -> None:
        super().__init__(" ".join(sentence for _, sentence in problems))
        self.problems = problems


def read(data: Mapping[str, Any]) -> Formation:
    """Make a formation of its JSON form; raise ``BadFormation`` naming every problem with its place.

    ``data``: ``name``; ``ring``: a list of ``{"spot", "angle", "offset", "home"}`` from left corner to right
    corner, degrees and metres; ``moved``: a list of ``{"spot", "x", "y"}`` for posts; ``posts``; ``start``:
    player number (as text) to spot; ``ball``: a player's number.
    """
    problems = list(_ring_problems(data)) + list(_start_problems(data))
    if not problems:
        formation = _make(data)
        problems = list(_place_problems(formation))
        if not problems:
            return formation
    raise BadFormation(problems)


def write(formation: Formation) -> dict[str, Any]:
    """Return the JSON form that :func:`read` reads."""
    offsets = formation.offsets or (None,) * len(formation.ring)
    ring: list[dict[str, Any]] = []
    for spot, angle, offset in zip(formation.ring, formation.ring_angles, offsets, strict=True):
        item: dict[str, Any] = {"spot": spot, "angle": angle, "home": spot in formation.home}
        ring.append(item if offset is None else {**item, "offset": offset})
    return {
        "version": VERSION,
        "name": formation.name,
        "ring": ring,
        "moved": [{"spot": spot, "x": x, "y": y} for spot, x, y in formation.moved],
        "posts": formation.posts,
        "start": {str(number): spot for number, spot in formation.start},
        "ball": formation.ball,
    }


def dragged(spot: str, x: float, y: float, court: Court) -> dict[str, float]:
    """Return how a spot dragged to (x, y), metres, is kept: ``angle`` and ``offset``, or ``x`` and ``y``.

    A perimeter spot dragged inside the three-point line lands on it.
    """
    if spot in POSTS:
        return {"x": round(x, 2), "y": round(y, 2)}
    offset = min(max(court.three_point_distance(x, y), 0.0), FURTHEST_M)
    angle = degrees(atan2(y, x))
    if angle < -90.0:
        angle += 360.0
    low, high = -CORNER_DROP_DEG, 180.0 + CORNER_DROP_DEG
    return {"angle": round(min(max(angle, low), high), 1), "offset": round(offset, 2)}


def mirror_spot(spot: str) -> str:
    """Return the name of the spot on the other side; one without a side is its own."""
    for side, other in (("left", "right"), ("right", "left")):
        if spot.startswith(f"{side}_"):
            return other + spot[len(side) :]
    return spot


def _make(data: Mapping[str, Any]) -> Formation:
    ring = data["ring"]
    return Formation(
        name=data["name"],
        ring=tuple(item["spot"] for item in ring),
        ring_angles=tuple(float(item["angle"]) for item in ring),
        home=frozenset(item["spot"] for item in ring if item["home"]),
        posts=data["posts"],
        start=tuple(sorted((int(number), spot) for number, spot in data["start"].items())),
        ball=data["ball"],
        offsets=tuple(float(item.get("offset", 0.4)) for item in ring),
        moved=tuple((item["spot"], float(item["x"]), float(item["y"])) for item in data["moved"]),
    )


def _ring_problems(data: Mapping[str, Any]) -> list[tuple[str, str]]:
    names = [item["spot"] for item in data["ring"]]
    found = []
    for name in names:
        if name not in RING_NAMES:
            found.append((f"ring.{name}", say("refusals.shapes.no_perimeter_spot_called", name=repr(name))))
        elif names.count(name) > 1 and (f"ring.{name}", _twice(name)) not in found:
            found.append((f"ring.{name}", _twice(name)))
    known = [name for name in names if name in RING_NAMES]
    if known != sorted(known, key=RING_NAMES.index):
        found.append(("ring", say("refusals.shapes.perimeter_spots_must_stand")))
    angles = [item["angle"] for item in data["ring"]]
    if angles != sorted(angles, reverse=True):
        found.append(("ring", say("refusals.shapes.spots_must_go_round")))
    home = sum(bool(item["home"]) for item in data["ring"])
    if not HOME_MIN <= home <= HOME_MAX:
        found.append(
            (
                "ring",
                say(
                    "refusals.shapes.resting_shape_needs_perimeter",
                    home_min=HOME_MIN,
                    home_max=HOME_MAX,
                    home=home,
                ),
            )
        )
    return found


def _twice(name: str) -> str:
    return beginning(say("refusals.shapes.twice", the_spot=spot_form("the", name)))


def _start_problems(data: Mapping[str, Any]) -> list[tuple[str, str]]:
    start: Mapping[str, str] = data["start"]
    spots_known = {item["spot"] for item in data["ring"]} | set(POSTS)
    found = []
    if sorted(start) != ["1", "2", "3", "4", "5"]:
        found.append(("start", say("refusals.shapes.players_each_need_starting")))
    for number, spot in sorted(start.items()):
        if spot not in spots_known:
            found.append((f"start.{number}", say("refusals.shapes.starts_on_spot_formation", number=number)))
    where = list(start.values())
    for spot in sorted({spot for spot in where if where.count(spot) > 1}):
        found.append(
            (f"start.{spot}", say("refusals.shapes.two_players_start_on", at_spot=spot_form("at", spot)))
        )
    taken = [spot for spot in where if spot in POSTS]
    if len(taken) > data["posts"]:
        found.append(
            ("start", say("refusals.shapes.players_start_on_posts", taken=len(taken), posts=data["posts"]))
        )
    for one, other in combinations(sorted(set(taken)), 2):
        if other in CROWDS[one]:
            the_one, the_other = spot_form("the", one), spot_form("the", other)
            sentence = say("refusals.shapes.too_close_taken_together", the_one=the_one, the_other=the_other)
            found.append((f"start.{one}", beginning(sentence)))
    if str(data["ball"]) not in start:
        found.append(("ball", say("refusals.shapes.one_five_players_must")))
    elif start[str(data["ball"])] not in {item["spot"] for item in data["ring"]}:
        found.append(("ball", say("refusals.shapes.ball_must_start_on")))
    return found


def _place_problems(formation: Formation) -> list[tuple[str, str]]:
    court = half_court("fiba")
    places = spots(court, formation)
    found = []
    for spot, place in places.items():
        if not court.in_court(place, 0.3):
            sentence = say("refusals.shapes.off_court", the_spot=spot_form("the", spot))
            found.append((f"ring.{spot}", beginning(sentence)))
    for one, other in combinations((*formation.ring, *POSTS), 2):
        if hypot(places[one].x - places[other].x, places[one].y - places[other].y) < APART_M:
            the_one, the_other = spot_form("the", one), spot_form("the", other)
            sentence = say("refusals.shapes.on_one_place_move", the_one=the_one, the_other=the_other)
            found.append((f"ring.{one}", beginning(sentence)))
    return found
