"""The text forms of what is played, as far as letters and length go; the engine reads the rest."""

from __future__ import annotations

from typing import Final

from marshmallow import validate

from engine import script
from engine.words.spoken import later

#: The longest text form of an action is under 40 characters.
ACTION_MAX_CHARS: Final = 48

#: Patterns of one action, and of a scripted step.
ACTION_FORM: Final = f"[a-z_:]{{1,{ACTION_MAX_CHARS}}}"
SCRIPT_FORM: Final = f"{script.PREFIX}[a-z0-9_=,;-]{{1,{script.TEXT_MAX_CHARS - len(script.PREFIX)}}}"
PLAYED_ERROR: Final = later("refusals.text_forms.must_name_action_or", text_max_chars=script.TEXT_MAX_CHARS)

ACTION: Final = validate.Regexp(rf"\A{ACTION_FORM}\Z", error=later("refusals.text_forms.must_name_action"))
#: What a coach may ask to be played: an action or a scripted step.
ACTED: Final = validate.Regexp(rf"\A(?:{ACTION_FORM}|{SCRIPT_FORM})\Z", error=PLAYED_ERROR)
#: One step of a line: an action, a recovery with where everybody was, or a scripted step.
PLAYED: Final = validate.Regexp(rf"\A(?:[a-z_:0-9=@,;-]{{1,200}}|{SCRIPT_FORM})\Z", error=PLAYED_ERROR)
