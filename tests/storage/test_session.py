"""Transactions keep what was committed and nothing else, on both databases."""

from datetime import datetime, timedelta, timezone

import pytest
from sqlalchemy import text

from service.storage.models import Material
from service.storage.times import uuid7


def material(clock, name="fleece"):
    return Material(id=uuid7(clock()), name=name, kind="fabric", created_at=clock(), updated_at=clock())


def names(database):
    with database.reading() as session:
        return session.execute(text("SELECT name FROM material")).scalars().all()


def test_a_block_that_ends_is_kept(database, clock):
    with database.writing() as session:
        session.add(material(clock))
    assert names(database) == ["fleece"]


def test_a_block_that_raises_keeps_nothing(database, clock):
    with pytest.raises(ZeroDivisionError), database.writing() as session:
        session.add(material(clock))
        session.flush()
        raise ZeroDivisionError
    assert names(database) == []


def test_reading_keeps_nothing(database, clock):
    with database.reading() as session:
        session.add(material(clock))
        session.flush()
    assert names(database) == []


def test_a_reader_sees_one_moment_while_another_writes(database, clock):
    """And does not keep the writer waiting."""
    with database.reading() as session:
        count = text("SELECT count(*) FROM material")
        assert session.scalar(count) == 0
        with database.writing() as other:
            other.add(material(clock))
        assert names(database) == ["fleece"]
        assert session.scalar(count) == 0


def test_times_come_back_as_utc_whatever_zone_they_were_given_in(database, clock):
    with database.writing() as session:
        row = material(clock)
        row.created_at = clock().astimezone(timezone(timedelta(hours=5)))
        session.add(row)
    with database.reading() as session:
        found = session.get_one(Material, row.id).created_at
    assert found == clock() and found.utcoffset() == timedelta(0)


def test_a_time_without_zone_is_refused(database, clock):
    with pytest.raises(Exception, match="no time zone"), database.writing() as session:
        row = material(clock)
        row.created_at = datetime(2027, 1, 1)
        session.add(row)


def test_json_keeps_the_order_of_its_fields(database, add_project):
    """The fabrics of a document are shown in the order they were written in."""
    from service.storage.models import Project

    id_ = add_project(database, {"z": 1, "a": {"y": 2, "b": 3}})
    with database.reading() as session:
        document = session.get_one(Project, id_).document
    assert list(document) == ["z", "a"] and list(document["a"]) == ["y", "b"]


def test_sqlite_is_set_up_to_survive_a_lost_power_supply(sqlite_database):
    with sqlite_database.writing() as session:
        wanted = {"journal_mode": "wal", "synchronous": 2, "busy_timeout": 30_000, "foreign_keys": 1}
        assert {name: session.scalar(text(f"PRAGMA {name}")) for name in wanted} == wanted


def test_ids_sort_by_age(clock):
    ids = []
    for _ in range(50):
        ids.append(uuid7(clock()))
        clock.move(0.001)
    assert ids == sorted(ids) and len(set(ids)) == 50
