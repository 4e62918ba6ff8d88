"""The board by hand: players set up freely, what they do drawn with a finger, and played as one step."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, expect

from e2e.axe import check
from e2e.conftest import PHONE, Troubles
from e2e.glass import Glass, Place
from e2e.people import Coach
from engine.floor.formations import FORMATIONS
from engine.script import read

RULE = "All five end on spots: play goes on by rule."
#: The same floor as everybody sees, from centimetres to the middle of a finger.
POINT = """async ([x, y, box]) => {
  const { project } = await import('/static/js/court/projection.js');
  const court = document.getElementById('court');
  const [turned, wide] = ['turned', 'wide'].map((name) => court.classList.contains(name));
  const mirrored = JSON.parse(localStorage.getItem('quintet.view') ?? '{}').mirrored ?? false;
  const seen = project(court.clientWidth, court.clientHeight, box, {turned, mirrored, wide});
  const home = court.getBoundingClientRect();
  const [u, v] = seen.px([x, y]);
  return [u + home.left, v + home.top];
}"""


class Table:
    """A coach with the board by hand open, and a finger on the glass."""

    def __init__(self, coach: Coach) -> None:
        self.coach, self.page = coach, coach.page
        self.glass = Glass(coach.page)
        self.says = self.page.locator(".hand-head p")
        self.title = self.page.locator(".hand-head h2")
        self.lines = self.page.locator(".hand-panel .line .says")

    def open(self) -> Table:
        self.coach.do("byHand")
        expect(self.page.get_by_role("toolbar", name="Draw a play")).to_be_visible()
        return self

    def press(self, name: str) -> None:
        """Tap a button of the row or of the words."""
        self.page.locator(".hand-bar, .hand-panel").get_by_role("button", name=name, exact=True).tap()

    def at(self, x: float, y: float) -> Place:
        """Return where a place of the court, in centimetres, is on the glass."""
        u, v = self.page.evaluate(POINT, [x, y, self.coach.floor["box"]])
        return u, v

    def grip(self, who: str) -> Locator:
        return self.page.locator(f'.grip[data-who="{who}"]')

    def on(self, who: str) -> Place:
        """Return where somebody, or the ball, is on the glass."""
        return self.glass.middle(f'.grip[data-who="{who}"]')

    def spot(self, name: str) -> Place:
        x, y = self.coach.floor["spots"][name]
        return self.at(x, y)

    def drag(self, who: str, *way: Place, lift: bool = True) -> None:
        """Drag somebody through these places with a finger."""
        last = self.on(who)
        self.glass.down(last)
        for to in way:
            for i in range(1, 7):
                self.glass.move((last[0] + (to[0] - last[0]) * i / 6, last[1] + (to[1] - last[1]) * i / 6))
            last = to
        if lift:
            self.glass.up()

    def reads(self, *lines: str) -> None:
        expect(self.lines).to_have_text(list(lines))

    def is_at(self, who: str, place: Place, within: float = 8) -> None:
        """Wait until somebody is there on the glass."""
        self.page.wait_for_function(
            """([who, x, y, within]) => {
              const box = document.querySelector(`.grip[data-who="${who}"]`)?.getBoundingClientRect();
              return box && Math.hypot(box.left + box.width / 2 - x, box.top + box.height / 2 - y) < within;
            }""",
            arg=[who, *place, within],
        )


@pytest.fixture
def table(coach: Coach) -> Table:
    return Table(coach).open()


def inbound(table: Table) -> None:
    """Set up and draw an inbound from the side: a pass in, two cuts, then a screen."""
    table.press("Sideline inbound")
    table.press("Moves")
    table.drag("ball", table.on("2"))
    table.drag("1", table.at(300, 640), table.spot("top"))
    table.drag("3", table.at(-250, 330), table.spot("left_block"))
    table.press("Then")
    table.drag("4", table.at(330, 300), table.spot("right_block"))
    table.page.locator(".hand-panel .line").last.tap()
    table.press("Screen")


def test_an_inbound_is_drawn_and_play_goes_on_by_rule(table: Table) -> None:
    coach, page = table.coach, table.page
    expect(table.title).to_have_text("As drawn")
    inbound(table)
    table.reads(
        "1 passes to 2", "1 cuts to the top", "3 cuts to the left block", "4 screens, on the right block"
    )
    expect(table.title).to_contain_text("Sideline inbound")
    expect(table.says).to_have_text(RULE)
    table.press("Done")
    coach.reads(["sideline inbound"])
    coach.wide = True
    expect(page.get_by_role("toolbar", name="Draw a play")).to_be_hidden()
    coach.stands(
        {
            "at": {"1": "top", "2": "right_wing", "3": "left_block", "4": "right_block", "5": "left_corner"},
            "ball": 2,
        }
    )
    for count in range(2, 5):
        act = page.locator("#court:not(.waiting) .target:not(.sign-shot)").first.get_attribute("aria-label")
        assert act
        coach.tap(act)
        expect(coach.chain).to_have_count(count)
    coach.saved()
    with coach.device.coach() as screen:
        text = screen.hello()["steps"][0]["a"][0]
    script = read(text, FORMATIONS["five_out"])
    passer = script.places[0]
    assert abs(passer[1]) > coach.floor["box"][2]  # the passer stands outside the line
    assert [run.style for run in script.runs] == ["cut", "cut", "screen"]
    screen, others = script.runs[-1], [run.end for run in script.runs[:-1]]
    assert screen.start == max(*others, script.events[-1].end)  # once all of what is before it is over


def test_undo_redo_and_clear(table: Table) -> None:
    table.press("Moves")
    table.drag("2", table.at(500, 200))
    table.reads("2 cuts")
    table.drag("ball", table.on("3"))
    table.reads("2 cuts", "1 passes to 3")
    table.press("Undo")
    table.reads("2 cuts")
    table.page.keyboard.press("u")
    expect(table.lines).to_have_count(0)
    table.press("Redo")
    table.page.keyboard.press("Control+y")
    table.reads("2 cuts", "1 passes to 3")
    table.press("Clear")
    expect(table.page.get_by_role("button", name="Set up")).to_have_attribute("aria-pressed", "true")
    table.page.locator("#toast").get_by_role("button", name="Undo").tap()
    table.press("Moves")
    table.reads("2 cuts", "1 passes to 3")


def test_a_ball_that_is_left_lies_and_is_picked_up(table: Table) -> None:
    table.press("Moves")
    table.drag("1", table.at(0, 420))
    table.drag("ball", table.at(300, 420))
    table.reads("1 dribbles to the high post", "1 leaves the ball")
    expect(table.says).to_have_text("The ball ends on the floor: Recover brings everybody back.")
    table.drag("ball", table.at(0, 300))  # nobody has it: it stays
    expect(table.lines).to_have_count(2)
    table.drag("2", table.at(320, 430))
    table.reads("1 dribbles to the high post", "1 leaves the ball", "2 cuts", "2 picks up the ball")
    expect(table.says).to_have_text("2 does not end on a spot: Recover brings them back.")
    table.drag("2", table.spot("right_wing"))
    expect(table.lines.last).to_have_text("2 dribbles to the right wing")
    table.press("Set up")
    table.drag("ball", table.at(-300, 600))
    table.press("Moves")
    # Without the ball there is no dribble and nothing to leave.
    table.reads(
        "1 cuts to the high post",
        "Nobody has the ball for this",
        "2 cuts",
        "2 picks up the ball",
        "2 dribbles to the right wing",
    )


def test_defenders_coach_and_cones_come_and_go(table: Table) -> None:
    table.page.get_by_role("button", name="Defender X1").tap()
    expect(table.grip("x1")).to_have_attribute("aria-label", "X1")
    table.press("All five X")
    table.press("Coach")
    table.press("Cone")
    expect(table.page.locator(".grip")).to_have_count(13)  # five, five, coach, cone and ball
    table.press("Take Cone 1 away")
    expect(table.grip("k1")).to_have_count(0)
    table.drag("x3", (table.at(0, 0)[0] * 0 + 2, table.at(0, 300)[1]))  # off the court's side
    expect(table.grip("x3")).to_have_count(0)
    table.press("Undo")
    expect(table.grip("x3")).to_have_count(1)
    table.glass.tap(table.on("x5"))
    table.press("Take X5 away")
    table.press("Moves")
    table.drag("x2", table.at(450, 300))
    table.reads("X2 moves")
    table.drag("2", table.spot("right_corner"))  # 4 is there
    expect(table.says).to_have_text("2 does not end on a spot: Recover brings them back.")
    table.press("Done")
    table.coach.reads(["as drawn"])
    expect(table.page.locator("#list")).to_contain_text("2")
    expect(table.page.locator("#adrift")).to_be_visible()
    table.coach.do("recover")
    expect(table.coach.chain).to_have_count(2)
    expect(table.page.locator("#adrift")).to_be_hidden()


def test_a_draft_survives_closing_and_a_reload(table: Table) -> None:
    inbound(table)
    table.press("Close")
    expect(table.page.locator("#toast")).to_contain_text("Your drawing is saved on this device")
    table.coach.reads([])
    table.page.reload()
    table.coach.saved()
    table.open()
    expect(table.lines).to_have_count(4)
    expect(table.page.locator("#toast")).to_contain_text("the drawing you left")
    table.press("Done")
    table.coach.reads(["sideline inbound"])
    table.coach.saved()


def test_a_drawn_step_is_changed_as_another_way_or_followed_by_a_new_one(table: Table) -> None:
    inbound(table)
    times = table.page.locator(".hand-panel .line").all_inner_texts()
    table.press("Done")
    table.coach.reads(["sideline inbound"])
    table.open()
    expect(table.page.locator("#toast")).to_contain_text("This step can be changed.")
    expect(table.page.locator(".hand-panel .line .says")).to_have_count(4)
    said = [text.split(",")[0] for text in table.page.locator(".hand-panel .line").all_inner_texts()]
    assert sorted(said) == sorted(text.split(", starts")[0].split(",")[0] for text in times)
    table.press("Done")
    expect(table.page.locator("#toast")).to_contain_text("Nothing is changed yet.")
    table.drag("5", table.spot("left_wing"))
    table.press("Done")
    table.coach.reads(["sideline inbound"])
    # The old way is another branch from before the step.
    expect(table.page.locator("#chain .fork button")).to_have_text(["1"])
    table.coach.saved()
    table.open()
    table.press("New step after this one")
    expect(table.lines).to_have_count(0)
    table.press("Entry")
    table.press("Moves")
    table.drag("ball", table.on("2"))
    table.press("Done")
    table.coach.reads(["sideline inbound", "entry"])
    table.coach.saved()


def test_a_cancelled_touch_and_a_second_finger_do_nothing(table: Table) -> None:
    table.press("Moves")
    table.drag("2", table.at(300, 200), lift=False)
    table.glass.cancel()
    expect(table.lines).to_have_count(0)
    table.is_at("2", table.spot("right_wing"))
    table.drag("2", table.at(300, 200), lift=False)
    table.glass.down(table.on("3"), 2)
    table.glass.move(table.at(-300, 200), 2)
    table.glass.up(2)
    table.glass.up(1)
    table.reads("2 cuts")
    table.is_at("3", table.spot("left_wing"))
    # The floor scrolls nothing and plays nothing.
    assert table.page.evaluate("() => document.scrollingElement.scrollTop") == 0
    table.coach.reads([])


def test_lines_are_timed_and_deleted(table: Table) -> None:
    table.press("Moves")
    table.drag("2", table.spot("right_elbow"))
    line = table.page.locator(".hand-panel .line")
    line.tap()
    expect(line).to_contain_text("starts at 0.0 s")
    table.press("Later")
    table.press("Later")
    expect(line).to_contain_text("starts at 0.4 s")
    table.press("Earlier")
    expect(line).to_contain_text("starts at 0.2 s")
    table.press("Earlier")
    expect(line).to_contain_text("starts at 0.0 s")
    table.press("Earlier")
    expect(table.page.locator("#toast")).to_contain_text("It cannot begin earlier")
    table.press("Later")
    expect(line).to_contain_text("starts at 0.2 s")
    time = table.page.locator(".hand-panel .line .time")
    before = time.inner_text()
    table.press("Faster")
    expect(time).not_to_have_text(before)
    table.press("Slower")
    expect(time).to_have_text(before)
    table.press("Delete")
    expect(table.lines).to_have_count(0)


def test_handing_over_shooting_and_going_on(table: Table) -> None:
    table.press("Moves")
    table.drag("1", table.at(400, 560))  # next to 2
    table.drag("ball", table.on("2"))
    table.reads("1 dribbles", "1 hands off to 2")
    table.drag("ball", table.at(0, 0))
    table.reads("1 dribbles", "1 hands off to 2", "2 shoots")
    expect(table.says).to_have_text("It ends with a shot.")
    table.press("Done")
    table.coach.reads(["as drawn"])
    expect(table.page.locator("#list")).to_contain_text("The shot ends the possession.")
    table.open()  # to be changed; nothing can follow it
    expect(table.lines).to_have_count(3)
    expect(table.page.get_by_role("button", name="New step after this one")).to_have_count(0)


def test_a_tap_on_a_team_mate_passes_to_him(table: Table) -> None:
    table.press("Moves")
    table.glass.tap(table.on("3"))
    table.glass.tap(table.on("3"))  # he has it
    table.glass.tap(table.on("1"))
    table.reads("1 passes to 3", "3 passes to 1")
    table.grip("2").focus()
    table.page.keyboard.press("Enter")
    expect(table.lines.last).to_have_text("1 passes to 2")


def test_nothing_is_drawn_after_a_shot(coach: Coach) -> None:
    coach.tap("1 shoots")
    coach.reads(["1 shoots"])
    coach.do("byHand")
    expect(coach.page.locator("#toast")).to_contain_text("A shot has ended this.")


def test_by_keyboard_alone(coach: Coach) -> None:
    page, table = coach.page, Table(coach)
    page.keyboard.press("h")
    expect(page.get_by_role("toolbar", name="Draw a play")).to_be_visible()
    table.grip("3").focus()
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("m")
    expect(table.page.get_by_role("button", name="Moves", exact=True)).to_have_attribute(
        "aria-pressed", "true"
    )
    table.grip("ball").focus()
    page.keyboard.press("2")
    table.reads("1 passes to 2")
    table.grip("1").focus()
    for _ in range(4):
        page.keyboard.press("ArrowUp")
    expect(table.says).to_have_text("1: a run is begun. Enter saves it.")
    page.keyboard.press("Escape")
    table.reads("1 passes to 2")
    for _ in range(2):
        page.keyboard.press("Shift+ArrowUp")
    page.keyboard.press("Enter")
    table.reads("1 passes to 2", "1 cuts")
    page.keyboard.press("t")
    table.grip("ball").focus()
    page.keyboard.press("s")
    table.reads("1 passes to 2", "1 cuts", "2 shoots")
    page.keyboard.press("Control+z")
    table.reads("1 passes to 2", "1 cuts")
    page.get_by_role("button", name="Done").press("Enter")
    coach.reads(["as drawn"])
    page.keyboard.press("h")
    page.keyboard.press("Escape")
    expect(page.get_by_role("toolbar", name="Draw a play")).to_be_hidden()


def test_turned_mirrored_and_small(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(viewport=PHONE, is_mobile=True)
    coach.page.evaluate(
        '() => localStorage.setItem(\'quintet.view\', \'{"turned":true,"mirrored":true,"left":true}\')'
    )
    coach.page.reload()
    coach.saved()
    coach.turned = coach.mirrored = coach.wide = True
    table = Table(coach).open()
    inbound(table)
    expect(table.says).to_have_text(RULE)
    for button in coach.page.locator(".hand-bar button, .hand-panel button").all():
        box = button.bounding_box()
        assert box
        assert min(box["width"], box["height"]) >= 47.5
    table.press("Done")
    coach.stands(
        {
            "at": {"1": "top", "2": "right_wing", "3": "left_block", "4": "right_block", "5": "left_corner"},
            "ball": 2,
        }
    )


@pytest.mark.pace(1)
def test_a_film_that_plays_is_stopped_and_played_from(coach: Coach) -> None:
    coach.tap("1 passes to 2")
    coach.saved()
    coach.do("replay")
    table = Table(coach).open()
    assert not coach.page.evaluate("() => document.querySelector('#court').classList.contains('moving')")
    expect(table.page.locator(".hand-bar")).to_be_visible()
    table.press("Close")
    expect(coach.chain).to_have_count(1)


def test_a_screen_reader_and_weak_eyes_get_along(table: Table) -> None:
    check(table.page)
    inbound(table)
    check(table.page)


def test_a_changed_step_that_was_left_is_still_a_change_of_it(table: Table) -> None:
    inbound(table)
    table.press("Done")
    table.coach.reads(["sideline inbound"])
    table.open()
    table.drag("5", table.spot("left_wing"))
    table.press("Close")
    table.open()
    expect(table.lines).to_have_count(5)
    table.press("Done")
    table.coach.reads(["sideline inbound"])
    table.coach.saved()


def test_without_a_pack_nobody_is_promised_a_post(
    new_coach: Callable[..., Coach], troubles: Troubles
) -> None:
    troubles.expect("ERR_FAILED")
    coach = new_coach()
    coach.page.evaluate("() => indexedDB.deleteDatabase('quintet')")
    coach.context.route("**/api/packs**", lambda route: route.abort())
    coach.page.reload()
    coach.saved()
    table = Table(coach).open()
    table.press("Moves")
    table.drag("2", table.spot("right_elbow"))
    expect(table.says).to_have_text("Somebody ends at a post: Recover brings everybody back.")
    table.press("Done")
    coach.reads(["as drawn"])
    expect(coach.page.locator("#adrift")).to_be_visible()


def test_a_pass_waits_for_a_cutter_and_a_way_after_a_catch_is_a_dribble(table: Table) -> None:
    table.press("Moves")
    table.drag("2", table.spot("right_block"))
    table.drag("ball", table.on("2"))
    table.drag("2", table.spot("right_corner"), table.at(600, 200))
    table.reads("2 cuts to the right block", "1 passes to 2", "2 dribbles")
    line = table.page.locator(".hand-panel .line")
    cut = float(line.first.locator(".time").inner_text().split()[1])
    line.nth(1).tap()
    words = line.nth(1).inner_text()
    thrown = float(words.split("starts at ")[1].split()[0])
    assert cut / 2 < thrown < cut  # when he is nearly there, however early it was drawn
    line.nth(2).tap()
    assert float(line.nth(2).inner_text().split("starts at ")[1].split()[0]) > thrown
    expect(table.page.locator("#court .trails .dribble")).to_have_count(1)


@pytest.mark.pace(5)
def test_played_before_it_is_in_the_chain_with_and_without_movement(table: Table) -> None:
    inbound(table)
    table.press("Play")
    stop = table.page.locator(".hand-bar").get_by_role("button", name="Stop")
    expect(stop).to_be_visible()
    expect(table.page.locator(".hand-bar").get_by_role("button", name="Play")).to_be_visible()
    table.page.emulate_media(reduced_motion="reduce")
    table.press("Play")
    expect(stop).to_be_visible()
    stop.tap()
    expect(stop).to_be_hidden()
    table.coach.reads([])
