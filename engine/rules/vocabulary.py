"""The words a rule set is written in: triggers, roles, movements, places of a cutter.

A *trigger* is something that happens; a *role* is a team-mate's place in it; a *movement* is what he then
does. Of the roles a player has, the narrower speaks before the wider (``LEVELS``): a player in the corner
the drive goes to is ``drive_corner`` first, then ``ahead``, then ``perimeter``.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

_POSTS: Final = ("ball_side_posts", "middle_posts", "weak_side_posts", "posts")
_MATES: Final = ("perimeter", *_POSTS)
_DRIVE: Final = ("drive_corner", "far_corner", "next_ahead", "next_behind", "ahead", "behind", *_MATES)

#: For each trigger, the roles there are in it besides the player who acts.
TRIGGERS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "pass": ("passer", "receiver", "next_player", *_MATES),
        "skip": ("passer", "receiver", "next_player", *_MATES),
        "post_entry": ("passer", "receiver", "next_player", *_MATES),
        "dribble_at": ("dribbled_at", *_MATES),
        "hand_off": ("passer", *_MATES),
        "dribble_to": _MATES,
        "denied": ("denied", *_MATES),
        "middle_drive": _DRIVE,
        "baseline_drive": _DRIVE,
        "ball_screen": ("screener",),
        "kick_out": ("passer", "receiver", *_MATES),
        "high_low": ("passer", "receiver", *_MATES),
        "dump_off": ("passer", "receiver", *_MATES),
        "cutter_catch": ("passer", *_MATES),
        "dribble_out": _MATES,
        "shot": ("deepest_two", "others"),
        "hub_hand_off": ("passer", *_MATES),
        "hub_back_cut": ("denied", *_MATES),
        "face_up": _MATES,
    }
)

#: Triggers that a set need not speak of: then everybody stays.
OPTIONAL: Final = frozenset(("cutter_catch",))

#: Roles from narrow to wide. Two of one level may meet in one player: he then has two responses.
LEVELS: Final[tuple[frozenset[str], ...]] = (
    frozenset(("passer", "receiver", "dribbled_at", "denied", "screener", "deepest_two")),
    frozenset(("drive_corner", "far_corner", "next_ahead", "next_behind", "next_player")),
    frozenset(("ahead", "behind", "ball_side_posts", "middle_posts", "weak_side_posts", "others")),
    frozenset(("perimeter", "posts")),
)

_ANY: Final = frozenset(role for roles in TRIGGERS.values() for role in roles)
_RING: Final = frozenset(
    ("perimeter", "ahead", "behind", "drive_corner", "far_corner", "next_ahead", "next_behind", "next_player")
)
_POST: Final = frozenset(_POSTS)

#: For each movement, the roles that may make it.
MOVEMENTS: Final[Mapping[str, frozenset[str]]] = MappingProxyType(
    {
        "stay": _ANY - {"screener", "deepest_two", "others"},
        "cut": frozenset(("passer", "denied", "dribbled_at", *_RING)),
        "back_cut": frozenset(("dribbled_at", "denied")),
        "fill": _RING | {"passer"},
        "fill_one": _RING,
        "exchange": frozenset(("passer", "next_player")),
        "replace": frozenset(("dribbled_at", "passer", "denied")),
        "rotate": _RING,
        "cover": _RING,
        "hold": frozenset(("drive_corner", "far_corner")),
        "slide": frozenset(("drive_corner", "far_corner")),
        "lift": frozenset(("drive_corner", "far_corner")),
        "drift": _RING - {"next_player"},
        "to_elbow": _POST,
        "to_far_elbow": _POST,
        "to_short_corner": _POST,
        "to_opposite_block": _POST | {"passer"},
        "to_high_post": _POST | {"passer"},
        "dive": _POST | {"passer"},
        "re_post": frozenset(("screener", "passer", *_POST)),
        "roll": frozenset(("screener",)),
        "pop": frozenset(("screener",)),
        "rebound": frozenset(("deepest_two", "others")),
        "get_back": frozenset(("deepest_two", "others")),
    }
)

#: Where a cutter may be sent who chooses nothing; a set tries them in its own order, and the first last.
CUTTER_PLACES: Final = ("near_ball", "ball_corner", "far_corner", "weak_side", "post")
