"""What is legal in an alignment, and what each action does: pure functions of immutable values."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from engine.actions import DIRECTIONS, Action, Direction
from engine.alignment import Alignment
from engine.errors import AmbiguousAction, IllegalAction
from engine.formations import PAINT, POSTS, RIM, Formation, side_of
from engine.movements import (
    Plan,
    cover,
    drive_side,
    fill_toward,
    is_baseline,
    is_open,
    refill,
    relocate,
    roll_order,
    rotate,
)


@dataclass(frozen=True, slots=True)
class Move:
    """One player's part in a step: from a spot to a spot, and in what manner (see ``Step``)."""

    origin: str
    target: str
    manner: str


@dataclass(frozen=True, slots=True)
class BallMove:
    """What the ball does: ``kind`` is pass, hand_off, dribble, hold or shot; spots are the holders'."""

    kind: str
    origin: str
    target: str


@dataclass(frozen=True, slots=True)
class Step:
    """An action and all it causes.

    ``moves`` holds only those who leave their spot, in the order of their spots' names. Manners: cut,
    back_cut, screened_cut, fill, rotate, slide (along the baseline), cover, drive, dribble, take_hand_off,
    relocate, roll, post_up, set_screen.
    """

    before: Alignment
    action: Action
    after: Alignment
    moves: tuple[Move, ...]
    ball: BallMove


@dataclass(frozen=True, slots=True)
class _View:
    """An alignment seen from the ring: what most rules ask about."""

    b: int | None
    mates: tuple[int, ...]
    posts: tuple[str, ...]

    def between(self, index: int) -> bool:
        """Whether a mate stands strictly between the ball and ``index``."""
        assert self.b is not None
        low, high = sorted((self.b, index))
        return any(low < mate < high for mate in self.mates)


def _view(alignment: Alignment, formation: Formation) -> _View:
    occupied, ball = alignment.occupied, alignment.ball
    mates = tuple(i for i, spot in enumerate(formation.ring) if spot in occupied and spot != ball)
    posts = tuple(post for post in POSTS if post in occupied and post != ball)
    return _View(formation.ring.index(ball) if ball in formation.ring else None, mates, posts)


def _sides_meet(one: str, other: str) -> bool:
    return side_of(one) == side_of(other) or "middle" in (side_of(one), side_of(other))


def _too_long(passer: str, post: str) -> bool:
    return (passer.endswith("corner") and post == "high_post") or (
        passer == "top" and post.endswith("short_corner")
    )


@lru_cache(maxsize=65536)
def legal(alignment: Alignment, formation: Formation) -> tuple[Action, ...]:
    """Return every legal action, in a fixed order: lane choices, then ball actions, ``shot`` last."""
    return generate(alignment, formation)


def generate(alignment: Alignment, formation: Formation) -> tuple[Action, ...]:
    """Work out what :func:`legal` answers, without its cache."""
    if alignment.over:
        return ()
    view = _view(alignment, formation)
    if alignment.cutter is not None:
        found = _cutter_actions(alignment, view, formation)
    elif view.b is not None:
        found = _ring_actions(alignment, view, formation)
    else:
        found = _inside_actions(alignment, view, formation)
    return (*found, Action("shot"))


def _cutter_actions(alignment: Alignment, view: _View, formation: Formation) -> list[Action]:
    cutter, ring = alignment.cutter, formation.ring
    assert cutter is not None
    others = alignment.occupied - {cutter}
    found = [Action("fill", spot) for spot in ring if spot not in alignment.occupied]
    found += [Action("post_up", post) for post in POSTS if is_open(post, others, formation.posts)]
    found += [Action("back_screen", ring[mate]) for mate in view.mates]
    found.append(Action("cutter_pass"))
    if view.b is not None:
        found += _screens(alignment, view, (cutter,), formation)
    return found


def _ring_actions(alignment: Alignment, view: _View, formation: Formation) -> list[Action]:
    ring, b = formation.ring, view.b
    assert b is not None
    spot = ring[b]
    near = {mate for mate in view.mates if not view.between(mate)}
    beside = [index for index in (b - 1, b + 1) if 0 <= index < len(ring)]
    found = [Action("pass" if mate in near else "skip", ring[mate]) for mate in view.mates]
    found += [
        Action("post_entry", post)
        for post in view.posts
        if _sides_meet(post, spot) and not _too_long(spot, post)
    ]
    for kind in ("dribble_at", "hand_off"):
        found += [Action(kind, ring[index]) for index in beside if index in view.mates]
    found += [Action("dribble_to", ring[index]) for index in beside if index not in view.mates]
    found += [Action("back_cut", ring[mate]) for mate in view.mates if mate in near]
    found += [Action("drive", None, direction) for direction in DIRECTIONS]
    screeners = tuple(
        post for post in view.posts if not post.endswith("short_corner") and _sides_meet(post, spot)
    )
    found += _screens(alignment, view, screeners, formation)
    return found


def _screens(
    alignment: Alignment, view: _View, screeners: tuple[str, ...], formation: Formation
) -> list[Action]:
    return [
        Action("ball_screen", screener, direction)
        for screener in screeners
        for direction in DIRECTIONS
        if _drive_plan(alignment, view, direction, formation, screener) is not None
    ]


def _inside_actions(alignment: Alignment, view: _View, formation: Formation) -> list[Action]:
    ring = formation.ring
    found = [Action("kick_out", ring[mate]) for mate in view.mates]
    if alignment.ball in POSTS:
        return found + [Action("high_low", post) for post in view.posts]
    found += [Action("dump_off", post) for post in view.posts]
    found += [Action("dribble_out", spot) for spot in ring if spot not in alignment.occupied]
    return found


def why_not(alignment: Alignment, action: Action, formation: Formation) -> str | None:
    """Return ``None`` if ``action`` is legal, else one sentence that says why it is not."""
    if action in legal(alignment, formation):
        return None
    from engine.reasons import reason

    return reason(alignment, action, formation)


def find(text: str, alignment: Alignment, formation: Formation) -> Action:
    """Return the one legal action that ``text``, a text form or the beginning of one, can mean.

    Raises ``AmbiguousAction`` naming the candidates, or ``IllegalAction`` when there is none.
    """
    parts = text.split(":")
    matches = [a for a in legal(alignment, formation) if a.text.split(":")[: len(parts)] == parts]
    if len(matches) > 1:
        names = " or ".join(match.text for match in matches[:8])
        raise AmbiguousAction(f"{text!r} could mean {names}: say which.")
    if not matches:
        raise IllegalAction(f"No legal action here begins with {text!r}.")
    return matches[0]


def resolve(alignment: Alignment, action: Action, formation: Formation) -> Step:
    """Return the step that ``action`` causes; raise ``IllegalAction``, saying why, if it is not legal."""
    sentence = why_not(alignment, action, formation)
    if sentence is not None:
        raise IllegalAction(sentence)
    return apply(alignment, action, formation)


def apply(alignment: Alignment, action: Action, formation: Formation) -> Step:
    """Return the step of an action known to be legal (unchecked: what it does with others is undefined)."""
    view = _view(alignment, formation)
    plan, ball_kind, holder, cutter = _effect(alignment, view, action, formation)
    travel = {origin: target for origin, (target, _) in plan.items()}
    occupied = frozenset(travel.get(spot, spot) for spot in alignment.occupied)
    ball = travel.get(holder, holder)
    after = Alignment(occupied, ball, cutter, action.kind == "shot")
    moves = tuple(
        Move(origin, target, manner)
        for origin, (target, manner) in sorted(plan.items())
        if origin != target or manner == "roll"
    )
    return Step(alignment, action, after, moves, BallMove(ball_kind, alignment.ball, ball))


def _effect(
    alignment: Alignment, view: _View, action: Action, formation: Formation
) -> tuple[Plan, str, str, str | None]:
    """Return the plan, what the ball does, who has it afterwards (by old spot), and the new cutter."""
    ball, ring, b = alignment.ball, formation.ring, view.b
    spot = action.spot if action.spot is not None else ball
    match action.kind:
        case "pass" | "skip":
            return _cut(ball) | fill_toward(view.mates, ring.index(spot), formation), "pass", spot, RIM
        case "post_entry":
            assert b is not None
            return _cut(ball) | refill(view.mates, b, side_of(spot), formation), "pass", spot, RIM
        case "dribble_at":
            target = ring.index(spot)
            rest = [mate for mate in view.mates if mate != target]
            plan = fill_toward(rest, target, formation) | {ball: (spot, "dribble"), spot: (RIM, "back_cut")}
            return plan, "dribble", ball, RIM
        case "hand_off":
            assert b is not None
            rest = [mate for mate in view.mates if mate != ring.index(spot)]
            plan = fill_toward(rest, b, formation) | _cut(ball) | {spot: (ball, "take_hand_off")}
            return plan, "hand_off", spot, RIM
        case "dribble_to":
            plan = fill_toward(view.mates, ring.index(spot), formation) | {ball: (spot, "dribble")}
            return plan, "dribble", ball, None
        case "back_cut":
            assert b is not None
            rest = [mate for mate in view.mates if mate != ring.index(spot)]
            return fill_toward(rest, b, formation) | {spot: (RIM, "back_cut")}, "hold", ball, RIM
        case "drive" | "ball_screen":
            assert action.direction is not None
            driven = _drive_plan(alignment, view, action.direction, formation, action.spot)
            assert driven is not None
            return driven, "dribble", ball, None
        case "kick_out":
            stays = ball if ball not in POSTS else None
            return fill_toward(view.mates, ring.index(spot), formation), "pass", spot, stays
        case "high_low":
            return {}, "pass", spot, None
        case "dump_off":
            return {}, "pass", spot, ball
        case "dribble_out":
            plan = fill_toward(view.mates, ring.index(spot), formation) | {ball: (spot, "dribble")}
            return plan, "dribble", ball, None
        case "cutter_pass":
            assert alignment.cutter is not None
            return {}, "pass", alignment.cutter, None
        case "shot":
            return {}, "shot", ball, alignment.cutter
        case "fill" | "post_up":
            assert alignment.cutter is not None
            return {alignment.cutter: (spot, action.kind)}, "hold", ball, None
        case "back_screen":
            assert alignment.cutter is not None
            plan = {alignment.cutter: (spot, "set_screen"), spot: (RIM, "screened_cut")}
            return plan, "hold", ball, RIM
    raise AssertionError(action.kind)


def _cut(spot: str) -> Plan:
    return {spot: (RIM, "cut")}


def _drive_plan(
    alignment: Alignment, view: _View, direction: Direction, formation: Formation, screener: str | None
) -> Plan | None:
    """Plan a drive, off a screen if ``screener`` is given; ``None`` if the screener has nowhere to roll."""
    assert view.b is not None
    spot = alignment.ball
    side, baseline = drive_side(spot, direction), is_baseline(spot, direction)
    if baseline:
        plan = cover(view.mates, view.b, direction, formation)
    else:
        plan = rotate(view.mates, direction, formation)
    now = {plan[s][0] if s in plan else s for s in alignment.occupied if s not in (spot, screener)}
    now.add(PAINT)
    posts = relocate(now, side, baseline, formation.posts)
    plan |= posts
    plan[spot] = (PAINT, "drive")
    if screener is not None:
        now = {posts[s][0] if s in posts else s for s in now}
        open_to_him = (p for p in roll_order(side, baseline) if is_open(p, now, formation.posts))
        target = next(open_to_him, None)
        if target is None:
            return None
        plan[screener] = (target, "roll")
    return plan
