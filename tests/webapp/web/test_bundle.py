"""The packed files: made from the sources as they are, given for good; or else the sources, if asked for."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from webapp.app import create_app
from webapp.base.settings import ROOT, Settings
from webapp.web.bundle import NoBundle

DIST = ROOT / "static/dist"
#: As .ci/bundle.mjs has it.
SOURCES = (
    "static/js",
    "static/css",
    "static/vendor/perfect-freehand",
    "static/icons",
    "static/pages.json",
    "engine/locales/en",
    ".ci/bundle.mjs",
    ".ci/package-lock.json",
)


@pytest.fixture
def sources(settings: Settings) -> FlaskClient:
    return create_app(replace(settings, sources=True)).test_client()


def files(place: Path) -> Iterator[Path]:
    if place.is_file():
        yield place
    else:
        yield from (each for each in place.rglob("*") if each.is_file())


def test_the_bundle_was_made_from_these_sources() -> None:
    """Without Node nothing more can be told; .ci/run makes it anew and compares."""
    found = sorted(str(each.relative_to(ROOT)) for place in SOURCES for each in files(ROOT / place))
    lines = [f"{name} {hashlib.sha256((ROOT / name).read_bytes()).hexdigest()}\n" for name in found]
    made_from = json.loads((DIST / "manifest.json").read_bytes())["sources"]
    assert made_from == hashlib.sha256("".join(lines).encode()).hexdigest(), (
        "static/dist is stale: cd .ci && npm ci && npm run build"
    )


def test_every_packed_file_is_listed_once_and_given_for_good(client: FlaskClient) -> None:
    manifest = json.loads((DIST / "manifest.json").read_bytes())
    pages = manifest["pages"].values()
    named = {path for page in pages for path in (page["js"], page["css"], *page["parts"])}
    named |= {page["early"] for page in pages if "early" in page} | {
        *manifest["icons"].values(),
        *manifest["workers"],
    }
    assert {f"/static/dist/{each.name}" for each in DIST.iterdir()} == named | {"/static/dist/manifest.json"}
    assert set(manifest["kept"]) <= named
    for path in named:
        with client.get(path) as answer:
            assert answer.status_code == 200
            assert answer.headers["Cache-Control"] == "public, max-age=31536000, immutable"


def test_the_manifest_and_the_worker_are_asked_for_anew(client: FlaskClient) -> None:
    for path in ("/static/dist/manifest.json", "/sw.js", "/static/js/state/wire.js"):
        with client.get(path) as answer:
            assert answer.headers["Cache-Control"] == "no-cache"
        with client.get(path, headers={"If-None-Match": answer.headers["ETag"]}) as again:
            assert again.status_code == 304


def test_a_missing_file_is_not_missing_for_good(client: FlaskClient) -> None:
    answer = client.get("/static/dist/board-OLD.js")
    assert answer.status_code == 404
    assert "immutable" not in answer.headers.get("Cache-Control", "")


def test_a_page_says_which_version_it_is_of(client: FlaskClient, sources: FlaskClient) -> None:
    version = json.loads((DIST / "manifest.json").read_bytes())["version"]
    answer = client.get("/")
    assert answer.headers["Quintet-Version"] == version
    assert f'data-version="{version}"' in answer.text
    assert "Quintet-Version" not in client.get("/sw.js").headers
    # The sources have no version, so no device keeps them.
    assert "Quintet-Version" not in sources.get("/").headers
    assert sources.get("/static/dist/manifest.json").status_code == 404


def test_the_sources_are_served_when_asked_for(sources: FlaskClient) -> None:
    text = sources.get("/check").text
    assert '<script type="module" src="/static/js/entries/quiet-page.js"></script>' in text
    assert '<script type="module" src="/static/js/entries/check.js"></script>' in text
    assert '<link rel="stylesheet" href="/static/css/check.css">' in text
    assert "/static/dist/" not in text


def test_without_the_packed_files_the_server_says_what_to_do(settings: Settings, tmp_path: Path) -> None:
    with pytest.raises(NoBundle, match="--sources"):
        create_app(replace(settings, bundle_dir=str(tmp_path)))


def test_a_phones_page_brings_how_the_board_stands_and_nothing_breaks_out_of_it(client: FlaskClient) -> None:
    name = "</script><i>&'\""
    made = client.post("/teams", data={"team": "Quay Otters", "board": name})
    board = made.headers["Location"].rsplit("/", 1)[1]
    link = client.post(f"/api/board/{board}/links", json={"kind": "view", "name": "players"}).get_json()
    text = client.get(f"/v/{link['url'].rsplit('/', 1)[1]}").text
    stands = text.split('<script type="application/json" id="stands">')[1].split("</script>")[0]
    assert json.loads(stands)["board"]["name"] == name
    assert json.loads(stands)["role"] == "viewer"
    assert "<" not in stands
