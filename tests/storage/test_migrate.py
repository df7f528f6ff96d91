"""The migrations make exactly the tables that the models speak of, on both databases."""

import threading
from concurrent.futures import ThreadPoolExecutor

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from service.storage.migrate import migrate
from service.storage.models import Base
from service.storage.session import Database


def test_migrations_and_models_agree(database):
    with database.reading() as session:
        context = MigrationContext.configure(session.connection(), opts={"compare_type": True})
        assert compare_metadata(context, Base.metadata) == []


def test_a_column_without_migration_would_be_noticed(database):
    with database.writing() as session:
        session.execute(text("ALTER TABLE job DROP COLUMN message"))
    with database.reading() as session:
        context = MigrationContext.configure(session.connection(), opts={"compare_type": True})
        assert [change[0] for change in compare_metadata(context, Base.metadata)] == ["add_column"]


def _migrate_together(url: str) -> set[str]:
    """Four processes' worth of migrations that all begin at the same moment."""
    begin = threading.Barrier(4)

    def one(_: int) -> None:
        database = Database(url)
        begin.wait()
        migrate(database)
        database.close_idle()

    with ThreadPoolExecutor(4) as threads:
        list(threads.map(one, range(4)))
    database = Database(url)
    with database.reading() as session:
        tables = set(inspect(session.connection()).get_table_names())
    database.close_idle()
    return tables


def test_starting_together_on_sqlite_makes_the_tables_once(settings):
    assert _migrate_together(settings.database_url) == {*Base.metadata.tables, "alembic_version"}


def test_starting_together_on_postgres_makes_the_tables_once(new_postgres_url):
    assert _migrate_together(new_postgres_url()) == {*Base.metadata.tables, "alembic_version"}


def test_migrating_again_keeps_what_is_stored(database, add_project):
    id_ = add_project(database, {"title": "Leek Row"})
    migrate(database)
    with database.reading() as session:
        assert session.execute(text("SELECT id FROM project")).scalars().all() == [id_]
