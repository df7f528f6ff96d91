"""Fixtures that several rooms share: databases of both kinds, a clock that stands still, stored projects."""

import itertools
import os
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

# One thread for sums, before anything loads the library for them: its threads wait for each other where several tests
# run beside each other, and that takes many times what they save.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest
from hypothesis import settings as property_settings

from service.settings import Settings
from service.storage.files import FileStore
from service.storage.migrate import migrate
from service.storage.models import Project
from service.storage.session import Database
from service.storage.times import uuid7
from tests.servers import create_postgres_database, find_postgres, postgres_server

NUMBERS = itertools.count(1)

# what is true of every input is true on a slow machine as well: no property is judged by the clock
property_settings.register_profile("unhurried", parent=property_settings.default, deadline=None)
property_settings.load_profile("unhurried")


class StillClock:
    """A clock that moves only when it is told to."""

    def __init__(self) -> None:
        self.now = datetime(2027, 1, 4, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def move(self, seconds: float) -> datetime:
        self.now += timedelta(seconds=seconds)
        return self.now


@pytest.fixture
def clock() -> StillClock:
    return StillClock()


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """The embedded service with everything in the test's own folder."""
    return Settings.for_folder(tmp_path / "data")


@pytest.fixture(scope="session")
def postgres_url() -> Iterator[str]:
    """A PostgreSQL server for the whole run; the URL still wants its `{name}`."""
    if find_postgres() is None:
        pytest.skip("no PostgreSQL server is installed here")
    with postgres_server() as url:
        yield url


@pytest.fixture
def new_postgres_url(postgres_url: str) -> Callable[[], str]:
    """Makes an empty PostgreSQL database and answers its URL."""
    return lambda: create_postgres_database(postgres_url, f"batchbee_{next(NUMBERS)}")


@pytest.fixture
def sqlite_database(settings: Settings) -> Iterator[Database]:
    """A migrated SQLite database."""
    database = Database(settings.database_url)
    migrate(database)
    yield database
    database.close_idle()


@pytest.fixture(params=["sqlite", "postgres"])
def database(request: pytest.FixtureRequest) -> Iterator[Database]:
    """A migrated database: the test runs once on SQLite and once on PostgreSQL."""
    if request.param == "sqlite":
        yield request.getfixturevalue("sqlite_database")
        return
    database = Database(request.getfixturevalue("new_postgres_url")())
    migrate(database)
    yield database
    database.close_idle()


@pytest.fixture
def store(settings: Settings) -> FileStore:
    """An empty file store."""
    return FileStore(settings.data)


@pytest.fixture
def add_project(clock: StillClock) -> Callable[..., str]:
    """Stores a project document and answers its id; `database`, then the document, then columns."""

    def add(database: Database, document: dict, **columns) -> str:
        project = Project(
            id=uuid7(clock()), title=document.get("title", ""), document=document,
            created_at=clock(), updated_at=clock(), **columns,
        )  # fmt: skip
        with database.writing() as session:
            session.add(project)
        return project.id

    return add
