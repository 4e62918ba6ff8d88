"""What seeds have found, as short as it can be told: what must hold, and the steps that once broke it."""

from __future__ import annotations

from typing import Final

from e2e.fuzz.script import Step

FOUND: Final[dict[str, list[Step]]] = {
    # The device kept what it had last seen taken back, and brought that back on somebody else's line.
    "redo brings back what lies ahead of the line that is on the board": [
        ("act", "ann", 1.0, 0.3),
        ("act", "ann", 1.0, 0.3),
        ("act", "ann", 0.0, 0.6),
        ("act", "ann", 1.0, 0.5),
        ("undo", "ann"),
        ("calm",),
        ("open", "ann", True, 0.3, 0.4),
        ("calm",),
        ("redo", "bo"),
        ("calm",),
    ],
    # Counts of changes fitted by chance, and the second of two taps was shown on top of another coach's.
    "what follows on something that was not done is not shown": [
        ("act", "ann", 1.0, 0.1),
        ("calm",),
        ("stall", "ann"),
        ("act", "ann", 1.0, 0.7),
        ("act", "ann", 1.0, 0.3),
        ("act", "ann", 1.0, 0.3),
        ("act", "bo", 1.0, 0.2),
        ("back", "ann"),
        ("calm",),
    ],
    # The screen forgot what lay ahead although the same step was played again.
    "a step played again leaves the rest of its line ahead": [
        ("act", "ann", 1.0, 0.3),
        ("act", "ann", 1.0, 0.3),
        ("undo", "ann"),
        ("undo", "ann"),
        ("calm",),
        ("cut", "ann"),
        ("act", "ann", 1.0, 0.3),
        ("redo", "ann"),
        ("back", "ann"),
        ("calm",),
    ],
    # The line had died without a word, so he went on in the formation he had changed.
    "what is played after another formation is chosen is played in it": [
        ("act", "ann", 1.0, 0.3),
        ("calm",),
        ("mute", "ann"),
        ("form", "ann", 0.9),
        ("act", "ann", 1.0, 0.3),
        ("act", "ann", 1.0, 0.3),
        ("back", "ann"),
        ("calm",),
    ],
    # Said to be for later by a server on its way out, a tap was not sent to the next one.
    "a tap that a server on its way out refuses goes to the next one": [
        ("act", "ann", 1.0, 0.3),
        ("calm",),
        ("kill", "followed"),
        ("act", "ann", 1.0, 0.3),
        ("act", "bo", 1.0, 0.6),
        ("start",),
        ("calm",),
    ],
}
