"""What is answered when something is refused or goes wrong: one JSON shape, or one plain page."""

from __future__ import annotations

import logging
from typing import Final

from flask import Flask, Response, jsonify, make_response, render_template, request
from werkzeug.exceptions import HTTPException

from engine.words.spoken import say
from webapp.services import services
from webapp.store.database import Superseded
from webapp.wire.refusals import Problems, Refused, answered

_LOG: Final = logging.getLogger("quintet")

#: HTTP status -> code of the refusal; any other below 500 is ``bad_request``.
_CODES: Final = {404: "not_found", 405: "not_allowed", 413: "too_large"}

#: Refusals whose page tells what to do about a link or a device that is off, or a device without a key.
_PAGES: Final = {"gone_link": "gone.html", "gone_key": "off.html", "no_key": "no_key.html"}


def answer(code: str, status: int, sentence: str, problems: list[list[str]] | None = None) -> Response:
    """Return the answer: JSON under ``/api/``, elsewhere a page."""
    if request.path.startswith("/api/"):
        error: dict[str, object] = {"code": code, "message": sentence}
        response = jsonify(error=error if problems is None else {**error, "problems": problems})
    else:
        page = _PAGES.get(code, "error.html")
        response = make_response(render_template(page, sentence=sentence, status=status))
    response.status_code = status
    return response


def known(code: str) -> Response:
    """Return the answer of a code that needs no details."""
    return answer(code, *answered(code))


def register(app: Flask) -> None:
    """Answer refusals and failures of ``app``."""

    @app.errorhandler(Refused)
    def refused(error: Refused) -> Response:
        problems = error.problems if isinstance(error, Problems) else None
        return answer(error.code, error.status, str(error), problems)

    @app.errorhandler(Superseded)
    def superseded(_error: Superseded) -> Response:
        services().superseded()
        return known("taken_over")

    @app.errorhandler(HTTPException)
    def http(error: HTTPException) -> Response:
        if error.response is not None or error.code is None or error.code < 400:
            return make_response(error.get_response())
        code = _CODES.get(error.code, "failed" if error.code >= 500 else "bad_request")
        response = answer(code, error.code, say(f"answers.{code}"))
        for name, value in error.get_headers(request.environ):
            if name.lower() == "allow":
                response.headers[name] = value
        return response

    @app.errorhandler(Exception)
    def failed(error: Exception) -> Response:
        _LOG.error("%s %s failed", request.method, request.path.split("/")[1:2], exc_info=error)
        return known("failed")
