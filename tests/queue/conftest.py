"""Contexts whose recipe is the slow one, with a clock that stands still."""

from dataclasses import replace
from pathlib import Path

import pytest

from service.jobs.submit import submit_batch
from service.storage.files import FileStore
from tests.queue.slow_recipes import TABLE
from tests.queue.stage import TRACKS, read_view
from workers.queue.context import Context


@pytest.fixture
def context(database, settings, clock):
    """On both databases; jobs are made in the test's own process."""
    quick = replace(settings, lease_seconds=0.5)
    return Context(
        settings=quick,
        database=database,
        store=FileStore(settings.data),
        recipes=TABLE,
        code="code 1",
        clock=clock,
    )


@pytest.fixture
def submit(database, add_project, clock):
    """Submits a project whose document says what the slow recipe does; the batch's id."""

    def submit(kinds=None, title="Leek Row", **test):
        project = add_project(database, {"title": title, "tracks": TRACKS, "pieces": [{}], "test": test})
        with database.writing() as session:
            return submit_batch(session, [project], read=read_view, now=clock(), kinds=kinds).id

    return submit


@pytest.fixture
def log(tmp_path) -> Path:
    return tmp_path / "starts.log"
