"""The team's own on the board: stages, green lights, substitutions, calls, recoveries, other rules."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from e2e.axe import check
from e2e.expected import Play
from e2e.people import Coach, Player
from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT
from engine.game import recover
from engine.rules.rule_sets import SHIPPED, shipped

#: Numbers and names of a squad, the first five on places 1 to 5.
SQUAD = {"4": "Mads", "14": "Ines", "7": "", "23": "Jo", "10": "Ravi", "00": "Lou", "3": "Ada"}


class Squad:
    """A squad on a coach's board, the first five on the floor."""

    def __init__(self, coach: Coach) -> None:
        self.coach = coach
        self.ids = {number: self._add(number, name) for number, name in SQUAD.items()}
        self.places({str(place): number for place, number in enumerate(list(SQUAD)[:5], start=1)})

    def _add(self, number: str, name: str) -> str:
        answer = self.coach.device.ask("POST", "/api/team/players", {"number": number, "name": name})
        assert answer.status == 201, answer.text
        return str(answer.json["id"])

    def places(self, numbers: dict[str, str]) -> None:
        """Put players on places, from another screen of the same coach."""
        with self.coach.device.coach() as screen:
            answer = screen.change("setup", places={p: self.ids[number] for p, number in numbers.items()})
            assert answer["t"] == "state", answer
        for place, number in numbers.items():
            expect(face(self.coach, place)).to_have_text(number)

    def may(self, number: str, kinds: list[str] | None) -> None:
        """Say what a player may do."""
        answer = self.coach.device.ask("PATCH", f"/api/team/players/{self.ids[number]}", {"may": kinds})
        assert answer.status == 200, answer.text


@pytest.fixture
def squad(coach: Coach) -> Squad:
    return Squad(coach)


def face(person: Coach | Player, place: str) -> Any:
    """Return the number on the disc of a place."""
    return person.page.locator(f'#court .disc[data-player="{place}"] .face')


def targets(coach: Coach, action: str) -> Any:
    """Return what is drawn on the court for a kind of action."""
    return coach.page.locator(f'#court .target[data-act^="{action}:"]')


def words(coach: Coach) -> Any:
    """Return the list of words beside the court."""
    return coach.page.locator("#list")


# ---- stages and green lights


def test_a_stage_hides_what_is_taught_later_and_the_next_one_shows_it(coach: Coach) -> None:
    expect(targets(coach, "drive")).to_have_count(2)
    titles = [stage.title for stage in shipped("pass_and_cut").stages]

    coach.choose("Teaching stage", f"1. {titles[0]}")
    expect(targets(coach, "drive")).to_have_count(0)
    expect(coach.page.locator("#stage")).to_have_text(f"Stage: {titles[0]}")
    expect(words(coach)).not_to_contain_text("drives")
    expect(words(coach)).to_contain_text("passes to")

    coach.choose("Teaching stage", f"3. {titles[2]}")
    expect(coach.page.locator("#stage")).to_have_text(f"Stage: {titles[2]}")
    play = Play("five_out")
    coach.tap(play.play("drive:left"))
    coach.reads(play.sentences)
    coach.stands(play.standing)

    coach.choose("Teaching stage", "Everything")
    expect(coach.page.locator("#stage")).to_be_hidden()
    coach.reads(play.sentences)  # the chain is the same one


def test_a_green_light_withholds_an_action_and_the_words_say_whose(coach: Coach, squad: Squad) -> None:
    expect(targets(coach, "drive")).to_have_count(2)
    squad.may("4", ["pass", "skip", "dribble_at", "dribble_to"])
    expect(words(coach)).to_contain_text("4 may not drive or hand off yet.")
    expect(targets(coach, "drive")).to_have_count(0)
    expect(words(coach).get_by_role("button", name="drives")).to_have_count(0)
    check(coach.page)

    # It is the player's, not the place's: whoever plays there instead may.
    coach.page.locator('[data-do="subs"]').tap()
    coach.touch(f'.sub[data-member="{squad.ids["00"]}"]')
    coach.touch('.disc[data-player="1"]')
    expect(targets(coach, "drive")).to_have_count(2)
    expect(words(coach)).not_to_contain_text("may not")
    coach.tap("00 drives left")
    coach.reads(["00 drives left"])


# ---- the squad


@pytest.mark.parametrize("first", ["bench", "floor"])
def test_a_substitution_takes_two_taps_and_everybody_sees_it(
    coach: Coach, squad: Squad, player: Player, first: str
) -> None:
    expect(player.page.locator("#numbers button")).to_have_text(["00", "3", "4", "7", "10", "14", "23"])
    player.pick(14)
    play = Play("five_out", ["pass:right_wing"])
    coach.tap("4 passes to 14")
    player.reads(["4 passes to 14"])
    expect(player.mine).to_have_text(play.told("you")[2])

    coach.do("subs")
    expect(coach.page.get_by_role("group", name="Bench").get_by_role("button")).to_have_count(2)
    check(coach.page)
    taps = [f'.sub[data-member="{squad.ids["00"]}"]', '#court .disc[data-player="2"]']
    for tap in taps if first == "bench" else reversed(taps):
        coach.touch(tap)
    for screen in (coach, player):
        expect(face(screen, "2")).to_have_text("00")
        screen.reads(["4 passes to 00"])
        screen.stands(play.standing)
    expect(coach.page.locator("#bench")).to_be_hidden()
    expect(player.page.locator("#asks")).to_have_text("14 is on the bench. Whose part do you want to see?")

    coach.page.get_by_role("alert").get_by_role("button", name="Undo").tap()
    for screen in (coach, player):
        expect(face(screen, "2")).to_have_text("14")
        screen.reads(["4 passes to 14"])
    expect(player.mine).to_have_text(play.told("you")[2])
    expect(player.page.locator("#changed")).to_contain_text("You are on the floor now, on position 2.")
    coach.saved()
    with coach.device.coach() as seen:
        assert seen.state["squad"]["2"]["number"] == "14"
        assert seen.chain() == play.actions  # a substitution is no step


def test_names_are_the_squads(coach: Coach, squad: Squad) -> None:
    coach.do("menu")
    coach.page.get_by_role("checkbox", name="Show names").tap()
    expect(coach.page.get_by_label("Name of 1")).to_have_count(0)
    coach.page.get_by_role("button", name="Close", exact=True).tap()
    expect(coach.page.locator('.disc[data-player="2"] .name')).to_have_text("Ines")
    coach.tap("Mads passes to 7")  # who has no name goes by his number
    coach.reads(["Mads passes to 7"])


def test_an_empty_place_is_not_mistaken_for_who_wears_its_number(coach: Coach, squad: Squad) -> None:
    with coach.device.coach() as screen:
        screen.change("setup", places={"4": None, "1": squad.ids["3"]})
        screen.change("setup", places={"3": None})
    coach.tap("3 passes to position 3")
    coach.reads(["3 passes to position 3"])


# ---- the team's own words


def test_a_players_phone_tells_the_teams_call(coach: Coach, player: Player) -> None:
    others = player.page.locator("#others")
    coach.tap("1 drives left")
    expect(others).to_contain_text("1 drives left, to the rim.")
    expect(others).not_to_contain_text("The call")
    calls = {"drive": {"call": "Go", "signal": "fist up"}}
    assert coach.device.ask("PUT", "/api/team/calls", calls).status == 200
    expect(others).to_contain_text("The call: “Go”, fist up.")


def test_calls_stand_with_the_actions_and_come_first_in_what_is_told(coach: Coach) -> None:
    calls = {"drive": {"call": "Go", "signal": "fist up"}, "pass": {"call": "", "signal": "point"}}
    assert coach.device.ask("PUT", "/api/team/calls", calls).status == 200
    expect(words(coach).locator(".row-drive")).to_contain_text("drives · “Go”")
    expect(words(coach).locator(".row-drive")).to_contain_text("fist up")
    expect(words(coach).locator(".row-pass")).to_contain_text("point")

    play = Play("five_out")
    sentence = play.play("drive:left")
    coach.tap(sentence)
    coach.reads([f"{sentence} · “Go”"])
    expect(words(coach).locator(".telling li").first).to_have_text("Call “Go”, fist up.")
    said = " ".join(play.told("who").values())
    expect(coach.page.locator("#live")).to_have_text(f"Call “Go”, fist up. {sentence}. {said}")


# ---- off their spots


class Finger:
    """One finger on the glass, as the browser is told by the screen."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._line = page.context.new_cdp_session(page)
        self.x = self.y = 0.0

    def down(self, selector: str) -> None:
        """Touch the middle of what ``selector`` finds."""
        box = self._page.locator(selector).bounding_box()
        assert box is not None
        self.x, self.y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        self._send("touchStart")

    def move(self, dx: float, dy: float, pieces: int = 6) -> None:
        """Slide by so many pixels."""
        for _ in range(pieces):
            self.x, self.y = self.x + dx / pieces, self.y + dy / pieces
            self._send("touchMove")

    def up(self) -> None:
        self._send("touchEnd")

    def cancel(self) -> None:
        """Have the system take the touch away."""
        self._send("touchCancel")

    def _send(self, kind: str) -> None:
        points = [{"x": self.x, "y": self.y}] if kind in ("touchStart", "touchMove") else []
        self._line.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


@contextmanager
def held(coach: Coach, place: int) -> Iterator[Finger]:
    """Hold a player's disc until he can be carried."""
    disc = f'#court .disc[data-player="{place}"]'
    finger = Finger(coach.page)
    finger.down(disc)
    expect(coach.page.locator(f"{disc}.lifted")).to_be_visible()
    yield finger


def is_off(coach: Coach, *places: int) -> None:
    """Wait until these and no others are shown off their spots, and nothing can be played."""
    off = coach.page.locator("#court .disc.off")
    expect(off).to_have_count(len(places))
    for place in places:
        expect(coach.page.locator(f'#court .disc.off[data-player="{place}"] .name')).to_have_text("off spot")
    expect(coach.page.locator("#court .target")).to_have_count(0 if places else targets_at_start(coach))
    expect(coach.page.get_by_role("button", name="Recover")).to_have_count(1 if places else 0)


def targets_at_start(coach: Coach) -> int:
    expect(coach.page.locator("#court .target").first).to_be_visible()
    return int(coach.page.locator("#court .target").count())


def test_recover_brings_everybody_back_and_play_goes_on(coach: Coach, player: Player) -> None:
    play = Play("five_out", ["pass:right_wing", "fill:left_corner"])
    for sentence in play.sentences:
        coach.tap(sentence)
    coach.stands(play.standing)

    with held(coach, 3) as finger:
        finger.move(-150, -120)
        finger.up()
    is_off(coach, 3)
    with held(coach, 1) as finger:  # more than one can be off
        finger.move(90, 60)
        finger.up()
    is_off(coach, 1, 3)
    expect(words(coach)).to_contain_text("1 and 3 are off the spots.")
    player.reads(play.sentences)  # nobody else sees it before it is done
    check(coach.page)

    coach.do("recover")
    sentences = [*play.sentences, "everybody back on spots"]
    coach.reads(sentences)
    player.reads(sentences)
    coach.saved()
    with coach.device.coach() as screen:
        text, after = screen.chain()[-1][0], screen.steps[-1]["after"]
    done = recover.read(text, FIVE_OUT)
    where = {number: (x / 100, y / 100) for number, x, y in done.where}
    least = recover.recover(where, after["ball"], half_court("fiba"), FIVE_OUT)
    want = {"at": {str(n): spot for n, spot in least.where().items()}, "ball": 2}
    assert after["at"] == want["at"]
    for seen in (coach, player):
        seen.stands(want)
    is_off(coach)

    with coach.device.coach() as screen:
        while screen.offered["seq"] != screen.seq:
            screen.hear()
        mate = next(offer["to"] for offer in screen.offered["offers"] if offer["act"] == "pass")
    coach.tap(f"2 passes to {mate}")
    for seen in (coach, player):
        seen.reads([*sentences, f"2 passes to {mate}"])
    # Played from the start it comes to the same, and is taken back like any other step.
    coach.do("undo")
    coach.do("replay")
    coach.stands(want)
    coach.do("undo")
    for seen in (coach, player):
        seen.reads(play.sentences)
        seen.stands(play.standing)


def test_a_player_is_put_back_by_a_tap_a_key_or_a_touch_that_is_taken_away(coach: Coach) -> None:
    begin = Play("five_out").standing
    count = targets_at_start(coach)
    for back in ("button", "key", "undo"):
        with held(coach, 3) as finger:
            finger.move(60, 110)
            finger.up()
        is_off(coach, 3)
        if back == "button":
            coach.do("putBack")
        elif back == "key":
            coach.page.keyboard.press("Escape")
        else:
            coach.do("undo")
        coach.stands(begin)
        expect(coach.page.locator("#court .target")).to_have_count(count)
        expect(coach.page.locator("#court .disc.off")).to_have_count(0)
    with held(coach, 3) as finger:
        finger.move(60, 110)
        finger.cancel()
    coach.stands(begin)
    expect(coach.page.locator("#court .target")).to_have_count(count)
    coach.reads([])


def test_taps_and_drags_along_a_move_still_play(coach: Coach, player: Player) -> None:
    # A long press that goes nowhere is a tap.
    with held(coach, 2) as finger:
        finger.up()
    play = Play("five_out", ["pass:right_wing"])
    coach.reads(play.sentences)
    coach.stands(play.standing)
    # A drag from the handler to a mate is a pass, however far it goes.
    finger = Finger(coach.page)
    finger.down('#court .disc[data-player="2"]')
    box = coach.page.locator('#court .disc[data-player="3"]').bounding_box()
    assert box is not None
    finger.move(box["x"] + box["width"] / 2 - finger.x, box["y"] + box["height"] / 2 - finger.y)
    finger.up()
    play.play("fill:left_corner pass:top")
    for seen in (coach, player):
        seen.reads(play.sentences)
        seen.stands(play.standing)
    # A quick drag of somebody who has no move that way takes him off his spot.
    finger.down('#court .disc[data-player="5"]')
    finger.move(130, 160)
    finger.up()
    is_off(coach, 5)
    coach.do("putBack")
    coach.stands(play.standing)
    coach.reads(play.sentences)


# ---- earlier steps, other rules, figures


def test_after_a_reload_an_earlier_step_offers_what_it_did(coach: Coach, player: Player) -> None:
    play = Play("five_out", ["pass:right_wing", "fill:left_corner", "drive:left"])
    for sentence in play.sentences:
        coach.tap(sentence)
    coach.saved()
    coach.page.reload()
    coach.reads(play.sentences)
    coach.do("back")
    coach.do("back")
    other = Play("five_out", ["pass:right_wing"])
    coach.stands(other.standing)
    expect(words(coach)).to_contain_text("You are looking at an earlier step.")
    coach.tap(other.play("post_up:left_block"))
    for seen in (coach, player):
        seen.reads(other.sentences)
        seen.stands(other.standing)


def test_other_rules_from_the_menu_start_a_new_chain(coach: Coach) -> None:
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    coach.saved()
    coach.choose("Rules", shipped("first_steps").title)
    coach.reads([])
    expect(targets(coach, "drive")).to_have_count(0)
    expect(targets(coach, "dribble_at")).to_have_count(2)
    coach.do("menu")
    names = [shipped(name).title for name in SHIPPED]
    expect(coach.page.get_by_role("group", name="Rules").get_by_role("radio")).to_have_count(len(names))
    link = coach.page.get_by_role("link", name="Team: rules, squad, words")
    expect(link).to_have_attribute("href", f"/team?board={coach.board_id}")


@pytest.mark.parametrize("answer", ["Start a new chain", "Not now"])
def test_rules_in_the_address_are_asked_about_when_there_is_a_chain(coach: Coach, answer: str) -> None:
    address = f"{coach.server.url}/board/{coach.board_id}?rules=drive_and_kick"
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    coach.saved()
    coach.page.goto(address)
    question = coach.page.get_by_role("dialog", name="Start a new chain with “Drive and kick”?")
    question.get_by_role("button", name=answer).tap()
    expect(question).to_be_hidden()
    coach.reads([] if answer == "Start a new chain" else play.sentences)
    coach.saved()
    with coach.device.coach() as screen:
        rules = screen.state["board"]["rules"]
    assert rules == ("drive_and_kick" if answer == "Start a new chain" else "pass_and_cut")
    assert "rules" not in coach.page.url


def test_rules_in_the_address_are_taken_at_once_on_an_empty_board(coach: Coach) -> None:
    coach.page.goto(f"{coach.server.url}/board/{coach.board_id}?rules=first_steps")
    expect(targets(coach, "dribble_at")).to_have_count(2)
    expect(targets(coach, "drive")).to_have_count(0)
    expect(coach.page.get_by_role("dialog")).to_have_count(0)


def test_the_menu_says_how_far_they_run(coach: Coach, new_coach: Callable[..., Coach]) -> None:
    play = Play("five_out", ["pass:right_wing", "fill:left_corner"])
    for sentence in play.sentences:
        coach.tap(sentence)
    coach.saved()
    told = coach.device.ask("GET", f"/api/board/{coach.board_id}/report").json
    coach.do("menu")
    coach.page.get_by_text("How far they run").tap()
    table = coach.page.get_by_role("table")
    expect(coach.page.get_by_text(f"The chain takes {told['seconds']:.1f} s.")).to_be_visible()
    rows = [
        [number, f"{each['metres']:.1f}", f"{each['lane_seconds']:.1f}"]
        for number, each in told["players"].items()
    ]
    for i, row in enumerate(rows, start=1):
        expect(table.get_by_role("row").nth(i).locator("th, td")).to_have_text(row)
    check(coach.page)
