"""Texts: every one that is said is in the tables with its slots, every one is said, and none is in code."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

import pytest

from engine.rules.rule_sets import SHIPPED
from engine.words.language import english
from tests.server import ROOT
from tests.texts import FOR_PROGRAMMERS, SAYS, texts
from webapp.web.words import BROWSERS
from webapp.wire.refusals import REFUSALS

_SLOT: Final = re.compile(r"\{(\w+)\}")
#: What is read as a whole section: names of places, actions and the like.
_SECTIONS: Final = ("court.", "rules.", "steps.", "findings.", "rule_sets.", "language.")


class Use(NamedTuple):
    """``key`` may be only the beginning of one; ``slots`` are those given, if that is known."""

    where: str
    key: str
    slots: frozenset[str] | None


@cache
def _texts() -> dict[str, Any]:
    return dict(texts())


def slots_of(text: Any) -> frozenset[str]:
    forms = [text] if isinstance(text, str) else [*text.values()]
    return frozenset(_SLOT.findall(" ".join(forms))) | (frozenset() if isinstance(text, str) else {"n"})


def python_uses() -> Iterator[Use]:
    for path in sorted([*(ROOT / "engine").rglob("*.py"), *(ROOT / "webapp").rglob("*.py")]):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if name not in SAYS:
                continue
            where, first = f"{path.relative_to(ROOT)}:{node.lineno}", node.args[0]
            open_ended = any(word.arg is None for word in node.keywords) or name in ("Said", "later")
            given = None if open_ended else frozenset(str(word.arg) for word in node.keywords)
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                yield Use(where, first.value, given)
            elif isinstance(first, ast.JoinedStr) and isinstance(first.values[0], ast.Constant):
                yield Use(where, str(first.values[0].value), None)


def template_uses() -> Iterator[Use]:
    for path in sorted((ROOT / "webapp/templates").glob("*.html")):
        text = path.read_text("utf-8")
        for key in re.findall(r"\bsay\(\s*\"([^\"]+)\"", text):
            yield Use(path.name, key, None)


def script_uses() -> Iterator[Use]:
    for path in sorted((ROOT / "static/js").rglob("*.js")):
        text = path.read_text("utf-8")
        for found in re.finditer(r"\bsay([A-Z]\w+)\((?:\"([^\"]+)\"|`([^`$]*))", text):
            capability = found[1].lower()
            if capability not in english().tables:
                continue
            where = f"{path.relative_to(ROOT)}:{text.count(chr(10), 0, found.start()) + 1}"
            given = given_in(text[found.end() :]) if found[2] is not None else None
            yield Use(where, f"{capability}.{found[2] if found[2] is not None else found[3]}", given)
        # Which of two is said stands before the bracket.
        for found in re.finditer(r"\bsay([A-Z]\w+)\(\w+ \? \"([^\"]+)\" : \"([^\"]+)\"", text):
            for key in found.groups()[1:]:
                yield Use(str(path.relative_to(ROOT)), f"{found[1].lower()}.{key}", None)


def given_in(rest: str) -> frozenset[str]:
    """Return the names in the object that follows a key, if one does."""
    if not rest.startswith(", {"):
        return frozenset()
    names, depth, at = set(), 0, 3
    part = ""
    while True:
        c = rest[at]
        if depth == 0 and c in ",}":
            names.add(part.split(":")[0].strip())
            part = ""
            if c == "}":
                return frozenset(names - {""})
        else:
            depth += (c in "{([") - (c in "})]")
            part += c
        at += 1


@cache
def uses() -> tuple[Use, ...]:
    return (*python_uses(), *template_uses(), *script_uses())


def is_begun(key: str) -> bool:
    """Whether only the beginning of the key stands in the code."""
    return key.endswith((".", "_")) or key not in _texts()


def test_every_text_that_is_said_is_there() -> None:
    for use in uses():
        assert use.key in _texts() or any(key.startswith(use.key) for key in _texts()), use


def test_every_slot_of_a_text_is_given() -> None:
    for use in uses():
        if use.slots is not None and use.key in _texts():
            text = _texts()[use.key]
            # A text that turns on a number is chosen by it, and need not tell it.
            assert slots_of(text) == use.slots or (
                not isinstance(text, str) and use.slots >= slots_of(text)
            ), use


def test_every_text_is_said() -> None:
    said = {use.key for use in uses() if not is_begun(use.key)}
    begun = tuple({use.key for use in uses() if is_begun(use.key) and "." in use.key})
    unsaid = [key for key in _texts() if key not in said and not key.startswith((*begun, *_SECTIONS))]
    assert unsaid == []


@pytest.mark.parametrize("key", sorted(key for key, text in texts() if not isinstance(text, str)))
def test_a_text_that_turns_on_a_number_has_the_forms_of_english(key: str) -> None:
    assert _texts()[key].keys() == {"one", "other"}


#: What nobody but a programmer reads: queries, headers, patterns of files, and the log.
_NOT_READ: Final = re.compile(
    r"PRAGMA|SELECT |BEGIN |^(kind|role) IN|node WHERE|^/|^<|^ws|^[a-z-]+, [a-z-]+|max-age|translate\("
    r"|Verdana|^a (check|live message|pack) |no secure line|Field may|Missing data|Unknown field|Not a valid"
    r"|Invalid input|Number too large|^python3 -m |^Quintet (server|on )|DejaVu|HTTP/"
    r"|An empty file is no pack|was not renewed"
)
_SENTENCE: Final = re.compile(r"[A-Za-z]{2,}[ ,]+[a-zA-Z{(]{2,}")


def is_read(text: str) -> bool:
    """Whether a text may be meant for people."""
    return bool(_SENTENCE.search(text)) and not _NOT_READ.search(text)


def sentences_in(path: Path) -> Iterator[str]:
    tree = ast.parse(path.read_text("utf-8"))
    skipped: set[int] = set()
    for node in ast.walk(tree):
        quiet = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        called = node.func if isinstance(node, ast.Call) else None
        quiet |= isinstance(called, ast.Attribute) and "LOG" in ast.unparse(called.value)
        quiet |= isinstance(node, ast.Assert)
        if quiet:
            skipped |= {id(inner) for inner in ast.walk(node)}
    for node in ast.walk(tree):
        text = node.value if isinstance(node, ast.Constant) and id(node) not in skipped else None
        if isinstance(text, str) and is_read(text):
            yield f"{getattr(node, 'lineno', 0)}: {text}"


@pytest.mark.parametrize("house", ["engine", "webapp"])
def test_no_module_has_a_sentence_of_its_own(house: str) -> None:
    found = {
        f"{name}:{sentence}"
        for path in sorted((ROOT / house).rglob("*.py"))
        if not (name := path.relative_to(ROOT).as_posix()).startswith(FOR_PROGRAMMERS)
        for sentence in sentences_in(path)
    }
    assert found == set()


def test_no_script_and_no_page_has_a_sentence_of_its_own() -> None:
    quoted = re.compile(r"\"([^\"\n]*)\"|`([^`\n]*)`")
    words = re.compile(r"^[A-Z][a-z]+ [a-z]+|[a-z]{3,} [a-z]{2,} [a-z]{2,}|[a-z]{2,}[.…!?]$")
    found = set()
    for path in sorted((ROOT / "static/js").rglob("*.js")):
        code = re.sub(r"/\*.*?\*/|(^|\s)//.*?$", "", path.read_text("utf-8"), flags=re.S | re.M)
        code = re.sub(r"new Error\([^)]*\)|import[^;]*;", "", code)
        for pair in quoted.findall(code):
            text = pair[0] or pair[1]
            if words.search(text) and not re.search(
                r"[.#:\[({]\w|\.js$|^\w+ \w+-|^court small|^quintet\.", text
            ):
                found.add(f"{path.relative_to(ROOT)}: {text}")
    for path in sorted((ROOT / "webapp/templates").glob("*.html")):
        plain = re.sub(
            r"\{% (macro address.*?\{% endmacro|block body %\}.*?\{% endblock) %\}",
            "",
            path.read_text("utf-8"),
        )
        plain = re.sub(r"\{[{%#].*?[}%#]\}", " ", plain, flags=re.S)
        plain = re.sub(r"<svg.*?</svg>|<[^>]*>", " ", plain, flags=re.S)
        found |= {f"{path.name}: {word}" for word in re.findall(r"\w{2,}", plain) if word != "Quintet"}
    assert found == set()


@pytest.mark.parametrize("name", SHIPPED)
def test_the_files_of_rule_sets_say_what_the_tables_say(name: str) -> None:
    data = json.loads((ROOT / f"engine/rules/rulesets/{name}.json").read_text("utf-8"))
    told = english().tables["rule_sets"][name]
    assert (data["title"], data["about"]) == (told["title"], told["about"])
    assert [stage["title"] for stage in data.get("stages", ())] == [*told.get("stages", {}).values()]
    assert [known["why"] for known in data.get("known", ())] == [*told.get("known", {}).values()]


def test_every_refusal_of_the_server_has_its_text_and_no_other_has() -> None:
    assert english().tables["answers"].keys() == REFUSALS.keys()


def test_a_page_in_another_language_carries_all_that_its_modules_say() -> None:
    modules = " ".join(path.read_text("utf-8") for path in (ROOT / "static/js/words").glob("*.js"))
    assert set(re.findall(r"locales/en/(\w+)\.json", modules)) == set(BROWSERS)
