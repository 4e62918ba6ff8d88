"""The tables, as typed models. Times are whole seconds since 1970 UTC; secrets are kept as SHA-256 in hex."""

from __future__ import annotations

from webapp.store.access_tables import Admission, JoinCode, Key, Link
from webapp.store.base import Base, ServerLock
from webapp.store.play_tables import Board, Chain, Change, Done, Ink, Node, Place
from webapp.store.team_tables import Design, DesignVersion, Lineup, Player, Team

__all__ = [
    "Admission",
    "Base",
    "Board",
    "Chain",
    "Change",
    "Design",
    "DesignVersion",
    "Done",
    "Ink",
    "JoinCode",
    "Key",
    "Lineup",
    "Link",
    "Node",
    "Place",
    "Player",
    "ServerLock",
    "Team",
]
