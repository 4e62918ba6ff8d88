"""The figures a screen plays by, written as a module for it: ``python -m engine.motion.figures``.

No figure of time, speed or reach is written by hand in two places: ``static/js/steps/figures.js`` is what
this prints, and a test holds it to that.
"""

from __future__ import annotations

import json
from typing import Final

from engine.motion import profile, speeds

_HEAD: Final = """/**
 * Figures of the engine (engine/motion/speeds.py says what each is and where it comes from), in centimetres
 * and seconds. Written by `python -m engine.motion.figures`: not to be changed here.
 */
"""

#: What the screen calls it, and the figure; lengths in whole centimetres.
_FIGURES: Final = {
    "RAMP": profile.RAMP,
    "REACH": round(speeds.REACH_M * 100),
    "HAND": speeds.HAND_S,
    "ARM": round(speeds.ARM_M * 100),
    "MEET_WITHIN": speeds.MEET_WITHIN_S,
    "LOOK": speeds.LOOK_S,
    "BALL_MOST": round(speeds.BALL_MOST_M_S * 100),
    "BREATH": speeds.BREATH_S,
    "GUARD": round(speeds.GUARD_M * 100),
    "GUARD_SHARE": speeds.GUARD_SHARE,
    "STRAY": speeds.STRAY_S,
    "SEEN": speeds.SEEN_S,
    "THERE": round(speeds.THERE_M * 100),
    "GLANCE": speeds.GLANCE_S,
    "PLACED": round(speeds.PLACED_M * 100),
    "FOLLOW_THROUGH": speeds.FOLLOW_THROUGH_S,
    "SHOT": speeds.SHOT_S,
    "SHOT_PER_M": speeds.SHOT_S_PER_M,
}

#: Mean speed over a length, metres and metres a second, rising; between two lengths it is interpolated.
_PACES: Final = {"run": speeds.OFF_BALL, "dribble": speeds.DRIBBLE, "ball": speeds.BALL}


def module() -> str:
    """Return the module."""
    lines = [f"export const {name} = {json.dumps(value)};" for name, value in _FIGURES.items()]
    paces = [f"  {name}: {json.dumps(pace)}," for name, pace in _PACES.items()]
    about = "/** Mean speed over a length: metres, metres a second; interpolated between two lengths. */"
    return "\n".join((_HEAD + "\n".join(lines), about, "export const PACES = {", *paces, "};", ""))


if __name__ == "__main__":
    print(module(), end="")
