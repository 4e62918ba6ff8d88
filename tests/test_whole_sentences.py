"""Sentences are whole: none is put together by code, none is torn, none stands in two places.

A translator can then reorder each, and finds it once.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from typing import Final

from tests.server import ROOT
from tests.texts import FOR_PROGRAMMERS, SAYS, texts

#: Signs of numbers; and what a console prints as it stands, indented or with lines of its own.
_PRINTED: Final = (
    "language.numbers.",
    "server.door.",
    "server.replay.examples",
    "server.serving.environment",
)


def forms() -> Iterator[tuple[str, str]]:
    """Yield every form of every text by the text's key."""
    for key, found in texts():
        yield from ((key, form) for form in ([found] if isinstance(found, str) else found.values()))


def test_no_text_is_only_the_beginning_or_the_rest_of_a_sentence() -> None:
    """What begins or ends with a space or a comma is to be glued to another text, in English order."""
    torn = re.compile(r"^[\s,;.:!?)]|[\s,(]$")
    assert [key for key, form in forms() if torn.search(form) and not key.startswith(_PRINTED)] == []


def test_no_sentence_stands_under_two_keys() -> None:
    """A word or a label may: in another language it may be another one each time."""
    is_sentence = re.compile(r"\w.*[^.…][.?!]$|\w.*\{\w+\}.*\{\w+\}")
    alike = re.compile(
        r"^(answers|language|rule_sets)\.|^steps\.(chain|list|who|you)\.|^viewer\.(changes|on_bench)"
    )
    found: dict[str, set[str]] = {}
    for key, form in forms():
        if is_sentence.search(form) and not alike.search(key):
            found.setdefault(form, set()).add(key)
    assert {form: keys for form, keys in found.items() if len(keys) > 1} == {}


#: A template literal, with what is filled in.
_FILLED: Final = r"\$\{((?:[^{}`]|\{[^{}]*\}|`[^`]*`)*)\}"
_LITERAL: Final = re.compile(rf"`((?:[^`\\$]|\\.|\$(?!\{{)|{_FILLED})*)`")
_IS_SAID: Final = re.compile(
    r"\bsay[A-Z]\w*\(|\bwords\.(say|spot|at|direction|player|formation)\(|\b(sentenceOf|actionWord|listed)\("
)
_GLUE: Final = re.compile(r"join\([\"`](, | · |; |\. )[\"`]\)|\bsay[A-Z]\w*\([^()]*\) \+|\+ say[A-Z]\w*")
#: Tags are written as somebody types them.
_AS_TYPED: Final = "static/js/plays/form.js"


def test_no_script_puts_texts_together() -> None:
    """Texts go into the slots of another text, or into a list of the language's own."""
    found = set()
    for path in sorted((ROOT / "static/js").rglob("*.js")):
        name = path.relative_to(ROOT).as_posix()
        code = re.sub(r"/\*.*?\*/|(^|\s)//.*?$", "", path.read_text("utf-8"), flags=re.S | re.M)
        for literal in _LITERAL.finditer(code):
            parts = re.split(_FILLED, literal[0][1:-1])
            others = "".join(parts[::2]).strip() or len(parts) > 3
            if others and any(_IS_SAID.search(part) for part in parts[1::2]):
                found.add(f"{name}: {literal[0]}")
        for glue in _GLUE.finditer(code):
            if name != _AS_TYPED:
                found.add(f"{name}: {glue[0]}")
    assert found == set()


#: What puts texts together for a console, or for a programmer who reads an exception.
_FOR_CONSOLES: Final = ("engine/rules/rule_sets.py", "webapp/base/settings.py", "webapp/serving/command.py")
_WORDS: Final = SAYS | {"listed", "decimal", "sentence", "spot_words", "spot_form", "formation_words"}


def _says(node: ast.AST) -> bool:
    if not isinstance(node, ast.Call):
        return False
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    return name in _WORDS


def _is_glue(node: ast.AST) -> bool:
    if isinstance(node, ast.JoinedStr):
        return any(isinstance(part, ast.FormattedValue) and _says(part.value) for part in node.values)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        return _says(node.left) or _says(node.right)
    return (
        isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr == "join"
        and isinstance(node.func.value, ast.Constant)
        and re.fullmatch(r"[,;.] |\s+·\s+", str(node.func.value.value)) is not None
    )


def test_no_module_puts_texts_together() -> None:
    found = set()
    for path in sorted([*(ROOT / "engine").rglob("*.py"), *(ROOT / "webapp").rglob("*.py")]):
        name = path.relative_to(ROOT).as_posix()
        if not name.startswith((*FOR_PROGRAMMERS, *_FOR_CONSOLES)):
            nodes = ast.walk(ast.parse(path.read_text("utf-8")))
            found |= {f"{name}: {ast.unparse(node)}" for node in nodes if _is_glue(node)}
    assert found == set()
