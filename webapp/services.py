"""What the parts of one running server share, and how a request gets at it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from flask import current_app

from engine.words.language import Language
from webapp.base.limits import TryLimit
from webapp.base.settings import Settings
from webapp.boards.boards import Boards
from webapp.boards.ink import Inks
from webapp.live.relay import Relay
from webapp.packs.shelf import Shelf
from webapp.store.database import Store
from webapp.team.checks import Checks

_NAME: Final = "quintet"


@dataclass(frozen=True, slots=True)
class Services:
    """``superseded`` is called once another server has taken the data over, and ends this one."""

    settings: Settings
    store: Store
    relay: Relay
    boards: Boards
    inks: Inks
    join_limit: TryLimit
    device_limit: TryLimit
    team_limit: TryLimit
    checks: Checks
    packs: Shelf
    languages: Mapping[str, Language]
    superseded: Callable[[], None]


def services() -> Services:
    """Return what the server answering the present request shares."""
    found = current_app.extensions[_NAME]
    assert isinstance(found, Services)
    return found
