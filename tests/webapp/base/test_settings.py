"""Settings: each with its unit and its meaning, read from the environment, refused with a sentence."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from engine.words.spoken import say
from tests.server import ROOT
from webapp.base.settings import BadSetting, Settings, all_settings, from_environment

UNITS = (
    *("_count", "_bytes", "_s", "_ms", "_days", "_number"),
    *("_dir", "_file", "_url", "_network", "_authority", "sources"),
)


@pytest.fixture(scope="module")
def help_text() -> str:
    done = subprocess.run(
        [sys.executable, "-m", "webapp", "--help"],
        cwd=ROOT,
        env={"QUINTET_NO_SETUP": "1"},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


def test_every_setting_is_explained_in_the_help(help_text: str) -> None:
    for setting in all_settings():
        assert f"{setting.variable} (default " in help_text
        meaning = say(f"server.settings.{setting.name}")
        assert meaning.endswith(".")
        assert meaning in help_text


@pytest.mark.parametrize(
    "option",
    [
        *("--port", "--local-network", "--data", "--viewers", "--no-open", "--plain"),
        *("--https", "--https-port", "--certificate", "--key", "--public-url", "--proxy", "--sources"),
        *("backup", "restore"),
    ],
)
def test_every_option_is_explained_in_the_help(help_text: str, option: str) -> None:
    assert option in help_text


def test_every_setting_says_its_unit() -> None:
    for setting in all_settings():
        assert setting.name.endswith(UNITS), setting.name


def test_settings_come_from_the_environment_and_options_go_before() -> None:
    environ = {
        "QUINTET_PORT_NUMBER": "8000",
        "QUINTET_DATA_DIR": "/tmp/herons",
        "QUINTET_LOCAL_NETWORK": "yes",
        "QUINTET_PING_INTERVAL_S": "2.5",
        "UNRELATED": "x",
    }
    found = from_environment(environ, port_number=9000)
    assert found.port_number == 9000
    assert found.data_dir == Path("/tmp/herons")
    assert found.local_network is True
    assert found.ping_interval_s == 2.5
    assert found.viewers_max_count == Settings().viewers_max_count


@pytest.mark.parametrize(
    ("environ", "sentence"),
    [
        ({"QUINTET_PORT_NUMBER": "x"}, "QUINTET_PORT_NUMBER must be a whole number, not 'x'."),
        ({"QUINTET_PING_INTERVAL_S": ""}, "QUINTET_PING_INTERVAL_S must be a number, not ''."),
        ({"QUINTET_LOCAL_NETWORK": "perhaps"}, "QUINTET_LOCAL_NETWORK must be yes or no, not 'perhaps'."),
        ({"QUINTET_PORT_NUMBER": "65536"}, "port_number must be between 0 and 65535."),
        ({"QUINTET_HTTPS_PORT_NUMBER": "65536"}, "https_port_number must be between 0 and 65535."),
        (
            {"QUINTET_PUBLIC_URL": "team.example/board"},
            "public_url must be like https://team.example, with nothing after the name and port.",
        ),
        (
            {"QUINTET_PROXY_NETWORK": "10.0.0.1, nginx"},
            "proxy_network must be addresses with commas between ('nginx' does not appear to be an IPv4 or "
            "IPv6 network).",
        ),
        ({"QUINTET_KEY_FILE": "key.pem"}, "key_file needs certificate_file: give both."),
        (
            {"QUINTET_CERTIFICATE_FILE": "a.pem", "QUINTET_LOCAL_AUTHORITY": "yes"},
            "local_authority and certificate_file cannot go together: choose one way to HTTPS.",
        ),
        ({"QUINTET_PING_INTERVAL_S": "nan"}, "ping_interval_s must be at least 0.1."),
        (
            {"QUINTET_VIEWERS_MAX_COUNT": "0", "QUINTET_BODY_MAX_BYTES": "-1"},
            "viewers_max_count must be at least 1. body_max_bytes must be at least 512.",
        ),
    ],
)
def test_a_value_that_cannot_be_is_named(environ: dict[str, str], sentence: str) -> None:
    with pytest.raises(BadSetting) as refused:
        from_environment(environ)
    assert str(refused.value) == sentence
