"""The README and the pages it leads to: short, true to the commands, and in the words of the screens."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

from tests.server import ROOT
from tests.test_texts import texts

README: Final = ROOT / "README.md"
PAGES: Final = (README, ROOT / "webapp/boards/README.md", ROOT / "webapp/serving/README.md")


def written(page: Path) -> str:
    return page.read_text("utf-8")


def test_the_readme_is_one_page_that_begins_with_the_job_and_two_commands() -> None:
    lines = written(README).splitlines()
    assert len(lines) <= 80
    commands = [line.strip() for line in lines if line.startswith("    ")]
    assert commands[:2] == ["python3 -m webapp", "python3 -m tests"]
    before = "\n".join(lines[: lines.index("    python3 -m webapp")])
    assert before.startswith("# Quintet\n\nQuintet is a court board for basketball coaches")
    assert len(before.split("\n\n")) == 3  # the name, the job, how to start


@pytest.mark.parametrize(
    "told", ["Ctrl+C", "py -m webapp", "py -m tests", "needs the network", "webapp backup", "webapp restore"]
)
def test_the_readme_says_how_it_is_stopped_started_elsewhere_and_saved(told: str) -> None:
    assert told in written(README)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.parent.name)
def test_links_lead_somewhere_and_no_page_is_out_of_reach(page: Path) -> None:
    links = re.findall(r"\]\((?!https?:)([^)#]+)\)", written(page))
    assert links
    assert [link for link in links if not (page.parent / link).is_file()] == []
    reached = {(README.parent / link).resolve() for link in re.findall(r"\]\(([^)]+)\)", written(README))}
    assert {*PAGES[1:]} <= reached


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.parent.name)
def test_every_option_a_page_names_is_one_of_the_command(page: Path) -> None:
    named = set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", written(page))) - {"--help"}
    asked = [sys.executable, "-m", "webapp", "--help"]
    offered = subprocess.run(asked, capture_output=True, text=True, check=True, cwd=ROOT).stdout
    assert {option for option in named if option not in offered} == set()


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.parent.name)
def test_what_a_page_tells_to_tap_is_called_so_on_the_screen(page: Path) -> None:
    """``*Menu, Team*`` is one after the other."""
    labels = {form for _, text in texts() for form in ([text] if isinstance(text, str) else text.values())}
    told = {
        part
        for path in re.findall(r"(?<!\*)\*([A-Z][^*\n]+)\*(?!\*)", written(page))
        for part in path.split(", ")
    }
    assert told
    assert {word for word in told if word not in labels} == set()
