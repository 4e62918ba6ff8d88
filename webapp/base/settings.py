"""Settings: every figure of the server that somebody may want to change, with its unit and its meaning.

Each field of ``Settings`` is one. Its unit is the end of its name; what it means, as
``--help`` prints it, stands in engine/locales under "server.settings".
A setting is changed with an environment variable: ``QUINTET_`` and the name in capitals.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from typing import Annotated, Any, Final, get_args, get_type_hints

from engine.words.spoken import listed, say
from webapp.base.network import is_web_address, networks

#: The checkout: the folder that holds ``webapp``, ``engine`` and ``static``.
ROOT: Final = Path(__file__).resolve().parent.parent.parent

PREFIX: Final = "QUINTET_"


class BadSetting(ValueError):
    """A setting has a value it cannot have; ``str(error)`` is the sentence."""


@dataclass(frozen=True, slots=True)
class Least:
    """The least value a setting can have that is a number."""

    value: float


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of one server. Counts are numbers of things; ``_s`` seconds, ``_ms`` thousandths."""

    data_dir: Path = ROOT / ".quintet"
    public_url: str = ""
    local_network: bool = False
    port_number: int = 8710
    local_authority: bool = False
    certificate_file: str = ""
    key_file: str = ""
    https_port_number: int = 8711
    sources: bool = False
    bundle_dir: str = ""
    languages_dir: str = ""
    proxy_network: str = ""
    viewers_max_count: Annotated[int, Least(1)] = 200
    coaches_max_count: Annotated[int, Least(1)] = 16
    spare_threads_count: Annotated[int, Least(4)] = 16
    message_max_bytes: Annotated[int, Least(512)] = 65536
    body_max_bytes: Annotated[int, Least(512)] = 65536
    sync_max_bytes: Annotated[int, Least(4096)] = 1048576
    import_max_bytes: Annotated[int, Least(4096)] = 20971520
    outbox_max_count: Annotated[int, Least(2)] = 64
    send_buffer_bytes: Annotated[int, Least(4096)] = 131072
    send_timeout_s: Annotated[float, Least(0.1)] = 10.0
    ping_interval_s: Annotated[float, Least(0.1)] = 10.0
    hello_timeout_s: Annotated[float, Least(0.1)] = 10.0
    viewers_interval_s: float = 0.5
    messages_per_s: Annotated[float, Least(1)] = 20.0
    messages_burst_count: Annotated[int, Least(1)] = 600
    garbage_max_count: Annotated[int, Least(1)] = 8
    chain_max_count: Annotated[int, Least(1)] = 500
    viewer_steps_max_count: Annotated[int, Least(1)] = 60
    join_code_life_s: Annotated[int, Least(1)] = 600
    join_code_live_max_count: Annotated[int, Least(1)] = 5
    join_tries_address_count: Annotated[int, Least(1)] = 10
    join_tries_all_count: Annotated[int, Least(1)] = 120
    device_code_life_s: Annotated[int, Least(1)] = 600
    device_tries_address_count: Annotated[int, Least(1)] = 10
    device_tries_all_count: Annotated[int, Least(1)] = 60
    teams_address_count: Annotated[int, Least(1)] = 20
    checks_max_count: Annotated[int, Least(1)] = 2
    check_max_s: Annotated[float, Least(1)] = 120.0
    packs_dir: str = ""
    pack_max_s: Annotated[float, Least(1)] = 600.0
    cookie_life_days: Annotated[int, Least(1)] = 365
    busy_timeout_ms: Annotated[int, Least(1)] = 5000
    lock_wait_s: float = 5.0
    shutdown_grace_s: Annotated[int, Least(1)] = 1

    @property
    def database(self) -> Path:
        """The database file."""
        return self.data_dir / "quintet.sqlite3"

    @property
    def has_https(self) -> bool:
        """Whether this server itself speaks HTTPS, beside HTTP."""
        return self.local_authority or bool(self.certificate_file)

    @property
    def packs(self) -> Path:
        """The folder of the packs. They can be made again, so a backup does without them."""
        return Path(self.packs_dir) if self.packs_dir else self.data_dir / "packs"

    @property
    def bundle(self) -> Path:
        """The folder of the packed files for browsers."""
        return Path(self.bundle_dir).resolve() if self.bundle_dir else ROOT / "static" / "dist"

    @property
    def more_languages(self) -> Path | None:
        """The folder of languages beside those that come along, if there is one."""
        return Path(self.languages_dir).resolve() if self.languages_dir else None

    @property
    def threads_count(self) -> int:
        """Threads the server runs: one for each live place, and spare ones for pages."""
        return self.viewers_max_count + self.coaches_max_count + self.spare_threads_count


@dataclass(frozen=True, slots=True)
class Setting:
    """One row of the table: ``kind`` is the type of its value."""

    name: str
    kind: type[Any]
    default: Any
    least: float = 0

    @property
    def variable(self) -> str:
        """The environment variable that changes it."""
        return PREFIX + self.name.upper()


@cache
def all_settings() -> tuple[Setting, ...]:
    """Return the table of settings, in the order they are explained."""
    hints = get_type_hints(Settings, include_extras=True)
    return tuple(_setting(field.name, field.default, hints[field.name]) for field in fields(Settings))


def _setting(name: str, default: Any, hint: Any) -> Setting:
    kind, *least = get_args(hint) or (hint,)
    return Setting(name, kind, default, *(each.value for each in least))


def from_environment(environ: Mapping[str, str], **given: Any) -> Settings:
    """Return the settings in ``environ``, with ``given`` going before them.

    Raises ``BadSetting``, naming the setting, for a value of the wrong kind or below its least value.
    """
    values = {
        setting.name: _read(setting, environ[setting.variable])
        for setting in all_settings()
        if setting.variable in environ and setting.name not in given
    }
    return checked(Settings(**(values | given)))


def checked(settings: Settings) -> Settings:
    """Return ``settings``, or raise ``BadSetting`` naming every value that is out of range."""
    wrong = [
        say("server.wrong_setting.least", name=setting.name, least=f"{setting.least:g}")
        for setting in all_settings()
        # Asked this way round so that "not a number" is caught as well.
        if setting.kind in (int, float) and not getattr(settings, setting.name) >= setting.least
    ]
    for name in ("port_number", "https_port_number"):
        if not 0 <= getattr(settings, name) <= 65535:
            wrong.append(say("server.wrong_setting.port", name=name))
    wrong += _wrong_addresses(settings)
    if wrong:
        raise BadSetting(listed(wrong, "sentences"))
    return settings


def _wrong_addresses(settings: Settings) -> list[str]:
    wrong = []
    if settings.local_authority and settings.certificate_file:
        wrong.append(say("server.wrong_setting.two_ways"))
    if settings.key_file and not settings.certificate_file:
        wrong.append(say("server.wrong_setting.key_alone"))
    if settings.public_url and not is_web_address(settings.public_url):
        wrong.append(say("server.wrong_setting.public_url"))
    try:
        networks(settings.proxy_network)
    except ValueError as error:
        wrong.append(say("server.wrong_setting.proxy_network", error=error))
    return wrong


_YES_NO: Final = {"yes": True, "no": False}
_WHAT: Final = {int: "whole", float: "number", bool: "yes_no"}


def _read(setting: Setting, text: str) -> Any:
    try:
        return _YES_NO[text.lower()] if setting.kind is bool else setting.kind(text)
    except (KeyError, ValueError):
        kind = _WHAT[setting.kind]
        raise BadSetting(
            say(f"server.wrong_setting.{kind}", variable=setting.variable, text=repr(text))
        ) from None


def explained() -> str:
    """Return the table of settings as ``--help`` prints it."""
    lines = []
    for setting in all_settings():
        default = {True: "yes", False: "no"}.get(setting.default) if setting.kind is bool else setting.default
        if default == "":
            default = say("server.explained.empty")
        lines.append("  " + say("server.explained.line", variable=setting.variable, default=default))
        lines.append("      " + say(f"server.settings.{setting.name}"))
    return "\n".join(lines)
