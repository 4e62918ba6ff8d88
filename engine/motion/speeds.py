"""How fast players and the ball move, and how long people take to react: named figures with their sources.

Speeds in metres a second, times in seconds, lengths in metres, all at level 1.0. A lower level divides every
duration and delay by the same number, so routes and clearances do not depend on it.

"Tracking" below: measured on 3,425 half-court clips of open professional tracking data (2015-16, ball and
ten players every 0.12 s), offence holding the ball; p10, p50, p90.
"""

from __future__ import annotations

from typing import Final

from engine.errors import QuintetError

#: Levels that may be chosen: 0.75 (young) to 1.0 (tracking). Common practice, no source.
LEVELS: Final[tuple[float, ...]] = (0.75, 0.8, 0.85, 0.9, 0.95, 1.0)

#: A table of (length of the run, its mean speed), rising; between two lengths the speed is interpolated.
Pace = tuple[tuple[float, float], ...]

#: Off the ball. Tracking, moves of 3 m or more: mean speed 2.1, 2.8, 3.6. That longer moves are faster and
#: shorter ones slower, within these limits: common practice, no source.
OFF_BALL: Final[Pace] = ((1.0, 1.7), (3.0, 2.4), (5.5, 2.8), (9.0, 3.1), (15.0, 3.6))

#: Cuts. Tracking, cut to the rim from over 5.5 m: mean speed 2.4, 3.0, 3.8 in 1.6, 2.3, 3.8 s.
CUT: Final[Pace] = ((2.0, 2.3), (5.5, 3.0), (9.0, 3.3))

#: Drives. Tracking, from 5.5 m to the rim: mean speed 2.6, 3.75, 4.6 in 1.1, 1.4, 2.0 s.
DRIVE: Final[Pace] = ((2.0, 2.6), (5.5, 3.75), (9.0, 4.0))

#: Dribbling from spot to spot: not measured; a little below OFF_BALL. Common practice, no source.
DRIBBLE: Final[Pace] = ((1.0, 1.7), (3.0, 2.3), (5.5, 2.7), (9.0, 3.0))

#: The ball in the air. Tracking, median ball speed of passes of 2-4, 4-6, 6-8, 8-10 and 10-13 m, given here
#: at the middle of each.
BALL: Final[Pace] = ((3.0, 8.2), (5.0, 9.8), (7.0, 10.9), (9.0, 11.5), (11.5, 12.1))

#: From seeing to moving: visual reaction 0.2 to 0.3 s (from memory).
REACTION_S: Final = 0.25

#: From letting go of a pass to the passer's first step. Common practice, no source.
FOLLOW_THROUGH_S: Final = 0.15

#: From a catch to the handler's next action. Tracking: p10 0.5, p50 1.4; the coach's tap is the rest.
CATCH_S: Final = 0.5

#: A handler who holds the ball while a cutter chooses is ready almost at once.
HOLD_READY_S: Final = 0.3

#: How long a screen has been set, at the least, when the player it is for goes past it.
SCREEN_SET_S: Final = 0.3

#: From being passed, or from handing the ball over, to leaving the place. Common practice, no source.
RELEASE_S: Final = 0.1

#: So long after a player has left a spot, the one who follows him there arrives. Common practice, no source.
LEFT_S: Final = 0.5

#: At taught pace everybody stands on his spot for so long before the next action begins. Common practice, no
#: source.
BREATH_S: Final = 0.5

#: A defender who keeps to his man ends so far from him toward the basket, metres; near the basket it is this
#: share of his man's distance. Common practice, no source.
GUARD_M: Final = 1.4
GUARD_SHARE: Final = 0.6

#: A pass is not thrown before its receiver is this near the end of his run, metres along it.
REACH_M: Final = 1.0

#: How long a ball takes from hand to hand, at every level: it is shown so, and nobody runs meanwhile for its
#: sake. Common practice, no source. The same holds of all that follows but for the shot.
HAND_S: Final = 0.18

#: Giver and taker of a hand-off are this close when it changes hands, metres, and are waited for so long; how
#: finely they are looked at. Common practice, no source.
ARM_M: Final = 0.9
MEET_WITHIN_S: Final = 3.0
LOOK_S: Final = 0.04

#: Fastest the ball flies between players who were held up, metres a second: above what tracking shows of
#: passes (see BALL), so that it is only ever a limit.
BALL_MOST_M_S: Final = 15.0

#: How long everybody takes to where he was put by hand, or to where a drawing begins: shown, not run.
STRAY_S: Final = 0.4

#: A ball is on its way so long where a drawing has it take no time, to be seen at all.
SEEN_S: Final = 0.12

#: The beginning of a drawing is shown this long after it at the least: what has not begun is not looked at.
GLANCE_S: Final = 0.01

#: Who is so near to his spot does not run there; who is so near to where a drawing has him is there. Metres.
THERE_M: Final = 0.05
PLACED_M: Final = 0.01

#: A shot's flight: so long, and so much longer for each metre. A free flight from 6.75 m at 50 degrees
#: takes about 1.1 s, from under the ring about half a second (reckoned from gravity alone).
SHOT_S: Final = 0.4
SHOT_S_PER_M: Final = 0.1


def mean_speed(pace: Pace, length: float) -> float:
    """Return the mean speed over ``length`` metres; beyond the ends of the table, that of its end."""
    below = pace[0]
    if length <= below[0]:
        return below[1]
    for above in pace[1:]:
        if length <= above[0]:
            part = (length - below[0]) / (above[0] - below[0])
            return below[1] + part * (above[1] - below[1])
        below = above
    return below[1]


def duration(pace: Pace, length: float) -> float:
    """Return the seconds a run, or a pass, of ``length`` metres takes."""
    return length / mean_speed(pace, length)


def check_level(level: float) -> float:
    """Return ``level``; raise ``QuintetError`` unless it is from 0.75 to 1.0."""
    if not LEVELS[0] <= level <= LEVELS[-1]:
        raise QuintetError(f"The level must be between {LEVELS[0]} and {LEVELS[-1]}, not {level:g}.")
    return level
