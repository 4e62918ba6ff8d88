"""The text forms of what is played, as far as letters and length go; the engine reads the rest."""

from __future__ import annotations

from typing import Final

from marshmallow import validate

from engine import script

#: The longest text form of an action is under 40 characters.
ACTION_MAX_CHARS: Final = 48

#: Patterns of one action, and of a scripted step.
ACTION_FORM: Final = f"[a-z_:]{{1,{ACTION_MAX_CHARS}}}"
SCRIPT_FORM: Final = f"{script.PREFIX}[a-z0-9_=,;-]{{1,{script.TEXT_MAX_CHARS - len(script.PREFIX)}}}"
PLAYED_ERROR: Final = (
    f"must be the name of an action, or a drawn step of at most {script.TEXT_MAX_CHARS} signs."
)

ACTION: Final = validate.Regexp(rf"\A{ACTION_FORM}\Z", error="must be the name of an action.")
#: What a coach may ask to be played: an action or a scripted step.
ACTED: Final = validate.Regexp(rf"\A(?:{ACTION_FORM}|{SCRIPT_FORM})\Z", error=PLAYED_ERROR)
#: One step of a line: an action, a recovery with where everybody was, or a scripted step.
PLAYED: Final = validate.Regexp(rf"\A(?:[a-z_:0-9=@,;-]{{1,200}}|{SCRIPT_FORM})\Z", error=PLAYED_ERROR)
