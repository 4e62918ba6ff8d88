"""The application itself, as for the other pages that need no socket."""

from __future__ import annotations

from tests.webapp.conftest import app, client, common_app, own_app, settings

__all__ = ["app", "client", "common_app", "own_app", "settings"]
