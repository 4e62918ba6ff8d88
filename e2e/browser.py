"""Find a Chromium or Chrome to test with, and start it the same way everywhere."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

#: Names this project's variable for the browser's path.
VARIABLE = "QUINTET_BROWSER"

NO_BROWSER = (
    "The browser tests need Chromium or Chrome and found none: install one (for example "
    "'apt install chromium', or '.venv/bin/python -m playwright install chromium'), or put its path in "
    f"the variable {VARIABLE}."
)

#: The first is the same engine without what shows windows: a test takes two thirds of the time in it.
_NAMES = (
    "chromium-headless-shell",
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "msedge",
)
_PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe",
)

#: Quiet, offline, and able to run as root in a container.
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def find_browser() -> str | None:
    """Return the path of a browser: the variable's, then the system's, then Playwright's own."""
    named = os.environ.get(VARIABLE)
    if named:
        return named if Path(named).exists() else None
    return _of_system() or _of_playwright()


def _of_playwright() -> str | None:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        path = playwright.chromium.executable_path
    return path if path and Path(path).exists() else None


def _of_system() -> str | None:
    found = next((path for name in _NAMES if (path := shutil.which(name))), None)
    return found or next((place for place in _PLACES if Path(place).exists()), None)
