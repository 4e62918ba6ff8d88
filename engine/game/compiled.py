"""A formation and a rule set, compiled: what may be chosen where, and what it does, by bits of spots."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from engine.floor.alignment import Alignment
from engine.floor.formations import Formation, Side
from engine.floor.spot_bits import bits_of
from engine.game.candidates import Candidates
from engine.game.effects import ActionEffects
from engine.game.steps import Step
from engine.rules.actions import Action
from engine.rules.responses import Fault, Inside
from engine.rules.rule_sets import RuleSet

Outcomes = tuple[tuple[Step, ...], tuple[tuple[Action, Fault], ...]]

#: Values are made by the thousand: what a named tuple's own maker does besides takes longer than making it.
_new: Final = tuple.__new__


class Game:
    """A formation and a rule set, compiled: what may be chosen, and what it does, by bits of spots."""

    def __init__(self, formation: Formation, rules: RuleSet) -> None:
        self._formation, self._rules = formation, rules
        self._bits = bits = bits_of(formation)
        self._candidates: dict[tuple[str, str | None], tuple[Candidates, dict[int, ActionEffects]]] = {}
        self._post_tables: dict[tuple[str, Side], dict[int, Inside] | None] = {}
        lanes = [spot for spot in bits.names if bits.bit[spot] & bits.lane]
        #: Who is in the lane without the ball is the cutter.
        self._cutters: dict[int, str | None] = {0: None} | {bits.bit[spot]: spot for spot in lanes}

    def outcomes(self, alignment: Alignment) -> Outcomes:
        """Return the steps of the legal actions, and the faults of those that fail; none once it is over."""
        occupied, ball, cutter, is_over, _ = alignment
        if is_over:
            return (), ()
        mask = self._bits.mask_of(occupied)
        candidates, effects = self._at(ball, cutter)
        spots_of, lane, cutters = self._bits.spots_of, self._bits.lane, self._cutters
        made: list[Step] = []
        faults: list[tuple[Action, Fault]] = []
        for number in candidates.found(mask):
            done = effects.get(number) or self._effects(number, ball, cutter)
            effect = done.effect(mask)
            then = (mask & effect.stay) | effect.come
            if effect.is_faulty or then.bit_count() < 5 or (then & lane).bit_count() > 1:
                faults += [(done.action, fault) for fault in done.faults(mask, effect)]
                continue
            move = effect.ball_move
            over = move[0] == "shot"
            then_cutter = cutter if over else cutters[then & effect.lane]
            after = _new(Alignment, (spots_of(then), effect.ball, then_cutter, over, effect.freed))
            made.append(_new(Step, (alignment, done.action, after, effect.moves, move)))
        return tuple(made), tuple(faults)

    def _at(self, ball: str, cutter: str | None) -> tuple[Candidates, dict[int, ActionEffects]]:
        found = self._candidates.get((ball, cutter))
        if found is None:
            made = Candidates(ball, cutter, self._formation, self._rules)
            found = self._candidates[ball, cutter] = made, {}
        return found

    def _effects(self, number: int, ball: str, cutter: str | None) -> ActionEffects:
        candidates, effects = self._at(ball, cutter)
        action = candidates.actions[number]
        found = effects[number] = ActionEffects(
            action, ball, cutter, self._formation, self._rules, self._post_tables
        )
        return found


#: How many are kept: one of which every position has been seen takes some 20 MB.
_KEPT: Final = 16


@lru_cache(maxsize=_KEPT)
def compiled(formation: Formation, rules: RuleSet) -> Game:
    """Return a formation and a rule set compiled; their tables fill as positions are met."""
    return Game(formation, rules)
