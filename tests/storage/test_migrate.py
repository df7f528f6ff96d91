"""The migrations make exactly the tables that the models speak of, on both databases."""

import threading
from concurrent.futures import ThreadPoolExecutor

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from service.storage.migrate import migrate
from service.storage.models import Base, Snapshot
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


def test_what_was_submitted_before_tips_and_photographs_were_kept_has_none(settings):
    """A snapshot from before the second step reads as one without tips, materials and photographs after the third."""
    database = Database(settings.database_url)
    migrate(database)
    with database.writing() as session:
        for words in (
            "DROP TABLE tip",
            "ALTER TABLE snapshot DROP COLUMN tips",
            "ALTER TABLE snapshot DROP COLUMN materials",
            "DROP TABLE swatch",
            "ALTER TABLE snapshot DROP COLUMN swatches",
            "UPDATE alembic_version SET version_num = '0001'",
            "INSERT INTO batch (id, project_ids, kinds, priority, last_event, cancel_requested, created_at)"
            " VALUES ('b', '[]', '[]', 5, 0, false, '2026-01-01 00:00:00')",
            "INSERT INTO snapshot (id, batch_id, project_id, revision, document, outlines, wording, plan, created_at)"
            " VALUES ('s', 'b', 'p', 1, '{}', '{}', '{}', '[]', '2026-01-01 00:00:00')",
        ):
            session.connection().exec_driver_sql(words)
    migrate(database)
    with database.reading() as session:
        kept = session.get_one(Snapshot, "s")
        assert (kept.tips, kept.materials, kept.swatches) == ([], [], {})
    database.close_idle()
