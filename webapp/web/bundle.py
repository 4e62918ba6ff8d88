"""What a page's head names: its packed files in ``static/dist``, or for development what they are made from.

Packed files have names made of their contents, so a browser may keep them for good. ``manifest.json`` beside
them says which page needs which, and is all that has to be asked for anew.
"""

from __future__ import annotations

import json
from typing import Any, Final

from flask import Blueprint, Flask, Response, send_from_directory
from markupsafe import Markup

from engine.words.spoken import say
from webapp.base.settings import ROOT, Settings
from webapp.services import services
from webapp.wire.refusals import Refused

#: Says which version a page is of, so that a device keeps it only together with the files of that version.
VERSION_HEADER: Final = "Quintet-Version"

_STATIC: Final = ROOT / "static"
_FOR_GOOD: Final = "public, max-age=31536000, immutable"

bundle: Final = Blueprint("bundle", __name__)


class NoBundle(RuntimeError):
    """The packed files are not there; ``str(error)`` is the sentence that says what to do."""


class Head:
    """Writes what pages begin with. Raises ``NoBundle`` if the packed files are wanted and not there."""

    def __init__(self, settings: Settings) -> None:
        self._sources = settings.sources
        self._pages: dict[str, Any]
        self._icons: dict[str, str] = {}
        #: Names this version's files together; empty for the sources.
        self.version = ""
        if settings.sources:
            self._pages = json.loads((_STATIC / "pages.json").read_bytes())
            return
        try:
            manifest = json.loads((settings.bundle / "manifest.json").read_bytes())
        except OSError:
            raise NoBundle(say("server.bundle.packed_files_for_browser", bundle=settings.bundle)) from None
        self._pages, self._icons = manifest["pages"], manifest["icons"]
        self.version = manifest["version"]

    def icon(self, name: str) -> str:
        """Return the address of an icon."""
        return f"/static/icons/{name}" if self._sources else self._icons[name]

    def links(self, page: str) -> Markup:
        """Return the links to the styles and modules of a page of ``static/pages.json``."""
        parts = self._pages[page]
        if self._sources:
            styles = [f"/static/css/{name}.css" for name in parts["css"]]
            modules, early = [f"/static/js/{name}.js" for name in parts["js"]], []
        else:
            styles, modules, early = [parts["css"]], [parts["js"]], parts["parts"]
        if "early" in parts:
            early = [self._early(page), *early]
        lines = [Markup('<link rel="stylesheet" href="{}">').format(each) for each in styles]
        # All at once, rather than one after the other as each is found.
        lines += [Markup('<link rel="modulepreload" href="{}">').format(each) for each in early]
        lines += [Markup('<script type="module" src="{}"></script>').format(each) for each in modules]
        return Markup("\n").join(lines)

    def begin(self, page: str) -> Markup:
        """Return the small module of a page that runs at once: it waits for no style and no other module."""
        return Markup('<script type="module" async src="{}"></script>').format(self._early(page))

    def _early(self, page: str) -> str:
        name: str = self._pages[page]["early"]
        return f"/static/js/{name}.js" if self._sources else name


@bundle.get("/static/dist/manifest.json")
def manifest() -> Response:
    """Return what the newest version is made of; there is none of the sources."""
    settings = services().settings
    if settings.sources:
        raise Refused("not_found")
    response = send_from_directory(settings.bundle, "manifest.json")
    response.headers["Cache-Control"] = "no-cache"
    return response


@bundle.get("/engine/locales/en/<name>.json")
def texts(name: str) -> Response:
    """Return what the modules as they were written say; packed ones have it in them."""
    return send_from_directory(ROOT / "engine/locales/en", f"{name}.json")


@bundle.get("/static/dist/<name>")
def packed(name: str) -> Response:
    """Return one packed file, for good."""
    response = send_from_directory(services().settings.bundle, name)
    response.headers["Cache-Control"] = _FOR_GOOD
    return response


def register(app: Flask, settings: Settings) -> None:
    """Give the pages of ``app`` their heads. Raises ``NoBundle``."""
    head = Head(settings)
    app.jinja_env.globals.update(links=head.links, begin=head.begin, icon=head.icon, version=head.version)
    app.register_blueprint(bundle)

    @app.after_request
    def name_version(response: Response) -> Response:
        if head.version and response.mimetype == "text/html":
            response.headers[VERSION_HEADER] = head.version
        return response
