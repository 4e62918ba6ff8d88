"""What a board had before: which chains are told as earlier ones, and to which an undo leads back."""

from __future__ import annotations

from typing import Any

from sqlalchemy import create_engine
from sqlalchemy.event import listens_for
from sqlalchemy.orm import Session

from tests.server import LiveServer
from tests.webapp.screens import FIRST, THEN, Device, Screen, screen, viewing_path
from webapp.chains import history
from webapp.chains.earlier import EARLIER_MAX, with_earlier

REFS = {"formation": "five_out", "rules": "pass_and_cut"}


def told(screen: Screen) -> list[tuple[str, list[list[str]], int, str]]:
    """Return what is told of the earlier chains."""
    return [(one["chain"], one["line"], one["depth"], one["to"]) for one in screen.state["earlier"]]


def here(screen: Screen) -> str:
    return str(screen.state["chain"]["id"])


def back(screen: Screen, one: Any) -> Any:
    given = {name: one[name] for name in ("chain", "formation", "rules", "line", "depth")}
    return screen.change("open", undo=True, **given)


def test_what_start_again_replaces_is_told_with_the_chain_that_came(playing: Screen) -> None:
    first = here(playing)
    assert told(playing) == []
    playing.change("fresh")
    assert told(playing) == [(first, [FIRST, THEN], 2, here(playing))]
    assert playing.state["arrived"] is True
    playing.act(*FIRST)
    with_step = playing.change("setup", formation="four_out_one_in")
    assert [one["chain"] for one in with_step["earlier"]][1] == first
    assert with_step["arrived"] is True


def test_an_undo_across_brings_it_back_as_it_stood_and_leads_no_further_round(playing: Screen) -> None:
    first = here(playing)
    playing.change("undo")
    fresh = playing.change("fresh")
    (one,) = fresh["earlier"]
    assert one["depth"] == 1
    playing.act(*FIRST)
    second = here(playing)
    state = back(playing, one)
    assert (here(playing), playing.chain(), state["arrived"]) == (first, [FIRST], False)
    # What was left by an undo can be had again, but is no place an undo leads to.
    assert told(playing) == [(second, [FIRST], 1, "")]


def test_an_undo_across_does_not_lose_the_one_before_that(playing: Screen) -> None:
    """Opened again, left by undo, the chain before could not be reached any more."""
    first = playing.state["chain"]["id"]
    playing.change("fresh")
    playing.act(*FIRST)
    second = here(playing)
    playing.change("open", chain=first, line=[FIRST, THEN], depth=2, **REFS)
    (one,) = playing.state["earlier"]
    back(playing, one)
    assert here(playing) == second
    assert told(playing) == [(first, [FIRST, THEN], 2, second)]


def test_an_empty_chain_is_passed_over(playing: Screen) -> None:
    first = here(playing)
    playing.change("fresh")
    playing.change("fresh")
    assert told(playing) == [(first, [FIRST, THEN], 2, here(playing))]


def test_each_is_there_once_and_the_last_twenty_only(playing: Screen) -> None:
    for _ in range(EARLIER_MAX + 3):
        playing.change("fresh")
        playing.act(*FIRST)
    kept = told(playing)
    assert len(kept) == len({chain for chain, *_ in kept}) == EARLIER_MAX
    assert here(playing) not in {chain for chain, *_ in kept}


def test_a_coach_who_comes_later_is_told_the_same_and_a_phone_nothing(
    server: LiveServer, device: Device, playing: Screen
) -> None:
    first = here(playing)
    playing.change("fresh")
    with device.coach() as another, screen(server, viewing_path(device.share())) as phone:
        assert told(another) == [(first, [FIRST, THEN], 2, here(another))]
        assert another.state["arrived"] is True
        assert not {"earlier", "arrived"} & phone.state.keys()


def test_a_board_that_begins_again_often_does_not_get_slower(
    coach: Screen, device: Device, server: LiveServer
) -> None:
    """Each chain that had given way was asked for by itself: after some sixty a tap took half a second."""

    def questions() -> int:
        asked: list[str] = []
        engine = create_engine(f"sqlite:///{server.data_dir / 'quintet.sqlite3'}")
        with Session(engine) as session:
            standing = history.load(session, device.board_id)
            listens_for(engine, "before_cursor_execute")(lambda *given: asked.append(given[2]))
            assert len(with_earlier(session, standing).earlier) > 1
        engine.dispose()
        return len(asked)

    counts = []
    for _ in range(2):
        for _ in range(5):
            coach.act("pass:right_wing")
            coach.change("fresh")
        counts.append(questions())
    assert counts[0] == counts[1]
