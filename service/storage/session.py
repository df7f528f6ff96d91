"""The way to the database: SQLite for one machine, PostgreSQL for the shared form.

`with database.writing() as session:` is one transaction, kept when the block ends and dropped when it
raises. `with database.reading() as session:` sees one moment and keeps nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.orm import Session

BUSY_TIMEOUT_MS = 30_000
WRITING = "batchbee_writing"
ONE_MOMENT = {"isolation_level": "REPEATABLE READ"}


class Database:
    """Connections to one database. Never carry one across a fork: call `close_idle` before."""

    def __init__(self, url: str) -> None:
        self.url = url
        self.engine = _open_engine(url)
        self._writing = self.engine.execution_options(**{WRITING: True})
        # SQLite's readers see one moment anyway.
        self._reading = self.engine if self.is_sqlite else self.engine.execution_options(**ONE_MOMENT)

    @property
    def is_sqlite(self) -> bool:
        """True for the one-machine form."""
        return self.engine.dialect.name == "sqlite"

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """One short transaction that may write; committed at the end, rolled back by any exception."""
        with Session(self._writing, expire_on_commit=False) as session, session.begin():
            yield session

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """One view of the database; whatever is changed in it is dropped."""
        with Session(self._reading, expire_on_commit=False, autoflush=False) as session:
            yield session

    def close_idle(self) -> None:
        """Close every connection that is not in use; the next use opens a new one."""
        self.engine.dispose()


def _open_engine(url: str) -> Engine:
    if make_url(url).get_backend_name() != "sqlite":
        return create_engine(url, pool_pre_ping=True, pool_size=5, max_overflow=15)
    file = make_url(url).database
    if file:
        Path(file).parent.mkdir(parents=True, exist_ok=True)
    engine = create_engine(
        url, connect_args={"timeout": BUSY_TIMEOUT_MS / 1000}, pool_size=5, max_overflow=15
    )
    event.listen(engine, "connect", _set_up_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _set_up_sqlite(connection: Any, _record: Any) -> None:
    # The driver's own BEGIN comes late and is never IMMEDIATE; `_begin_sqlite` says it instead.
    connection.isolation_level = None
    cursor = connection.cursor()
    cursor.execute(f"PRAGMA busy_timeout = {BUSY_TIMEOUT_MS}")
    cursor.execute("PRAGMA foreign_keys = ON")
    # NORMAL survives a killed process but not a lost power supply.
    cursor.execute("PRAGMA synchronous = FULL")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    # A transaction that reads first and writes later cannot wait for another writer: it must fail. So
    # whoever may write takes the write lock at the start.
    writing = connection.get_execution_options().get(WRITING, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")
