"""The catalogue: everything that is known of each kind of action, one record a kind.

Whoever asks what may be done, what it does, how it is marked on the court or where it stands in the list
asks here; no other module asks which kind it is. What rules may say of it stands under its triggers in
:mod:`engine.rules.vocabulary`, its words in ``engine/locales``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

from engine.rules import conditions as c
from engine.rules import scenes as s
from engine.rules.conditions import Condition
from engine.rules.roles import Situation
from engine.rules.views import View
from engine.words.spoken import Said

if TYPE_CHECKING:
    from engine.rules.actions import Action


class Mark(NamedTuple):
    """How an action is marked on the court: by which kind of ``sign``, where, and which way it points.

    ``at`` and ``toward``: the mate or the spot it names, the ball, the basket, the cutter (``cutter``), the
    handler's or the cutter's ``way`` there, or to one ``side``. Who can be tapped himself has a ``disc``.
    """

    sign: Literal["disc", "spot", "post", "shot", "drive", "dribble", "hand", "cut", "screen"]
    at: Literal["mate", "spot", "ball", "basket", "cutter", "way"]
    toward: Literal["", "mate", "spot", "ball", "basket", "outside", "side"] = ""


NO_RESPONSE: Final = Said("refusals.catalogue.teams_rules_have_no")


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of action.

    ``turn``: the ball handler's or a waiting cutter's. ``parts``: what its text form carries after the kind.
    ``conditions``: when it may be chosen, whatever the responses to it. ``does``: its scene. ``ball``: what
    the ball does. ``mark``: on the court. ``taker``: who has the ball then. ``chooser``: whose choice it is,
    so that he needs the licence; ``is_always``: it needs none and cannot be left out. ``triggers``: what the
    others may respond to. ``says``: the phrase of the player with the ball. ``has_screener``: the mate it
    names screens for the ball and goes where the rules send him. ``frees``: that mate's next catch is a free
    one. ``unanswered``: said where the rules leave it no clear response.
    """

    turn: Literal["ball", "lane"]
    parts: tuple[str, ...]
    conditions: tuple[Condition, ...]
    does: Callable[[View, Action], Situation]
    ball: Literal["pass", "hand_off", "dribble", "hold", "shot"]
    mark: Mark
    taker: Literal["handler", "mate", "cutter"] = "handler"
    chooser: Literal["handler", "mate", "cutter"] = "handler"
    triggers: tuple[str, ...] = ()
    says: str = "keep"
    is_always: bool = False
    has_screener: bool = False
    frees: bool = False
    unanswered: Said = NO_RESPONSE


_TO: Final = ("spot",)
_WAY: Final = ("direction",)
_DRIVES: Final = ("middle_drive", "baseline_drive")
_OPEN_POST: Final = (c.WAITING, c.POST_SPOT, c.POST_FREE, c.POST_CLEAR, c.POST_ROOM)
_EMPTY: Final = (c.RING_SPOT, c.EMPTY)
_RING_MATE: Final = (c.RING_SPOT, c.SOMEBODY, c.NOT_THE_BALL)
_POST_MATE: Final = (c.POST_SPOT, c.SOMEBODY, c.NOT_THE_BALL)
_NEXT_MATE: Final = (c.NOBODY_WAITS, *_RING_MATE, c.BALL_ON_RING, c.NEXT)
_HUB_MATE: Final = (c.NOBODY_WAITS, *_RING_MATE, c.BALL_AT_HUB, c.SAME_SIDE)
_SCREENER: Final = (c.SCREENS_AS_CUTTER, c.SCREENER_SPOT, c.SOMEBODY, c.NOT_THE_BALL)


def _lane(
    conditions: tuple[Condition, ...],
    does: Callable[[View, Action], Situation],
    mark: Mark,
    is_always: bool = False,
    frees: bool = False,
) -> Kind:
    """Return a lane choice about a spot, while the ball is held."""
    made = Kind("lane", _TO, conditions, does, "hold", mark, chooser="cutter")
    return replace(made, is_always=is_always, frees=frees)


def _pass(name: str, conditions: tuple[Condition, ...], says: str = "pass_cut") -> Kind:
    """Return a pass to the mate it names, who is tapped himself."""
    allowed, disc = (c.NOBODY_WAITS, *conditions), Mark("disc", "mate")
    return Kind("ball", _TO, allowed, s.passed, "pass", disc, "mate", triggers=(name,), says=says)


# fmt: off
#: Every kind, in the order they stand in the list of what may be done: what is done most comes first.
CATALOGUE: Final[Mapping[str, Kind]] = MappingProxyType({
    "fill": _lane((c.WAITING, *_EMPTY), s.goes, Mark("spot", "spot"), is_always=True),
    "post_up": _lane(_OPEN_POST, s.goes, Mark("post", "spot")),
    "flash": _lane((*_OPEN_POST, c.BALL_ON_RING, c.SAME_SIDE, c.HUB_SPOT), s.goes,
                   Mark("cut", "way", "spot")),
    "back_screen": _lane((c.WAITING, *_RING_MATE), s.screens_for, Mark("screen", "mate", "basket")),
    "post_screen": _lane((c.WAITING, *_POST_MATE), s.screens_for, Mark("screen", "mate", "basket")),
    "help_screen": _lane((c.WAITING, *_RING_MATE, c.BALL_ON_RING, c.FURTHER, c.HELP_POST), s.screens_help,
                         Mark("screen", "mate", "outside"), frees=True),
    "follow": Kind("lane", (), (c.WAITING, c.BALL_ON_RING), s.follows, "hand_off",
                   Mark("hand", "cutter", "ball"), "cutter", "cutter", says="hand_off"),
    "cutter_pass": Kind("ball", (), (c.WAITING,), s.cutter_passed, "pass", Mark("disc", "mate"), "cutter",
                        triggers=("cutter_catch",), says="pass_cut"),
    "pass": _pass("pass", (*_RING_MATE, c.BALL_ON_RING, c.ONE_PASS)),
    "skip": _pass("skip", (*_RING_MATE, c.BALL_ON_RING, c.OVER_A_MATE), "skip_cut"),
    "post_entry": _pass("post_entry", (*_POST_MATE, c.BALL_ON_RING, c.SAME_SIDE, c.SHORT_ENOUGH), "feed_cut"),
    "kick_out": _pass("kick_out", (*_RING_MATE, c.BALL_INSIDE), says="kick_cut"),
    "high_low": _pass("high_low", (*_POST_MATE, c.BALL_AT_POST)),
    "dump_off": _pass("dump_off", (*_POST_MATE, c.BALL_IN_LANE)),
    "drive": Kind("ball", _WAY, (c.NOBODY_WAITS, c.BALL_ON_RING), s.driven, "dribble",
                  Mark("drive", "ball", "basket"), triggers=_DRIVES, says="drive"),
    "face_up": Kind("ball", _WAY, (c.NOBODY_WAITS, c.BALL_AT_HUB), s.faced_up, "dribble",
                    Mark("drive", "ball", "basket"), triggers=("face_up",), says="face_up"),
    "shot": Kind("ball", (), (), s.shot, "shot", Mark("shot", "basket"), triggers=("shot",), says="shoot",
                 is_always=True),
    "hand_off": Kind("ball", _TO, _NEXT_MATE, s.handed_off, "hand_off", Mark("hand", "way", "mate"), "mate",
                     triggers=("hand_off",), says="hand_off"),
    "hub_hand_off": Kind("ball", _TO, _HUB_MATE, s.hub_handed_off, "hand_off", Mark("hand", "way", "mate"),
                         "mate", triggers=("hub_hand_off",), says="hand_off"),
    "dribble_at": Kind("ball", _TO, _NEXT_MATE, s.dribbled_at, "dribble", Mark("dribble", "way", "mate"),
                       triggers=("dribble_at",), says="dribble_at"),
    "dribble_to": Kind("ball", _TO, (c.NOBODY_WAITS, *_EMPTY, c.BALL_ON_RING, c.NEXT), s.dribbled, "dribble",
                       Mark("dribble", "spot", "spot"), triggers=("dribble_to",), says="dribble"),
    "dribble_out": Kind("ball", _TO, (c.NOBODY_WAITS, *_EMPTY, c.BALL_IN_LANE), s.dribbled, "dribble",
                        Mark("dribble", "spot", "spot"), triggers=("dribble_out",), says="dribble"),
    "ball_screen": Kind("ball", (*_TO, *_WAY), (*_SCREENER, c.BALL_ON_RING, c.SAME_SIDE, c.NEAR_ENOUGH),
                        s.driven, "dribble", Mark("screen", "ball", "side"),
                        triggers=("ball_screen", *_DRIVES), says="drive_off_screen", has_screener=True,
                        unanswered=Said("refusals.catalogue.no_spot_would_open")),
    "back_cut": Kind("ball", _TO, (c.NOBODY_WAITS, *_RING_MATE, c.BALL_ON_RING, c.NEAREST), s.denied, "hold",
                     Mark("cut", "mate", "basket"), chooser="mate", triggers=("denied",)),
    "hub_back_cut": Kind("ball", _TO, _HUB_MATE, s.hub_denied, "hold", Mark("cut", "mate", "basket"),
                         chooser="mate", triggers=("hub_back_cut",)),
})
# fmt: on

#: The place of each kind in the list.
PLACES: Final[Mapping[str, int]] = MappingProxyType({name: place for place, name in enumerate(CATALOGUE)})
