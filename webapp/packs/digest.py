"""The name that the engine's files give to what is worked out by it."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Final

#: Kinds of files that what a pack says depends on.
_SOURCES: Final = (".py", ".json")


@cache
def engine_digest() -> str:
    """Return what the engine's files come to: with another engine, packs are made anew."""
    sha = hashlib.sha256()
    for name, text in sorted(_files(files("engine"))):
        sha.update(name.encode() + b"\0" + text + b"\0")
    return sha.hexdigest()[:24]


def _files(folder: Traversable, path: str = "") -> list[tuple[str, bytes]]:
    found = []
    for entry in folder.iterdir():
        name = f"{path}/{entry.name}"
        if entry.is_dir():
            found += _files(entry, name)
        elif entry.name.endswith(_SOURCES):
            found.append((name, entry.read_bytes()))
    return found
