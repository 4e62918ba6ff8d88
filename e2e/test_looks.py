"""How a coach may look at the board: light, direction, names, court, formation and speed of the players."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from e2e.conftest import PHONE
from e2e.expected import Play
from e2e.people import Coach, Player
from engine.floor.formations import FORMATIONS
from engine.floor.standards import STANDARDS
from tests.words import spoken_table

#: How light the page's ground is, 0 to 255.
GROUND = """() => {
  const [r, g, b] = getComputedStyle(document.body).backgroundColor.match(/[\\d.]+/g).map(Number);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}"""

#: Keeps the largest number of players ever seen moving at once in ``most``.
COUNT_ANIMATIONS = """() => {
  window.most = 0;
  const moving = () => document.getAnimations().filter(({effect}) => effect.target.matches('.disc, .ball'));
  setInterval(() => { most = Math.max(most, moving().length); }, 8);
}"""


def ground(screen: Coach | Player) -> float:
    found = screen.page.evaluate(GROUND)
    assert isinstance(found, float | int)
    return float(found)


def test_daylight_and_dark_themes_are_kept_on_the_device(coach: Coach) -> None:
    coach.page.emulate_media(color_scheme="dark")
    assert ground(coach) < 60
    coach.choose("Light", "Daylight")
    assert ground(coach) > 180
    coach.page.emulate_media(color_scheme="light")
    coach.choose("Light", "Dark gym")
    assert ground(coach) < 60
    coach.page.reload()
    coach.saved()
    assert ground(coach) < 60


def test_the_phone_has_its_own_light_and_direction(player: Player) -> None:
    page = player.page
    page.get_by_role("button", name="Light: as the phone").tap()
    assert ground(player) > 180
    page.get_by_role("button", name="Light: daylight").tap()
    expect(page.get_by_role("button", name="Light: dark gym")).to_be_visible()
    assert ground(player) < 60
    page.get_by_role("button", name="Turn the court round").tap()
    player.turned = True
    player.stands(Play("five_out").standing)


@pytest.mark.parametrize(("turned", "mirrored"), [(True, False), (False, True), (True, True)])
def test_the_court_turned_and_in_a_mirror(coach: Coach, player: Player, turned: bool, mirrored: bool) -> None:
    if turned:
        coach.do("turn")
    if mirrored:
        coach.do("mirror")
    coach.turned, coach.mirrored = turned, mirrored
    play = Play("five_out")
    coach.stands(play.standing)
    tap = play.play("pass:right_wing")
    coach.tap(tap)
    coach.stands(play.standing)
    # In the mirror the words follow what is seen: the player who fills goes to the other corner.
    seen = play.play("fill:left_corner")
    coach.tap(swapped(seen) if mirrored else seen)
    coach.stands(play.standing)
    # The phone's court is its own; the board is the same.
    player.stands(play.standing)
    player.reads(play.sentences)


def swapped(sentence: str) -> str:
    """Return the sentence with left and right changed over."""
    return sentence.replace("left", "\0").replace("right", "left").replace("\0", "right")


def test_names_stay_on_the_coachs_device(coach: Coach, player: Player) -> None:
    coach.do("menu")
    coach.page.get_by_role("checkbox", name="Show names").tap()
    coach.page.get_by_label("Name of 2").fill("Ines")
    coach.page.get_by_label("Name of 1").fill("Mads")
    coach.page.get_by_role("button", name="Close", exact=True).tap()
    play = Play("five_out")
    play.play("pass:right_wing")
    coach.tap("Mads passes to Ines")
    coach.reads(["Mads passes to Ines"])
    expect(coach.page.locator('.disc[data-player="2"] .name')).to_have_text("Ines")
    player.reads(play.sentences)
    coach.page.reload()
    coach.saved()
    coach.reads(["Mads passes to Ines"])
    coach.saved()
    with coach.device.coach() as screen:
        assert "Ines" not in str([screen.state, screen.offered])


def test_a_chain_made_on_one_court_stands_right_on_the_others(coach: Coach, player: Player) -> None:
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    coach.saved()
    for name in STANDARDS:
        if name != coach.court_name:
            coach.choose("Court", spoken_table()["courts"][name])
            coach.court_name = player.court_name = name
        for screen in (coach, player):
            screen.reads(play.sentences)
            screen.stands(play.standing)
    coach.tap(play.play("fill:left_corner"))
    for screen in (coach, player):
        screen.stands(play.standing)


@pytest.mark.pace(1)
def test_another_speed_plays_nothing_by_itself(coach: Coach) -> None:
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    # The bar has its length once the tap is drawn: before that nothing moves either.
    coach.page.wait_for_function("() => Number(scrub.max) > 1")
    coach.page.wait_for_function("() => document.getAnimations().length === 0")
    coach.page.evaluate(COUNT_ANIMATIONS)
    length = coach.page.evaluate("() => Number(scrub.max)")
    coach.choose("Speed of the players", "75% – young")
    # The chain is there again, as much longer as the players are slower.
    coach.page.wait_for_function("length => Math.abs(scrub.max * 0.75 - length) < 0.05", arg=length)
    coach.stands(play.standing)
    assert coach.page.evaluate("most") == 0


def test_formation_and_level_change_for_everybody(coach: Coach, player: Player) -> None:
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    coach.choose("Speed of the players", "75% – young")
    coach.tap(play.play("fill:left_corner"))
    for screen in (coach, player):
        screen.reads(play.sentences)
        screen.stands(play.standing)
    coach.saved()
    with coach.device.coach() as seen:
        assert seen.state["board"]["level"] == 0.75

    for name in FORMATIONS:
        if name != coach.formation_name:
            coach.choose("Formation", spoken_table()["formations"][name])
            coach.formation_name = player.formation_name = name
            for screen in (coach, player):
                screen.reads([])
                screen.stands(Play(name).standing)


#: How far the knob of the bar is, and how far the film, of the whole.
KNOB = """() => {
  const box = (of) => document.querySelector(of).getBoundingClientRect();
  const [groove, knob] = [box('.groove'), box('.groove b')];
  return [(knob.x + knob.width / 2 - groove.x) / groove.width, scrub.value / scrub.max];
}"""


@pytest.mark.pace(2)  # a tap has to come while it plays, on a slow machine too
def test_the_bar_goes_along_with_the_players_and_stands_where_they_stand(coach: Coach) -> None:
    play = Play("five_out")
    for tap in ("pass:right_wing", "fill:left_corner", "pass:top"):
        coach.tap(play.play(tap))
        coach.stands(play.standing)
    coach.page.wait_for_function(f"() => ({KNOB})()[0] > 0.99")
    coach.do("replay")
    coach.page.wait_for_function(f"() => {{ const [knob] = ({KNOB})(); return knob > 0.3 && knob < 0.9; }}")
    coach.do("play")
    expect(coach.page.get_by_role("button", name="Play", exact=True)).to_be_visible()
    at_ease = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
    coach.page.evaluate(at_ease)
    knob, film = coach.page.evaluate(KNOB)
    assert 0.3 < knob < 1
    assert knob == pytest.approx(film, abs=0.02)
    coach.page.evaluate(at_ease)
    assert coach.page.evaluate(KNOB) == [knob, film]
    coach.do("play")
    coach.stands(play.standing)
    coach.page.wait_for_function(f"() => ({KNOB})()[0] > 0.99")
    coach.do("back")
    coach.page.wait_for_function(
        f"() => {{ const [knob, film] = ({KNOB})(); return film < 0.9 && Math.abs(knob - film) < 0.02; }}"
    )


@pytest.mark.pace(2)
def test_without_movement_the_end_positions_are_shown_in_steps(
    new_coach: Callable[..., Coach], new_player: Callable[..., Player]
) -> None:
    coach = new_coach(reduced_motion="reduce")
    play = Play("five_out")
    coach.page.evaluate(COUNT_ANIMATIONS)
    for tap in ("pass:right_wing", "fill:left_corner", "drive:right"):
        coach.tap(play.play(tap))
        coach.stands(play.standing)
        expect(coach.page.locator("#court .trails path").first).to_be_attached()
    coach.do("replay")
    expect(coach.page.get_by_role("button", name="Pause")).to_be_visible()
    coach.stands(Play("five_out", play.taps[:1]).standing)
    coach.stands(Play("five_out", play.taps[:2]).standing)
    coach.stands(play.standing)
    assert coach.page.evaluate("most") == 0


def test_on_a_phone_what_can_happen_next_begins_at_the_top_of_the_list(
    new_coach: Callable[..., Coach],
) -> None:
    coach = new_coach(viewport=PHONE, is_mobile=True)
    sheet = coach.page.locator(".sheet")
    sheet.evaluate("(sheet) => sheet.scrollTo(0, sheet.scrollHeight)")
    assert sheet.evaluate("(sheet) => sheet.scrollTop") > 0
    last = coach.page.locator("#list").get_by_role("button", name="1 dribbles at 3", exact=True)
    last.tap()
    coach.reads(["1 dribbles at 3"])
    expect(sheet).to_have_js_property("scrollTop", 0)


def test_a_board_at_rest_wakes_nobody(coach: Coach) -> None:
    coach.page.add_init_script(
        """window.woken = 0;
        const later = window.setTimeout.bind(window);
        window.setTimeout = (act, ...given) => later(() => { window.woken++; act(); }, ...given);"""
    )
    coach.page.reload()
    coach.tap("1 passes to 3")
    coach.saved()
    expect(coach.page.locator("#court.moving")).to_have_count(0)
    # Enough for what was begun before, and then a second in which only what keeps the line may come.
    counted = """() => new Promise((done) => {
      const frame = (left) => left ? requestAnimationFrame(() => frame(left - 1)) : done(window.woken);
      frame(60);
    })"""
    before = coach.page.evaluate(counted)
    assert coach.page.evaluate(counted) - before < 4


def test_a_row_says_no_place_that_is_only_one_of_its_choices(coach: Coach) -> None:
    """Feeding either post was called feeding the left block."""
    coach.choose("Formation", "three out, two in")
    row = coach.page.locator("#list .row-post_entry")
    expect(row.locator(".verb")).to_have_text("feeds")
    expect(row.get_by_role("button")).to_have_text(["4", "5"])
