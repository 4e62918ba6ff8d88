"""Which lines of the browser's modules ran in a page: asked of Chromium, where a folder is named for it."""

from __future__ import annotations

import json
import os
import uuid
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, CDPSession, Error, Page

from tests.node import COVERAGE, ROOT

_MODULES = "/static/js/"


class Coverage:
    """Follows every page of a context. What a page ran that is closed before ``keep`` is lost."""

    def __init__(self, context: BrowserContext) -> None:
        self._folder = os.environ.get(COVERAGE)
        self._sessions: list[CDPSession] = []
        if self._folder:
            context.on("page", self._follow)

    def keep(self) -> None:
        """Write what ran so far to the folder, in the form Node writes it too."""
        for session in self._sessions:
            try:
                found = session.send("Profiler.takePreciseCoverage")["result"]
            except Error:  # the page is closed
                continue
            folder = Path(self._folder or "")
            folder.mkdir(parents=True, exist_ok=True)
            ours = [_as_file(script) for script in found if _MODULES in script["url"]]
            (folder / f"coverage-{uuid.uuid4()}.json").write_text(json.dumps({"result": ours}), "utf-8")

    def _follow(self, page: Page) -> None:
        session = page.context.new_cdp_session(page)
        session.send("Profiler.enable")
        session.send("Profiler.startPreciseCoverage", {"callCount": True, "detailed": True})
        self._sessions.append(session)


def _as_file(script: dict[str, Any]) -> dict[str, Any]:
    """Return the same for the file that was served."""
    path = ROOT / urlsplit(script["url"]).path.lstrip("/")
    return {**script, "url": path.as_uri()}
