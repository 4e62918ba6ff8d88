"""The application: everything put together for one set of settings."""

from __future__ import annotations

from collections.abc import Callable

from flask import Flask

from webapp import assets, bundle, errors, guard, live
from webapp.access import access
from webapp.admit_api import admission
from webapp.admit_pages import admission_pages
from webapp.boards import Boards, Limits
from webapp.check_page import readiness
from webapp.checks import Checks
from webapp.design_api import design
from webapp.ink import Inks
from webapp.join import join
from webapp.limits import TryLimit
from webapp.moving.api import moving
from webapp.packs.api import packs
from webapp.packs.shelf import Shelf
from webapp.pages import pages
from webapp.paper.routes import paper
from webapp.playbook_api import playbook
from webapp.recovery_sheet import recovery_sheet
from webapp.relay import Relay
from webapp.report_api import report
from webapp.secure import gate
from webapp.secure.trust import trust
from webapp.services import Services
from webapp.settings import ROOT, Settings
from webapp.store.database import Store
from webapp.team_api import team
from webapp.trial_api import trial

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
        superseded=superseded,
    )
    errors.register(app)
    assets.register(app)
    guard.register(app)
    bundle.register(app, settings)
    for blueprint in (pages, join, access, team, trial, design, report, playbook, moving):
        app.register_blueprint(blueprint)
    for blueprint in (admission, admission_pages, recovery_sheet):
        app.register_blueprint(blueprint)
    app.register_blueprint(trust)
    app.register_blueprint(paper)
    app.register_blueprint(packs)
    app.register_blueprint(readiness)
    live.register(app)
    gate.register(app)
    return app
