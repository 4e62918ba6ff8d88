"""What happens to a tablet on a sideline: wet fingers, two at once, calls, turning: no step is lost."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from e2e.conftest import LINE_DOWN, TABLET, Troubles
from e2e.expected import Play
from e2e.glass import Glass
from e2e.people import Coach
from engine.game.play import offers
from engine.game.steps import Step
from tests.depth import deep

#: So many times twenty-five taps on one button and as many on another: a thousand, when looked at hard.
ROUNDS = deep(1, 20)
UPRIGHT = {"width": 820, "height": 1180}
TAPS = ["pass:right_wing", "fill:left_corner pass:top", "fill:right_corner drive:left"]
#: A device that saves its battery: few pictures a second, and timers that come when they like.
SAVER = """const later = window.setTimeout.bind(window);
window.requestAnimationFrame = (act) => later(() => act(performance.now()), 125);
window.cancelAnimationFrame = (id) => clearTimeout(id);
window.setTimeout = (act, wait, ...given) => later(act, Math.max(1000, wait || 0), ...given);"""
#: The page is out of sight, or back.
HIDE = """(state) => {
  Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => state });
  document.dispatchEvent(new Event('visibilitychange'));
}"""
#: The beginning of a touch whose end is never told.
LOST = """(player) => {
  const disc = document.querySelector(`#court .disc[data-player="${player}"]`);
  const { left, top, width, height } = disc.getBoundingClientRect();
  const given = { pointerId: 77, isPrimary: true, pointerType: 'touch', bubbles: true, buttons: 1,
    clientX: left + width / 2, clientY: top + height / 2 };
  disc.dispatchEvent(new PointerEvent('pointerdown', given));
  disc.dispatchEvent(new PointerEvent('lostpointercapture', given));
}"""
#: Where the page is: how far zoomed, scrolled, and what is marked.
WHERE = """() => [visualViewport.scale, visualViewport.offsetTop, scrollX, scrollY,
  document.scrollingElement.scrollTop, getSelection().toString()]"""
STILL = [1, 0, 0, 0, 0, ""]


@pytest.fixture
def glass(coach: Coach) -> Glass:
    return Glass(coach.page)


def on_court(sentence: str) -> str:
    return f'#court :is(.target, .disc.can)[aria-label="{sentence}"]'


def place(coach: Coach, glass: Glass, sentence: str) -> tuple[float, float]:
    """Return where to touch for ``sentence``, once it is there."""
    expect(coach.page.locator(on_court(sentence))).to_be_visible()
    return glass.middle(on_court(sentence))


def corner(coach: Coach) -> tuple[float, float]:
    """Return a place on the court where nothing can be tapped."""
    box = coach.page.locator("#court").bounding_box()
    assert box is not None
    return box["x"] + 12, box["y"] + 12


def stored(coach: Coach, play: Play) -> None:
    """Wait until all is saved, and look whether the server has exactly these steps in order."""
    coach.reads(play.sentences)
    coach.saved()
    with coach.device.coach() as screen:
        assert screen.chain() == play.actions


def at_ease(page: Page) -> None:
    """Nothing is left pressed, pointed at or lifted."""
    expect(page.locator("#court :is(.pressed, .aimed, .lifted)")).to_have_count(0)


def long_line(count: int) -> Play:
    """Return so many taps that follow on one another, none of which ends the possession."""
    play = Play("five_out")
    for _ in range(count):
        all_of = offers(play.position, play.formation)
        play.play(" ".join(str(action) for action in next(o for o in all_of if lasts(o.steps)).actions))
    return play


def lasts(steps: tuple[Step, ...]) -> bool:
    return not steps[-1].after.over


def test_a_wet_finger_that_slips_has_tapped(coach: Coach, glass: Glass) -> None:
    play = Play("five_out")
    for tap in TAPS:
        x, y = place(coach, glass, play.play(tap))
        # Down beside the middle, a slip of more than a finger's calm, and up.
        glass.down((x - 9, y))
        glass.move((x + 2, y + 3))
        glass.move((x + 9, y + 2))
        glass.up()
        coach.reads(play.sentences)
        coach.stands(play.standing)
    stored(coach, play)


def test_a_target_that_a_player_runs_over_is_tapped_through_him(coach: Coach, glass: Glass) -> None:
    play = Play("five_out")
    driving = place(coach, glass, play.play("drive:left"))
    handler = '#court .disc[data-player="1"]'
    x, y = glass.middle(handler)
    coach.page.locator(handler).evaluate(
        "(disc, [x, y]) => { disc.style.translate = `${x}px ${y}px`; }", [driving[0] - x, driving[1] - y]
    )
    assert glass.middle(handler) == pytest.approx(driving, abs=1)
    # Taken hold of and put down where he was, he has not been tapped through.
    glass.down(driving)
    expect(coach.page.locator(f"{handler}.lifted")).to_have_count(1)
    glass.up()
    expect(coach.page.locator(f"{handler}.lifted")).to_have_count(0)
    expect(coach.chain).to_have_count(0)
    glass.tap(driving)
    coach.reads(play.sentences)


def test_a_tap_is_taken_while_a_palm_rests_on_the_court(coach: Coach, glass: Glass) -> None:
    play = Play("five_out")
    glass.down(corner(coach), finger=7)
    for tap in TAPS[:2]:
        glass.tap(place(coach, glass, play.play(tap)), finger=2)
        coach.reads(play.sentences)
        coach.stands(play.standing)
    glass.up(7)
    stored(coach, play)


def test_buttons_are_pressed_while_a_palm_rests_on_the_court(coach: Coach, glass: Glass) -> None:
    play = Play("five_out", TAPS[:1])
    coach.tap(play.sentences[0])
    coach.saved()
    glass.down(corner(coach), finger=7)
    glass.tap(glass.middle('[data-do="undo"]'), finger=2)
    expect(coach.chain).to_have_count(0)
    glass.tap(glass.middle('[data-do="redo"]'), finger=2)
    coach.reads(play.sentences)
    glass.up(7)
    # And each press counts once, also when both thumbs come down together.
    undo, turn = glass.middle('[data-do="undo"]'), glass.middle('[data-do="turn"]')
    glass.down(undo, finger=2)
    glass.down(turn, finger=3)
    glass.up(2)
    glass.up(3)
    expect(coach.chain).to_have_count(0)
    coach.turned = True
    coach.stands(Play("five_out").standing)
    glass.tap(glass.middle('[data-do="redo"]'))
    stored(coach, play)


def test_a_second_finger_on_the_court_does_not_play_twice(coach: Coach, glass: Glass) -> None:
    play = Play("five_out", TAPS[:1])
    first, second = place(coach, glass, "1 passes to 2"), place(coach, glass, "1 passes to 3")
    glass.down(first, finger=1)
    glass.down(second, finger=2)
    glass.up(2)
    glass.up(1)
    stored(coach, play)
    at_ease(coach.page)


def test_a_touch_whose_end_is_lost_leaves_nothing_stuck(coach: Coach, glass: Glass) -> None:
    play = Play("five_out", TAPS[:1])
    coach.page.evaluate(LOST, 2)
    glass.tap(place(coach, glass, play.sentences[0]))
    stored(coach, play)
    at_ease(coach.page)


def test_a_pencil_lifted_unseen_carries_nobody_as_it_hovers(coach: Coach, glass: Glass) -> None:
    x, y = glass.middle('#court .disc[data-player="3"]')
    glass.pen("mousePressed", (x, y), pressed=True)
    expect(coach.page.locator('#court .disc[data-player="3"].lifted')).to_be_visible()
    for step in range(1, 5):
        glass.pen("mouseMoved", (x + 30 * step, y + 20 * step), pressed=False)
    at_ease(coach.page)
    coach.stands(Play("five_out").standing)
    glass.pen("mouseReleased", (x + 120, y + 80), pressed=False)
    play = Play("five_out", TAPS[:1])
    coach.tap(play.sentences[0])
    stored(coach, play)


def test_a_touch_the_system_takes_away_plays_nothing(coach: Coach, glass: Glass) -> None:
    glass.down(place(coach, glass, "1 passes to 2"))
    glass.cancel()
    at_ease(coach.page)
    play = Play("five_out", TAPS[:1])
    coach.tap(play.sentences[0])
    stored(coach, play)


def test_a_call_in_the_middle_of_a_touch_lets_go_of_the_player(coach: Coach, glass: Glass) -> None:
    x, y = glass.middle('#court .disc[data-player="3"]')
    glass.down((x, y))
    expect(coach.page.locator('#court .disc[data-player="3"].lifted')).to_be_visible()
    glass.move((x + 60, y + 60))
    coach.page.evaluate(HIDE, "hidden")
    at_ease(coach.page)
    glass.up()
    coach.page.evaluate(HIDE, "visible")
    coach.stands(Play("five_out").standing)
    play = Play("five_out", TAPS[:1])
    coach.tap(play.sentences[0])
    stored(coach, play)


@pytest.mark.pace(1)
def test_a_page_frozen_in_the_middle_of_a_movement_goes_on_where_the_others_are(
    coach: Coach, glass: Glass, troubles: Troubles
) -> None:
    troubles.expect(LINE_DOWN)
    play = Play("five_out")
    coach.tap(play.play(TAPS[0]))
    coach.saved()
    glass.ask("Page.setWebLifecycleState", state="frozen")
    play.play(TAPS[1])
    with coach.device.coach() as screen:
        assert screen.change("act", at=1, a=play.actions[1])["t"] == "step"
    glass.ask("Page.setWebLifecycleState", state="active")
    coach.reads(play.sentences)
    coach.stands(play.standing)
    coach.tap(play.play(TAPS[2]))
    coach.stands(play.standing)
    stored(coach, play)


@pytest.mark.pace(2)
def test_turned_in_the_middle_of_a_movement_everybody_gets_where_he_should(coach: Coach) -> None:
    play = Play("five_out")
    for tap, size in zip(TAPS, (UPRIGHT, TABLET, UPRIGHT), strict=True):
        coach.tap(play.play(tap))
        coach.page.set_viewport_size(size)
    coach.reads(play.sentences)
    coach.stands(play.standing)
    stored(coach, play)


def test_turned_while_a_player_is_carried_he_is_back_where_he_was(coach: Coach, glass: Glass) -> None:
    x, y = glass.middle('#court .disc[data-player="3"]')
    glass.down((x, y))
    expect(coach.page.locator('#court .disc[data-player="3"].lifted')).to_be_visible()
    glass.move((x + 60, y + 60))
    coach.page.set_viewport_size(UPRIGHT)
    at_ease(coach.page)
    glass.up()
    coach.stands(Play("five_out").standing)


@pytest.mark.pace(3)
def test_a_battery_saver_makes_it_slower_and_loses_nothing(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach()
    coach.page.add_init_script(SAVER)
    coach.page.reload()
    play = Play("five_out")
    for tap in TAPS[:2]:
        coach.tap(play.play(tap))
    coach.stands(play.standing)
    coach.do("replay")
    coach.stands(play.standing)
    stored(coach, play)


def test_hundreds_of_fast_taps_are_as_many_steps(coach: Coach, glass: Glass) -> None:
    play = long_line(25)
    with coach.device.coach() as screen:
        for at, actions in enumerate(play.actions):
            assert screen.change("act", at=at, a=actions)["t"] == "step"
    coach.reads(play.sentences)
    coach.saved()
    with coach.device.coach() as screen:
        before = screen.state["seq"]
    for _ in range(ROUNDS):
        for button in ("undo", "redo"):
            expect(coach.page.locator(f'[data-do="{button}"]')).to_be_enabled()
            at = glass.middle(f'[data-do="{button}"]')
            for _ in range(25):
                glass.tap(at)
    expect(coach.status).to_have_text("saved", timeout=240_000)
    stored(coach, play)
    with coach.device.coach() as screen:
        assert screen.state["seq"] == before + 50 * ROUNDS
    coach.do("undo")
    expect(coach.chain).to_have_count(24)
    coach.stands(Play("five_out", play.taps[:-1]).standing)


def test_nothing_zooms_scrolls_or_is_marked_under_the_fingers(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(is_mobile=True)
    glass = Glass(coach.page)
    for selector in ("#court", ".controls", "header.bar", "#chain", ".sheet"):
        x, y = glass.middle(selector)
        glass.ask("Input.synthesizePinchGesture", x=x, y=y, scaleFactor=2.5, gestureSourceType="touch")
        glass.ask("Input.synthesizeScrollGesture", x=x, y=y, yDistance=-300, gestureSourceType="touch")
        glass.ask("Input.synthesizeTapGesture", x=x, y=y, tapCount=2, gestureSourceType="touch")
        assert coach.page.evaluate(WHERE) == STILL, selector


def test_a_long_press_brings_no_menu_of_the_system(coach: Coach, glass: Glass) -> None:
    coach.page.evaluate(
        "() => addEventListener('contextmenu', (event) => {"
        " document.body.dataset.menus = `${document.body.dataset.menus ?? ''}${event.defaultPrevented} `; })"
    )
    for selector in ("#court", '[data-do="undo"]', "#chain", ".sheet h3"):
        x, y = glass.middle(selector) if selector != ".sheet h3" else glass.middle(".sheet h3 >> nth=0")
        glass.ask("Input.synthesizeTapGesture", x=x, y=y, duration=900, gestureSourceType="touch")
    assert "false" not in (coach.page.locator("body").get_attribute("data-menus") or "")
    assert coach.page.evaluate("getSelection().toString()") == ""
