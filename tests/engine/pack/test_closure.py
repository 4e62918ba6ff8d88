"""A pack covers every valid alignment and all that follows, counted and found by other routes."""

from __future__ import annotations

import random
from functools import cache
from itertools import combinations
from math import comb

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.floor.alignment import Alignment, problems
from engine.floor.court import half_court, spots
from engine.floor.formations import CROWDS, FORMATIONS, OPEN_LANE, POSTS, Formation
from engine.game.closure import recoverable, valid
from engine.game.recover import nearest_open, recover
from engine.rules.rule_sets import DEFAULT
from tests.engine.pack.worlds import LOPSIDED, WORLDS, World, closed
from tests.graphs import reach

FIBA = half_court("fiba")
FORMATIONS_ALL = [*FORMATIONS.values(), LOPSIDED.formation]
formations = st.sampled_from(FORMATIONS_ALL)
places = st.tuples(st.floats(-7.5, 7.5), st.floats(-1.5, 12.0))
worlds = pytest.mark.parametrize("world", WORLDS, ids=lambda world: world.name)


@cache
def all_of(formation: Formation) -> tuple[Alignment, ...]:
    """Return every valid alignment of a formation by the default rules."""
    return tuple(valid(formation, DEFAULT))


@cache
def set_of(formation: Formation) -> frozenset[Alignment]:
    return frozenset(all_of(formation))


@cache
def recoveries(formation: Formation) -> frozenset[frozenset[str]]:
    """Return the sets of spots a recovery may lead to."""
    return frozenset(map(frozenset, recoverable(formation, DEFAULT)))


@pytest.mark.parametrize("formation", FORMATIONS_ALL, ids=lambda formation: formation.name)
def test_there_are_as_many_valid_alignments_as_combinatorics_has(formation: Formation) -> None:
    crowding = nx.Graph((a, b) for a, others in CROWDS.items() for b in others)
    apart = nx.complement(crowding.subgraph(POSTS))
    sets = [0] * (len(POSTS) + 1)
    sets[0] = 1
    for chosen in nx.enumerate_all_cliques(apart):
        sets[len(chosen)] += 1
    ring = len(formation.ring)

    def standing(players: int) -> int:
        """In how many ways players stand on the ring and on posts that do not crowd each other."""
        return sum(sets[posts] * comb(ring, players - posts) for posts in range(formation.posts + 1))

    # Any of the five has the ball; whoever is alone in the lane without it is the cutter.
    expected = 5 * standing(5) + len(OPEN_LANE) * 5 * standing(4)
    found = list(valid(formation, DEFAULT))
    assert len(found) == len(set(found)) == expected


def test_valid_is_what_has_no_problem_and_crowds_nobody() -> None:
    formation = FORMATIONS["three_out_two_in"]
    found = set()
    for spots_of in combinations((*formation.ring, *POSTS, *OPEN_LANE), 5):
        if any(b in CROWDS.get(a, ()) for a, b in combinations(set(spots_of) & set(POSTS), 2)):
            continue
        for ball in spots_of:
            for cutter in (None, *OPEN_LANE):
                alignment = Alignment(frozenset(spots_of), ball, cutter)
                if not problems(alignment, formation):
                    found.add(alignment)
    assert set(valid(formation, DEFAULT)) == found


@worlds
def test_whatever_can_be_reached_from_the_start_is_in_it(world: World) -> None:
    live = [one for one in reach(world.formation, rules=world.rules).alignments if not one.over]
    assert closed(world).keys() >= set(live)


@worlds
def test_it_is_closed(world: World) -> None:
    found = closed(world)
    assert all(step.after.over or step.after in found for steps in found.values() for step in steps)


@settings(max_examples=60, deadline=None)
@given(formations, st.lists(places, min_size=5, max_size=5), st.integers(1, 5))
def test_a_recovery_leads_into_it(formation: Formation, where: list[tuple[float, float]], ball: int) -> None:
    position = recover(dict(enumerate(where, start=1)), ball, FIBA, formation)
    assert position.alignment in set_of(formation)
    assert position.alignment.occupied in recoveries(formation)


@settings(max_examples=60, deadline=None)
@given(formations, st.integers(0, 2**32), places)
def test_a_player_dragged_away_leads_into_it(
    formation: Formation, seed: int, place: tuple[float, float]
) -> None:
    dice = random.Random(seed)
    alignment = dice.choice(all_of(formation))
    lost = dice.choice(sorted(alignment.occupied))
    others = alignment.occupied - {lost}
    spot = nearest_open(Alignment(others, alignment.ball), place, FIBA, formation)
    cutter = None if lost == alignment.cutter else alignment.cutter
    ball = spot if lost == alignment.ball else alignment.ball
    assert Alignment(others | {spot}, ball, cutter) in set_of(formation)


def test_no_two_of_those_who_recover_stand_too_near_to_each_other() -> None:
    for formation in FORMATIONS_ALL:
        floor = spots(FIBA, formation)
        for five in recoverable(formation, DEFAULT):
            for a, b in combinations(five, 2):
                # Twice what team-mates keep apart at the least.
                assert abs(complex(*floor[a]) - complex(*floor[b])) > 1.2, (formation.name, a, b)
