"""Backups: taken while a server is at work, refused when they are no good, and brought back whole."""

from __future__ import annotations

import shutil
import sqlite3
import threading
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryFile

import pytest
from websockets.exceptions import ConnectionClosed

from tests.server import ROOT, LiveServer, Servers, begin
from tests.webapp.past import bring_back
from tests.webapp.screens import Device
from webapp.backup.restore import restore


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "saved.sqlite3"


@dataclass(frozen=True)
class Ran:
    """What came of a command."""

    returncode: int
    stdout: str
    stderr: str


def command(*words: object, cwd: Path = ROOT, cold: bool = False) -> Ran:
    """Run ``python3 -m webapp`` with ``words``; ``cold``: in an interpreter of its own."""
    with TemporaryFile("w+", encoding="utf-8") as errors:
        process = begin([*map(str, words)], {}, errors, cold=cold, cwd=cwd)
        assert process.stdout is not None
        with process.stdout as stdout:
            said = stdout.read()
        status = process.wait(60)
        errors.seek(0)
        return Ran(status, said, errors.read())


def done(*words: object, cold: bool = False) -> str:
    """Run a command that has to work, and return what it says."""
    ran = command(*words, cold=cold)
    assert (ran.returncode, ran.stderr) == (0, "")
    return ran.stdout


def refused(*words: object, cold: bool = False) -> str:
    """Run a command that has to be refused, and return its one sentence."""
    ran = command(*words, cold=cold)
    assert (ran.returncode, ran.stdout) == (1, "")
    assert ran.stderr.count("\n") == 1
    assert "Traceback" not in ran.stderr
    return ran.stderr.strip()


def coached(server: LiveServer) -> Device:
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    return device


def files_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_what_was_answered_before_a_backup_began_is_in_it(
    live_server: Servers, data_dir: Path, file: Path
) -> None:
    server = live_server(data_dir)
    device = coached(server)
    answered: list[int] = []
    going, stop = threading.Event(), threading.Event()

    def play() -> None:
        with suppress(ConnectionClosed, OSError), device.coach() as coach:
            while not stop.is_set():
                coach.change("fresh")
                for _ in range(3):
                    answered.append(coach.act_on()["seq"])
                if len(answered) > 5:
                    going.set()

    player = threading.Thread(target=play)
    player.start()
    assert going.wait(30)
    before = answered[-1]
    assert "and checked it" in done("backup", file, "--data", data_dir, cold=True)
    after = answered[-1]
    stop.set()
    player.join(30)
    assert not player.is_alive()
    with device.coach() as coach:
        chain_at_the_end = coach.seq
    server.stop()

    assert "is saved in" in done("restore", file, "--data", data_dir, cold=True)
    server.restart()
    with device.coach() as coach:
        # One more may have been stored and not yet answered when the copy was made.
        assert before <= coach.seq <= after + 1
        kept = coach.seq
        assert coach.change("fresh")["seq"] == kept + 1
    assert kept <= chain_at_the_end


def test_a_restore_can_be_taken_back(live_server: Servers, data_dir: Path, file: Path) -> None:
    server = live_server(data_dir)
    device = coached(server)
    with device.coach() as coach:
        coach.change("fresh")
        coach.act("pass:right_wing")
        then = coach.chain()
    done("backup", file, "--data", data_dir)
    with device.coach() as coach:
        coach.act("fill:left_corner")
        now = coach.chain()
    server.kill_group()  # what is not yet in the file itself is part of what is kept
    said = done("restore", file, "--data", data_dir)
    server.restart()
    with device.coach() as coach:
        assert coach.chain() == then
    server.stop()
    aside = next(data_dir.glob("quintet-before-restore-*"))
    assert str(aside) in said
    done("restore", aside, "--data", data_dir)
    server.restart()
    with device.coach() as coach:
        assert coach.chain() == now


def test_two_restores_in_one_second_keep_both_what_was_there(
    live_server: Servers, data_dir: Path, file: Path
) -> None:
    server = live_server(data_dir)
    done("backup", file, "--data", data_dir)
    server.stop()
    kept = {restore(file, data_dir / "quintet.sqlite3", data_dir / "server.lock").aside for _ in range(3)}
    assert len(kept) == 3
    assert kept == {*data_dir.glob("quintet-before-restore-*.sqlite3")}


def test_a_backup_moves_to_another_computer(live_server: Servers, data_dir: Path, file: Path) -> None:
    server = live_server(data_dir)
    device = coached(server)
    with device.coach() as coach:
        coach.change("fresh")
        coach.act("pass:right_wing")
        chain = coach.chain()
    server.stop()
    done("backup", file, "--data", data_dir)
    elsewhere = data_dir.with_name("elsewhere")
    assert "is saved in" not in done("restore", file, "--data", elsewhere)
    assert files_in(elsewhere) == {"quintet.sqlite3", "server.lock"}
    moved = Device(live_server(elsewhere), device.cookies, device.board_id)
    with moved.coach() as coach:
        assert coach.chain() == chain


def test_a_backup_of_the_first_form_is_brought_up_to_date(
    live_server: Servers, data_dir: Path, tmp_path: Path
) -> None:
    older = tmp_path / "older" / "saved.sqlite3"
    was = bring_back("0001", older)["boards"][0]
    assert "older Quintet and has been brought up to date" in done("restore", older, "--data", data_dir)
    device = Device(live_server(data_dir), was["cookies"], was["id"])
    with device.coach() as coach:
        assert coach.chain() == was["chain"]


def test_only_its_owner_may_read_a_backup(live_server: Servers, data_dir: Path, file: Path) -> None:
    live_server(data_dir)
    done("backup", file, "--data", data_dir)
    assert file.stat().st_mode & 0o777 == 0o600
    assert {path.name for path in file.parent.glob("saved*")} == {file.name}


def test_a_backup_without_a_name_is_called_by_the_time(
    live_server: Servers, data_dir: Path, tmp_path: Path
) -> None:
    live_server(data_dir)
    here = tmp_path / "here"
    here.mkdir()
    ran = command("backup", "--data", data_dir, cwd=here)
    assert ran.returncode == 0, ran.stderr
    (made,) = here.iterdir()
    assert made.match("quintet-backup-*.sqlite3")
    assert str(made) in ran.stdout


def test_nothing_is_written_over(live_server: Servers, data_dir: Path, file: Path) -> None:
    live_server(data_dir)
    file.write_text("mine")
    sentence = refused("backup", file, "--data", data_dir, cold=True)
    assert sentence == f"{file} is there already, and nothing is written over; choose another name."
    assert file.read_text() == "mine"


def test_a_backup_needs_data_and_a_place(live_server: Servers, data_dir: Path, tmp_path: Path) -> None:
    nowhere = tmp_path / "nowhere"
    sentence = refused("backup", tmp_path / "x", "--data", nowhere)
    assert sentence == f"There is nothing to back up in {nowhere}; name the folder with --data."
    live_server(data_dir)
    target = nowhere / "x"
    sentence = refused("backup", target, "--data", data_dir)
    assert sentence == f"{target} cannot be written (No such file or directory); choose another place."


def test_damaged_data_are_not_called_a_backup(live_server: Servers, data_dir: Path, file: Path) -> None:
    live_server(data_dir).stop()
    _damage(data_dir / "quintet.sqlite3")
    assert "damaged" in refused("backup", file, "--data", data_dir)
    assert not list(file.parent.glob("saved*"))


def test_nothing_is_restored_under_a_running_server(live_server: Servers, data_dir: Path, file: Path) -> None:
    server = live_server(data_dir)
    device = coached(server)
    done("backup", file, "--data", data_dir)
    sentence = refused("restore", file, "--data", data_dir, cold=True)
    assert sentence == (
        f"A Quintet server is running on {data_dir}. Nothing was changed; stop it, then restore again."
    )
    with device.coach() as coach:
        assert coach.change("fresh")["t"] == "state"


def _damage(path: Path) -> None:
    content = bytearray(path.read_bytes())
    for start in range(4096 + 100, len(content), 4096):
        content[start : start + 2000] = b"\xff" * 2000
    path.write_bytes(content)


def _script(path: Path, script: str) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(script)


def _other_database(path: Path) -> None:
    path.unlink()
    _script(path, "CREATE TABLE recipe (name TEXT)")


def _picture(path: Path) -> None:
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(5000))


def _cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:20000])


NO_GOOD: dict[str, tuple[Callable[[Path], object], str]] = {
    "empty": (lambda path: path.write_bytes(b""), "is not a Quintet backup"),
    "a picture": (_picture, "is not a Quintet backup"),
    "another database": (_other_database, "is not a Quintet backup"),
    "a trigger in it": (
        lambda path: _script(
            path, "CREATE TRIGGER t AFTER UPDATE ON server_lock BEGIN DELETE FROM team; END"
        ),
        "is not a Quintet backup",
    ),
    "a table too many": (lambda path: _script(path, "CREATE TABLE more (x)"), "is not a Quintet backup"),
    "a table too few": (lambda path: _script(path, "DROP TABLE player"), "is not a Quintet backup"),
    "no form": (lambda path: _script(path, "DELETE FROM alembic_version"), "is not a Quintet backup"),
    "newer": (
        lambda path: _script(path, "UPDATE alembic_version SET version_num = '9999'"),
        "was written by a newer Quintet",
    ),
    "damaged": (_damage, "is damaged"),
    "cut short": (_cut_short, "is damaged"),
    "parts missing": (lambda path: _script(path, "DELETE FROM node"), "is damaged"),
}


@pytest.fixture(scope="module")
def stopped(module_servers: Servers, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """A folder whose server has stopped, and a backup of it."""
    folder = tmp_path_factory.mktemp("stopped")
    module_servers(folder / "data").stop()
    done("backup", folder / "saved.sqlite3", "--data", folder / "data")
    return folder / "data", folder / "saved.sqlite3"


@pytest.mark.parametrize(("spoil", "why"), NO_GOOD.values(), ids=NO_GOOD)
def test_a_file_that_is_no_good_changes_nothing(
    stopped: tuple[Path, Path], file: Path, spoil: Callable[[Path], object], why: str
) -> None:
    data_dir, saved = stopped
    shutil.copyfile(saved, file)
    spoil(file)
    content, before = (data_dir / "quintet.sqlite3").read_bytes(), files_in(data_dir)
    sentence = refused("restore", file, "--data", data_dir)
    assert sentence.startswith(f"{file} {why}")
    assert "Nothing was changed" in sentence
    assert (data_dir / "quintet.sqlite3").read_bytes() == content
    assert files_in(data_dir) - {"server.lock"} == before - {"server.lock"}


def test_a_file_that_is_missing_or_the_data_itself_is_refused(
    live_server: Servers, data_dir: Path, file: Path
) -> None:
    assert refused("restore", file, "--data", data_dir) == (
        f"There is no file {file}. Nothing was changed; look at its name again."
    )
    live_server(data_dir).stop()
    own = data_dir / "quintet.sqlite3"
    assert refused("restore", own, "--data", data_dir) == (
        f"{own} is the data itself. Nothing was changed; name a backup."
    )


def test_damaged_data_can_be_replaced_and_are_kept(live_server: Servers, data_dir: Path, file: Path) -> None:
    server = live_server(data_dir)
    device = coached(server)
    with device.coach() as coach:
        coach.change("fresh")
        chain = coach.chain()
    done("backup", file, "--data", data_dir)
    server.kill_group()
    _damage(data_dir / "quintet.sqlite3")
    damaged = (data_dir / "quintet.sqlite3").read_bytes()
    done("restore", file, "--data", data_dir)
    server.restart()
    with device.coach() as coach:
        assert coach.chain() == chain
    (aside,) = data_dir.glob("quintet-before-restore-*.sqlite3")
    assert aside.read_bytes()[4196:6000] == damaged[4196:6000]
