"""HTTPS beside HTTP: real lines, a root that vouches for this machine alone, given files, and proxies."""

from __future__ import annotations

import contextlib
import http.client
import json
import socket
import ssl
import stat
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path
from typing import Any

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import ExtendedKeyUsageOID

from tests.server import DidNotStart, LiveServer, SecureSide, Servers
from tests.webapp.screens import PATIENCE_S, Device, screen, viewing_path
from webapp.base.network import own_addresses, own_names
from webapp.secure.certificates import Identity, make_leaf, make_root

KINDS = pytest.mark.parametrize("kind", [(), ("--plain",)], ids=["gunicorn", "plain"])


@pytest.fixture(scope="module")
def server(module_servers: Servers, tmp_path_factory: pytest.TempPathFactory) -> LiveServer:
    """A server that vouches for itself, and is told by one proxy who asks."""
    return module_servers(
        tmp_path_factory.mktemp("secure") / "data",
        "--https",
        "--local-network",
        proxy_network="127.0.0.2",
        teams_address_count=1000,
        outbox_max_count=1000,
        viewers_interval_s=0,
    )


def root_file(server: LiveServer) -> Path:
    return server.data_dir / "authority" / "root.crt"


def trusting(server: LiveServer, host: str = "127.0.0.1") -> SecureSide:
    """The server as a device finds it that trusts the root, keeping to the strictest rules there are."""
    context = ssl.create_default_context(cafile=root_file(server))
    context.verify_flags |= ssl.VERIFY_X509_STRICT
    return server.over_tls(context, host)


def certificate_at(server: LiveServer, host: str = "127.0.0.1", name: str | None = None) -> Any:
    """Greet the server as a device that calls it ``name``, and return its certificate."""
    context = trusting(server).tls
    with (
        socket.create_connection((host, server.secure_port), timeout=PATIENCE_S) as line,
        context.wrap_socket(line, server_hostname=name or host) as secure,
    ):
        shown = secure.getpeercert(binary_form=True)
    assert shown is not None
    return x509.load_der_x509_certificate(shown)


# the authority


def test_every_address_and_name_of_the_machine_is_vouched_for(server: LiveServer) -> None:
    shown = certificate_at(server).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert set(own_names()) <= set(shown.get_values_for_type(x509.DNSName))
    assert {"localhost", f"{socket.gethostname().split('.')[0].lower()}.local"} <= set(own_names())
    addresses = {str(address) for address in shown.get_values_for_type(x509.IPAddress)}
    assert set(own_addresses()) <= addresses
    for name in own_names():
        certificate_at(server, name=name)  # a device that calls it so agrees
    for address in own_addresses():
        certificate_at(server, name=address)


def test_an_address_that_came_later_is_vouched_for_when_somebody_calls_it(server: LiveServer) -> None:
    # Another of this machine's loopback addresses stands for the network it was carried to.
    assert "127.0.0.77" not in own_addresses()
    answer = Device(trusting(server, "127.0.0.77")).ask("GET", "/")
    assert answer.status == 200


def test_the_certificates_are_what_browsers_accept(server: LiveServer) -> None:
    root, leaf = x509.load_pem_x509_certificate(root_file(server).read_bytes()), certificate_at(server)
    basic = root.extensions.get_extension_for_class(x509.BasicConstraints)
    assert basic.critical
    assert (basic.value.ca, basic.value.path_length) == (True, 0)
    assert not leaf.extensions.get_extension_for_class(x509.BasicConstraints).value.ca
    for certificate in (root, leaf):
        usages = certificate.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
        assert list(usages) == [ExtendedKeyUsageOID.SERVER_AUTH]
    # Apple refuses a server's certificate that lives longer (HT211025; from memory).
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc <= timedelta(days=398)
    assert root.not_valid_after_utc - datetime.now(UTC) > timedelta(days=5 * 365)


def test_a_stolen_root_speaks_for_no_page_of_the_internet(server: LiveServer) -> None:
    constraints = x509.load_pem_x509_certificate(root_file(server).read_bytes()).extensions
    found = constraints.get_extension_for_class(x509.NameConstraints)
    assert found.critical
    permitted = found.value.permitted_subtrees or []
    names = {each.value for each in permitted if isinstance(each, x509.DNSName)}
    assert names <= {*own_names(), "localhost", "local", "lan", "home.arpa", "internal"}
    ranges = [each.value for each in permitted if isinstance(each, x509.IPAddress)]
    assert ranges
    # Public resolvers, as addresses anybody knows to be out in the internet.
    assert not any(ip_address(out) in each for out in ("8.8.8.8", "2001:4860:4860::8888") for each in ranges)


def test_devices_refuse_what_a_stolen_root_signs_for_others(tmp_path: Path) -> None:
    now = datetime.now(UTC)
    root = make_root("Quintet on test", ["test"], ["192.168.1.5"], now)
    wide = make_root("Quintet on test", ["bank.example"], [], now)
    # Signed with the stolen key, under the root that devices trust.
    false = make_leaf(Identity(wide.certificate, root.key), ["bank.example"], [], now)
    with pytest.raises(ssl.SSLCertVerificationError) as refused:
        _greet(tmp_path, root, false, "bank.example")
    assert "permitted subtree violation" in str(refused.value)
    _greet(tmp_path, root, make_leaf(root, ["test"], [], now), "test")


def _greet(folder: Path, root: Identity, leaf: Identity, name: str) -> None:
    """Let a device that trusts ``root`` greet a server that shows ``leaf``, all in memory."""
    file = folder / "leaf.pem"
    file.write_bytes(leaf.key_pem() + leaf.certificate_pem())
    behind = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    behind.load_cert_chain(file)
    before = ssl.create_default_context(cadata=root.certificate_pem().decode())
    there, back = ssl.MemoryBIO(), ssl.MemoryBIO()
    device = before.wrap_bio(back, there, server_hostname=name)
    host = behind.wrap_bio(there, back, server_side=True)
    for side in (device, host, device):
        with contextlib.suppress(ssl.SSLWantReadError):
            side.do_handshake()


def test_a_second_start_keeps_the_root_and_renews_the_rest(live_server: Servers, data_dir: Path) -> None:
    server = live_server(data_dir, "--https")
    root, leaf = root_file(server).read_bytes(), certificate_at(server)
    server.stop()
    server.restart()
    assert root_file(server).read_bytes() == root
    assert certificate_at(server).serial_number != leaf.serial_number


def test_the_private_key_is_its_owners_alone(server: LiveServer) -> None:
    folder = server.data_dir / "authority"
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    for name in ("root.key", "server.pem"):
        assert stat.S_IMODE((folder / name).stat().st_mode) == 0o600
    device = Device(server)
    for path in (
        "/trust/root.key",
        "/trust/../authority/root.key",
        "/authority/root.key",
        "/static/../../authority/root.key",
    ):
        answer = device.ask("GET", path)
        assert answer.status == 404
        assert "PRIVATE" not in answer.text
    assert "PRIVATE" not in device.ask("GET", "/trust").text


def test_a_root_that_cannot_be_used_is_told_and_never_replaced(live_server: Servers, data_dir: Path) -> None:
    server = live_server(data_dir, "--https")
    server.stop()
    key = data_dir / "authority" / "root.key"
    key.write_text("not a key")
    with pytest.raises(DidNotStart) as refused:
        server.restart()
    assert "The certificate that your tablets trust" in refused.value.error
    assert refused.value.error.count("\n") == 1
    assert key.read_text() == "not a key"


# the page that tells how


def test_the_page_tells_how_and_shows_what_the_terminal_showed(server: LiveServer) -> None:
    root = x509.load_pem_x509_certificate(root_file(server).read_bytes())
    for device in (Device(server), Device(trusting(server))):
        answer = device.ask("GET", "/trust")
        assert answer.status == 200
        rows = answer.text.split('class="print"')[1].split("</p>")[0].split("<span>")[1:]
        pairs = [row.split("</span>")[0] for row in rows]
        assert [line.strip() for line in server.said.splitlines()[-4:]] == pairs
        assert bytes.fromhex(" ".join(pairs)) == root.fingerprint(SHA256())
        for word in ("iPad", "Android", "Windows", "Mac", "take it back"):
            assert word in answer.text


def test_the_certificate_comes_as_devices_want_it(server: LiveServer) -> None:
    with contextlib.closing(server.wire(PATIENCE_S)) as wire:
        wire.request("GET", "/trust/quintet.crt")
        answer = wire.getresponse()
        content = answer.read()
    # By this type Safari and Android offer to install it (common practice, no source).
    assert answer.headers["Content-Type"] == "application/x-x509-ca-cert"
    assert x509.load_der_x509_certificate(content) == x509.load_pem_x509_certificate(
        root_file(server).read_bytes()
    )


def test_without_an_authority_there_is_nothing_to_trust(live_server: Servers, data_dir: Path) -> None:
    device = Device(live_server(data_dir))
    for path in ("/trust", "/trust/quintet.crt"):
        answer = device.ask("GET", path)
        assert answer.status == 404
        assert "No certificate is needed here. Open your board as you always do." in answer.text


# the game over both


@KINDS
def test_a_coach_over_https_and_a_phone_over_http_share_a_board(
    live_server: Servers, data_dir: Path, kind: tuple[str, ...]
) -> None:
    server = live_server(data_dir, "--https", *kind)
    device = Device(trusting(server))
    device.open_coaching_link(server.coach_url)
    link = device.share()
    with device.coach() as coach, screen(server, viewing_path(link)) as phone:
        coach.change("fresh")
        coach.act("pass:right_wing")
        assert phone.wait("step")["step"]["a"] == ["pass:right_wing"]
        # A plain screen of the same coach sees it too, and the other branch round.
        with Device(server, device.cookies, device.board_id).coach() as plain:
            assert plain.chain() == [["pass:right_wing"]]
            plain.act("fill:left_corner")
        assert coach.wait("step")["step"]["a"] == ["fill:left_corner"]
    assert server.stop() == 0
    assert server.errors() == ""


def test_large_messages_and_many_at_once_arrive_at_once_over_wss(server: LiveServer) -> None:
    device = Device(trusting(server))
    device.make_team()
    with device.coach() as coach:
        # One record of TLS that holds more than is read at a time, and nothing after it.
        coach.send(json.dumps({"t": "ping"}) + " " * 7000)
        assert coach.wait("pong", "refused")["t"] == "pong"
        for _ in range(300):
            coach.send({"t": "ping"})
        for _ in range(300):
            coach.wait("pong")
        for _ in range(20):
            coach.act_on()
        assert len(coach.chain()) == 20


def test_many_read_and_write_on_encrypted_lines_at_the_same_time(server: LiveServer) -> None:
    device = Device(trusting(server))
    device.make_team()
    with contextlib.ExitStack() as still_open:
        coaches = [still_open.enter_context(device.coach()) for _ in range(6)]
        for turn in range(60):
            for coach in coaches:
                coach.send({"t": "ping"})  # answered while what the others do is told
            coach = coaches[turn % 6]
            coach.hello()
            if turn % 9 == 8:
                coach.change("fresh")
            else:
                coach.act_on()
        last = coaches[59 % 6]
        for coach in coaches:
            while coach.seq != last.seq:
                coach.hear()
            assert coach.chain() == last.chain()


# keys and links


def test_a_key_got_over_https_never_travels_in_the_open(server: LiveServer) -> None:
    secure = Device(trusting(server))
    answer = secure.ask("POST", "/teams", {"team": "Quay Otters", "board": "First"}, form=True)
    cookie = answer.headers["Set-Cookie"]
    # Browsers keep a cookie of such a name only if it is secure, for every path and for this host alone
    # (RFC 6265bis, section 4.1.3.2).
    assert cookie.startswith("__Host-")
    assert {"Secure", "HttpOnly", "Path=/", "SameSite=Lax"} <= set(cookie.split("; "))
    assert "Domain" not in cookie
    plain = Device(server).ask("POST", "/teams", {"team": "Quay Otters", "board": "First"}, form=True)
    assert plain.headers["Set-Cookie"].startswith("quintet-")
    assert "Secure" not in plain.headers["Set-Cookie"].split("; ")


def test_a_device_keeps_its_key_when_it_goes_over_to_https(server: LiveServer) -> None:
    device = Device(server)
    board = device.make_team()
    assert Device(trusting(server), device.cookies).ask("GET", f"/board/{board}").status == 200


@pytest.mark.parametrize("from_https", [False, True])
def test_players_are_sent_to_http_and_coaches_to_https(server: LiveServer, from_https: bool) -> None:
    device = Device(trusting(server, "127.0.0.78") if from_https else server)
    device.make_team()
    plain, secure = f":{server.port}/", f":{server.secure_port}/"
    view, coach = device.share(), device.share("coach", "assistant")
    code = device.ask("POST", f"/api/board/{device.board_id}/code", {}).json
    added = device.ask("POST", f"/api/board/{device.board_id}/device-code", {"role": "assistant"}).json
    for given in (view, code):
        assert given["url"].startswith("http://")
        assert plain in given["url"]
        assert given["note"] is None
    for given in (coach, added):
        assert given["url"].startswith("https://")
        assert secure.rstrip("/") in given["url"]
        assert given["note"].endswith(f":{server.port}/trust")
    for url in (view["url"], coach["url"], coach["note"].split()[-1]):
        assert url.split("//")[1].split(":")[0] in own_addresses()[2:] or "127.0.0" not in url


def test_who_leaves_out_the_s_is_led_to_https(server: LiveServer) -> None:
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", server.secure_port, timeout=15)) as wire:
        wire.request("GET", "/join?code=ABC234")
        answer = wire.getresponse()
        assert answer.status == 307
        assert answer.headers["Location"] == f"https://127.0.0.1:{server.secure_port}/join?code=ABC234"


def test_an_insecure_page_cannot_change_a_secure_one(server: LiveServer) -> None:
    side = trusting(server)
    answer = Device(side).ask("POST", "/join", {"code": "x"}, form=True, Origin=f"http://{side.host}")
    assert answer.status == 403


def test_a_device_that_does_not_trust_it_disturbs_nobody(server: LiveServer) -> None:
    stranger = ssl.create_default_context()
    with pytest.raises(ssl.SSLCertVerificationError):
        Device(server.over_tls(stranger)).ask("GET", "/")
    with socket.create_connection(("127.0.0.1", server.secure_port), timeout=15) as silent:
        silent.sendall(b"\x16\x03\x01")  # begins to greet, and says no more
        assert Device(trusting(server)).ask("GET", "/").status == 200
    assert server.errors() == ""


# behind a proxy


def forwarded(server: LiveServer, source: str, **headers: str) -> http.client.HTTPResponse:
    """Make a team as a proxy at ``source`` would pass it on."""
    wire = http.client.HTTPConnection("127.0.0.1", server.port, timeout=15, source_address=(source, 0))
    sent = {name.replace("_", "-"): value for name, value in headers.items()}
    body = "team=Quay+Otters&board=First"
    wire.request("POST", "/teams", body, {"Content-Type": "application/x-www-form-urlencoded", **sent})
    answer = wire.getresponse()
    answer.read()
    wire.close()
    return answer


@pytest.mark.parametrize(
    ("source", "believed"), [("127.0.0.2", True), ("127.0.0.1", False), ("127.0.0.3", False)]
)
def test_the_scheme_is_believed_of_the_named_proxy_alone(
    server: LiveServer, source: str, believed: bool
) -> None:
    cookie = forwarded(server, source, X_Forwarded_Proto="https").headers["Set-Cookie"]
    assert cookie.startswith("__Host-") == believed


@pytest.mark.parametrize("kind", [(), ("--plain",)], ids=["gunicorn", "plain"])
def test_tries_are_counted_by_who_is_behind_the_proxy(
    live_server: Servers, data_dir: Path, kind: tuple[str, ...]
) -> None:
    server = live_server(data_dir, *kind, "--proxy", "127.0.0.2, 10.0.0.0/8", teams_address_count=1)

    def status(source: str, behind: str) -> int:
        return forwarded(server, source, X_Forwarded_For=behind).status

    assert status("127.0.0.2", "203.0.113.1") == 303
    assert status("127.0.0.2", "203.0.113.1") == 429
    assert status("127.0.0.2", "203.0.113.2") == 303
    # What stands before the last address that is no proxy's, the asker may have written himself.
    assert status("127.0.0.2", "203.0.113.9, 203.0.113.1, 10.1.2.3") == 429
    assert status("127.0.0.2", "unknown") == 303  # counts for the proxy itself
    assert status("127.0.0.2", "") == 429
    # From anybody else the header is nothing.
    assert status("127.0.0.5", "203.0.113.3") == 303
    assert status("127.0.0.5", "203.0.113.4") == 429


def test_links_begin_with_the_public_address(live_server: Servers, data_dir: Path) -> None:
    server = live_server(data_dir, "--public-url", "https://board.example/", "--proxy", "127.0.0.1")
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    for kind in ("view", "coach"):
        link = device.share(kind)
        assert link["url"].startswith("https://board.example/")
        assert link["note"] is None
