"""Settings: every figure of the server that somebody may want to change, with its unit and its meaning.

Each field of ``Settings`` is one. Its unit is the end of its name; its ``Help`` is what ``--help`` prints.
A setting is changed with an environment variable: ``QUINTET_`` and the name in capitals.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from typing import Annotated, Any, Final, get_args, get_type_hints

from webapp.base.network import is_web_address, networks

#: The checkout: the folder that holds ``webapp``, ``engine`` and ``static``.
ROOT: Final = Path(__file__).resolve().parent.parent.parent

PREFIX: Final = "QUINTET_"


class BadSetting(ValueError):
    """A setting has a value it cannot have; ``str(error)`` is the sentence."""


@dataclass(frozen=True, slots=True)
class Help:
    """What a setting means, and the least value it can have if it is a number."""

    text: str
    least: float = 0


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of one server. Counts are numbers of things; ``_s`` seconds, ``_ms`` thousandths."""

    data_dir: Annotated[Path, Help("Folder that holds the boards and their histories.")] = ROOT / ".quintet"
    public_url: Annotated[
        str, Help("Address put into links, such as https://team.example; empty: worked out.")
    ] = ""
    local_network: Annotated[
        bool, Help("Whether other devices on the local network may open the boards.")
    ] = False
    port_number: Annotated[int, Help("Port to listen on; 0 takes a free one.")] = 8710
    local_authority: Annotated[
        bool, Help("Whether to serve HTTPS too, with a certificate made here that tablets are told to trust.")
    ] = False
    certificate_file: Annotated[
        str, Help("Certificate to serve HTTPS with, a PEM file with its chain; empty: none.")
    ] = ""
    key_file: Annotated[
        str, Help("Private key of that certificate, a PEM file; empty: it is in the same file.")
    ] = ""
    https_port_number: Annotated[int, Help("Port to listen on for HTTPS; 0 takes a free one.")] = 8711
    sources: Annotated[
        bool, Help("Whether browsers get the modules as they were written, not packed: for changing them.")
    ] = False
    bundle_dir: Annotated[
        str, Help("Folder with the packed files for browsers; empty: static/dist in the checkout.")
    ] = ""
    proxy_network: Annotated[
        str,
        Help(
            "Addresses or networks of reverse proxies, with commas between, whose X-Forwarded-For and "
            "X-Forwarded-Proto are believed; empty: nobody's."
        ),
    ] = ""
    viewers_max_count: Annotated[
        int, Help("Phones that may follow at the same time, all boards together.", 1)
    ] = 200
    coaches_max_count: Annotated[int, Help("Coaching screens that may be open at the same time.", 1)] = 16
    spare_threads_count: Annotated[
        int, Help("Threads kept for plain pages when every live place is taken.", 4)
    ] = 16
    message_max_bytes: Annotated[int, Help("Largest message a live board accepts.", 512)] = 65536
    body_max_bytes: Annotated[int, Help("Largest form or request body accepted.", 512)] = 65536
    sync_max_bytes: Annotated[
        int, Help("Largest parcel of changes to the playbook accepted from one device at once.", 4096)
    ] = 1048576
    import_max_bytes: Annotated[
        int, Help("Largest file with a team that can be brought in from another server.", 4096)
    ] = 20971520
    outbox_max_count: Annotated[
        int, Help("Messages that may wait for one screen before it is dropped.", 2)
    ] = 64
    send_buffer_bytes: Annotated[int, Help("Bytes the system may hold for one screen.", 4096)] = 131072
    send_timeout_s: Annotated[float, Help("A screen that takes nothing for so long is dropped.", 0.1)] = 10.0
    ping_interval_s: Annotated[
        float, Help("How often a live screen is asked whether it is still there.", 0.1)
    ] = 10.0
    hello_timeout_s: Annotated[float, Help("How long a new live connection may stay silent.", 0.1)] = 10.0
    viewers_interval_s: Annotated[float, Help("Shortest time between two counts of viewers sent out.")] = 0.5
    messages_per_s: Annotated[float, Help("Messages a second one live connection may send for long.", 1)] = (
        20.0
    )
    messages_burst_count: Annotated[int, Help("Messages one live connection may send at once.", 1)] = 600
    garbage_max_count: Annotated[
        int, Help("Messages refused as nonsense before a connection is closed.", 1)
    ] = 8
    chain_max_count: Annotated[int, Help("Steps in one chain.", 1)] = 500
    viewer_steps_max_count: Annotated[
        int, Help("Steps of a chain that a phone is given when it joins.", 1)
    ] = 60
    join_code_life_s: Annotated[int, Help("How long a join code can be used.", 1)] = 600
    join_code_live_max_count: Annotated[
        int, Help("Join codes of one board that work at the same time.", 1)
    ] = 5
    join_tries_address_count: Annotated[int, Help("Join codes one address may try in a minute.", 1)] = 10
    join_tries_all_count: Annotated[int, Help("Join codes everybody together may try in a minute.", 1)] = 120
    device_code_life_s: Annotated[int, Help("How long a code that adds a coach's device works.", 1)] = 600
    device_tries_address_count: Annotated[
        int, Help("Codes for a coach's device one address may try in a minute.", 1)
    ] = 10
    device_tries_all_count: Annotated[
        int, Help("Codes for a coach's device everybody together may try in a minute.", 1)
    ] = 60
    teams_address_count: Annotated[int, Help("Teams one address may make in an hour.", 1)] = 20
    checks_max_count: Annotated[int, Help("Checks of rule sets that may run at the same time.", 1)] = 2
    check_max_s: Annotated[float, Help("How long one check may take before it is given up.", 1)] = 120.0
    packs_dir: Annotated[
        str, Help("Folder for what devices play from without a network; empty: in the data folder.")
    ] = ""
    pack_max_s: Annotated[
        float, Help("How long making one pack for playing without a network may take.", 1)
    ] = 600.0
    cookie_life_days: Annotated[int, Help("How long a device keeps a key it does not use.", 1)] = 365
    busy_timeout_ms: Annotated[int, Help("How long a reader or writer waits for the database.", 1)] = 5000
    lock_wait_s: Annotated[float, Help("How long a starting server waits for one that is stopping.")] = 5.0
    shutdown_grace_s: Annotated[
        int, Help("How long pages being answered may take when the server stops.", 1)
    ] = 1

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
    def threads_count(self) -> int:
        """Threads the server runs: one for each live place, and spare ones for pages."""
        return self.viewers_max_count + self.coaches_max_count + self.spare_threads_count


@dataclass(frozen=True, slots=True)
class Setting:
    """One row of the table: ``kind`` is the type of its value."""

    name: str
    kind: type[Any]
    default: Any
    help: Help

    @property
    def variable(self) -> str:
        """The environment variable that changes it."""
        return PREFIX + self.name.upper()


@cache
def all_settings() -> tuple[Setting, ...]:
    """Return the table of settings, in the order they are explained."""
    hints = get_type_hints(Settings, include_extras=True)
    rows = ((field.name, field.default, get_args(hints[field.name])) for field in fields(Settings))
    return tuple(Setting(name, kind, default, help_) for name, default, (kind, help_) in rows)


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
        f"{setting.name} must be at least {setting.help.least:g}"
        for setting in all_settings()
        # Asked this way round so that "not a number" is caught as well.
        if setting.kind in (int, float) and not getattr(settings, setting.name) >= setting.help.least
    ]
    for name in ("port_number", "https_port_number"):
        if not 0 <= getattr(settings, name) <= 65535:
            wrong.append(f"{name} must be between 0 and 65535")
    wrong += _wrong_addresses(settings)
    if wrong:
        raise BadSetting("; ".join(wrong) + ".")
    return settings


def _wrong_addresses(settings: Settings) -> list[str]:
    wrong = []
    if settings.local_authority and settings.certificate_file:
        wrong.append("local_authority and certificate_file cannot go together: choose one way to HTTPS")
    if settings.key_file and not settings.certificate_file:
        wrong.append("key_file needs certificate_file: give both")
    if settings.public_url and not is_web_address(settings.public_url):
        wrong.append("public_url must be like https://team.example, with nothing after the name and port")
    try:
        networks(settings.proxy_network)
    except ValueError as error:
        wrong.append(f"proxy_network must be addresses with commas between ({error})")
    return wrong


_YES_NO: Final = {"yes": True, "no": False}
_WHAT: Final = {int: "a whole number", float: "a number", bool: "yes or no"}


def _read(setting: Setting, text: str) -> Any:
    try:
        return _YES_NO[text.lower()] if setting.kind is bool else setting.kind(text)
    except (KeyError, ValueError):
        raise BadSetting(f"{setting.variable} must be {_WHAT[setting.kind]}, not {text!r}.") from None


def explained() -> str:
    """Return the table of settings as ``--help`` prints it."""
    lines = []
    for setting in all_settings():
        default = {True: "yes", False: "no"}.get(setting.default) if setting.kind is bool else setting.default
        lines.append(f"  {setting.variable} (default {'empty' if default == '' else default})")
        lines.append(f"      {setting.help.text}")
    return "\n".join(lines)
