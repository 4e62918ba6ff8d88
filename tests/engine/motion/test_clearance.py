"""Team-mates keep clear of one another, whatever is played."""

from __future__ import annotations

from engine.floor.standards import STANDARDS
from engine.motion.clearance import CLEAR_M, SHOULDER_M, Memory, clashes, exempt
from tests.engine.motion.conftest import Floor
from tests.engine.motion.reachable import FLOORS, distance


def test_nobody_comes_within_sixty_centimetres_of_a_team_mate(floor: Floor) -> None:
    assert CLEAR_M == 0.6
    memory = Memory()
    found = [
        f"{one.name}: {clash.one} and {clash.other} {clash.metres:.2f} m apart at {clash.time:.2f} s"
        for one in floor.played
        for clash in clashes(one.line, one.around, exempt(one.steps), clear=0.6, every=0.05, memory=memory)
    ]
    assert not found, "\n".join(found[:20])


def test_all_courts_are_looked_at() -> None:
    assert {court for _, court in FLOORS} == set(STANDARDS)


def test_only_screener_and_user_giver_and_receiver_may_be_closer(floor: Floor) -> None:
    for one in floor.played:
        kinds = {step.action.kind for step in one.steps}
        if not kinds & {"ball_screen", "back_screen", "hand_off"}:
            assert not exempt(one.steps), one.name
        assert len(exempt(one.steps)) <= 1, one.name


def test_a_clash_is_seen_by_a_plain_look_at_the_positions(floor: Floor) -> None:
    # The checker itself against the timeline's own positions, on every fortieth timeline.
    for one in floor.played[::40]:
        near = {frozenset((c.one, c.other)) for c in clashes(one.line, one.around, frozenset(), clear=1.5)}
        everybody = sorted({*one.line.runs_of, *one.around})
        times = [tick * 0.05 for tick in range(int(one.line.end / 0.05) + 2)]
        where = {who: [one.line.position(who, t) for t in times] for who in everybody}
        plain = set()
        for i, a in enumerate(everybody):
            for b in everybody[i + 1 :]:
                runs = a in one.line.runs_of or b in one.line.runs_of
                if runs and min(map(distance, where[a], where[b])) < 1.5 - 1e-9:
                    plain.add(frozenset((a, b)))
        assert near == plain, one.name


def test_those_who_meet_do_not_run_through_each_other(floor: Floor) -> None:
    seen = set()
    for one in floor.played:
        for pair in exempt(one.steps):
            a, b = sorted(pair)
            meeting = a, b, one.line.runs_of.get(a), one.line.runs_of.get(b)
            if meeting in seen:
                continue  # as in another timeline
            seen.add(meeting)
            times = [tick * 0.05 for tick in range(int(one.line.end / 0.05) + 2)]
            gap = min(distance(one.line.position(a, t), one.line.position(b, t)) for t in times)
            assert gap >= SHOULDER_M - 0.02, one.name
