"""One job from claim to completion, in this process, on both databases."""

import threading
import time
from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import func, select

from service.jobs.cancel import cancel_batch
from service.jobs.status import read_batch, read_events, read_job
from service.storage import batches
from service.storage.files import FileStore
from service.storage.models import Artifact, Job
from workers.queue.run_job import Outcome, run_job


def job_id(context, batch, kind):
    with context.database.reading() as session:
        return session.scalars(select(Job.id).where(Job.batch_id == batch, Job.kind == kind)).first()


def run(context, batch, kind):
    return run_job(context, job_id(context, batch, kind))


def look(context, batch, kind):
    with context.database.reading() as session:
        return read_job(session, job_id(context, batch, kind))


def run_everything(context, batch):
    """Every job that can be run, until none is left; the outcomes in order."""
    outcomes = []
    while True:
        with context.database.reading() as session:
            pending = [job.id for job in read_batch(session, batch).jobs if job.state == "pending"]
        if not pending:
            return outcomes
        outcomes += [run_job(context, id_) for id_ in pending]


def test_a_job_is_made_and_its_bytes_are_in_the_store(context, submit):
    batch = submit()
    assert run(context, batch, "cutting") is Outcome.MADE
    with context.database.reading() as session:
        file = session.scalars(select(Artifact)).one()
    assert (file.name, file.media_type, file.public) == ("cutting-all.txt", "text/plain", True)
    data = context.store.read(file.sha256)
    assert data.startswith(b"Leek Row|cutting|") and len(data) == file.size
    job = look(context, batch, "cutting")
    assert (job.state, job.progress_fraction, len(job.input_key)) == ("completed", 1.0, 64)


def test_a_message_that_comes_again_does_nothing(context, submit, log):
    batch = submit(log=str(log))
    outcomes = [run(context, batch, "cutting") for _ in range(3)]
    assert outcomes == [Outcome.MADE, Outcome.NOT_OURS, Outcome.NOT_OURS]
    assert len(log.read_text().splitlines()) == 1


def test_a_message_for_a_held_or_unknown_job_does_nothing(context, submit):
    assert run(context, submit(), "bundle") is Outcome.NOT_OURS
    assert run_job(context, "nowhere") is Outcome.NOT_OURS


def test_a_job_gets_the_files_of_those_it_waited_for_and_no_others(context, submit):
    batch = submit()
    assert set(run_everything(context, batch)) == {Outcome.MADE}
    with context.database.reading() as session:
        made = {file.name: context.store.read(file.sha256) for file in session.scalars(select(Artifact))}
    inputs = made["bundle-by hand.txt"].decode().splitlines()[1]
    assert inputs == "cutting-all.txt handout-by hand.txt sewing-all.txt templates-by hand.txt"
    assert made["templates-by hand.txt"].decode().splitlines()[1] == ""


def test_what_cannot_be_made_is_refused_with_pointer_and_remedy(context, submit):
    batch = submit(act={"cutting": "refuse"})
    assert run(context, batch, "cutting") is Outcome.REFUSED
    job = look(context, batch, "cutting")
    assert (job.state, job.state_reasons, job.attempt) == ("aborted", ["refused"], 1)
    right = {"detail": "the leek is longer than the bed", "pointer": "/pieces/0", "right": "a shorter leek"}
    assert job.problem == right
    assert look(context, batch, "run sheet").state == "stopped"
    assert run(context, batch, "cutting") is Outcome.NOT_OURS


def test_a_run_that_breaks_is_tried_again_and_then_given_up_with_its_last_words(context, submit, clock):
    batch = submit(act={"cutting": "break"})
    for attempt in range(1, 6):
        assert run(context, batch, "cutting") is Outcome.FAILED
        assert look(context, batch, "cutting").attempt == attempt
        clock.move(2 * attempt)
    job = look(context, batch, "cutting")
    assert job.state == "aborted"
    assert job.message == "Failed 5 times; the last time: RuntimeError: the needle broke"
    with context.database.reading() as session:
        traces = [e.data["trace"] for e in read_events(session, batch) if e.type == "fault"]
    assert len(traces) == 5 and all("slow_recipes.py" in trace for trace in traces)


def test_a_kind_without_recipe_fails_by_name(context, submit):
    batch = submit()
    run(replace(context, recipes={}), batch, "cutting")
    assert "no recipe makes 'cutting'" in look(context, batch, "cutting").message


def test_what_was_made_from_the_same_is_taken_and_not_made_again(context, submit, log, clock):
    first = submit(log=str(log))
    run_everything(context, first)
    starts = log.read_text().splitlines()
    clock.move(60)
    second = submit(log=str(log))
    assert set(run_everything(context, second)) == {Outcome.REUSED}
    assert log.read_text().splitlines() == starts
    with context.database.reading() as session:
        files = session.execute(select(Artifact.name, Artifact.sha256)).all()
        job = read_batch(session, second).jobs[0]
    assert len(files) == 22 and len(set(files)) == 11
    assert (job.state, job.state_reasons) == ("completed", ["made-before"])


@pytest.mark.parametrize("change", ["title", "code", "order", "missing"])
def test_what_changed_is_made_anew(context, submit, clock, change):
    """Another document, other code, other order in the document, or a file lost from the disk."""
    run(context, submit(first=1, second=2), "cutting")
    clock.move(60)
    test = {"second": 2, "first": 1} if change == "order" else {"first": 1, "second": 2}
    second = submit(title="Rhubarb" if change == "title" else "Leek Row", **test)
    if change == "code":
        context = replace(context, code="code 2")
    if change == "missing":
        for file in context.store.folder.rglob("*"):
            if file.is_file():
                file.unlink()
    assert run(context, second, "cutting") is Outcome.MADE


def test_a_long_run_keeps_its_lease_and_shows_its_progress(context, submit, tmp_path, clock):
    """The recipe waits until somebody has seen a heartbeat move the lease."""
    end = tmp_path / "end"
    batch = submit(act={"cutting": "wait"}, release_file=str(end))
    outcomes = []
    thread = threading.Thread(target=lambda: outcomes.append(run(context, batch, "cutting")))
    thread.start()
    while (job := look(context, batch, "cutting")).state != "processing":
        time.sleep(0.01)
    before = job.lease_until
    clock.move(5)
    while look(context, batch, "cutting").lease_until == before:
        time.sleep(0.01)
    end.touch()
    thread.join()
    assert outcomes == [Outcome.MADE]


def test_a_cancel_stops_a_run_in_the_middle(context, submit):
    """The recipe would wait for ever."""
    batch = submit(act={"cutting": "wait"}, release_file="/nonexistent")
    outcomes = []
    thread = threading.Thread(target=lambda: outcomes.append(run(context, batch, "cutting")))
    thread.start()
    while look(context, batch, "cutting").state != "processing":
        time.sleep(0.01)
    with context.database.writing() as session:
        cancel_batch(session, batch, now=context.clock())
    thread.join()
    assert outcomes == [Outcome.CANCELED]
    assert look(context, batch, "cutting").state == "canceled"


def test_a_run_that_lost_its_job_is_stopped_and_its_result_dropped(context, submit, clock, tmp_path):
    end = tmp_path / "end"
    batch = submit(act={"cutting": "wait"}, release_file=str(end))
    outcomes = []
    slow_heart = replace(context, settings=replace(context.settings, lease_seconds=3600))
    thread = threading.Thread(target=lambda: outcomes.append(run(slow_heart, batch, "cutting")))
    thread.start()
    while look(context, batch, "cutting").state != "processing":
        time.sleep(0.01)
    id_, taken = job_id(context, batch, "cutting"), None
    while taken is None:
        now = clock.move(3601)
        with context.database.writing() as session:
            taken = batches.claim(session, id_, owner="new", now=now, lease=timedelta(seconds=30), cap=99)
    end.touch()
    thread.join()
    assert outcomes == [Outcome.FENCED]
    with context.database.reading() as session:
        assert session.scalar(select(func.count()).select_from(Artifact)) == 0
    assert look(context, batch, "cutting").owner == "new"


def test_a_full_disk_fails_the_job_and_says_so(context, submit, monkeypatch):
    import errno
    import os

    batch = submit()

    def full(_):
        raise OSError(errno.ENOSPC, "No space left on device")

    (FileStore(context.settings.data).folder).mkdir(parents=True)
    monkeypatch.setattr(os, "fsync", full)
    assert run(context, batch, "cutting") is Outcome.FAILED
    monkeypatch.undo()
    assert "no room in" in look(context, batch, "cutting").message
