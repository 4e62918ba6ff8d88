"""A coach's tablet that trusts the team's computer comes over HTTPS; players' phones follow over HTTP."""

from __future__ import annotations

import base64
import ssl
from collections.abc import Iterator
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.hashes import SHA256, Hash
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from playwright.sync_api import Browser, BrowserContext, expect

from e2e.axe import check
from e2e.browser import ARGUMENTS
from e2e.conftest import LINE_DOWN, PATIENCE_MS, PHONE, TABLET, NewContext, Troubles, new_board
from e2e.expected import Play
from e2e.people import Coach, Player
from tests.plugin import ROOMY
from tests.server import LiveServer, SecureSide, SharedServers
from webapp.base.network import local_address


@pytest.fixture
def server(shared_server: SharedServers) -> LiveServer:
    return shared_server.to_end("--https", "--local-network", **ROOMY)


@pytest.fixture
def secure_side(server: LiveServer) -> SecureSide:
    """The server as a tablet in the same network finds it, by an address that is not secure by itself."""
    context = ssl.create_default_context(cafile=server.data_dir / "authority" / "root.crt")
    return server.over_tls(context, local_address() or "127.0.0.1")


@pytest.fixture
def tablet(
    browser: Browser, browser_path: str, server: LiveServer, troubles: Troubles
) -> Iterator[BrowserContext]:
    """A tablet that trusts the server's certificate; the browser takes its key's fingerprint for a root."""
    shown = ssl.get_server_certificate(("127.0.0.1", server.secure_port))
    key = x509.load_pem_x509_certificate(shown.encode()).public_key()
    digest = Hash(SHA256())
    digest.update(key.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo))
    trusted = base64.b64encode(digest.finalize()).decode()
    trusting = browser.browser_type.launch(
        executable_path=browser_path,
        args=[*ARGUMENTS, f"--ignore-certificate-errors-spki-list={trusted}"],
    )
    context = trusting.new_context(viewport=TABLET, has_touch=True)
    context.set_default_timeout(PATIENCE_MS)
    troubles.watch(context)
    yield context
    trusting.close()


def test_the_board_is_installed_over_https_while_a_phone_follows_over_http(
    tablet: BrowserContext,
    server: LiveServer,
    secure_side: SecureSide,
    new_context: NewContext,
    troubles: Troubles,
) -> None:
    troubles.expect(LINE_DOWN)
    page = tablet.new_page()
    coach = Coach(server, tablet, page, board_id=new_board(page, secure_side))
    coach.saved()
    assert page.evaluate("() => [isSecureContext, location.protocol]") == [True, "https:"]
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")

    link = coach.device.share()["url"]
    assert link.startswith("http://")
    phone = new_context(viewport=PHONE, is_mobile=True)
    phone_page = phone.new_page()
    phone_page.goto(link)
    player = Player(server, phone, phone_page)
    player.live()
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    coach.saved()
    player.reads(play.sentences)

    # The tablet has it all without the server, as it came over HTTPS.
    page.reload()
    coach.saved()
    server.stop()
    page.reload()
    coach.reads(play.sentences)


def test_a_phone_is_led_step_by_step_and_back(server: LiveServer, new_context: NewContext) -> None:
    context = new_context(
        viewport=PHONE, is_mobile=True, user_agent="Mozilla/5.0 (Linux; Android 15; Tablet)"
    )
    page = context.new_page()
    page.goto(f"{server.url}/trust")
    lines = [line.strip() for line in server.said.splitlines()[-4:]]
    expect(page.get_by_label("Fingerprint of the certificate").locator("span")).to_have_text(lines)
    expect(page.get_by_role("group").filter(has_text="Android")).to_be_visible()
    expect(page.get_by_text("search for CA certificate")).to_be_visible()
    steps = page.get_by_text("Certificate Trust Settings")
    expect(steps).to_be_hidden()
    page.get_by_text("iPad and iPhone").tap()
    expect(steps).to_be_visible()
    with page.expect_download() as download:
        page.get_by_role("link", name="Get the certificate").tap()
    got = x509.load_der_x509_certificate(Path(download.value.path()).read_bytes())
    assert got.fingerprint(SHA256()).hex(" ").upper() == " ".join(lines)
    secure = page.get_by_role("link", name="Open Quintet securely").get_attribute("href")
    assert secure == f"https://{server.url.split('//')[1].split(':')[0]}:{server.secure_port}/"


def test_the_page_that_leads_is_accessible(server: LiveServer, new_context: NewContext) -> None:
    context = new_context(viewport=PHONE)
    page = context.new_page()
    page.goto(f"{server.url}/trust")
    for name in ("iPad and iPhone", "Android tablet or phone", "Windows", "Mac"):
        page.get_by_text(name, exact=True).tap()
    check(page)
