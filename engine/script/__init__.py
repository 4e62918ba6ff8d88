"""Scripted steps: a step that follows a drawing instead of the rules, such as an inbound from the sideline.

Kept as text, ``script:as=side;at=…;ball=1;go=…;do=…;on=…``. ``as`` is what it is for; ``at`` where everybody
stands at the start; ``ball`` who has the ball, or where it lies; each ``go`` a run, each ``do`` something
the ball does; ``on`` who ends on a spot, which means the same on every court. Lengths are whole centimetres
on the court (origin under the basket), times whole hundredths of a second from the start of the step.
"""

from engine.script.reading import read
from engine.script.values import (
    ACTORS,
    KINDS,
    PLAYERS,
    PREFIX,
    TEXT_MAX_CHARS,
    DrawnRun,
    Event,
    Script,
    check,
)

__all__ = (
    "ACTORS",
    "KINDS",
    "PLAYERS",
    "PREFIX",
    "TEXT_MAX_CHARS",
    "DrawnRun",
    "Event",
    "Script",
    "check",
    "read",
)
