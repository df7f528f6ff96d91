"""A batch's state, counts, fraction and files, as they are told to those who wait."""

from datetime import timedelta
from itertools import product

import pytest
from sqlalchemy import select

from service.jobs.cancel import cancel_batch
from service.jobs.retry import retry_job
from service.jobs.status import (
    queue_seconds,
    read_batch,
    read_batch_state,
    read_events,
    read_job,
    read_project_artifacts,
    run_seconds,
)
from service.jobs.submit import submit_batch
from service.storage import batches
from service.storage.batch_state import derive_batch_state
from service.storage.models import Job, Project
from service.storage.recovery import NotFailed, NotFound

LEASE = timedelta(seconds=30)


@pytest.fixture
def project(database, add_project, document):
    return add_project(database, document)


@pytest.fixture
def submitted(database, project, read, clock):
    with database.writing() as session:
        return submit_batch(session, [project], read=read, now=clock()).id


def job_of(database, batch, kind, track=None):
    with database.reading() as session:
        query = select(Job.id).where(Job.batch_id == batch, Job.kind == kind)
        return session.scalars(query.where(Job.track == track) if track else query).first()


def claim(database, job, clock):
    with database.writing() as session:
        assert batches.claim(session, job, owner="a", now=clock(), lease=LEASE, cap=3)


def complete(database, job, clock, name="file.json", sha="0"):
    with database.writing() as session:
        file = batches.StoredFile(name, "x", "text/plain", sha * 64, 1, True)
        batches.complete(session, job, owner="a", files=[file], input_key="k", now=clock())


def status(database, batch):
    with database.reading() as session:
        return read_batch(session, batch)


def test_a_fresh_batch_is_pending_with_every_state_counted(database, submitted):
    found = status(database, submitted)
    assert found.state == "pending" and not found.ended and found.fraction_done == 0
    assert found.counts == {
        "pending": 6, "held": 5, "processing": 0, "stopped": 0, "canceled": 0, "aborted": 0, "completed": 0,
    }  # fmt: skip
    assert [job.kind for job in found.jobs[:3]] == ["cutting", "sewing", "colourways"]


def test_the_fraction_counts_running_jobs_in_part(database, submitted, clock):
    job = job_of(database, submitted, "cutting")
    claim(database, job, clock)
    with database.writing() as session:
        batches.heartbeat(session, job, owner="a", now=clock(), lease=LEASE, fraction=0.5, message="")
    assert status(database, submitted).fraction_done == pytest.approx(0.5 / 11, abs=1e-4)
    complete(database, job, clock)
    assert status(database, submitted).fraction_done == pytest.approx(1 / 11, abs=1e-4)
    with database.reading() as session:
        assert read_batch_state(session, submitted) == "processing"


def test_time_in_the_queue_and_time_running_are_kept_apart(database, submitted, clock):
    job = job_of(database, submitted, "cutting")
    clock.move(4)
    claim(database, job, clock)
    clock.move(7)
    complete(database, job, clock)
    clock.move(100)
    with database.reading() as session:
        found = read_job(session, job)
        held = read_job(session, job_of(database, submitted, "run sheet"))
    assert (queue_seconds(found, clock()), run_seconds(found, clock())) == (4, 7)
    assert (queue_seconds(held, clock()), run_seconds(held, clock())) == (None, None)


@pytest.mark.parametrize("present", list(product((0, 1), repeat=7)))
def test_every_mixture_of_states_has_one_state(present):
    """Against the rule in words: going on beats failed, failed beats canceled, canceled beats completed."""
    states = ("held", "pending", "processing", "stopped", "canceled", "aborted", "completed")
    counts = dict(zip(states, present, strict=True))
    there = {state for state in states if counts[state]}
    if there and there <= {"held", "pending"}:
        wanted = "pending"
    elif there & {"held", "pending", "processing"}:
        wanted = "processing"
    elif there & {"aborted", "stopped"}:
        wanted = "aborted"
    else:
        wanted = "canceled" if "canceled" in there else "completed"
    assert derive_batch_state(counts) == wanted


def test_canceling_answers_with_the_batch_as_it_then_is(database, submitted, clock):
    with database.writing() as session:
        found = cancel_batch(session, submitted, now=clock())
    assert found.state == "canceled" and found.ended and found.counts["canceled"] == 11


def test_retrying_answers_with_the_job_as_it_then_is(database, submitted, clock):
    job = job_of(database, submitted, "cutting")
    claim(database, job, clock)
    with database.writing() as session:
        batches.refuse(session, job, owner="a", detail="d", pointer="", right="", now=clock())
    with database.writing() as session:
        assert retry_job(session, job, now=clock()).state == "pending"
        with pytest.raises(NotFailed, match="pending"):
            retry_job(session, job, now=clock())


def test_events_are_read_on_from_where_one_was(database, submitted, clock):
    job = job_of(database, submitted, "cutting")
    claim(database, job, clock)
    with database.reading() as session:
        assert [event.type for event in read_events(session, submitted)] == ["submitted", "job"]
        later = read_events(session, submitted, after=1)
        assert [(event.seq, event.job_id, event.data["state"]) for event in later] == [(2, job, "processing")]
        assert read_events(session, submitted, after=2) == []


def test_the_newest_files_of_a_project_are_its_files(database, project, read, clock, submitted):
    """Those of a batch for one kind alone replace that kind's and leave the others."""
    for kind in ("cutting", "sewing"):
        job = job_of(database, submitted, kind)
        claim(database, job, clock), complete(database, job, clock, f"{kind}.json")
    clock.move(60)
    with database.writing() as session:
        second = submit_batch(session, [project], read=read, now=clock(), kinds={"sewing"}).id
    job = job_of(database, second, "sewing")
    claim(database, job, clock), complete(database, job, clock, "sewing.json", sha="1")
    with database.reading() as session:
        files = read_project_artifacts(session, project)
    assert [(file.name, file.sha256[0]) for file in files] == [("cutting.json", "0"), ("sewing.json", "1")]


def test_files_of_a_track_that_is_gone_are_not_the_projects_any_more(
    database, project, read, clock, submitted
):
    job = job_of(database, submitted, "templates", "by hand")
    claim(database, job, clock), complete(database, job, clock, "templates-by-hand.pdf")
    with database.writing() as session:
        found = session.get_one(Project, project)
        found.document = {**found.document, "tracks": [{"name": "by foot", "has": []}]}
    clock.move(60)
    with database.writing() as session:
        submit_batch(session, [project], read=read, now=clock())
    with database.reading() as session:
        assert read_project_artifacts(session, project) == []


def test_what_is_not_there_is_said(database):
    with database.reading() as session:
        for look in (read_batch, read_job):
            with pytest.raises(NotFound):
                look(session, "nowhere")
        assert read_project_artifacts(session, "nowhere") == []
