"""Drawing over the court with a pencil and with fingers, as the browser hears of them."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from e2e.conftest import LINE_DOWN, Troubles, paced
from e2e.hand import ACROSS, BELOW, Hand, act, ink, open_tools, strokes, tool
from e2e.people import Coach, Player

PASSED = ["1 passes to 3"]


@pytest.fixture
def hand(coach: Coach) -> Hand:
    """The coach's hand, the tools of ink open."""
    open_tools(coach)
    return Hand(coach)


def said(coach: Coach, sentence: str) -> None:
    expect(coach.page.locator(".ink-tools [role=status]")).to_have_text(sentence)


def test_a_pencil_draws_while_a_finger_still_taps(coach: Coach, hand: Hand) -> None:
    hand.draw()
    strokes(coach, 1)
    said(coach, "1 stroke on this step")
    hand.away()
    coach.tap("1 passes to 3")
    coach.reads(PASSED)
    strokes(coach, 0)  # it stays with the step it was drawn on
    said(coach, "Nothing is drawn on this step")
    hand.draw([(0.5, 0.3), (0.55, 0.4)])
    strokes(coach, 1)
    coach.reads(PASSED)
    coach.do("back")
    strokes(coach, 1)


def test_styles_are_worked_out_once_a_frame_while_a_pencil_writes_over_a_play(
    coach: Coach, hand: Hand
) -> None:
    # Every move asks what it is over: what has been drawn since the frame is worked out for it alone.
    moving = coach.page.locator("#court.moving")
    tool(coach, "Pen", pressed="false")
    coach.tap("1 passes to 3")
    coach.reads(PASSED)
    expect(moving).to_have_count(0)
    spots = [hand.at((0.2 + 0.02 * (i % 30), 0.3 + 0.01 * i)) for i in range(40)]
    given = {"button": "left", "buttons": 1, "pointerType": "pen", "force": 0.5, "clickCount": 1}
    hand.session.send("Performance.enable")
    coach.page.evaluate(
        """() => new Promise((done) => {
          window.frames = window.moves = 0;
          const look = () => { window.frames++; requestAnimationFrame(look); done(); };
          addEventListener('pointermove', () => { window.moves++; }, {capture: true});
          requestAnimationFrame(look);
        })"""
    )
    paced(coach.page, 0.1)  # on a slow machine too it moves for as long as the stroke takes
    coach.do("replay")
    expect(moving).to_be_visible()
    hand.session.send("Input.dispatchMouseEvent", {"type": "mousePressed", **given, **spots[0]})
    # From here on, when all that a stroke begins with has been drawn.
    window = coach.page.evaluate("() => [window.frames, window.moves]")
    before = styles(hand)
    for spot in spots[1:]:
        hand.session.send("Input.dispatchMouseEvent", {"type": "mouseMoved", **given, **spot})
    after = styles(hand)
    frames, moves = (
        now - then
        for now, then in zip(coach.page.evaluate("() => [window.frames, window.moves]"), window, strict=True)
    )
    assert moving.count() == 1
    hand.session.send(
        "Input.dispatchMouseEvent", {"type": "mouseReleased", **given, **spots[-1], "buttons": 0}
    )
    strokes(coach, 1)
    assert moves > len(spots) / 2
    assert after - before < frames + moves / 2


def styles(hand: Hand) -> int:
    """Return how often the page's styles have been worked out."""
    metrics = hand.session.send("Performance.getMetrics")["metrics"]
    return int(next(each["value"] for each in metrics if each["name"] == "RecalcStyleCount"))


def test_a_pencil_over_players_and_targets_draws_and_plays_nothing(coach: Coach, hand: Hand) -> None:
    disc = coach.page.locator('.disc[data-player="3"]').bounding_box()
    home = coach.page.locator("#court").bounding_box()
    assert disc
    assert home
    u = (disc["x"] + disc["width"] / 2 - home["x"]) / home["width"]
    v = (disc["y"] + disc["height"] / 2 - home["y"]) / home["height"]
    hand.draw([(u, v), (u + 0.05, v + 0.02), (u + 0.1, v + 0.03)])
    strokes(coach, 1)
    # A tap on a number leaves no dot on it, and says why nothing is played.
    hand.draw([(u, v)])
    expect(coach.page.locator("#toast")).to_contain_text("a tap plays nothing")
    strokes(coach, 1)
    coach.reads([])


def test_a_finger_draws_at_once_and_taps_once_the_tool_is_put_down(coach: Coach, hand: Hand) -> None:
    hand.finger(ACROSS)
    strokes(coach, 1)
    disc = coach.page.locator('.disc[data-player="3"]')
    disc.tap()
    strokes(coach, 1)
    coach.reads([])
    tool(coach, "Pen", pressed="false")
    coach.tap("1 passes to 3")
    coach.reads(PASSED)


def test_a_second_finger_neither_draws_nor_ends_the_stroke(coach: Coach, hand: Hand) -> None:
    tool(coach, "Cut: arrow")
    hand.touch("touchStart", 1, ACROSS[0])
    hand.touch("touchMove", 1, ACROSS[3])
    hand.touch("touchStart", 2, (0.8, 0.9))
    hand.touch("touchMove", 2, (0.85, 0.9))
    hand.touch("touchEnd", 2)
    hand.touch("touchMove", 1, ACROSS[-1])
    hand.touch("touchEnd", 1)
    strokes(coach, 1)
    expect(ink(coach).locator(".ink-cut")).to_have_count(1)


def test_a_resting_palm_does_nothing_before_under_and_after_the_pencil(coach: Coach, hand: Hand) -> None:
    # On a player's disc, where a finger would pass the ball or, staying, lift the player.
    disc = coach.page.locator('.disc[data-player="3"]').bounding_box()
    home = coach.page.locator("#court").bounding_box()
    assert disc
    assert home
    palm = (
        (disc["x"] + disc["width"] / 2 - home["x"]) / home["width"],
        (disc["y"] + disc["height"] / 2 - home["y"]) / home["height"],
    )
    hand.touch("touchStart", 1, palm)
    hand.begin(ACROSS)
    hand.touch("touchMove", 1, (palm[0] + 0.1, palm[1] + 0.1))
    hand.touch("touchStart", 2, (0.5, 0.6))
    hand.touch("touchEnd", 2)
    # The page's clock is held, as what follows takes no time by hand but some between two programs.
    coach.page.evaluate("() => { const at = performance.now(); performance.now = () => at; }")
    hand.pencil("mouseReleased", ACROSS[-1], buttons=0, force=0)
    hand.touch("touchEnd", 1)
    hand.touch("touchStart", 3, palm)  # the hand settles once more, at once
    hand.touch("touchEnd", 3)
    coach.page.evaluate("() => delete performance.now")
    strokes(coach, 1)
    coach.reads([])
    expect(coach.page.locator("#adrift")).to_be_hidden()
    # The court is as free as before.
    hand.away()
    coach.tap("1 passes to 3")
    coach.reads(PASSED)


def test_a_touch_as_large_as_a_palm_is_none(coach: Coach, hand: Hand) -> None:
    tool(coach, "Pen")
    hand.touch("touchStart", 1, ACROSS[0], size=40)
    hand.touch("touchMove", 1, ACROSS[-1], size=40)
    hand.touch("touchEnd", 1)
    hand.finger(BELOW, finger=2)
    strokes(coach, 1)


def test_a_stroke_the_system_takes_away_is_not_kept(coach: Coach, hand: Hand, player: Player) -> None:
    tool(coach, "Pen")
    hand.touch("touchStart", 1, ACROSS[0])
    hand.touch("touchMove", 1, ACROSS[5])
    expect(ink(player).locator("path.fill")).not_to_have_count(0)
    hand.touch("touchCancel", 1)
    strokes(coach, 0)
    expect(ink(player).locator("path.fill")).to_have_count(0)
    hand.finger(ACROSS)
    strokes(coach, 1)
    strokes(player, 1)


def test_a_pencil_whose_end_was_lost_goes_on_with_the_next_stroke(coach: Coach, hand: Hand) -> None:
    hand.begin(ACROSS)  # no end
    hand.pencil("mouseMoved", BELOW[0], buttons=0, button="none", force=0)
    strokes(coach, 1)
    hand.draw(BELOW)
    strokes(coach, 2)


def test_viewers_see_a_stroke_grow(coach: Coach, hand: Hand, player: Player) -> None:
    hand.begin(ACROSS[:4])
    growing = ink(player).locator("path.fill").last
    early = growing.get_attribute("d")
    for spot in ACROSS[4:]:
        hand.pencil("mouseMoved", spot)
    expect(growing).not_to_have_attribute("d", early or "")
    strokes(player, 0)
    hand.pencil("mouseReleased", ACROSS[-1], buttons=0, force=0)
    strokes(player, 1)
    strokes(coach, 1)


def test_ink_is_there_for_who_joins_later_and_goes_with_its_step(
    coach: Coach, hand: Hand, new_player: Callable[..., Player]
) -> None:
    hand.draw()
    hand.away()
    coach.tap("1 passes to 3")
    coach.reads(PASSED)
    hand.draw(BELOW)
    hand.draw()
    strokes(coach, 2)
    late = new_player()
    strokes(late, 2)
    late.page.locator("#back").tap()
    strokes(late, 1)


def test_undo_erase_and_clear_travel_too(coach: Coach, hand: Hand, player: Player) -> None:
    hand.draw()
    hand.draw(BELOW)
    strokes(player, 2)
    act(coach, "Undo the last stroke")
    strokes(coach, 1)
    strokes(player, 1)
    hand.draw(BELOW)
    strokes(player, 2)
    tool(coach, "Eraser")
    hand.draw([(0.4, 0.8), (0.4, 0.9)])  # across the first one
    strokes(coach, 1)
    strokes(player, 1)
    act(coach, "Undo the last stroke")
    strokes(coach, 2)
    strokes(player, 2)
    act(coach, "Clear")
    strokes(coach, 0)
    strokes(player, 0)
    hand.away()
    coach.page.locator("#toast").get_by_role("button", name="Undo").tap()
    strokes(coach, 2)
    strokes(player, 2)


def test_keys_undo_and_clear_what_is_drawn_before_what_is_played(coach: Coach, hand: Hand) -> None:
    tool(coach, "Pen", pressed="false")
    coach.tap("1 passes to 3")
    coach.reads(PASSED)
    hand.draw()
    hand.draw(BELOW)
    strokes(coach, 2)
    coach.page.keyboard.press("Control+z")
    strokes(coach, 1)
    coach.page.keyboard.press("Delete")
    strokes(coach, 0)
    coach.reads(PASSED)
    coach.page.keyboard.press("Escape")
    expect(coach.page.get_by_role("toolbar", name="Draw over the court")).to_be_hidden()
    coach.page.keyboard.press("Control+z")
    coach.reads([])
    coach.page.keyboard.press("d")
    expect(coach.page.get_by_role("toolbar", name="Draw over the court")).to_be_visible()


def test_ink_is_there_after_loading_the_page_again(coach: Coach, hand: Hand) -> None:
    tool(coach, "Pass: dashed arrow")
    hand.draw()
    strokes(coach, 1)
    coach.page.reload()
    coach.saved()
    strokes(coach, 1)
    expect(ink(coach).locator(".ink-pass")).to_have_count(1)


def test_ink_is_printed_with_its_step(coach: Coach, hand: Hand) -> None:
    coach.tap("1 passes to 3")
    coach.saved()
    address = f"{coach.server.url}/board/{coach.board_id}/print/page.svg"
    assert 'class="ink"' not in coach.page.request.get(address).text()
    hand.draw()
    strokes(coach, 1)
    coach.page.reload()
    coach.saved()
    strokes(coach, 1)
    assert 'class="ink"' in coach.page.request.get(address).text()


def test_ink_stays_in_place_when_the_court_is_turned(coach: Coach, hand: Hand) -> None:
    hand.draw()
    strokes(coach, 1)
    line = ink(coach).locator(".body .fill")
    court = coach.page.locator("#court").bounding_box()
    before = line.bounding_box()
    hand.away()
    coach.do("turn")
    expect(coach.page.locator("#court")).to_have_class(re.compile("turned"))
    after = line.bounding_box()
    assert before
    assert after
    assert court
    middle = court["y"] + court["height"] / 2
    # Turned round, it lies as far above the middle as it lay below it.
    assert (
        abs((before["y"] + before["height"] / 2 - middle) + (after["y"] + after["height"] / 2 - middle)) < 3
    )


@pytest.mark.ends_server
def test_what_is_drawn_without_a_server_is_kept_and_sent_when_it_is_back(
    coach: Coach, hand: Hand, new_player: Callable[..., Player], troubles: Troubles
) -> None:
    troubles.expect(LINE_DOWN)
    troubles.expect(re.compile("Failed to load resource"))
    coach.tap("1 passes to 3")
    coach.saved()
    coach.server.stop()
    expect(coach.status).to_contain_text("offline")
    hand.draw()
    hand.draw(BELOW)
    act(coach, "Undo the last stroke")
    strokes(coach, 1)
    coach.server.start()
    coach.saved()
    strokes(coach, 1)
    strokes(new_player(), 1)


def test_a_finger_that_means_to_draw_and_cannot_is_told_why(coach: Coach, hand: Hand) -> None:
    told = coach.page.locator("#toast")
    tool(coach, "Pen", pressed="false")
    hand.finger(ACROSS)
    expect(told).to_contain_text("Choose what the finger draws with")
    hand.draw(BELOW)
    hand.away()
    tool(coach, "Pen")
    hand.finger(ACROSS)
    expect(told).to_contain_text("The pencil draws, fingers tap")
    strokes(coach, 1)
    # The pencil was laid down: from anew the finger draws.
    coach.page.locator(".ink-open").tap()
    open_tools(coach)
    tool(coach, "Pen")
    hand.finger(ACROSS)
    strokes(coach, 2)


def test_a_hand_laid_down_before_its_pencil_is_told_nothing(coach: Coach, hand: Hand) -> None:
    hand.touch("touchStart", 1, BELOW[0])
    hand.begin(ACROSS)
    hand.touch("touchMove", 1, BELOW[-1])
    hand.pencil("mouseReleased", ACROSS[-1], buttons=0, force=0)
    hand.touch("touchEnd", 1)
    strokes(coach, 1)
    expect(coach.page.locator("#toast")).not_to_contain_text("The pencil draws")


@pytest.mark.parametrize("size", [(390, 844), (360, 640), (1180, 820), (820, 1180)], ids=str)
def test_with_draw_open_the_court_is_there_and_no_tool_covers_another(
    new_coach: Callable[..., Coach], size: tuple[int, int]
) -> None:
    """On a phone the court had no height, and on a tablet the pen's Undo lay on other buttons."""
    coach = new_coach(viewport={"width": size[0], "height": size[1]})
    open_tools(coach)
    box = coach.page.locator("#court").bounding_box()
    assert box is not None
    assert box["height"] > 0.3 * size[1]
    covered = """() => [...document.querySelectorAll('.controls button')].filter((each) => {
      const { left, top, width, height } = each.getBoundingClientRect();
      const hit = width && document.elementFromPoint(left + width / 2, top + height / 2);
      return width && !(hit && each.contains(hit));
    }).map((each) => each.ariaLabel || each.textContent)"""
    assert coach.page.evaluate(covered) == []
