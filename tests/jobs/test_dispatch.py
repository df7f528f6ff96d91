"""What goes over the broker of the shared form: the id of a job and nothing else, as JSON, once."""

import base64
import json

import fakeredis
import pytest
from kombu.transport import redis as transport

from service.jobs.dispatch import QUEUE, RUN_JOB, CeleryDispatch
from service.settings import Settings
from workers.queue.celery_app import make_app


@pytest.fixture
def broker(monkeypatch):
    """A broker in memory; the address is never looked up."""
    server = fakeredis.FakeServer()

    class InMemory(fakeredis.FakeStrictRedis):
        def __init__(self, **_settings):
            super().__init__(server=server)

    monkeypatch.setattr(transport.Channel, "_get_client", lambda _channel: InMemory)
    return server


def messages(server):
    """Every message in the queue, oldest first."""
    return [json.loads(m) for m in reversed(fakeredis.FakeStrictRedis(server=server).lrange(QUEUE, 0, -1))]


def dispatch(tmp_path):
    settings = Settings.from_env(
        {"BATCHBEE_DATA": str(tmp_path), "BATCHBEE_BROKER_URL": "redis://broker.invalid/0"}
    )
    return CeleryDispatch(make_app(settings))


def test_a_message_holds_the_id_of_the_job_and_no_more(broker, tmp_path):
    sender = dispatch(tmp_path)
    sender.send("01a2-leek")
    sender.send("01a2-bean")
    sent = messages(broker)
    assert [m["headers"]["task"] for m in sent] == [RUN_JOB, RUN_JOB]
    assert {m["content-type"] for m in sent} == {"application/json"}
    arguments = [json.loads(base64.b64decode(m["body"])) for m in sent]
    assert [positional for positional, _named, _embedded in arguments] == [["01a2-leek"], ["01a2-bean"]]
    assert all(not named and not any(embedded.values()) for _positional, named, embedded in arguments)
