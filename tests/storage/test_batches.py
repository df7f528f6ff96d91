"""Each move of a job's state, on both databases; the transitions are those in the module's docstring."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from service.storage.batches import Fenced, Pulse


def test_a_claimed_job_is_processing_under_a_lease(batch, clock):
    moved = batch.claim("cutting")
    job = batch.job("cutting")
    assert (moved.kind, moved.attempt, job.state, job.owner) == ("cutting", 1, "processing", "a")
    assert (job.lease_until - clock()).total_seconds() == 30
    assert job.started_at == clock() and job.state_reasons == ["job-transforming"]


def test_a_job_is_claimed_by_one_alone(batch):
    assert batch.claim("cutting", "a")
    assert batch.claim("cutting", "b") is None
    assert batch.job("cutting").attempt == 1


def test_of_many_claims_at_the_same_moment_one_wins(batch):
    """Sixteen threads with a connection each."""
    with ThreadPoolExecutor(16) as threads:
        won = list(threads.map(lambda number: batch.claim("cutting", str(number)), range(16)))
    assert sum(claim is not None for claim in won) == 1
    assert batch.job("cutting").attempt == 1


def test_of_many_completions_at_the_same_moment_each_counts_once(batch):
    """The job that waited for both becomes pending exactly once, however the two ends fall."""
    batch.claim("cutting"), batch.claim("sewing")
    with ThreadPoolExecutor(2) as threads:
        freed = list(threads.map(batch.complete, ["cutting", "sewing"]))
    assert sorted(map(len, freed)) == [0, 1]
    assert batch.job("handout").state == "pending" and batch.job("handout").waits_for == 0


@pytest.mark.parametrize("kind", ["handout", "bundle"])
def test_a_job_that_waits_cannot_be_claimed(batch, kind):
    assert batch.claim(kind) is None


def test_an_unknown_job_cannot_be_claimed(batch):
    batch.jobs["ghost"] = "0190-no-such-job"
    assert batch.claim("ghost") is None


def test_a_job_is_freed_by_the_last_of_those_it_waits_for(batch):
    batch.claim("cutting"), batch.claim("sewing")
    assert batch.complete("sewing") == set()
    assert batch.states()["handout"] == "held"
    assert batch.complete("cutting") == {"handout"}
    assert batch.states() == {
        "cutting": "completed",
        "sewing": "completed",
        "handout": "pending",
        "bundle": "held",
    }


def test_a_completed_job_has_its_files_and_cannot_be_completed_again(batch):
    batch.make("cutting")
    assert [(a.name, a.kind, a.size) for a in batch.artifacts()] == [("cutting.json", "cutting", 3)]
    with pytest.raises(Fenced):
        batch.complete("cutting")
    assert batch.claim("cutting") is None
    assert len(batch.artifacts()) == 1


def test_a_silent_worker_loses_its_job_to_the_next_and_changes_nothing_more(batch, clock):
    batch.claim("cutting", "old")
    clock.move(31)
    assert batch.claim("cutting", "new").attempt == 2
    assert batch.beat("cutting", "old") is Pulse.FENCED
    for act in (batch.complete, batch.fail, batch.refuse, batch.give_up):
        with pytest.raises(Fenced):
            act("cutting", "old")
    assert batch.job("cutting").owner == "new"
    assert batch.artifacts() == []
    batch.complete("cutting", "new")


def test_a_heartbeat_keeps_the_lease_and_notes_the_progress(batch, clock):
    batch.claim("cutting", "a")
    clock.move(25)
    assert batch.beat("cutting") is Pulse.GO_ON
    clock.move(25)
    assert batch.claim("cutting", "b") is None
    job = batch.job("cutting")
    assert (job.progress_fraction, job.progress_message) == (0.5, "half")


def test_a_refused_job_aborts_with_its_reason_and_stops_what_waits_for_it(batch):
    batch.claim("cutting")
    batch.refuse("cutting")
    job = batch.job("cutting")
    assert (job.state, job.state_reasons, job.message) == ("aborted", ["refused"], "too long")
    assert job.problem == {"detail": "too long", "pointer": "/pieces/0", "right": "shorter"}
    assert batch.states() == {
        "cutting": "aborted",
        "sewing": "pending",
        "handout": "stopped",
        "bundle": "stopped",
    }
    assert batch.job("bundle").state_reasons == ["job-it-waits-for-failed"]
    assert "the cutting failed" in batch.job("bundle").message
    batch.make("sewing")
    assert batch.states()["handout"] == "stopped"


def test_a_broken_run_is_tried_again_later_and_given_up_at_the_cap(batch, clock):
    for attempt in (1, 2):
        assert batch.claim("cutting").attempt == attempt
        assert batch.fail("cutting") == "pending"
        assert batch.claim("cutting") is None
        clock.move(2 * attempt)
    assert batch.claim("cutting").attempt == 3
    assert batch.fail("cutting") == "aborted"
    job = batch.job("cutting")
    assert job.message == "Failed 3 times; the last time: KeyError: 'x'"
    assert job.state_reasons == ["aborted-by-system"] and batch.states()["handout"] == "stopped"
    assert [e.data["trace"] for e in batch.events() if e.type == "fault"] == ["Traceback…"] * 3


def test_events_are_numbered_without_gaps_and_end_with_that_of_the_batch(batch):
    batch.make("cutting", "sewing", "handout", "bundle")
    events = batch.events()
    assert [event.seq for event in events] == list(range(1, len(events) + 1))
    told = [(e.data["kind"], e.data["state"]) for e in events if e.type == "job"]
    assert told[:3] == [("cutting", "processing"), ("cutting", "completed"), ("sewing", "processing")]
    assert told[-1] == ("bundle", "completed")
    assert (events[-1].type, events[-1].data["state"]) == ("batch", "completed")
    assert [event.type for event in events].count("batch") == 1


def test_a_run_cannot_give_up_a_job_that_nobody_canceled(batch):
    """What waits for it would wait for ever."""
    batch.claim("cutting")
    with pytest.raises(Fenced):
        batch.give_up("cutting")
    assert batch.states()["cutting"] == "processing"
