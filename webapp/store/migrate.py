"""Bringing a database up to date when the server starts."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from alembic import command
from alembic.config import Config
from alembic.util import CommandError
from sqlalchemy import Engine

SCRIPTS: Final = Path(__file__).resolve().parent.parent / "migrations"


class NewerData(RuntimeError):
    """The database was written by a later version of this program."""


def migrate(engine: Engine) -> None:
    """Bring the database of ``engine`` to the newest form, all of it or nothing.

    Raises ``NewerData`` if it is in a form this program does not know.
    """
    config = Config()
    config.set_main_option("script_location", str(SCRIPTS).replace("%", "%%"))
    with engine.connect() as connection, connection.begin():
        config.attributes["connection"] = connection
        try:
            command.upgrade(config, "head")
        except CommandError as error:
            raise NewerData(
                f"The data in {engine.url.database} was written by a newer Quintet. Update this one, or "
                "start it with another folder (--data). Nothing was changed."
            ) from error
