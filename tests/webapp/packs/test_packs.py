"""What a device plays from without a network, over HTTP: by the name of its contents, made once."""

from __future__ import annotations

import gzip
import json
import os
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import replace
from http.client import HTTPMessage
from pathlib import Path
from typing import Any

import pytest

from engine.floor.formations import FORMATIONS
from engine.pack.written import VERSION
from tests.depth import deep
from tests.server import ROOT, LiveServer, Servers
from tests.webapp.screens import Device
from webapp.packs.pack_name import Wanted
from webapp.packs.shelf import KEPT_MAX, Shelf
from webapp.team import designs

PATIENCE_S = 120.0


@pytest.fixture
def device(server: LiveServer) -> Device:
    """A coach's device on a board with the rules that make the smallest packs."""
    return new_device(server)


def new_device(server: LiveServer) -> Device:
    found = Device(server)
    found.make_team()
    with found.coach() as coach:
        coach.change("setup", rules="first_steps")
    return found


def wanted(rules: str = "first_steps", formation: str = "five_out", court: str = "fiba") -> Wanted:
    return Wanted(designs.shipped("rules", rules), designs.shipped("formation", formation), court)


def listed(device: Device) -> list[Any]:
    answer = device.ask("GET", f"/api/packs?board={device.board_id}")
    assert answer.status == 200, answer.text
    return list(answer.json["packs"])


def fetch(device: Device, key: str) -> tuple[int, HTTPMessage, bytes]:
    """Ask once for a pack; return what came over the line as it is."""
    wire = device.server.wire(PATIENCE_S)
    cookie = "; ".join(f"{name}={value}" for name, value in device.cookies.items())
    wire.request("GET", f"/api/packs/{key}?board={device.board_id}", headers={"Cookie": cookie})
    got = wire.getresponse()
    body = got.read()
    wire.close()
    return got.status, got.headers, body


def once(ask: Callable[[], Any], done: Callable[[Any], bool]) -> Any:
    """Ask again and again until the answer will do, and return it."""
    late, pause = time.monotonic() + PATIENCE_S, threading.Event()
    while not done(found := ask()):
        assert time.monotonic() < late, found
        pause.wait(0.1)
    return found


def test_a_device_is_told_what_to_hold_its_own_board_first(device: Device) -> None:
    found = listed(device)
    assert [each["formation"] for each in found] == list(FORMATIONS)
    assert {(each["rules"], each["court"]) for each in found} == {("first_steps", "fiba")}
    assert len({each["key"] for each in found}) == len(found)
    with device.coach() as coach:
        coach.change("setup", formation="three_out_two_in")
    assert listed(device)[0]["formation"] == "three_out_two_in"


def test_a_pack_is_made_when_it_is_asked_for_and_kept(module_servers: Servers, tmp_path: Path) -> None:
    packs = tmp_path / "packs"
    packs.mkdir()
    for number in range(KEPT_MAX + 5):
        old = packs / f"{number:024x}.json.gz"
        old.write_bytes(b"old")
        os.utime(old, (1_000_000 + number, 1_000_000 + number))
    device = new_device(module_servers(tmp_path / "data", packs_dir=packs))
    first = listed(device)[0]

    status, headers, body = fetch(device, first["key"])
    assert (status, json.loads(body)) == (202, {"making": True})
    assert int(headers["Retry-After"]) > 0
    status, headers, body = once(lambda: fetch(device, first["key"]), lambda answer: answer[0] != 202)

    assert status == 200
    assert headers["Content-Encoding"] == "gzip"
    assert headers["Content-Type"].startswith("application/json")
    # A device keeps it itself, where it can also wipe it.
    assert headers["Cache-Control"] == "no-store"
    made = json.loads(gzip.decompress(body))
    assert {name: made[name] for name in first} == first
    assert made["pack"]["v"] == VERSION
    assert set(made["floor"]["spots"]) == set(made["pack"]["spots"])
    assert made["start"]["ball"] == 1
    # The ones asked for longest ago make room for it.
    kept = {file.name for file in packs.iterdir()}
    assert kept == {f"{number:024x}.json.gz" for number in range(6, KEPT_MAX + 5)} | {
        f"{wanted().play}.json.gz"
    }
    assert fetch(device, first["key"])[2] == body


def test_another_pack_has_another_name() -> None:
    usual = wanted()
    title = replace(usual.rules, form={**usual.rules.form, "title": "Ours"})
    angle = json.loads(json.dumps(usual.formation.form))
    angle["ring"][1]["angle"] += 1
    others = [
        wanted("pass_and_cut"),
        wanted(formation="three_out_two_in"),
        wanted(court="nba"),
        replace(usual, rules=title),
        replace(usual, formation=replace(usual.formation, form=angle)),
        replace(usual, formation=replace(usual.formation, ref="abc@2")),
    ]
    assert len({usual.key, *(other.key for other in others)}) == 1 + len(others)
    assert wanted().key == usual.key


def test_rules_called_something_else_or_copied_are_not_worked_out_again(
    module_servers: Servers, tmp_path: Path
) -> None:
    shelf = tmp_path / "packs"
    device = new_device(module_servers(tmp_path / "data", packs_dir=shelf))
    key = listed(device)[0]["key"]
    _, _, body = once(lambda: fetch(device, key), lambda answer: answer[0] != 202)
    made = set(shelf.iterdir())

    path = f"/api/rules?board={device.board_id}"
    ref = device.ask("POST", path, {"from": "first_steps", "title": "Ours"}).json["ref"]
    with device.coach() as coach:
        coach.change("setup", rules=ref)
    copy = listed(device)[0]
    assert (copy["rules"], copy["key"] == key) == (f"{ref}@1", False)
    status, _, other = fetch(device, copy["key"])
    assert status == 200
    one, two = (json.loads(gzip.decompress(each)) for each in (body, other))
    assert one["pack"] == two["pack"]
    assert {name: two[name] for name in copy} == copy
    assert (two["rules_title"], set(shelf.iterdir())) == ("Ours", made)


def test_what_players_do_is_in_the_name_of_what_is_worked_out() -> None:
    usual = wanted()
    rules = json.loads(json.dumps(usual.rules.form))
    called = {**rules, "name": "other", "title": "Ours", "about": "", "known": []}
    called["stages"] = [{**stage, "title": "Later"} for stage in rules["stages"]]
    assert replace(usual, rules=replace(usual.rules, ref="abc@2", form=called)).play == usual.play
    for name, other in (("posts", 1), ("actions", rules["actions"][1:]), ("lane", []), ("stages", [])):
        assert replace(usual, rules=replace(usual.rules, form={**rules, name: other})).play != usual.play
    rules["responses"]["pass"]["passer"] = ["stay"]
    assert replace(usual, rules=replace(usual.rules, form=rules)).play != usual.play
    assert len({usual.play, wanted(formation="three_out_two_in").play, wanted(court="nba").play}) == 3


def test_with_another_engine_packs_have_other_names(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "engine", tmp_path / "engine", ignore=shutil.ignore_patterns("__pycache__"))
    (tmp_path / "webapp").symlink_to(ROOT / "webapp")
    here, copied = engine_digest(ROOT), engine_digest(tmp_path)
    assert here == copied
    rules = tmp_path / "engine" / "rules" / "rulesets" / "first_steps.json"
    rules.write_text(rules.read_text("utf-8").replace('"fill"', '"stay"', 1), "utf-8")
    assert engine_digest(tmp_path) != here


def engine_digest(folder: Path) -> str:
    code = "import webapp.packs.digest as d; print(d.__file__, d.engine_digest())"
    command = [sys.executable, "-c", code]
    env = {**os.environ, "PYTHONPATH": str(folder)}
    done = subprocess.run(command, cwd=folder, env=env, check=True, capture_output=True, text=True)
    return done.stdout.split()[-1]


def test_a_team_is_given_no_pack_of_another(server: LiveServer, device: Device) -> None:
    ref = device.ask("POST", "/api/formations", {"from": "five_out", "name": "Ours"}).json["ref"]
    with device.coach() as coach:
        coach.change("setup", formation=ref)
    mine = listed(device)[0]
    assert mine["formation"].startswith(ref.partition("@")[0])
    other = new_device(server)
    status, _, body = fetch(other, mine["key"])
    assert status == 404
    assert json.loads(body)["error"]["code"] == "no_pack"
    other.board_id = device.board_id
    status, _, body = fetch(other, mine["key"])
    assert status in (401, 403)


def test_a_saved_change_has_another_name_and_the_board_still_its_own(device: Device) -> None:
    ref = device.ask("POST", "/api/rules", {"from": "first_steps", "title": "Ours"}).json["ref"]
    with device.coach() as coach:
        coach.change("setup", rules=ref)
    before = listed(device)[0]
    read = device.ask("GET", f"/api/rules/{ref}").json
    data = {**read["data"], "title": "Ours, changed"}
    saved = device.ask("PUT", f"/api/rules/{ref}", {"version": read["version"], "data": data})
    assert saved.status == 200, saved.text
    with device.coach() as coach:
        coach.change("setup", rules=saved.json["ref"])
    after = listed(device)[0]
    assert before["key"] != after["key"]


def test_a_device_that_was_turned_off_is_given_none(server: LiveServer, device: Device) -> None:
    key = listed(device)[0]["key"]
    robin = Device(server)
    robin.open_coaching_link(device.share("coach", "Robin")["url"])
    assert fetch(robin, key)[0] in (200, 202)
    access = device.ask("GET", f"/api/board/{device.board_id}/access").json
    its = next(each for each in access["keys"] if not each["this"])
    device.ask("DELETE", f"/api/keys/{its['id']}")
    for path in (f"/api/packs?board={robin.board_id}", f"/api/packs/{key}?board={robin.board_id}"):
        answer = robin.ask("GET", path)
        assert (answer.status, answer.error["code"]) == (410, "gone_key")


@pytest.mark.parametrize("key", ["0" * 24, "..%2F..%2Fquintet", "x"])
def test_a_pack_that_is_not_on_the_list_is_refused_in_one_sentence(device: Device, key: str) -> None:
    status, _, body = fetch(device, key)
    assert status == 404
    assert json.loads(body)["error"]["code"] in ("no_pack", "no_page", "not_found")


def test_nobody_without_a_key_is_told_anything(server: LiveServer, device: Device) -> None:
    stranger = Device(server, board_id=device.board_id)
    assert stranger.ask("GET", f"/api/packs?board={device.board_id}").status in (401, 403)
    assert fetch(stranger, listed(device)[0]["key"])[0] in (401, 403)


def test_what_cannot_be_made_is_said_in_one_sentence_and_not_tried_again(
    module_servers: Servers, tmp_path: Path
) -> None:
    # A folder that cannot be: a file is in its place.
    (tmp_path / "file").write_text("not a folder")
    device = new_device(module_servers(tmp_path / "data", packs_dir=tmp_path / "file" / "packs"))
    key = listed(device)[0]["key"]
    status, _, body = once(lambda: fetch(device, key), lambda answer: answer[0] != 202)
    assert status == 503
    error = json.loads(body)["error"]
    assert error["code"] == "pack_failed"
    assert error["message"].count(".") == 2
    assert fetch(device, key)[0] == 503


def test_a_pack_that_was_half_written_is_made_again(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path / "packs", longest_s=PATIENCE_S)
    whole = once(lambda: shelf.get(wanted()), bool)
    [file] = tmp_path.glob("packs/*")
    for left in deep((1000,), (0, 1000)):
        file.write_bytes(file.read_bytes()[:left])
        assert shelf.get(wanted()) is None
        assert once(lambda: shelf.get(wanted()), bool) == whole


def test_a_pack_that_takes_too_long_is_given_up(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    shelf = Shelf(tmp_path / "packs", longest_s=0.01)
    assert shelf.get(wanted()) is None

    def has_failed(_: object = None) -> bool:
        try:
            shelf.get(wanted())
        except LookupError:
            return True
        return False

    once(has_failed, bool)
    assert "could not be made" in caplog.text
    assert not list(tmp_path.glob("packs/*"))


def test_a_pack_is_made_once_what_was_in_the_way_has_gone(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    packs = tmp_path / "packs"
    packs.write_text("a file where the folder should be")
    shelf = Shelf(packs, longest_s=PATIENCE_S, again_s=0.0)
    assert shelf.get(wanted()) is None
    once(lambda: "could not be made" in caplog.text, bool)
    packs.unlink()
    packs.mkdir()
    left = packs / "0.1.part"
    left.write_bytes(b"half")
    os.utime(left, (1_000_000, 1_000_000))
    assert once(lambda: shelf.get(wanted()), bool)
    assert [file.suffix for file in packs.iterdir()] == [".gz"]
