"""The application: everything put together for one set of settings."""

from __future__ import annotations

from collections.abc import Callable

from flask import Flask

from webapp.base.languages import languages
from webapp.base.limits import TryLimit
from webapp.base.settings import ROOT, Settings
from webapp.boards.boards import Boards, Limits
from webapp.boards.ink import Inks
from webapp.live.relay import Relay
from webapp.packs.shelf import Shelf
from webapp.services import Services
from webapp.store.database import Store
from webapp.team.checks import Checks
from webapp.web import assets, bundle, error_answers, every_request, gate, sockets, words
from webapp.web.access import access
from webapp.web.adding_api import admission
from webapp.web.adding_pages import admission_pages
from webapp.web.check_page import readiness
from webapp.web.designs import design
from webapp.web.join import join
from webapp.web.packs import packs
from webapp.web.pages import pages
from webapp.web.paper import paper
from webapp.web.plays import playbook
from webapp.web.recovery_sheet import recovery_sheet
from webapp.web.report import report
from webapp.web.team import team
from webapp.web.transfer import moving
from webapp.web.trials import trial
from webapp.web.trust import trust

_MINUTE_S = 60
_HOUR_S = 3600


def create_app(settings: Settings, superseded: Callable[[], None] = lambda: None) -> Flask:
    """Return the application that serves the data in ``settings.data_dir``.

    It takes the data over: an older server on it is refused its next change. ``superseded`` is called when
    that happens to this one.
    """
    app = Flask("webapp", static_folder=str(ROOT / "static"), template_folder=str(ROOT / "webapp/templates"))
    app.config["MAX_CONTENT_LENGTH"] = settings.body_max_bytes
    app.config["MAX_FORM_MEMORY_SIZE"] = settings.body_max_bytes
    store = Store(settings.database, settings.busy_timeout_ms)
    relay = Relay(settings.viewers_max_count, settings.coaches_max_count, settings.viewers_interval_s)
    limits = Limits(settings.chain_max_count, settings.viewer_steps_max_count)
    boards = Boards(store, relay, limits)
    app.extensions["quintet"] = Services(
        settings=settings,
        store=store,
        relay=relay,
        boards=boards,
        inks=Inks(store, relay, boards),
        join_limit=TryLimit(settings.join_tries_address_count, settings.join_tries_all_count, _MINUTE_S),
        device_limit=TryLimit(
            settings.device_tries_address_count, settings.device_tries_all_count, _MINUTE_S
        ),
        team_limit=TryLimit(settings.teams_address_count, 10 * settings.teams_address_count, _HOUR_S),
        checks=Checks(settings.checks_max_count, settings.check_max_s),
        packs=Shelf(settings.packs, settings.pack_max_s),
        languages=languages(settings.more_languages),
        superseded=superseded,
    )
    words.register(app)
    error_answers.register(app)
    assets.register(app)
    every_request.register(app)
    bundle.register(app, settings)
    for blueprint in (pages, join, access, team, trial, design, report, playbook, moving):
        app.register_blueprint(blueprint)
    for blueprint in (admission, admission_pages, recovery_sheet):
        app.register_blueprint(blueprint)
    app.register_blueprint(trust)
    app.register_blueprint(paper)
    app.register_blueprint(packs)
    app.register_blueprint(readiness)
    sockets.register(app)
    gate.register(app)
    return app
