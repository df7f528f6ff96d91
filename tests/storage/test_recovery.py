"""Lost workers, cancel and retry, on both databases."""

import pytest

from service.storage.batches import Fenced, Pulse
from service.storage.recovery import NotFailed, NotFound, cancel, reset, retry, sweep


def do_retry(batch, kind):
    with batch.database.writing() as session:
        ids = retry(session, batch.jobs[kind], now=batch.clock())
    return {kind for kind, id_ in batch.jobs.items() if id_ in ids}


def do_cancel(batch):
    with batch.database.writing() as session:
        return cancel(session, batch.id, now=batch.clock())


def do_sweep(batch):
    return sweep(batch.database, now=batch.clock(), cap=batch.cap)


def test_a_job_within_its_lease_is_left_alone(batch, clock):
    batch.claim("cutting")
    clock.move(29)
    assert do_sweep(batch) == 0
    assert batch.states()["cutting"] == "processing"


def test_a_job_past_its_lease_is_taken_back(batch, clock):
    batch.claim("cutting")
    clock.move(31)
    assert do_sweep(batch) == 1
    job = batch.job("cutting")
    assert (job.state, job.owner, job.state_reasons) == ("pending", None, ["worker-lost"])
    with pytest.raises(Fenced):
        batch.complete("cutting")


def test_a_job_whose_worker_is_lost_too_often_is_given_up(batch, clock):
    for _ in range(3):
        assert batch.claim("cutting")
        clock.move(31)
        assert do_sweep(batch) == 1
    job = batch.job("cutting")
    assert (job.state, job.message) == ("aborted", "The worker was lost 3 times while making this.")
    assert batch.states()["bundle"] == "stopped"


def test_at_a_start_every_job_in_progress_is_taken_back_at_once(batch):
    batch.claim("cutting"), batch.claim("sewing")
    assert reset(batch.database, now=batch.clock(), cap=3) == 2
    assert batch.states()["cutting"] == batch.states()["sewing"] == "pending"
    assert batch.job("cutting").attempt == 1


def test_canceling_ends_what_waits_and_asks_what_runs(batch):
    batch.claim("cutting")
    assert do_cancel(batch) == 4
    assert batch.states() == {
        "cutting": "processing",
        "sewing": "canceled",
        "handout": "canceled",
        "bundle": "canceled",
    }
    assert batch.job("cutting").state_reasons == ["processing-to-stop-point"]
    assert batch.beat("cutting") is Pulse.CANCEL
    batch.give_up("cutting")
    assert batch.states()["cutting"] == "canceled"
    assert (batch.events()[-1].type, batch.events()[-1].data["state"]) == ("batch", "canceled")


def test_a_run_that_ends_before_it_sees_the_cancel_is_completed_and_frees_nothing(batch):
    batch.claim("cutting")
    do_cancel(batch)
    assert batch.complete("cutting") == set()
    assert batch.states()["cutting"] == "completed"


def test_a_canceled_run_that_breaks_or_is_lost_is_not_tried_again(batch, clock):
    batch.claim("cutting"), batch.claim("sewing")
    do_cancel(batch)
    assert batch.fail("cutting") == "canceled"
    clock.move(31)
    assert batch.claim("sewing", "b") is None
    assert do_sweep(batch) == 1
    assert set(batch.states().values()) == {"canceled"}
    assert batch.events()[-1].type == "batch"


def test_canceling_twice_or_after_the_end_changes_nothing(batch):
    batch.make("cutting", "sewing", "handout", "bundle")
    before = len(batch.events())
    assert do_cancel(batch) == 0
    assert len(batch.events()) == before and set(batch.states().values()) == {"completed"}


def test_a_retry_sets_the_job_and_what_it_stopped_going_again(batch):
    batch.make("sewing")
    batch.claim("cutting")
    batch.refuse("cutting")
    assert do_retry(batch, "cutting") == {"cutting", "handout", "bundle"}
    assert batch.states() == {
        "cutting": "pending",
        "sewing": "completed",
        "handout": "held",
        "bundle": "held",
    }
    job = batch.job("cutting")
    assert (job.attempt, job.problem, job.finished_at) == (0, None, None)
    assert (batch.job("handout").waits_for, batch.job("bundle").waits_for) == (1, 1)
    batch.make("cutting", "handout", "bundle")
    assert set(batch.states().values()) == {"completed"}


def test_what_waits_for_two_failed_jobs_goes_on_after_the_second_retry(batch):
    for kind in ("cutting", "sewing"):
        batch.claim(kind)
        batch.refuse(kind)
    assert do_retry(batch, "cutting") == {"cutting"}
    assert batch.states()["handout"] == "stopped"
    batch.make("cutting")
    assert do_retry(batch, "sewing") == {"sewing", "handout", "bundle"}
    batch.make("sewing", "handout", "bundle")


@pytest.mark.parametrize("kind", ["cutting", "sewing", "handout"])
def test_only_a_failed_job_can_be_retried(batch, kind):
    batch.make("cutting")
    batch.claim("sewing")
    with pytest.raises(NotFailed, match=batch.job(kind).state):
        do_retry(batch, kind)


def test_acts_on_what_is_not_there_say_so(batch):
    with batch.database.writing() as session:
        with pytest.raises(NotFound, match="no batch"):
            cancel(session, "nowhere", now=batch.clock())
        with pytest.raises(NotFound, match="no job"):
            retry(session, "nowhere", now=batch.clock())
