"""A drawn step on the court: played on tablet and phone, and what can be done from where it ends."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot
from typing import Any

import pytest
from playwright.sync_api import TimeoutError, expect

from e2e.axe import check
from e2e.conftest import NewContext
from e2e.expected import standing
from e2e.people import Coach, Person, Player
from e2e.test_board_rules import held
from e2e.test_by_hand import Table, inbound
from e2e.test_offline import away, back, ready, second_device, waiting
from engine.floor.alignment import Position, start
from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT
from engine.game import recover
from engine.game.play import advance
from engine.game.sentences import sentence, words
from engine.game.steps import Step
from engine.motion.speeds import GUARD_M
from engine.script import Script, read
from tests.server import LiveServer
from webapp.wire.engine_values import floor_wire

#: An inbound from the left sideline against five defenders, with the coach and two cones. All end on spots.
INBOUND = (
    "script:as=side;at=1,-800,420,2,-560,620,3,-120,700,4,-250,520,5,250,240,x1,-690,440,x2,-470,560,"
    "x3,-120,590,x4,-230,420,x5,200,180,c,660,860,k1,-600,200,k2,560,120;ball=1;"
    "go=2,c,0,60,-200,480,60,620,0,735;go=x2,c,0,60,-180,420,20,560;go=4,s,10,40,-420,560;"
    "go=3,c,40,50,250,640,520,560;go=1,c,90,60,-660,330,-640,120;go=x1,c,90,60,-560,260;"
    "go=4,c,100,50,-520,480;go=5,c,100,50,440,180,655,70;do=p,50,90,1,2;"
    "on=1,left_corner,2,top,3,right_wing,4,left_wing,5,right_corner"
)


def guarding(spot: str) -> tuple[int, int]:
    """Return where a defender of whom nothing is drawn ends, his man having gone to ``spot``, centimetres."""
    x, y = floor_wire("fiba", FIVE_OUT)["spots"][spot]
    off = GUARD_M * 100 / hypot(x, y)
    return round(x - x * off), round(y - y * off)


#: Where those who are not of the five end, centimetres.
ENDS = {
    "x1": (-560, 260),
    "x2": (20, 560),
    "x3": guarding("right_wing"),
    "x4": guarding("left_wing"),
    "x5": guarding("right_corner"),
    "c": (660, 860),
    "k1": (-600, 200),
    "k2": (560, 120),
}
#: Where the defenders begin.
BEGIN = {"x1": (-690, 440), "x2": (-470, 560), "x3": (-120, 590), "x4": (-230, 420), "x5": (200, 180)}
#: Ends with two players elsewhere than on spots, the ball on the floor.
SPILLED = (
    "script:as=free;at=1,0,735,2,-520,560,3,506,506,4,-520,300,5,700,0,x1,0,640;ball=1;go=1,d,0,60,100,600,200,420;"
    "go=2,c,0,50,-300,500;do=l,60,80,1,40,300"
)
SHOT = (
    "script:as=last;at=1,0,735,2,-520,560,3,520,560,4,-655,70,5,655,70;ball=1;go=1,d,0,60,60,300;"
    "do=s,60,100,1"
)

#: Puts a function on the page that tells where on the floor the ball is seen, and each defender, coach or
#: cone that is to be seen, centimetres.
_LOOK = """async () => {
  const { project } = await import('/static/js/court/projection.js');
  window.drawnNow = ({box, spots, ...view}) => {
    const court = document.getElementById('court');
    const seen = project(court.clientWidth, court.clientHeight, box, view);
    const home = court.getBoundingClientRect();
    const at = (element) => {
      const { left, top, width, height } = element.getBoundingClientRect();
      return seen.cm([left + width / 2 - home.left, top + height / 2 - home.top]);
    };
    const there = [...court.querySelectorAll('.extra')].filter((e) => getComputedStyle(e).opacity > 0.5);
    const extras = Object.fromEntries(there.map((each) => [each.dataset.extra, at(each)]));
    return { extras, ball: at(court.querySelector('.ball')) };
  };
  window.isNear = (a, b) => Boolean(a && b) && Math.hypot(a[0] - b[0], a[1] - b[1]) < 8;
}"""
_EXTRAS_ARE = """({floor, want}) => {
  const { extras } = window.drawnNow(floor);
  const keys = Object.keys({ ...extras, ...want });
  return keys.every((key) => window.isNear(extras[key], want[key]));
}"""
_BALL_LIES = "({floor, place}) => window.isNear(window.drawnNow(floor).ball, place)"


def extras_stay(person: Person, places: dict[str, tuple[int, int]]) -> None:
    """Wait until all of a drawing's extras are there, who are no defenders where they were."""
    for who, place in places.items():
        expect(person.page.locator(f'#court [data-extra="{who}"]')).to_have_count(1)
        if not who.startswith("x"):
            given = {"floor": person.floor, "who": who, "place": place}
            person.page.wait_for_function(
                "({floor, who, place}) => isNear(drawnNow(floor).extras[who], place)", arg=given
            )


def extras_are(person: Person, want: dict[str, tuple[int, int]]) -> None:
    """Wait until these defenders, coach and cones, and no others, are where they should be."""
    person.page.evaluate(_LOOK)
    try:
        person.page.wait_for_function(_EXTRAS_ARE, arg={"floor": person.floor, "want": want})
    except TimeoutError as error:
        now = person.page.evaluate("drawnNow", person.floor)
        raise AssertionError(f"On the screen is {now}, not {want}.") from error


def ball_lies_at(person: Person, x: int, y: int) -> None:
    """Wait until the ball lies there on the floor."""
    person.page.evaluate(_LOOK)
    person.page.wait_for_function(_BALL_LIES, arg={"floor": person.floor, "place": [x, y]})


def send(coach: Coach, text: str, **given: int) -> Any:
    """Play a drawn step from another screen of the same coach."""
    with coach.device.coach() as screen:
        answer = screen.act(text, **given)
    assert answer["t"] == "step", answer
    return answer["step"]


def script(text: str) -> Script:
    return read(text, FIVE_OUT)


def play(position: Position, action: str) -> tuple[Position, str]:
    """Play an action by the rules; return where it leads and what it is called."""
    after, steps = advance(position, [action], FIVE_OUT)
    return after, called(position, steps)


def called(position: Position, steps: tuple[Step, ...]) -> str:
    return sentence("chain", words(position, steps).chain[-1])


def recovered(left: Position) -> Position:
    """Return where everybody gets back to from where a drawn step has left them."""
    ends = {n: (x / 100, y / 100) for n, x, y in left.off}
    ball = left.player(left.alignment.ball)
    return recover.recover(ends, ball, half_court("fiba"), FIVE_OUT)


@pytest.fixture
def screens(coach: Coach, player: Player) -> tuple[Coach, Player]:
    coach.wide = player.wide = True
    return coach, player


def test_an_inbound_is_played_everywhere_and_goes_on_by_the_rules(screens: tuple[Coach, Player]) -> None:
    coach, player = screens
    player.pick(2)
    send(coach, INBOUND)
    position = script(INBOUND).position(start(FIVE_OUT))
    for screen in screens:
        screen.stands(standing(position))
        extras_are(screen, ENDS)
        screen.reads(["sideline inbound"])
    expect(player.mine).to_have_text("You get the ball from 1 and go to the top.")
    expect(coach.page.get_by_role("img", name="Defender 1")).to_have_text("X1")
    check(coach.page)
    check(player.page)
    player.touch("#back")
    expect(player.mine).to_have_text("You start as drawn.")
    player.touch("#live")

    # Back to where it begins: the passer is out of bounds, with the ball.
    coach.do("back")
    expect(coach.page.locator("#list")).to_contain_text("This is the start. Play runs the chain.")
    expect(coach.page.locator('#court .disc[data-player="1"]')).to_have_attribute(
        "aria-label", "1, has the ball"
    )
    extras_are(coach, {**ENDS, **BEGIN})
    coach.page.get_by_role("button", name="To the last step").tap()
    coach.stands(standing(position))

    # By the rules from there: whoever was in the drawing stays, a defender with his man.
    position, name = play(position, "pass:right_wing")
    coach.tap(name)
    for screen in screens:
        screen.stands(standing(position))
        extras_stay(screen, ENDS)
        screen.reads(["sideline inbound", name])


def test_off_spots_recover_brings_everybody_back(coach: Coach, player: Player) -> None:
    send(coach, SPILLED)
    left = script(SPILLED).position(start(FIVE_OUT))
    for screen in (coach, player):
        ball_lies_at(screen, 40, 300)
    off = coach.page.locator("#court .disc.off")
    expect(off).to_have_count(3)  # 3 and 5 stand where spots are
    expect(coach.page.locator("#list")).to_contain_text("1, 2 and 4 are off the spots.")
    expect(coach.page.locator("#court .target")).to_have_count(0)
    expect(coach.page.get_by_role("button", name="Put back")).to_have_count(0)
    check(coach.page)

    # Carried off by hand as well, and put back to where the drawing left him.
    with held(coach, 3) as finger:
        finger.move(-60, 40)
        finger.up()
    expect(off).to_have_count(4)
    coach.do("putBack")
    expect(off).to_have_count(3)
    expect(coach.page.get_by_role("button", name="Put back")).to_have_count(0)

    # Undone and redone like any other step.
    coach.do("undo")
    coach.stands(standing(start(FIVE_OUT)))
    expect(coach.page.get_by_role("button", name="Recover")).to_be_hidden()
    coach.do("redo")
    expect(off).to_have_count(3)
    coach.do("recover")
    position = recovered(left)
    for screen in (coach, player):
        screen.stands(standing(position))
        screen.reads(["as drawn", "everybody back on spots"])
        expect(screen.page.locator("#court [data-extra]")).not_to_have_count(0)
    expect(off).to_have_count(0)
    coach.saved()


def test_another_drawing_in_its_place_is_drawn_anew(coach: Coach, player: Player) -> None:
    send(coach, INBOUND)
    for screen in (coach, player):
        expect(screen.page.locator('.trails [data-of="x2"]')).to_have_count(1)
    send(coach, SPILLED, at=0)
    for screen in (coach, player):
        screen.reads(["as drawn"])
        expect(screen.page.locator('.trails [data-of="x2"]')).to_have_count(0)
        expect(screen.page.locator('.trails [data-of="2"]')).to_have_count(1)


def test_after_a_drawn_shot_nothing_goes_on(coach: Coach) -> None:
    send(coach, SHOT)
    expect(coach.page.locator("#list")).to_contain_text("The shot ends the possession.")
    expect(coach.page.get_by_role("button", name="Recover")).to_be_hidden()
    expect(coach.page.locator("#court .disc.off")).to_have_count(0)
    coach.do("undo")
    coach.stands(standing(start(FIVE_OUT)))


@pytest.mark.ends_server
@pytest.mark.usefixtures("no_network")
class TestWithoutANetwork:
    def test_what_was_drawn_is_shown_and_gone_on_from(
        self, new_coach: Callable[..., Coach], server: LiveServer
    ) -> None:
        coach = new_coach(service_workers="allow")
        coach.wide = True
        ready(coach)
        send(coach, INBOUND)
        position = script(INBOUND).position(start(FIVE_OUT))
        coach.stands(standing(position))
        away(coach, server)
        coach.stands(standing(position))
        coach.do("replay")
        coach.stands(standing(position))
        extras_are(coach, ENDS)

    def test_recover_works_where_a_drawing_ended_off_spots(
        self, new_coach: Callable[..., Coach], server: LiveServer
    ) -> None:
        coach = new_coach(service_workers="allow")
        ready(coach)
        send(coach, SPILLED)
        left = script(SPILLED).position(start(FIVE_OUT))
        expect(coach.page.locator("#court .disc.off")).to_have_count(3)
        away(coach, server)
        ball_lies_at(coach, 40, 300)
        expect(coach.page.locator("#list")).to_contain_text("1, 2 and 4 are off the spots.")
        coach.do("recover")
        waiting(coach, 1)
        coach.page.reload()
        coach.reads(["as drawn", "everybody back on spots"])
        waiting(coach, 1)
        # By the rules from there, still without a network.
        position = recovered(left)
        action = "shot"
        position, name = play(position, action)
        coach.tap(name)
        waiting(coach, 2)
        back(coach, server)
        coach.reads(["as drawn", "everybody back on spots", name])
        with coach.device.coach() as screen:
            assert [actions[-1].split(":")[0] for actions in screen.chain()] == ["script", "recover", "shot"]

    def test_a_step_drawn_without_a_network_arrives_once_it_is_back(
        self, new_coach: Callable[..., Coach], new_context: NewContext, server: LiveServer
    ) -> None:
        coach = new_coach(service_workers="allow")
        ready(coach)
        away(coach, server)
        inbound(Table(coach).open())
        coach.page.get_by_role("button", name="Done", exact=True).tap()
        coach.wide = True
        drawn = {"1": "top", "2": "right_wing", "3": "left_block", "4": "right_block", "5": "left_corner"}
        coach.stands({"at": drawn, "ball": 2})
        waiting(coach, 1)
        coach.page.reload()
        coach.reads(["sideline inbound"])
        coach.stands({"at": drawn, "ball": 2})
        waiting(coach, 1)
        back(coach, server)
        other = second_device(coach, new_context)
        other.wide = True
        other.reads(["sideline inbound"])
        other.stands({"at": drawn, "ball": 2})
