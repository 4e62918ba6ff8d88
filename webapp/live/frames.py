"""WebSocket text frames, made once and sent to everyone: a server's frames are the same for every receiver.

Layout: RFC 6455, section 5.2 (one unmasked final frame, no extension).
"""

from __future__ import annotations

import struct
from typing import Final

_FINAL_TEXT: Final = 0x81


def text_frame(text: str) -> bytes:
    """Return ``text`` as one frame."""
    payload = text.encode()
    size = len(payload)
    if size < 126:
        head = struct.pack("!BB", _FINAL_TEXT, size)
    elif size < 65536:
        head = struct.pack("!BBH", _FINAL_TEXT, 126, size)
    else:
        head = struct.pack("!BBQ", _FINAL_TEXT, 127, size)
    return head + payload
