"""Actions: what a ball handler, a screener or a cutter may do, as values with a text form.

The text form is the kind, then the spot, then the direction, joined by colons: ``pass:right_wing``,
``ball_screen:rim:right``, ``drive:left``, ``shot``. Reading and writing it round-trips.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from engine.errors import UnreadableAction
from engine.floor.formations import DIRECTIONS, FORMATIONS, LANE, POSTS, Direction
from engine.rules.catalogue import CATALOGUE, Kind
from engine.words.spoken import say

#: Every kind of action and the parts its text form carries after the kind.
KINDS: Final[dict[str, tuple[str, ...]]] = {name: kind.parts for name, kind in CATALOGUE.items()}
#: Those of the ball handler, and what a cutter may do.
BALL_ACTIONS: Final = {name: parts for name, parts in KINDS.items() if CATALOGUE[name].turn == "ball"}
LANE_CHOICES: Final = {name: parts for name, parts in KINDS.items() if CATALOGUE[name].turn == "lane"}

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
    def about(self) -> Kind:
        """What the catalogue says of its kind."""
        return CATALOGUE[self.kind]

    @property
    def is_lane_choice(self) -> bool:
        """Whether a cutter makes it rather than the ball handler."""
        return CATALOGUE[self.kind].turn == "lane"

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
        raise UnreadableAction(say("refusals.actions.no_action_here_write"))
    if kind not in KINDS:
        raise UnreadableAction(say("refusals.actions.cannot_read_no_action", text=_quoted(text)))
    wanted = KINDS[kind]
    if len(parts) != len(wanted):
        raise UnreadableAction(
            say("refusals.actions.cannot_read_write_as", text=_quoted(text), kind=form_of(kind))
        )
    values = dict(zip(wanted, parts, strict=True))
    spot, given = values.get("spot"), values.get("direction")
    if spot is not None and spot not in _SPOTS:
        raise UnreadableAction(
            say("refusals.actions.cannot_read_no_spot", text=_quoted(text), spot=_quoted(spot))
        )
    direction = next((known for known in DIRECTIONS if known == given), None)
    if given is not None and direction is None:
        raise UnreadableAction(say("refusals.actions.cannot_read_direction_left", text=_quoted(text)))
    return Action(kind, spot, direction)
