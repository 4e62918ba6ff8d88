"""Actions: what a ball handler, a screener or a cutter may do, as values with a text form.

The text form is the kind, then the spot, then the direction, joined by colons: ``pass:right_wing``,
``ball_screen:rim:right``, ``drive:left``, ``shot``. Reading and writing it round-trips.
"""

from __future__ import annotations

from typing import Final, Literal, NamedTuple

from engine.errors import UnreadableAction
from engine.floor.formations import FORMATIONS, LANE, POSTS

Direction = Literal["left", "right"]
DIRECTIONS: Final[tuple[Direction, ...]] = ("left", "right")

#: Ball actions and, for each, the parts its text form carries after the kind.
BALL_ACTIONS: Final[dict[str, tuple[str, ...]]] = {
    "pass": ("spot",),
    "skip": ("spot",),
    "post_entry": ("spot",),
    "dribble_at": ("spot",),
    "hand_off": ("spot",),
    "dribble_to": ("spot",),
    "back_cut": ("spot",),
    "drive": ("direction",),
    "ball_screen": ("spot", "direction"),
    "kick_out": ("spot",),
    "high_low": ("spot",),
    "dump_off": ("spot",),
    "dribble_out": ("spot",),
    "cutter_pass": (),
    "hub_hand_off": ("spot",),
    "hub_back_cut": ("spot",),
    "face_up": ("direction",),
    "shot": (),
}

#: What a cutter may do, and the parts of its text form.
LANE_CHOICES: Final[dict[str, tuple[str, ...]]] = {
    "fill": ("spot",),
    "post_up": ("spot",),
    "back_screen": ("spot",),
    "flash": ("spot",),
    "post_screen": ("spot",),
    "help_screen": ("spot",),
    "follow": (),
}

KINDS: Final[dict[str, tuple[str, ...]]] = BALL_ACTIONS | LANE_CHOICES

_SPOTS: Final = frozenset(spot for f in FORMATIONS.values() for spot in f.ring) | set(POSTS) | set(LANE)


class Action(NamedTuple):
    """One action. ``spot`` is where the mate (or the empty place) is before it; ``ball_screen``'s is the
    screener's. ``direction`` is the offence's left or right, facing the basket.
    """

    kind: str
    spot: str | None = None
    direction: Direction | None = None

    @property
    def text(self) -> str:
        """The text form, as :func:`parse` reads it."""
        return ":".join(part for part in (self.kind, self.spot, self.direction) if part is not None)

    @property
    def is_lane_choice(self) -> bool:
        """Whether a cutter makes it rather than the ball handler."""
        return self.kind in LANE_CHOICES

    def __str__(self) -> str:
        return self.text


def _quoted(text: str) -> str:
    """Return ``text`` fit to stand in a sentence: quoted, on one line, at most 40 characters."""
    return repr(text if len(text) <= 40 else text[:37] + "...")


def form_of(kind: str) -> str:
    """Return the pattern of a kind's text form, for a sentence: ``ball_screen:SPOT:DIRECTION``."""
    return ":".join((kind, *(part.upper() for part in KINDS[kind])))


def parse(text: str) -> Action:
    """Read an action's text form.

    Raises ``UnreadableAction``, with a sentence that quotes the text and says what was expected.
    """
    kind, *parts = text.split(":")
    if not text:
        raise UnreadableAction("There is no action here: write one such as 'pass:right_wing'.")
    if kind not in KINDS:
        raise UnreadableAction(f"{_quoted(text)} cannot be read: there is no action of that name.")
    wanted = KINDS[kind]
    if len(parts) != len(wanted):
        raise UnreadableAction(f"{_quoted(text)} cannot be read: write it as {form_of(kind)}.")
    values = dict(zip(wanted, parts, strict=True))
    spot, given = values.get("spot"), values.get("direction")
    if spot is not None and spot not in _SPOTS:
        raise UnreadableAction(f"{_quoted(text)} cannot be read: there is no spot named {_quoted(spot)}.")
    direction = next((known for known in DIRECTIONS if known == given), None)
    if given is not None and direction is None:
        raise UnreadableAction(f"{_quoted(text)} cannot be read: a direction is left or right.")
    return Action(kind, spot, direction)
