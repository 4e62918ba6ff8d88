"""Everything the server may refuse: its code, its HTTP status, and its sentence, in one place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from engine.words.spoken import say

#: code -> HTTP status. The sentence of each stands in engine/locales under "answers": what happened, what was
#: kept, what to do next.
REFUSALS: Final[Mapping[str, int]] = MappingProxyType(
    {
        # the live board
        "unreadable": 400,
        "old_page": 400,
        "viewer": 403,
        "stale": 409,
        "illegal": 409,
        "at": 409,
        "pair": 400,
        "nothing_to_undo": 409,
        "nothing_to_redo": 409,
        "full_chain": 409,
        "too_fast": 429,
        "full": 503,
        "full_coaches": 503,
        "taken_over": 503,
        # ink
        "no_ink": 409,
        "off_ink": 400,
        "full_ink": 409,
        # links, keys and codes
        "no_key": 403,
        "head_coach_only": 403,
        "gone_link": 410,
        "gone_key": 410,
        "no_board": 404,
        "no_link": 404,
        "no_such_key": 404,
        "last_key": 409,
        "bad_code": 404,
        "bad_device_code": 404,
        "players_code": 404,
        "used_sheet": 410,
        "old_sheet": 410,
        "no_sheet": 404,
        "too_many_tries": 429,
        "too_many_teams": 429,
        # the team's own
        "which_team": 400,
        "problems": 422,
        "no_rules": 404,
        "no_formation": 404,
        "no_player": 404,
        "no_lineup": 404,
        "no_stage": 409,
        "shipped": 409,
        "newer": 409,
        "not_deleted": 409,
        "full_squad": 409,
        "full_lineups": 409,
        "full_rules": 409,
        "full_formations": 409,
        "full_versions": 409,
        "busy": 429,
        "busy_paper": 429,
        "too_long": 503,
        # the playbook
        "no_chain": 404,
        "taken_chain": 409,
        "long_line": 409,
        "full_tree": 409,
        "full_playbook": 409,
        # moving house
        "bad_file": 422,
        "moved_on": 409,
        "full_ink_both": 409,
        "no_pack": 404,
        "pack_failed": 503,
        # pages
        "bad_form": 400,
        "other_site": 403,
        "bad_request": 400,
        "not_found": 404,
        "nothing_to_trust": 404,
        "not_allowed": 405,
        "too_large": 413,
        "failed": 500,
    }
)


def answered(code: str, **details: object) -> tuple[int, str]:
    """Return the HTTP status of a refusal, and its sentence."""
    return REFUSALS[code], say(f"answers.{code}", **details)


class Refused(Exception):
    """Something is refused; ``str(error)`` is the sentence, ``status`` the HTTP status.

    ``details``: what the sentence was filled in with.
    """

    def __init__(self, code: str, **details: object) -> None:
        self.code, self.details = code, details
        self.status, sentence = answered(code, **details)
        super().__init__(sentence)


class Problems(Refused):
    """What was sent cannot be used; ``problems`` lists everything wrong with it as (place, sentence)."""

    def __init__(self, problems: Sequence[tuple[str, str]]) -> None:
        super().__init__("problems", n=len(problems))
        self.problems = [list(problem) for problem in problems]
