"""Both profiles are set so that the database, and not the broker, is what is relied upon."""

from dataclasses import replace

import pytest

from service.supervise import commands
from workers.queue.celery_app import make_app
from workers.queue.limits import HARD_LIMIT_SECONDS, SOFT_LIMIT_SECONDS


@pytest.fixture
def shared(settings):
    return replace(settings, broker_url="redis://:leek@localhost:6379/0")


def test_the_embedded_broker_is_in_memory(settings):
    assert make_app(settings).conf.broker_url == "memory://"


def test_the_shared_broker_hands_out_no_running_job_again(shared):
    """readthedocs.org issue 12442: a visibility timeout below the job's time built everything twice."""
    conf = make_app(shared).conf
    assert conf.broker_url == shared.broker_url
    assert conf.broker_transport_options["visibility_timeout"] > 10 * HARD_LIMIT_SECONDS


@pytest.mark.parametrize("form", ["embedded", "shared"])
def test_what_both_profiles_promise(form, settings, shared):
    conf = make_app(settings if form == "embedded" else shared).conf
    assert conf.accept_content == ["json"] and conf.task_serializer == "json"
    assert conf.task_acks_late and conf.task_reject_on_worker_lost and conf.task_ignore_result
    assert not conf.result_backend
    assert conf.worker_prefetch_multiplier == 1
    assert 0 < SOFT_LIMIT_SECONDS == conf.task_soft_time_limit < conf.task_time_limit


def test_the_shared_form_has_a_dispatcher_of_its_own(settings, shared):
    assert list(commands(settings)) == ["web side", "worker"]
    assert list(commands(shared)) == ["web side", "worker", "dispatcher"]
