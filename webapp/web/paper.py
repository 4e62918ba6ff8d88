"""The page for printing, and the files it leads to: all for the coaches of a board.

What draws is imported when the first paper is asked for: fonts, PDF and pictures bring large libraries along.
"""

from __future__ import annotations

import re
import threading
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

from flask import Blueprint, Response, render_template, request

from engine.words.spoken import say
from webapp.access.devices import presented
from webapp.access.keys import coach_key
from webapp.paper.options import PICTURE_STEPS_MAX, Options, pictured, read
from webapp.plays.playbook import pinned_of
from webapp.services import services
from webapp.store.tables import Board
from webapp.wire.refusals import Refused

if TYPE_CHECKING:
    from webapp.paper.stored import Printable

paper: Final = Blueprint("paper", __name__, url_prefix="/board/<board_id>/print")

#: Papers that are made at the same time, so that boards go on being answered meanwhile; how long one waits.
_AT_ONCE: Final = threading.BoundedSemaphore(2)
_WAIT_S: Final = 20.0

#: What a file's name cannot have in some system, and what its plain form leaves out.
_UNFIT: Final = re.compile(r'[\\/:*?"<>|\s]+')
_UNPLAIN: Final = re.compile(r"[^A-Za-z0-9 ._-]")

#: Pages shown as a preview; the file has them all.
SHOWN_MAX: Final = 12


@paper.get("")
def page(board_id: str) -> str:
    """Show what can be printed of a chain, and how it will look."""
    from webapp.paper.layout import pages

    options = read(request.args)
    board, found = _find(board_id, options)
    with _turn():
        count = len(pages(found.sheet, options))
    return render_template(
        "print.html",
        board=board,
        options=options,
        found=found,
        count=count,
        shown=min(count, SHOWN_MAX),
        pinned=_pinned_count(board_id),
        pictured=found.last - found.first < PICTURE_STEPS_MAX,
        picture_most=PICTURE_STEPS_MAX,
    )


@paper.get("/page.svg")
def preview(board_id: str) -> Response:
    """Return one page of the printed sheet (``?page=``) as a picture for the screen."""
    from webapp.paper.layout import pages
    from webapp.paper.svg import svg

    options = read(request.args)
    _, found = _find(board_id, options)
    with _turn():
        made = pages(found.sheet, options)
        number = options.page or 1
        if number > len(made):
            raise Refused("bad_form", why=say("paper.routes.only_pages", made=len(made)))
        return _drawn(
            svg(made[number - 1], say("paper.routes.page", title=found.sheet.title, number=number), "mm")
        )


@paper.get("/sheet.pdf")
def sheet(board_id: str) -> Response:
    """Return the printed sheet as a PDF."""
    from webapp.paper.layout import pages
    from webapp.paper.pdf import pdf

    options = read(request.args)
    _, found = _find(board_id, options)
    with _turn():
        made = pdf(pages(found.sheet, options), found.sheet.title)
    return _file(made, "application/pdf", found.sheet.title, "pdf")


@paper.get("/calls.pdf")
def calls(board_id: str) -> Response:
    """Return the call sheet: the team's pinned chains on one page, else the one on the board.

    With ``?every=1`` the pages of each of them follow, with all its diagrams.
    """
    from webapp.paper import stored
    from webapp.paper.callsheet import LARGE_MOST, MOST, call_sheet
    from webapp.paper.layout import pages
    from webapp.paper.pdf import pdf

    options = read(request.args)
    most = LARGE_MOST if options.large else MOST
    with services().store.read() as session:
        board, _ = coach_key(session, board_id, presented(request))
        sheets, more = stored.pinned(session, board, most)
    standing = services().boards.standing(board_id)
    if not sheets:
        _, found = _find(board_id, Options())
        sheets = [found.whole]
    with _turn():
        drawn = [call_sheet(standing.card.team, sheets, more, standing.card.calls, options)]
        if options.every:
            drawn += [page for whole in sheets for page in pages(whole, options)]
        made = pdf(drawn, f"{standing.card.team}: calls")
    return _file(made, "application/pdf", f"{standing.card.team} calls", "pdf")


@paper.get("/picture.png")
def picture(board_id: str) -> Response:
    """Return the chain as a picture: all its steps, or the one in ``?step=`` (0 for the start)."""
    from webapp.paper.picture import png
    from webapp.paper.poster import pixels, still, strip
    from webapp.paper.svg import svg

    options = read(request.args)
    _, found = _find(board_id, options)
    name = found.sheet.title
    if options.step is None:
        pictured(found.first, found.last)
        with _turn():
            drawn = strip(found.sheet, options)
            return _file(png(svg(drawn, name), pixels(drawn)), "image/png", name, "png")
    if options.step > found.whole.total:
        raise Refused("bad_form", why=say("paper.routes.chain_has_only_steps", total=found.whole.total))
    act = found.whole.acts[options.step - 1] if options.step else None
    with _turn():
        drawn = still(found.whole, act, options)
        made = png(svg(drawn, name), pixels(drawn))
    return _file(made, "image/png", f"{name} {options.step}", "png")


@paper.get("/moving.svg")
def film(board_id: str) -> Response:
    """Return the chain as a picture that moves by itself; ``?show=1``: to look at instead of to keep."""
    from webapp.paper.moving import moving

    options = read({name: value for name, value in request.args.items() if name != "show"})
    _, found = _find(board_id, options)
    pictured(found.first, found.last)
    with _turn():
        text = moving(found.sheet, options)
    if request.args.get("show") == "1":
        return _drawn(text)
    return _file(text.encode(), "image/svg+xml; charset=utf-8", found.sheet.title, "svg")


def _find(board_id: str, options: Options) -> tuple[Board, Printable]:
    """Return the board and the chain that is asked for, if a coach asks. Raises ``Refused``."""
    from webapp.paper import stored

    with services().store.read() as session:
        board, _ = coach_key(session, board_id, presented(request))
        if options.chain is not None:
            return board, stored.in_playbook(session, board, options.chain, options)
    standing = services().boards.standing(board_id)
    with services().store.read() as session:
        return board, stored.on_board(session, standing, options)


def _pinned_count(board_id: str) -> int:
    with services().store.read() as session:
        board, _ = coach_key(session, board_id, presented(request))
        return len(pinned_of(session, board.team_id))


@contextmanager
def _turn() -> Iterator[None]:
    """Wait until a paper may be made. Raises ``Refused`` if too many wait."""
    if not _AT_ONCE.acquire(timeout=_WAIT_S):
        raise Refused("busy_paper")
    try:
        yield
    finally:
        _AT_ONCE.release()


def _drawn(text: str) -> Response:
    return Response(text, content_type="image/svg+xml; charset=utf-8")


def _file(content: bytes, kind: str, name: str, ending: str) -> Response:
    response = Response(content, content_type=kind)
    response.headers["Content-Disposition"] = _disposition(name, ending)
    return response


def _disposition(name: str, ending: str) -> str:
    """Return the header that names a file: in plain letters and, for who can read it, as it is written."""
    tidy = " ".join(_UNFIT.sub(" ", name).split()).strip(" .") or "chain"
    ascii_only = unicodedata.normalize("NFKD", tidy).encode("ascii", "ignore").decode()
    plain = " ".join(_UNPLAIN.sub("", ascii_only).split()).strip(" .") or "chain"
    return f"attachment; filename=\"{plain}.{ending}\"; filename*=UTF-8''{quote(tidy, safe='')}.{ending}"
