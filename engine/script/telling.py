"""A scripted step in words: what each player does in it, first what matters most, and the ball."""

from __future__ import annotations

from engine.game.sentences import Phrase, Words
from engine.script.values import PLAYERS, Script


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
    to = [event.taker for event in handed if event.giver == number]
    of = [event.giver for event in handed if event.taker == number]
    styles = {run.style for run in script.runs if run.who == str(number)}
    # Who ends on the spot he stood on goes nowhere.
    goes: dict[str, int | str] = {} if spot is None or not styles else {"s": spot}
    if script.over and script.events[-1].giver == number:
        return "script_shoots", {"p": number}
    if to:
        return "script_passes_goes" if goes else "script_passes", {"p": number, "m": to[-1], **goes}
    if of:
        return "script_gets_goes" if goes else "script_gets", {"p": number, "m": of[-1], **goes}
    if "screen" in styles:
        return "script_screens", {"p": number}
    if goes:
        return "script_goes", {"p": number, **goes}
    return "script_runs" if styles else "script_stays", {"p": number}
