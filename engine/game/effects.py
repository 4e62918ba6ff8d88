"""What an action does, by its own scene and the rules' responses: compiled to tables, filled as they are met.

A plan is put together of what those near an action do, which depends on who stands on the ring, and of what
the posts do, which depends on what is open once the others have moved. There are few of either, so that each
is worked out once and the rest is looked up by the bits of the spots (:mod:`engine.floor.spot_bits`).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final

from engine.floor.alignment import Alignment
from engine.floor.formations import POSTS, Formation, Side
from engine.floor.spot_bits import bits_of
from engine.game.steps import BallMove, Move
from engine.rules.actions import Action
from engine.rules.conditions import HELP_POST
from engine.rules.movements import Plan, is_open, roll_order
from engine.rules.responses import Fault, Inside, Near, all_stand, collisions, respond_inside, respond_near
from engine.rules.roles import Situation
from engine.rules.rule_sets import RuleSet
from engine.rules.views import view_of
from engine.rules.vocabulary import OPTIONAL

#: Makers of values of which there are few: each is made once.
_MOVE: Final = lru_cache(maxsize=4096)(Move)
_BALL_MOVE: Final = lru_cache(maxsize=4096)(BallMove)

#: What posts do who all stand.
_NOTHING: Final = Inside({})


@dataclass(slots=True, eq=False)
class Effect:
    """Where everybody goes, what the ball does, and what went wrong.

    ``stay``: the bits of the spots nobody leaves, ``come``: of those somebody goes to. ``ball``: where it is
    then; ``lane``: the bits of the lane but for that spot. ``freed``: the spot of a mate whose defender is
    screened. ``screener_faults``: of the screener, who goes last. ``rolls``: the effect with where he goes,
    by the bits of where the others then stand.
    """

    plan: Plan
    moves: tuple[Move, ...]
    stay: int
    come: int
    ball: str
    ball_move: BallMove
    lane: int
    freed: str | None
    faults: tuple[Fault, ...] = ()
    screener_faults: tuple[Fault, ...] = ()
    is_faulty: bool = False
    rolls: dict[int, Effect] = field(default_factory=dict)


@dataclass(slots=True, eq=False)
class _Part:
    """What those near an action do. ``ends``: the bits of where they then stand.

    ``effect``: with posts who all stand; ``posts``: what posts do otherwise, if any ever moves, and
    ``joined``: the effect with each of these.
    """

    scene: Situation
    near: Near
    ends: int
    effect: Effect
    posts: dict[int, Inside] | None
    joined: dict[int, Effect] = field(default_factory=dict)


def scene_of(alignment: Alignment, action: Action, formation: Formation) -> Situation:
    """Return the scene the team-mates respond to; its trigger is "" where nobody does."""
    return action.about.does(view_of(alignment, formation, formation.posts), action)


class ActionEffects:
    """The effects of one action while ball and cutter are on two spots, for whoever else stands where."""

    def __init__(
        self,
        action: Action,
        ball: str,
        cutter: str | None,
        formation: Formation,
        rules: RuleSet,
        post_tables: dict[tuple[str, Side], dict[int, Inside] | None],
    ) -> None:
        self.action = action
        self._ball, self._cutter = ball, cutter
        self._formation, self._rules = formation, rules
        self._post_tables = post_tables
        bits = self._bits = bits_of(formation)
        kind = action.about
        self._kind = kind
        holder = {"handler": ball, "mate": action.spot, "cutter": cutter}[kind.taker]
        assert holder is not None
        self._holder = holder
        self._screener = bits.bit[action.spot or ""] if kind.has_screener else 0
        here = bits.bit[ball] | (0 if cutter is None else bits.bit[cutter])
        # Who is near does not depend on where the others stand.
        scene = self._scene(here | (bits.bit[action.spot] if action.spot is not None else 0))
        self._about = bits.mask({*scene.given, *scene.fixed})
        trigger = scene.trigger
        self._has_answers = bool(trigger) and (trigger not in OPTIONAL or trigger in rules.responses)
        # Where nobody responds it matters who stands where only to who looks for a post to screen from.
        alone = bits.beside_posts if HELP_POST in kind.conditions else 0
        self._near = (bits.ring if self._has_answers else alone) | self._about
        self._inside = (bits.posts | bits.lane) & ~self._near & ~self._screener
        self._parts: dict[int, _Part] = {}

    def effect(self, mask: int) -> Effect:
        """Return the effect for players on the spots of ``mask``."""
        part = self._parts.get(mask & self._near)
        if part is None:
            part = self._parts[mask & self._near] = self._part(mask)
        effect = part.effect
        if part.posts is not None:
            others = mask & self._inside
            key = others << 32 | ((part.ends | others) & self._bits.beside_posts)
            inside = part.posts.get(key)
            if inside is None:
                # Known by its identity below: of two threads that make it, one's is everybody's.
                inside = part.posts.setdefault(key, self._posts(part, others))
            found = part.joined.get(id(inside))
            if found is None:
                found = part.joined[id(inside)] = self._effect(part.near, inside)
            effect = found
        if self._screener:
            now = (mask & ~self._screener & effect.stay) | effect.come
            rolled = effect.rolls.get(now)
            if rolled is None:
                rolled = effect.rolls[now] = self._roll(effect, now, part.scene)
            effect = rolled
        return effect

    def faults(self, mask: int, effect: Effect) -> tuple[Fault, ...]:
        """Return every fault of an effect for players on the spots of ``mask``; none if it is legal."""
        there = self._bits.spots_of(mask & ~self._screener)
        return (*effect.faults, *collisions(there, effect.plan), *effect.screener_faults)

    def _scene(self, mask: int) -> Situation:
        alignment = Alignment(self._bits.spots_of(mask), self._ball, self._cutter)
        limit = self._rules.posts_in(self._formation)
        return self._kind.does(view_of(alignment, self._formation, limit), self.action)

    def _part(self, mask: int) -> _Part:
        bits, rules = self._bits, self._rules
        scene = self._scene(mask)
        if not self._has_answers:
            near = Near(scene.fixed, {}, {}, (), ())
            return _Part(scene, near, 0, self._effect(near), None)
        scene.occupied = bits.spots_of(mask & self._near & ~self._screener)
        near = respond_near(scene, rules)
        effect = self._effect(near)
        ends = (mask & self._near & effect.stay) | effect.come
        if near.inside:
            return _Part(scene, near, ends, effect, {})
        key = scene.trigger, scene.side
        if key not in self._post_tables:
            self._post_tables[key] = None if all_stand(*key, rules) else {}
        return _Part(scene, near, ends, effect, self._post_tables[key])

    def _posts(self, part: _Part, others: int) -> Inside:
        there, now = map(self._bits.spots_of, (others, part.ends | others))
        return respond_inside(part.scene, part.near, there, now, self._rules)

    def _effect(self, near: Near, inside: Inside = _NOTHING) -> Effect:
        unsaid = sorted((*near.unsaid, *inside.unsaid), key=lambda fault: fault.spot)
        return self._made({**near.plan, **inside.plan}, (*unsaid, *near.stuck, *inside.stuck))

    def _made(self, plan: Plan, faults: tuple[Fault, ...], screener_faults: tuple[Fault, ...] = ()) -> Effect:
        bits, holder = self._bits, self._holder
        moves = tuple(
            _MOVE(origin, *plan[origin])
            for origin in sorted(plan)
            if plan[origin][0] != origin or plan[origin][1] == "roll"
        )
        stay = ~bits.mask({move.origin for move in moves})
        come = bits.mask({move.target for move in moves})
        ball = plan[holder][0] if holder in plan else holder
        return Effect(
            plan,
            moves,
            stay,
            come,
            ball,
            _BALL_MOVE(self._kind.ball, self._ball, ball),
            bits.lane & ~bits.bit[ball],
            self.action.spot if self._kind.frees else None,
            faults,
            screener_faults,
            bool(faults or screener_faults),
        )

    def _roll(self, effect: Effect, now: int, scene: Situation) -> Effect:
        """Add where the screener goes, the first of his movements that has somewhere to go."""
        screener = self.action.spot
        assert screener is not None
        stand = self._bits.spots_of(now)
        targets = (
            self._after_screen(movement, screener, stand, scene)
            for movement in self._rules.responses.get("ball_screen", {}).get("screener", ())
        )
        target = next((target for target in targets if target is not None), None)
        if target is None:
            found = self._made(effect.plan, effect.faults, (Fault("nowhere", screener, ("roll",)),))
        else:
            plan = {**effect.plan, screener: (target, "roll" if target in POSTS else "pop")}
            twice = (Fault("same_spot", target, (screener,)),) if target in stand else ()
            found = self._made(plan, effect.faults, twice)
        found.plan = effect.plan
        return found

    def _after_screen(
        self, movement: str, screener: str, now: frozenset[str], scene: Situation
    ) -> str | None:
        ring, home = self._formation.ring, self._formation.home
        posts = self._rules.posts_in(self._formation)
        if movement == "roll":
            side = scene.side
            assert side != "middle"
            order = roll_order(side, scene.baseline)
            return next((post for post in order if is_open(post, now, posts)), None)
        if movement == "pop":
            # To an empty perimeter spot: home spots first, then the nearest to the middle of the ring.
            middle = (len(ring) - 1) / 2
            empty = [i for i, spot in enumerate(ring) if spot not in now]
            empty.sort(key=lambda i: (ring[i] not in home, abs(i - middle), i))
            return ring[empty[0]] if empty else None
        return screener if screener in POSTS and is_open(screener, now, posts) else None
