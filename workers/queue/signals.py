"""What a worker does when it starts and ends."""

from __future__ import annotations

import fcntl
import logging
import os
import threading
import time
from pathlib import Path
from typing import Any

from celery.signals import worker_init, worker_process_init, worker_ready, worker_shutting_down

from service.jobs.dispatch import CeleryDispatch
from service.processes import end_when_orphaned
from service.storage.migrate import migrate
from service.storage.recovery import reset
from workers.queue.celery_app import app, settings
from workers.queue.context import Context
from workers.queue.dispatcher import Dispatcher
from workers.queue.tasks import context

LOCK_NAME = "worker.lock"
LOCK_PATIENCE_SECONDS = 20.0

log = logging.getLogger(__name__)
_stop = threading.Event()
_between_rounds = threading.Lock()


@worker_init.connect  # type: ignore[untyped-decorator]
def prepare(**_: Any) -> None:
    """Bring the tables up to date; embedded, take the folder and set going what an earlier worker left."""
    here = context()
    migrate(here.database)
    if settings.embedded:
        hold_folder(settings.data)
        start_over(here)
        _guard_forks(here)
    here.database.close_idle()


@worker_ready.connect  # type: ignore[untyped-decorator]
def begin(**_: Any) -> None:
    """Embedded, start dispatching from a thread: the broker is this process's own memory."""
    if settings.embedded:
        dispatcher = Dispatcher(context().database, CeleryDispatch(app), settings, gate=_between_rounds)
        threading.Thread(target=dispatcher.run, args=(_stop,), name="dispatcher", daemon=True).start()


@worker_process_init.connect  # type: ignore[untyped-decorator]
def begin_child(**_: Any) -> None:
    """A child of a killed worker must not live on and hold the folder."""
    end_when_orphaned()


@worker_shutting_down.connect  # type: ignore[untyped-decorator]
def end(**_: Any) -> None:
    """Send nothing more; running jobs are finished."""
    _stop.set()


def start_over(here: Context) -> None:
    """Every earlier worker of this folder is dead: take back its jobs and clear away half-written files."""
    lost = reset(here.database, now=here.clock(), cap=settings.attempt_cap)
    parts = here.store.clear_parts()
    log.info("taken back from an earlier worker: %d jobs, %d half-written files", lost, parts)


def hold_folder(data: Path, *, patience_seconds: float = LOCK_PATIENCE_SECONDS) -> int:
    """Take the data folder for this worker and its children; the operating system gives it back.

    Two embedded workers on one folder would take each other's jobs back as lost. Ends the worker when
    the folder stays taken.
    """
    data.mkdir(parents=True, exist_ok=True)
    handle = os.open(data / LOCK_NAME, os.O_RDWR | os.O_CREAT, 0o600)
    deadline = time.monotonic() + patience_seconds
    while True:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return handle
        except BlockingIOError:
            if time.monotonic() >= deadline:
                os.close(handle)
                raise SystemExit(f"another worker is at work in {data}; end it first") from None
            time.sleep(0.1)


def _guard_forks(here: Context) -> None:
    """No database connection may be open, let alone in use by the dispatcher, when a child is forked."""

    def before() -> None:
        _between_rounds.acquire()
        here.database.close_idle()

    os.register_at_fork(
        before=before, after_in_parent=_between_rounds.release, after_in_child=_between_rounds.release
    )
