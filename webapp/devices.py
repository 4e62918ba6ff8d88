"""A device's keys in its cookies: one cookie for each team, out of reach of scripts."""

from __future__ import annotations

from typing import Final

from flask import Request, Response

from webapp.keys import NewKey

_PREFIX: Final = "quintet-"
_DAY_S: Final = 86400
#: No device coaches more teams than this; what is beyond is not looked at.
_COOKIES_MAX: Final = 24

_KINDS: Final = (
    ("iPad", "iPad"),
    ("iPhone", "iPhone"),
    ("Android", "Android device"),
    ("CrOS", "Chromebook"),
    ("Windows", "Windows computer"),
    ("Macintosh", "Mac or iPad"),
    ("Linux", "Linux computer"),
)


def presented(request: Request) -> list[str]:
    """Return the secrets of the keys that the asking device has."""
    found = [value for name, value in request.cookies.items() if name.startswith(_PREFIX)]
    return found[:_COOKIES_MAX]


def hand_over(response: Response, key: NewKey, life_days: int, secure: bool) -> None:
    """Give the device its new key with ``response``."""
    response.set_cookie(
        _PREFIX + key.team_id,
        key.secret,
        max_age=life_days * _DAY_S,
        httponly=True,
        samesite="Lax",
        secure=secure,
    )


def device_name(user_agent: str) -> str:
    """Return what to call a device until somebody gives it a better name."""
    return next((name for mark, name in _KINDS if mark in user_agent), "a device")
