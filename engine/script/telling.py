"""A scripted step in words: what each player does in it, first what matters most, and the ball."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from engine.game.sentences import Phrase, Words
from engine.script.values import PLAYERS, Place, Script

#: A team-mate who runs past a screen no further off than this, centimetres, is who it is for (judgement).
_PAST_CM: Final = 120


def words(script: Script) -> Words:
    """Return the phrases of a scripted step (see :mod:`engine.game.sentences`)."""
    chain: Phrase = (f"script_{script.kind}", {})
    return Words((chain,), {int(who): _told(script, int(who)) for who in PLAYERS}, _ball(script))


def _ball(script: Script) -> Phrase:
    if script.over:
        return "shot", {"p": script.events[-1].giver}
    return ("hold", {"p": script.holder}) if script.holder else ("lies", {})


def _told(script: Script, number: int) -> Phrase:
    spot = dict(script.on).get(number)
    handed = [event for event in script.events if event.kind in ("pass", "hand")]
    to = [event for event in handed if event.giver == number]
    of = [event.giver for event in handed if event.taker == number]
    styles = {run.style for run in script.runs if run.who == str(number)}
    # Who ends on the spot he stood on goes nowhere.
    goes: dict[str, int | str] = {} if spot is None or not styles else {"s": spot}
    if script.over and script.events[-1].giver == number:
        return "script_shoots", {"p": number}
    if to:
        does = "script_hands" if to[-1].kind == "hand" else "script_passes"
        return f"{does}_goes" if goes else does, {"p": number, "m": to[-1].taker, **goes}
    if of:
        return "script_gets_goes" if goes else "script_gets", {"p": number, "m": of[-1], **goes}
    if "screen" in styles:
        mate = _screened(script, number)
        return ("script_screens_for", {"p": number, "m": mate}) if mate else ("script_screens", {"p": number})
    if goes:
        return "script_goes", {"p": number, **goes}
    return "script_runs" if styles else "script_stays", {"p": number}


def _screened(script: Script, number: int) -> int:
    """Return who runs closest past a player's last screen, while it stands or later; 0 if nobody does."""
    screen = [run for run in script.runs if run.who == str(number) and run.style == "screen"][-1]
    found, least = 0, float(_PAST_CM**2)
    at = {who: (x, y) for who, x, y in script.places}
    for run in script.runs:
        if run.who in PLAYERS and run.who != str(number) and run.end > screen.start:
            for first, last in pairwise((at[run.who], *run.points)):
                far = _far(screen.points[-1], first, last)
                if far < least:
                    found, least = int(run.who), far
        at[run.who] = run.points[-1]
    return found


def _far(place: Place, first: Place, last: Place) -> float:
    """Return the square of the distance of a place from a straight piece of a run."""
    along = (last[0] - first[0], last[1] - first[1])
    to = (place[0] - first[0], place[1] - first[1])
    length = along[0] * along[0] + along[1] * along[1]
    part = min(1.0, max(0.0, (to[0] * along[0] + to[1] * along[1]) / length)) if length else 0.0
    x, y = to[0] - part * along[0], to[1] - part * along[1]
    return x * x + y * y
