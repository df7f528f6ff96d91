"""Workers killed in the middle of a batch: nothing is lost, nothing is done twice, order is kept.

Real Celery, real processes, `kill -9`; the shared form against a real Valkey server and, where one is
installed, a real PostgreSQL.
"""

import os
import signal
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

import pytest

from service.jobs.cancel import cancel_batch
from service.jobs.retry import retry_job
from service.settings import Settings
from service.storage.times import utc_now
from tests.queue.stage import Stage, are_gone, tree_of
from tests.servers import free_port, valkey_server

pytestmark = [pytest.mark.slow, pytest.mark.timeout(120)]


@pytest.fixture
def open_stage(settings: Settings, tmp_path: Path) -> Iterator[Callable[..., Stage]]:
    """Sets a stage with changed settings and clears it away, killing what still runs."""
    stages = []

    def open_(**changes) -> Stage:
        stage = Stage(replace(settings, **changes), tmp_path)
        stages.append(stage)
        return stage

    yield open_
    for stage in stages:
        stage.close()


@pytest.fixture(scope="module")
def broker(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    with valkey_server(tmp_path_factory.mktemp("valkey")) as url:
        yield url


@pytest.fixture
def embedded(open_stage) -> Stage:
    return open_stage(lease_seconds=2.0)


@pytest.fixture(params=["embedded", "shared, sqlite", "shared, postgres"])
def stage(request: pytest.FixtureRequest, open_stage) -> Stage:
    """The three ways in which the service is run."""
    # The same job may be met by every kill; it is then done in its fourth try.
    kills = {"lease_seconds": 2.0, "attempt_cap": 5}
    if request.param == "embedded":
        return open_stage(**kills)
    shared = {"broker_url": request.getfixturevalue("broker"), **kills}
    if request.param == "shared, postgres":
        shared["database_url"] = request.getfixturevalue("new_postgres_url")()
    return open_stage(**shared)


def done(number: int):
    return lambda status: status.counts["completed"] >= number


def test_a_batch_survives_three_kills_of_the_whole_worker(stage):
    """33 jobs; the worker and its children are killed after 5, 12 and 20 of them and started again."""
    batch = stage.submit(projects=3, ms=(50, 150))
    for number in (5, 12, 20):
        stage.start()
        stage.wait(batch, done(number))
        stage.kill()
        assert not stage.status(batch).ended
    stage.start()
    status = stage.wait(batch, lambda status: status.ended)
    assert len(status.jobs) == 33
    stage.check_nothing_lost_or_doubled(batch)
    # A run can be killed between its claim and its start, never start without a claim.
    assert 33 <= len(stage.starts()) <= sum(job.attempt for job in status.jobs)


def test_a_killed_dispatcher_loses_nothing(open_stage, broker):
    stage = open_stage(broker_url=broker, lease_seconds=2.0)
    batch = stage.submit(projects=2, ms=(20, 60))
    stage.start()
    stage.wait(batch, done(4))
    stage.kill("dispatcher")
    stage.start()
    stage.wait(batch, lambda status: status.ended)
    stage.check_nothing_lost_or_doubled(batch)


def test_children_left_behind_by_a_killed_worker_do_no_harm(embedded):
    """Only the main process is killed; its children end by themselves, and a new worker takes the folder."""
    batch = embedded.submit(projects=2, ms=(50, 150))
    embedded.start()
    embedded.wait(batch, done(4))
    left = embedded.running.pop("worker")
    children = tree_of(left.pid)[1:]
    assert len(children) == 2
    left.kill()
    left.wait(10)
    embedded.start()
    embedded.wait(batch, lambda status: status.ended)
    embedded.check_nothing_lost_or_doubled(batch)
    assert are_gone(children)


def test_a_broker_that_loses_everything_loses_no_job(open_stage, tmp_path):
    """Valkey is killed without its file and comes back empty; the worker and the dispatcher stay."""
    port = free_port()
    with ExitStack() as servers:
        broker = servers.enter_context(valkey_server(tmp_path, port=port, keep=False))
        stage = open_stage(broker_url=broker, lease_seconds=2.0)
        batch = stage.submit(projects=2, ms=(50, 150))
        stage.start()
        stage.wait(batch, done(4))
        servers.close()
        assert not stage.status(batch).ended
        servers.enter_context(valkey_server(tmp_path, port=port, keep=False))
        # Celery may end on a connection lost half-way; the supervisor, here the start, starts it again
        stage.wait(batch, lambda status: stage.start() or status.ended)
        stage.check_nothing_lost_or_doubled(batch)
        stage.close()


def test_a_child_killed_at_work_loses_nothing(embedded, tmp_path):
    """The child that runs the cutting is killed; another run of the cutting ends well."""
    end = tmp_path / "end"
    batch = embedded.submit(act={"cutting": "wait"}, release_file=str(end))
    embedded.start()
    while not (begun := [start for start in embedded.starts() if start[1] == "cutting"]):
        time.sleep(0.01)
    os.kill(int(begun[0][3]), signal.SIGKILL)
    end.touch()
    embedded.wait(batch, lambda status: status.ended)
    embedded.check_nothing_lost_or_doubled(batch)


def test_a_run_that_was_frozen_past_its_lease_changes_nothing(open_stage, tmp_path):
    """SIGSTOP makes a child silent; another run does its job; after SIGCONT the first finds itself fenced."""
    stage = open_stage(lease_seconds=1.0, attempt_cap=10)
    end = tmp_path / "end"
    batch = stage.submit(act={"cutting": "wait"}, release_file=str(end))
    stage.start()
    while not (begun := [start for start in stage.starts() if start[1] == "cutting"]):
        time.sleep(0.01)
    frozen = int(begun[0][3])
    os.kill(frozen, signal.SIGSTOP)
    job = next(job.id for job in stage.status(batch).jobs if job.kind == "cutting")
    stage.wait(batch, lambda status: _find(status, job).attempt >= 2)
    end.touch()
    stage.wait(batch, lambda status: _find(status, job).state == "completed")
    os.kill(frozen, signal.SIGCONT)
    stage.wait(batch, lambda status: status.ended)
    stage.check_nothing_lost_or_doubled(batch)
    pids = [int(start[3]) for start in stage.starts() if start[1] == "cutting"]
    assert pids[0] == frozen and set(pids[1:]) - {frozen}


def _find(status, job_id: str):
    return next(job for job in status.jobs if job.id == job_id)


def test_canceling_ends_what_waits_and_stops_what_runs(embedded):
    batch = embedded.submit(act={"cutting": "wait"}, release_file="/nonexistent")
    embedded.start()
    embedded.wait(batch, lambda status: status.counts["processing"] >= 1 and status.counts["completed"] >= 3)
    with embedded.database.writing() as session:
        cancel_batch(session, batch, now=utc_now())
    status = embedded.wait(batch, lambda status: status.ended)
    assert status.state == "canceled"
    assert next(job.state for job in status.jobs if job.kind == "cutting") == "canceled"
    assert status.counts["completed"] + status.counts["canceled"] == len(status.jobs)


def test_a_job_that_kills_its_worker_is_given_up_after_three_tries_and_can_be_retried(open_stage, tmp_path):
    """The rest of the batch is made; what waits for the job is stopped, and completed after the retry."""
    stage = open_stage(lease_seconds=0.6, attempt_cap=3)
    mended = tmp_path / "mended"
    batch = stage.submit(act={"cutting": "die", "sewing": "break until mended"}, release_file=str(mended))
    stage.start()
    status = stage.wait(batch, lambda status: status.ended)
    by_kind = {job.kind: job for job in status.jobs}
    assert (by_kind["cutting"].state, by_kind["cutting"].state_reasons) == ("aborted", ["worker-lost"])
    assert (by_kind["sewing"].state, by_kind["sewing"].state_reasons) == ("aborted", ["aborted-by-system"])
    assert "the needle broke" in by_kind["sewing"].message
    assert Counter(start[1] for start in stage.starts())["cutting"] == 3
    assert status.state == "aborted"
    assert {job.kind for job in status.jobs if job.state == "stopped"} == {"handout", "bundle", "run sheet"}
    mended.touch()
    with stage.database.writing() as session:
        retry_job(session, by_kind["sewing"].id, now=utc_now())
    status = stage.wait(batch, lambda status: status.ended)
    assert {job.kind: job.state for job in status.jobs}["sewing"] == "completed"
    assert {job.kind for job in status.jobs if job.state == "stopped"} == {"handout", "bundle", "run sheet"}
