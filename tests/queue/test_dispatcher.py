"""The dispatcher sends what is pending, takes back what was lost, and waits out trouble."""

import threading
from datetime import timedelta

import pytest
from sqlalchemy import select

from service.jobs.dispatch import CeleryDispatch
from service.storage import batches
from service.storage.models import Job
from service.storage.picks import read_beat
from workers.queue.celery_app import make_app
from workers.queue.dispatcher import Dispatcher


class Postbag:
    """Keeps what is sent; can be closed."""

    def __init__(self):
        self.sent, self.closed = [], False

    def send(self, job_id):
        if self.closed:
            raise ConnectionError("the broker is away")
        self.sent.append(job_id)


@pytest.fixture
def postbag():
    return Postbag()


@pytest.fixture
def dispatcher(context, postbag):
    return Dispatcher(context.database, postbag, context.settings, clock=context.clock)


def kinds(context, ids):
    with context.database.reading() as session:
        return [session.get_one(Job, id_).kind for id_ in ids]


def test_pending_jobs_are_sent_once_in_order(context, submit, dispatcher, postbag):
    submit()
    assert dispatcher.go_round() == 6
    assert dispatcher.go_round() == 0
    assert kinds(context, postbag.sent) == [
        "cutting",
        "sewing",
        "colourways",
        "stitches",
        "cut files",
        "templates",
    ]


def test_what_the_broker_did_not_take_is_sent_when_it_is_back(submit, dispatcher, postbag):
    submit()
    postbag.closed = True
    with pytest.raises(ConnectionError):
        dispatcher.go_round()
    postbag.closed = False
    assert dispatcher.go_round() == 6


def test_jobs_of_silent_workers_are_taken_back_and_sent(context, submit, dispatcher, postbag, clock):
    submit(kinds={"cutting"})
    dispatcher.go_round()
    with context.database.writing() as session:
        job = session.scalars(select(Job.id)).one()
        batches.claim(session, job, owner="a", now=clock(), lease=timedelta(seconds=30), cap=3)
    clock.move(31)
    dispatcher.go_round()
    assert postbag.sent == [job, job]


def test_the_loop_survives_trouble_and_ends_when_told(submit, dispatcher, postbag, monkeypatch):
    monkeypatch.setattr("workers.queue.dispatcher.TROUBLE_PAUSE_SECONDS", 0.01)
    submit()
    postbag.closed = True
    stop = threading.Event()
    thread = threading.Thread(target=dispatcher.run, args=(stop,))
    thread.start()
    postbag.closed = False
    while len(postbag.sent) < 6:
        assert thread.is_alive()
        stop.wait(0.01)
    stop.set()
    thread.join(10)
    assert not thread.is_alive()


def test_the_dispatcher_shows_that_it_is_at_work(context, dispatcher, clock):
    dispatcher.go_round()
    with context.database.reading() as session:
        assert read_beat(session, "dispatcher") == clock()


def test_celery_gets_the_tasks_name_and_the_id_alone(settings):
    """Through the broker in memory: the message as a worker would receive it."""
    app = make_app(settings)
    CeleryDispatch(app).send("0190-some-job")
    with app.connection_for_read() as connection:
        message = connection.SimpleQueue("work").get(block=True, timeout=5)
        message.ack()
    assert message.headers["task"] == "batchbee.run_job"
    assert message.payload[0] == ["0190-some-job"] and message.payload[1] == {}
