"""What stands in the way of HTTPS."""

from __future__ import annotations


class NotSecure(RuntimeError):
    """HTTPS cannot be had; ``str(error)`` is the one sentence that says why and what to do."""
