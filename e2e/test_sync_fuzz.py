"""Two coaches and three players on bad lines, told by a seed what to do: nothing is lost, and in the end all
show the same.

``QUINTET_FUZZ_SEEDS=50`` plays so many seeds, whatever is usual; ``QUINTET_FUZZ_FROM`` is the first.
"""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from e2e.fuzz.found import FOUND
from e2e.fuzz.play import Crew, Game, crew
from e2e.fuzz.script import Step, script, written
from tests.depth import deep
from tests.plugin import ROOMY
from tests.server import Servers

FROM = int(os.environ.get("QUINTET_FUZZ_FROM", "0"))
SEEDS = range(FROM, FROM + int(os.environ.get("QUINTET_FUZZ_SEEDS", deep(3, 200))))


@pytest.fixture(scope="module")
def everybody(
    browser: Browser, module_servers: Servers, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Crew]:
    with crew(browser, module_servers(tmp_path_factory.mktemp("fuzz") / "data", **ROOMY)) as found:
        yield found


def play(everybody: Crew, steps: list[Step], name: str) -> None:
    game = Game(everybody)
    try:
        game.play(steps)
    except Exception as error:
        story = "\n".join(game.story)
        said = f"{name}: {error}\n\nWhat happened:\n{story}\n\nAll of it:\n{written(steps)}"
        raise AssertionError(said) from error


@pytest.mark.parametrize("steps", FOUND.values(), ids=FOUND)
def test_what_was_found_once_does_not_come_back(
    everybody: Crew, steps: list[Step], request: pytest.FixtureRequest
) -> None:
    play(everybody, steps, request.node.name)


@pytest.mark.parametrize("seed", SEEDS)
def test_nothing_is_lost_and_all_end_the_same(everybody: Crew, seed: int) -> None:
    play(everybody, script(seed), f"seed {seed}")
