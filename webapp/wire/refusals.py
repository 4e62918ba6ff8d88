"""Everything the server may refuse: its code, its HTTP status, and its sentence, in one place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

#: code -> (HTTP status, sentence). What happened, what was kept, what to do next.
REFUSALS: Final[Mapping[str, tuple[int, str]]] = MappingProxyType(
    {
        # the live board
        "unreadable": (400, "That could not be understood ({why}). Nothing was changed."),
        "old_page": (400, "This page is from another version. Load it again."),
        "viewer": (403, "Only a coach can change the board. Nothing was changed."),
        "stale": (409, "The board had moved on. Nothing is lost: here is how it stands now."),
        "illegal": (409, "{why} Nothing was changed."),
        "at": (409, "The chain has only {steps} steps. Nothing was changed."),
        "pair": (
            400,
            "Two actions go together only as a cutter's choice and then the ball's. Nothing was changed.",
        ),
        "nothing_to_undo": (409, "This is the start of the chain; there is nothing to take back."),
        "nothing_to_redo": (409, "There is nothing to bring back."),
        "full_chain": (
            409,
            "This chain has {steps} steps, the most it can have. It is kept; start a new one.",
        ),
        "too_fast": (429, "That was too much at once, so the connection was closed. Load the page again."),
        "full": (503, "As many are watching as this board can take. Try again in a minute."),
        "full_coaches": (
            503,
            "As many coaching screens are open as this board can take. Close one and try again.",
        ),
        "taken_over": (
            503,
            "This board is now run from another place. Everything answered is kept. Load it again.",
        ),
        # ink
        "no_ink": (409, "The step this was drawn on is not on the server, so the drawing was not kept."),
        "off_ink": (400, "The drawing runs off the floor, so it was not kept. Draw it again on the court."),
        "full_ink": (
            409,
            "There is as much ink on this play as it can hold. Clear some of it, then draw on.",
        ),
        # links, keys and codes
        "no_key": (
            403,
            "This device may not open this board. Add it with a code from another device, or open your "
            "coaching link once more.",
        ),
        "head_coach_only": (403, "Only the head coach can do that. Nothing was changed."),
        "gone_link": (410, "This link has been turned off. Ask your coach for a new one."),
        "gone_key": (410, "This device has been turned off. To come back, ask the head coach for a code."),
        "no_board": (404, "There is no such board. Look at the link again, or ask for a new one."),
        "no_link": (404, "There is no such link any more. Nothing was changed."),
        "no_such_key": (404, "There is no such device any more. Nothing was changed."),
        "last_key": (409, "This is the team's only head coach. Nothing was changed."),
        "bad_code": (404, "That code does not work. Look at it again, or ask your coach for a new one."),
        "bad_device_code": (
            404,
            "That code does not work. It works once and only for ten minutes: look at it again, or have a "
            "new one made.",
        ),
        "players_code": (
            404,
            "That looks like a code for players, which has six letters and digits. To follow the board, "
            "choose Join with a code; a code for a coach's device has eight.",
        ),
        "used_sheet": (
            410,
            "This recovery sheet has been used; each works once. A head coach's device prints a new one: "
            "Share, Devices, Recovery sheet.",
        ),
        "old_sheet": (
            410,
            "This recovery sheet no longer works: a newer one has been made, or it was turned off. Look "
            "for the newer one.",
        ),
        "no_sheet": (404, "There is no such recovery sheet any more. Nothing was changed."),
        "too_many_tries": (429, "Too many tries. Wait a minute, then try again."),
        "too_many_teams": (429, "Too many new teams from here. Wait an hour, then try again."),
        # the team's own
        "which_team": (400, "Open this page from one of the team's boards. Nothing was changed."),
        "problems": (
            422,
            "{count} not right yet, so nothing was saved. Nothing is lost: put it right and save again.",
        ),
        "no_rules": (404, "There are no such rules any more. Nothing was changed. Choose others."),
        "no_formation": (404, "There is no such formation any more. Nothing was changed. Choose another."),
        "no_player": (404, "There is no such player in the squad any more. Nothing was changed."),
        "no_lineup": (404, "There is no such lineup any more. Nothing was changed."),
        "no_stage": (409, "These rules have no such teaching stage. Nothing was changed."),
        "shipped": (409, "This came with Quintet and stays as it is. Copy it, then change the copy."),
        "newer": (
            409,
            "Somebody has saved a newer version meanwhile. Nothing was saved and nothing is lost: load it "
            "again, or save yours as a copy.",
        ),
        "not_deleted": (409, "That is still there; there is nothing to bring back."),
        "full_squad": (409, "The squad has {most} players, the most it can have. Nothing was changed."),
        "full_lineups": (409, "There are {most} lineups, the most there can be. Nothing was changed."),
        "full_rules": (409, "There are {most} rule sets, the most there can be. Delete one first."),
        "full_formations": (409, "There are {most} formations, the most there can be. Delete one first."),
        "full_versions": (
            409,
            "This has been saved {most} times, the most it can be. Nothing was saved: go on with a copy.",
        ),
        "busy": (
            429,
            "As many checks are running as this server can take. Wait for one to end, then try again.",
        ),
        "busy_paper": (
            429,
            "Too many prints at once. Wait a moment, then try again.",
        ),
        "too_long": (
            503,
            "The check took too long and was given up. With fewer differences in what players may choose "
            "it takes less time.",
        ),
        # the playbook
        "no_chain": (404, "There is no such chain any more. Nothing was changed."),
        "taken_chain": (409, "That chain is kept somewhere else already. Nothing was changed."),
        "long_line": (409, "A chain can have {steps} steps at most. Nothing was changed."),
        "full_tree": (
            409,
            "This chain has {most} steps with all its branches, the most it can have. It is kept; start a "
            "new one.",
        ),
        "full_playbook": (
            409,
            "The playbook has {most} chains, the most it can have. Nothing was changed: delete one first.",
        ),
        # moving house
        "bad_file": (422, "{why} Nothing was brought in."),
        "moved_on": (
            409,
            "Something has changed here since you looked. Nothing was brought in: look once more, "
            "then decide.",
        ),
        "full_ink_both": (
            409,
            "The play {play} cannot hold what is drawn on it here and in the file together. Nothing was "
            "brought in: keep the plays that are here, or keep both.",
        ),
        "no_pack": (404, "There is no such pack for this board any more. Ask for the list again."),
        "pack_failed": (503, "This could not be made ready for playing offline. It can be played online."),
        # pages
        "bad_form": (400, "{why} Nothing was changed."),
        "other_site": (403, "This came from another page than ours. Nothing was changed."),
        "bad_request": (400, "That could not be understood. Nothing was changed."),
        "not_found": (
            404,
            "There is nothing at this address. Look at it again, or start from the first page.",
        ),
        "nothing_to_trust": (404, "No certificate is needed here. Open your board as you always do."),
        "not_allowed": (405, "This address cannot be used that way. Nothing was changed."),
        "too_large": (413, "That is too much at once. Nothing was changed."),
        "failed": (500, "Something went wrong here. What was already shown is kept. Try again."),
    }
)


class Refused(Exception):
    """Something is refused; ``str(error)`` is the sentence, ``status`` the HTTP status.

    ``details``: what the sentence was filled in with.
    """

    def __init__(self, code: str, **details: object) -> None:
        self.code, self.details = code, details
        self.status, template = REFUSALS[code]
        super().__init__(template.format(**details))


class Problems(Refused):
    """What was sent cannot be used; ``problems`` lists everything wrong with it as (place, sentence)."""

    def __init__(self, problems: Sequence[tuple[str, str]]) -> None:
        count = "One thing is" if len(problems) == 1 else f"{len(problems)} things are"
        super().__init__("problems", count=count)
        self.problems = [list(problem) for problem in problems]
