"""Rules of the clock that no chain by rule of today needs, on steps made for them: a tap may come early."""

from __future__ import annotations

import pytest

from engine.floor.court import half_court, places
from engine.floor.formations import FIVE_OUT
from engine.floor.paths import line
from engine.motion.clock import append
from engine.motion.film import Film, standing
from engine.motion.values import BallEvent, Run, Timeline

SPOTS = places(half_court("fiba"), FIVE_OUT)
PLAYER = {spot: number for number, spot in FIVE_OUT.start}
WAY = line(SPOTS["right_wing"], SPOTS["right_corner"])


def begun() -> Film:
    return standing({number: SPOTS[spot] for spot, number in PLAYER.items()}, PLAYER["top"])


def step(ready: float, runs: tuple[Run, ...] = (), ball: tuple[BallEvent, ...] = ()) -> Timeline:
    end = max([ready, *(run.end for run in runs), *(event.end for event in ball)])
    return Timeline(ready, end, runs, ball, "top", SPOTS)


def test_a_step_waits_until_the_ball_has_reached_its_handler() -> None:
    film = begun()
    append(film, step(0.2, ball=(BallEvent("pass", 0.0, 1.0, "top", "right_wing"),)), PLAYER)
    append(film, step(1.0, (Run("right_wing", 0.1, 1.0, WAY, "dribble"),)), PLAYER)
    assert film.cues[1].start == pytest.approx(0.9)


def test_a_pass_waits_for_a_giver_who_starts_late() -> None:
    film = begun()
    append(film, step(0.0, (Run("top", 0.0, 2.0, WAY, "dribble"),)), PLAYER)
    thrown = BallEvent("pass", 0.5, 1.0, "top", "left_wing")
    append(film, step(1.0, (Run("top", 0.0, 0.4, WAY, "dribble"),), (thrown,)), PLAYER)
    assert film.tosses[-1].start == pytest.approx(2.5)
    assert film.cues[1].ready == pytest.approx(3.0)
