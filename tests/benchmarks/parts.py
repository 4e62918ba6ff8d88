"""What the benchmarks of the live board share: a server of their own, a browser, and how figures are told."""

from __future__ import annotations

import statistics
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from e2e.browser import ARGUMENTS, NO_BROWSER, find_browser
from tests.server import LiveServer, Servers


@contextmanager
def running_server(*options: str) -> Iterator[LiveServer]:
    """Start a real server on data of its own, and end it."""
    servers = Servers()
    with tempfile.TemporaryDirectory() as folder:
        try:
            yield servers(Path(folder) / "data", *options)
        finally:
            servers.end()


@contextmanager
def running_browser() -> Iterator[Browser]:
    """Start a browser, and end it; exits with one sentence if there is none."""
    path = find_browser()
    if path is None:
        raise SystemExit(NO_BROWSER)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield browser
        browser.close()


def told(seconds: Sequence[float]) -> str:
    """Return the median and the slowest of some times, in milliseconds."""
    return f"median {statistics.median(seconds) * 1000:.1f} ms, slowest {max(seconds) * 1000:.1f} ms"
