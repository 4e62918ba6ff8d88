"""The app's own files, the same for everybody: which they are, and packing them for the way to a phone."""

from __future__ import annotations

import gzip
from functools import lru_cache
from typing import Final

from flask import Flask, Response, request

#: Endpoints that give files of the app's own. All other answers are somebody's, and are never packed: the
#: size of something packed can give away a secret in it.
OURS: Final = frozenset(
    ("static", "bundle.manifest", "bundle.packed", "bundle.texts", "pages.manifest", "pages.worker")
)

_TEXTS: Final = frozenset(
    (
        "text/css",
        "text/javascript",
        "application/javascript",
        "application/json",
        "application/manifest+json",
        "image/svg+xml",
    )
)
_SMALL_BYTES: Final = 400
_KEPT: Final = 128


def register(app: Flask) -> None:
    """Pack the app's own files for whoever can unpack them."""

    @app.after_request
    def pack(response: Response) -> Response:
        if request.endpoint not in OURS or response.mimetype not in _TEXTS:
            return response
        response.vary.add("Accept-Encoding")
        if (
            response.status_code != 200
            or not request.accept_encodings.quality("gzip")
            or request.method == "HEAD"
        ):
            return response
        response.direct_passthrough = False
        content = response.get_data()
        if len(content) >= _SMALL_BYTES:
            response.set_data(_packed(content))
            response.content_encoding = "gzip"
            etag, _ = response.get_etag()
            if etag is not None:
                response.set_etag(etag, weak=True)  # the same file, not the same bytes
        return response


@lru_cache(maxsize=_KEPT)
def _packed(content: bytes) -> bytes:
    return gzip.compress(content, mtime=0)
