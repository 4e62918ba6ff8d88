"""What a phone that follows may not do, to the board or to other phones."""

from __future__ import annotations

from typing import Any

from e2e.expected import Play
from e2e.people import Coach, Player, token_of
from tests.webapp.boards.test_crowd import stalled

#: Sends each message over a socket of the phone's own, as a player who knows how might, and gives back what
#: the server answers to it.
FORGE = """async (messages) => {
  const address = new URL(document.body.dataset.socket, location.href);
  address.protocol = 'ws:';
  const socket = new WebSocket(address);
  const heard = [];
  const next = () => new Promise((resolve) => socket.addEventListener('message', resolve, {once: true}));
  await new Promise((resolve) => socket.addEventListener('open', resolve));
  socket.send(JSON.stringify({t: 'hello', v: 1, seen: null}));
  const seq = JSON.parse((await next()).data).seq;
  for (const message of messages) {
    socket.send(JSON.stringify({...message, id: message.t, base: seq}));
    heard.push(JSON.parse((await next()).data));
  }
  socket.close();
  return heard;
}"""


def test_a_forged_action_is_refused_and_changes_nothing(coach: Coach, player: Player) -> None:
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    coach.saved()
    player.reads(play.sentences)
    with coach.device.coach() as screen:
        before = (screen.seq, screen.chain(), screen.state["board"])

    forged: list[dict[str, Any]] = [
        {"t": "act", "at": 1, "a": ["shot"]},
        {"t": "undo"},
        {"t": "setup", "formation": "three_out_two_in"},
        {"t": "fresh"},
    ]
    answers = player.page.evaluate(FORGE, forged)

    assert [(answer["t"], answer["code"]) for answer in answers] == [("refused", "viewer")] * 4
    with coach.device.coach() as screen:
        assert (screen.seq, screen.chain(), screen.state["board"]) == before
    # Both screens still are where they were, and go on together.
    coach.tap(play.play("fill:left_corner"))
    for seen in (coach, player):
        seen.reads(play.sentences)
        seen.stands(play.standing)


def test_a_phone_that_stops_reading_delays_nobody(coach: Coach, player: Player) -> None:
    with stalled(coach.server, f"/live/view/{token_of(player.page)}"):
        play = Play("five_out")
        for _ in range(4):
            for tap in ("pass:right_wing", "fill:left_corner"):
                coach.tap(play.play(tap))
            player.reads(play.sentences)
            for _ in play.taps:
                coach.do("undo")
            player.reads([])
            play = Play("five_out")
            coach.stands(play.standing)  # somebody on his way back would be under the finger
        coach.saved()
        player.live()
