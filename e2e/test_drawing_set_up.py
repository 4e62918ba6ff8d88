"""Who throws in, how the others start, ways that are bent afterwards, and defenders who go with their men."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, expect

from e2e.axe import check
from e2e.people import Coach
from e2e.test_by_hand import Table
from engine.floor.formations import FORMATIONS
from engine.script import Script, read

#: A finger, CSS pixels.
FINGER = 48


@pytest.fixture
def table(coach: Coach) -> Table:
    return Table(coach).open()


def question(table: Table, name: str) -> Locator:
    return table.page.locator(".hand-panel").get_by_role("group", name=name)


def script_of(coach: Coach) -> Script:
    coach.saved()
    with coach.device.coach() as seen:
        return read(seen.chain()[-1][0], FORMATIONS["five_out"])


def test_the_coach_chooses_who_inbounds(table: Table) -> None:
    table.press("Baseline inbound")
    numbers = question(table, "Who inbounds")
    expect(numbers.get_by_role("button")).to_have_text(["1", "2", "3", "4", "5"])
    expect(numbers.get_by_role("button", name="1")).to_have_attribute("aria-pressed", "true")
    out = table.on("1")
    numbers.get_by_role("button", name="3").tap()
    table.is_at("3", out)
    expect(numbers.get_by_role("button", name="3")).to_have_attribute("aria-pressed", "true")
    check(table.page)
    table.press("Moves")
    table.drag("ball", table.on("2"))
    table.reads("3 passes to 2")


@pytest.mark.parametrize(
    ("kind", "name", "places"),
    [
        ("Baseline inbound", "Box", [(-245, 420), (245, 420), (-245, 130), (245, 130)]),
        ("Baseline inbound", "Line across", [(-450, 420), (-150, 420), (150, 420), (450, 420)]),
        ("Baseline inbound", "Stack", [(245, 120), (245, 285), (245, 450), (245, 615)]),
        ("Sideline inbound", "Line across", [(300, 100), (300, 330), (300, 560), (300, 790)]),
    ],
)
def test_the_others_start_in_a_set_of_the_trade(
    table: Table, kind: str, name: str, places: list[tuple[int, int]]
) -> None:
    table.press(kind)
    starts = question(table, "How the others start")
    starts.get_by_role("button", name=name).tap()
    expect(starts.locator('[aria-pressed="true"]')).to_have_text([name])
    table.press("Moves")
    table.drag("ball", table.on("2"))
    table.press("Done")
    script = script_of(table.coach)
    stand = {(x, y) for who, x, y in script.places if who != "1"}
    # Which side is taken depends on where the inbounder stands.
    assert stand in ({*places}, {(-x, y) for x, y in places})


def test_a_drawn_way_is_bent_afterwards(table: Table) -> None:
    table.press("Moves")
    table.drag("3", table.spot("left_block"))
    table.page.locator(".hand-panel .line").last.tap()
    table.drag("bend", table.at(-640, 180))
    table.press("Done")
    (run,) = script_of(table.coach).runs
    assert len(run.points) > 2, "the way has a bow"
    assert min(x for x, _ in run.points) < -560, "through where it was dragged to"
    spots = table.coach.floor["spots"]
    x, y = run.points[-1]
    assert abs(x - spots["left_block"][0]) + abs(y - spots["left_block"][1]) < 6, "its end has stayed"


def test_a_defender_goes_with_his_man_unless_it_is_drawn_where(table: Table) -> None:
    table.press("All five X")
    table.press("Moves")
    before = table.on("x4")
    table.drag("3", table.spot("left_block"))
    x, y = table.coach.floor["spots"]["left_block"]
    far = (x * x + y * y) ** 0.5
    share = 1 - min(140, 0.6 * far) / far
    table.is_at("x3", table.at(x * share, y * share), within=30)
    table.is_at("x4", before)
    table.drag("x3", table.at(100, 500))
    table.is_at("x3", table.at(100, 500), within=30)


def test_the_ball_is_large_enough_for_a_finger(table: Table) -> None:
    box = table.grip("ball").bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= FINGER
