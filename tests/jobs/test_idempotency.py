"""A request that comes twice with its key is done once and answered twice alike."""

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from sqlalchemy import func, select

from service.jobs.idempotency import Answered, KeyReused, recall_or_reserve, remember
from service.storage.models import Material
from service.storage.times import uuid7


def ask(database, clock, key="k", request="0" * 64, token="t"):
    """Do a piece of work once a key; the answer."""
    with database.writing() as session:
        earlier = recall_or_reserve(session, token_id=token, key=key, request_hash=request, now=clock())
        if earlier:
            return earlier
        row = Material(id=uuid7(clock()), name="x", kind="x", created_at=clock(), updated_at=clock())
        session.add(row)
        session.flush()
        remember(session, token_id=token, key=key, status=202, body={"id": row.id})
        return Answered(202, {"id": row.id})


def made(database):
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(Material))


def test_a_repeat_gets_the_first_answer(database, clock):
    assert ask(database, clock) == ask(database, clock)
    assert made(database) == 1


def test_keys_of_different_tokens_are_different(database, clock):
    assert ask(database, clock) != ask(database, clock, token="other")


def test_a_key_used_for_another_request_is_refused(database, clock):
    ask(database, clock)
    with pytest.raises(KeyReused, match="'k'"):
        ask(database, clock, request="1" * 64)
    assert made(database) == 1


def test_work_that_failed_leaves_the_key_free(database, clock):
    with pytest.raises(ZeroDivisionError), database.writing() as session:
        recall_or_reserve(session, token_id="t", key="k", request_hash="0" * 64, now=clock())
        raise ZeroDivisionError
    ask(database, clock)
    assert made(database) == 1


def test_repeats_at_the_same_moment_do_the_work_once(database, clock):
    begin = Barrier(8)

    def one(_):
        begin.wait()
        return ask(database, clock)

    with ThreadPoolExecutor(8) as threads:
        answers = list(threads.map(one, range(8)))
    assert made(database) == 1 and answers == [answers[0]] * 8


def test_a_key_is_forgotten_after_a_week(database, clock):
    ask(database, clock)
    clock.move(8 * 24 * 3600)
    ask(database, clock)
    assert made(database) == 2
