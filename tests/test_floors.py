"""The rooms of the house lie on floors: no module leans on a room above its own, but for types."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.server import ROOT

#: From the ground up; rooms on one floor do not lean on one another.
FLOORS: dict[str, tuple[tuple[str, ...], ...]] = {
    "engine": (
        ("errors", "words"),
        ("floor",),
        ("rules",),
        ("game",),
        ("motion",),
        ("script",),
        ("checker", "pack"),
        ("__main__",),
    ),
    "webapp": (
        ("bootstrap", "base"),
        ("store", "live", "wire"),
        ("secure", "backup"),
        ("access", "team"),
        ("chains",),
        ("packs", "plays"),
        ("boards",),
        ("transfer", "paper"),
        ("services",),
        ("web",),
        ("app",),
        ("serving",),
        ("__main__",),
    ),
    "static/js": (
        ("words",),
        ("device", "pack"),
        ("steps",),
        ("state",),
        ("court",),
        ("ui", "offline"),
        ("ink", "menu"),
        ("board",),
        ("viewer", "check", "share"),
        ("huddle",),
        ("team", "plays"),
        ("drawn", "transfer"),
        ("entries",),
    ),
}
#: Modules that may stand at a root: doors, not rooms.
DOORS = {"engine": 5, "webapp": 8, "static/js": 4}
_COMMENT = re.compile(r"/\*.*?\*/|^\s*//.*?$", re.DOTALL | re.MULTILINE)
_SPECIFIER = re.compile(r"""(?:from|import)\s*\(?\s*"(\.{1,2}/[^"]+)\"""")
#: Scripts that are run from the files' own folders, and stand in no room.
APART = ("webapp/migrations/",)


def modules(house: str) -> dict[str, Path]:
    """Return every module of a house by its dotted name within it."""
    found = {}
    for path in (ROOT / house).rglob("*.js" if house.startswith("static") else "*.py"):
        if not path.relative_to(ROOT).as_posix().startswith(APART):
            found[".".join(path.relative_to(ROOT / house).with_suffix("").parts)] = path
    return found


def leans(house: str, path: Path) -> Iterator[str]:
    """Yield the rooms of its house that a module leans on when it runs, wherever in it that is said."""
    if path.suffix == ".js":
        # Types stand in comments.
        for name in _SPECIFIER.findall(_COMMENT.sub("", path.read_text("utf-8"))):
            target = (path.parent / name).resolve()
            assert target.is_file(), f"{path} imports {name}"
            if target.is_relative_to(ROOT / house):
                yield target.relative_to(ROOT / house).with_suffix("").parts[0]
        return
    tree = ast.parse(path.read_text("utf-8"))
    typed = {
        id(inside)
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        for inside in ast.walk(node)
    }
    for node in ast.walk(tree):
        if id(node) in typed:
            continue
        if isinstance(node, ast.ImportFrom) and node.module == house:
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith(f"{house}."):
            yield str(node.module).split(".")[1]
        elif isinstance(node, ast.Import):
            yield from (a.name.split(".")[1] for a in node.names if a.name.startswith(f"{house}."))


def room_of(name: str) -> str:
    """Return the room that a module stands in; a door is one by itself."""
    return name.split(".")[0]


@pytest.mark.parametrize("house", FLOORS)
def test_no_room_leans_on_one_above_it(house: str) -> None:
    floor_of = {room: floor for floor, rooms in enumerate(FLOORS[house]) for room in rooms}
    wrong = []
    for name, path in modules(house).items():
        own = room_of(name)
        if own == "__init__":
            continue
        for room in leans(house, path):
            if room != own and floor_of[room] >= floor_of[own]:
                wrong.append(f"{house}/{name} leans on {room}")
    assert wrong == []


@pytest.mark.parametrize("house", FLOORS)
def test_at_the_root_there_are_doors_and_every_room_has_its_floor(house: str) -> None:
    rooms = {room_of(name) for name in modules(house)} - {"__init__"}
    assert rooms == {room for floor in FLOORS[house] for room in floor}
    assert (
        sum(path.is_file() and path.suffix in (".py", ".js") for path in (ROOT / house).iterdir())
        <= DOORS[house]
    )
