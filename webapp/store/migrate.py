"""Bringing a database up to date when the server starts.

Most starts find it up to date, and the next most make a new one. For both, what alembic and the migrations
would come to is kept beside them: a look at file names, and the newest form as SQL. So they are imported only
where there is something to change.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

from engine.words.spoken import say

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

SCRIPTS: Final = Path(__file__).resolve().parent.parent / "migrations"
#: What all migrations, one after the other, make of an empty file; see :func:`statements`.
NEWEST_FORM: Final = SCRIPTS / "newest.sql"


class NewerData(RuntimeError):
    """The database was written by a later version of this program."""


def revisions() -> list[str]:
    """Return the revisions of all migrations, the first one first: the files are named by them, in order."""
    return sorted(path.name.partition("_")[0] for path in (SCRIPTS / "versions").glob("[0-9]*_*.py"))


def newest() -> str:
    """Return the revision of the last migration."""
    return revisions()[-1]


def migrate(engine: Engine) -> None:
    """Bring the database of ``engine`` to the newest form, all of it or nothing.

    Raises ``NewerData`` if it is in a form this program does not know.
    """
    with engine.connect() as connection, connection.begin():
        there = set(connection.exec_driver_sql("SELECT name FROM sqlite_master").scalars())
        if not there:
            for statement in statements():
                connection.exec_driver_sql(statement)
        elif "alembic_version" not in there or _revisions(connection) != [newest()]:
            upgrade(connection)


def statements() -> Iterator[str]:
    """Yield what makes a new database, statement by statement."""
    for text in NEWEST_FORM.read_text("utf-8").split(";\n"):
        if text.strip():
            yield text


def upgrade(connection: Connection) -> None:
    """Run the migrations that the database has not had yet. Raises ``NewerData``."""
    from alembic import command
    from alembic.config import Config
    from alembic.util import CommandError

    config = Config()
    config.set_main_option("script_location", str(SCRIPTS).replace("%", "%%"))
    config.attributes["connection"] = connection
    try:
        command.upgrade(config, "head")
    except CommandError as error:
        raise NewerData(
            say("server.migrate.data_was_written_by", database=connection.engine.url.database)
        ) from error


def _revisions(connection: Connection) -> list[str]:
    return list(connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalars())
