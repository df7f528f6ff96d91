"""Brings a database to the present tables. Safe when the web side and a worker start together.

A new change is a new file in `migrations/versions/`, written by hand; `tests/storage/test_migrate.py`
says on both databases whether the files and `service.storage.models` agree.
"""

from __future__ import annotations

import logging
import time
from pathlib import Path
from typing import Any

from alembic.config import Config
from alembic.runtime.environment import EnvironmentContext
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, text
from sqlalchemy.exc import OperationalError

from service.storage.models import Base
from service.storage.session import Database

MIGRATIONS = Path(__file__).parent / "migrations"
LOCK_NUMBER = 0x6265653031
"""Any number that nobody else uses as an advisory lock of this database."""
TRIES_FOR_WAL = 100

log = logging.getLogger(__name__)


def migrate(database: Database) -> None:
    """Run the missing migrations in one transaction, one process at a time."""
    if database.is_sqlite:
        _switch_to_wal(database)
    with database.writing() as session:
        connection = session.connection()
        if not database.is_sqlite:
            connection.execute(text("SELECT pg_advisory_xact_lock(:number)"), {"number": LOCK_NUMBER})
        _upgrade(connection)


def _upgrade(connection: Connection) -> None:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    script = ScriptDirectory.from_config(config)

    def steps(revision: Any, _context: MigrationContext) -> Any:
        # This is how Alembic's own commands ask for the way to the newest revision.
        return script._upgrade_revs("head", revision)

    with EnvironmentContext(config, script, fn=steps) as environment:
        environment.configure(connection=connection, target_metadata=Base.metadata, render_as_batch=True)
        environment.run_migrations()


def _switch_to_wal(database: Database) -> None:
    """Readers beside one writer. The file remembers it; the switch itself does not wait for locks."""
    for _ in range(TRIES_FOR_WAL):
        connection = database.engine.raw_connection()
        try:
            mode = connection.cursor().execute("PRAGMA journal_mode = WAL").fetchone()
            if mode and mode[0] == "wal":
                return
        except Exception as why:
            log.info("waiting to switch the database to write-ahead logging: %s", why)
        finally:
            connection.close()
        time.sleep(0.05)
    raise OperationalError("PRAGMA journal_mode = WAL", None, RuntimeError("the database stayed locked"))
