"""What a coach can choose of a paper, read from the address."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final
from urllib.parse import urlencode

from marshmallow import Schema, ValidationError, fields

from engine.motion.speeds import BREATH_S
from engine.words.spoken import listed, say
from webapp.base.fields import complaints
from webapp.paper.floor import View
from webapp.paper.paper import GRIDS, PAPERS, Grid, grid
from webapp.wire import schemas
from webapp.wire.refusals import Refused

#: Steps on one set of papers; and in one picture, where they have to be told apart on a phone.
STEPS_MAX: Final = 120
PICTURE_STEPS_MAX: Final = 60

_DIGITS: Final = 4


class _Whole(fields.String):
    """A whole number as it stands in an address: digits, and few of them."""

    def __init__(self, least: int, **given: Any) -> None:
        super().__init__(**given)
        self._least = least

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> Any:
        text = super()._deserialize(value, attr, data, **given)
        if text == "":
            return None
        if not (text.isascii() and text.isdigit() and len(text) <= _DIGITS) or int(text) < self._least:
            raise ValidationError(say("paper.options.must_whole_number_from", least=self._least))
        return int(text)


class _OneOf(fields.String):
    def __init__(self, words: tuple[str, ...], **given: Any) -> None:
        super().__init__(**given)
        self._words = words

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> Any:
        text = super()._deserialize(value, attr, data, **given)
        if text not in self._words:
            raise ValidationError(say("refusals.fields.must_one", choices=listed(self._words, "comma")))
        return text


_SWITCH: Final = ("0", "1")
_SWITCHES: Final = ("large", "mirror", "turn", "names", "every")
#: Of a moving picture: everybody arrives before the next action, or it begins when the handler is ready.
PACES: Final = ("taught", "game")


class _Options(Schema):
    board = fields.String(validate=schemas.ID)
    chain = fields.String(validate=schemas.ID)
    end = _Whole(1, load_default=None)
    paper = _OneOf(tuple(PAPERS), load_default="a4")
    per = _OneOf(tuple(map(str, GRIDS)), load_default="4")
    large = _OneOf(_SWITCH, load_default="0")
    mirror = _OneOf(_SWITCH, load_default="0")
    turn = _OneOf(_SWITCH, load_default="0")
    names = _OneOf(_SWITCH, load_default="0")
    every = _OneOf(_SWITCH, load_default="0")
    pace = _OneOf(PACES, load_default=PACES[0])
    first = _Whole(1, load_default=None)
    last = _Whole(1, load_default=None)
    page = _Whole(1, load_default=None)
    step = _Whole(0, load_default=None)


_OPTIONS: Final = _Options()


@dataclass(frozen=True, slots=True)
class Options:
    """What was chosen. ``chain``: of the playbook, ``None`` for what is on the board.

    ``end``: the node of its tree that a line ends in, ``None`` for its main line. ``first`` and ``last``: the
    steps wanted, ``None`` for all. ``every``: a call sheet goes on with all diagrams of each play.
    ``page``: of a preview. ``step``: of a picture, 0 for the start.
    """

    chain: str | None = None
    end: int | None = None
    paper: str = "a4"
    per: int = 4
    large: bool = False
    mirror: bool = False
    turn: bool = False
    names: bool = False
    every: bool = False
    pace: str = PACES[0]
    first: int | None = None
    last: int | None = None
    page: int | None = None
    step: int | None = None

    @property
    def grid(self) -> Grid:
        """How the diagrams lie on a page."""
        return grid(self.per, self.large)

    @property
    def breath(self) -> float | None:
        """How long all stand before the next action of a moving picture, seconds; ``None`` at game pace."""
        return BREATH_S if self.pace == PACES[0] else None

    @property
    def view(self) -> View:
        """How the floor is looked at."""
        return View(self.turn, self.mirror)

    def query(self, **more: int) -> str:
        """Return the same choice, and ``more``, as the query of an address."""
        kept: dict[str, object] = {"chain": self.chain, "end": self.end, "paper": self.paper, "per": self.per}
        kept |= {name: 1 for name in _SWITCHES if getattr(self, name)}
        kept |= {"first": self.first, "last": self.last, **more}
        kept |= {"pace": None if self.pace == PACES[0] else self.pace}
        return urlencode({name: value for name, value in kept.items() if value is not None})


def read(query: Mapping[str, str]) -> Options:
    """Read the options in an address. Raises ``Refused`` with the first thing that is wrong."""
    try:
        given: dict[str, Any] = _OPTIONS.load(query)
    except ValidationError as error:
        where, sentence = next(complaints(error.messages))
        raise Refused(
            "bad_form",
            why=say("paper.options.address", where=where, sentence=sentence[0].lower() + sentence[1:]),
        ) from None
    given.pop("board", None)
    given["per"] = int(given["per"])
    for name in _SWITCHES:
        given[name] = given[name] == "1"
    return Options(**given)


def chosen(options: Options, total: int) -> tuple[int, int]:
    """Return the first and last step wanted of a chain of ``total``; as many as go together if none is named.

    Raises ``Refused`` (``bad_form``).
    """
    first = options.first or 1
    last = min(total, first + STEPS_MAX - 1) if options.last is None else options.last
    if total and not first <= last <= total:
        why = say("paper.options.chain_has_steps_choose", total=total)
        raise Refused("bad_form", why=why)
    _few(first, last, STEPS_MAX)
    return first, min(last, total)


def pictured(first: int, last: int) -> None:
    """Raise ``Refused`` (``bad_form``) if these are more steps than one picture has room for."""
    _few(first, last, PICTURE_STEPS_MAX)


def _few(first: int, last: int, most: int) -> None:
    if last - first >= most:
        why = say("paper.options.at_most_steps_go", most=most)
        raise Refused("bad_form", why=why)
