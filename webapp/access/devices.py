"""A device's keys in its cookies: one cookie for each team, out of reach of scripts."""

from __future__ import annotations

from typing import Final

from flask import Request, Response

from engine.words.spoken import say
from webapp.access.keys import NewKey

_PREFIX: Final = "quintet-"
#: Over HTTPS the name has a beginning that browsers keep: nothing that comes over plain HTTP, where anybody
#: on the way can write, may replace or read such a cookie (RFC 6265bis, section 4.1.3.2). A device that uses
#: both has a key for each, as a browser lets go of neither for the sake of the other.
_SECURE_PREFIX: Final = "__Host-" + _PREFIX
_DAY_S: Final = 86400
#: No device coaches more teams than this; what is beyond is not looked at.
_COOKIES_MAX: Final = 24

_KINDS: Final = (
    ("iPad", "ipad"),
    ("iPhone", "iphone"),
    ("Android", "android_device"),
    ("CrOS", "chromebook"),
    ("Windows", "windows_computer"),
    ("Macintosh", "mac_or_ipad"),
    ("Linux", "linux_computer"),
)


def presented(request: Request) -> list[str]:
    """Return the secrets of the keys that the asking device has."""
    ours = (_SECURE_PREFIX, _PREFIX)
    found = [value for name, value in request.cookies.items() if name.startswith(ours)]
    return found[:_COOKIES_MAX]


def hand_over(response: Response, key: NewKey, life_days: int, secure: bool) -> None:
    """Give the device its new key with ``response``."""
    _set(response, _name(key.team_id, secure), key.secret, life_days, secure)


def renew(response: Response, request: Request, team_id: str, life_days: int) -> None:
    """Let the device's key to a team live ``life_days`` from now on: a device in use does not lose it."""
    name = _name(team_id, request.is_secure)
    secret = request.cookies.get(name)
    if secret is not None:
        _set(response, name, secret, life_days, request.is_secure)


def _name(team_id: str, secure: bool) -> str:
    return (_SECURE_PREFIX if secure else _PREFIX) + team_id


def _set(response: Response, name: str, secret: str, life_days: int, secure: bool) -> None:
    response.set_cookie(
        name, secret, max_age=life_days * _DAY_S, httponly=True, samesite="Lax", secure=secure
    )


def forget(response: Response, team_id: str) -> None:
    """Take the device's keys to a team away from it with ``response``."""
    response.delete_cookie(_PREFIX + team_id, httponly=True, samesite="Lax")
    response.delete_cookie(_SECURE_PREFIX + team_id, httponly=True, samesite="Lax", secure=True)


def device_name(user_agent: str, installed: bool = False) -> str:
    """Return what to call a device until somebody gives it a better name.

    ``installed``: it is the app on the device's home screen, which has a key apart from the browser's.
    """
    kind = next((kind for mark, kind in _KINDS if mark in user_agent), "other")
    name = say(f"refusals.devices.{kind}")
    return say("refusals.devices.app", name=name) if installed else name
