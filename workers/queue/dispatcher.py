"""Sends pending jobs to the workers and takes back those of lost ones.

A thread of the embedded worker; in the shared form a process, `python -m workers.queue.dispatcher`.
Several at the same time do no harm.
"""

from __future__ import annotations

import logging
import signal
import threading
from contextlib import AbstractContextManager, nullcontext
from datetime import datetime, timedelta

from service.jobs.dispatch import CeleryDispatch, Dispatch
from service.settings import Settings
from service.storage.migrate import migrate
from service.storage.picks import note_beat, pick, unpick
from service.storage.recovery import sweep
from service.storage.session import Database
from service.storage.times import Clock, utc_now

WINDOW_PER_CHILD = 4
SWEEP_EVERY = timedelta(seconds=1)
BEAT_EVERY = timedelta(seconds=5)
BUSY_PAUSE_SECONDS = 0.05
IDLE_PAUSE_SECONDS = 0.1
TROUBLE_PAUSE_SECONDS = 1.0
BEAT_NAME = "dispatcher"

log = logging.getLogger(__name__)


class Dispatcher:
    """The loop. `gate` is held during each round: the embedded worker forks only between rounds."""

    def __init__(
        self,
        database: Database,
        dispatch: Dispatch,
        settings: Settings,
        *,
        clock: Clock = utc_now,
        gate: AbstractContextManager[object] | None = None,
    ) -> None:
        self._database = database
        self._dispatch = dispatch
        self._window = WINDOW_PER_CHILD * settings.worker_children
        self._patience = timedelta(seconds=settings.lease_seconds)
        self._cap = settings.attempt_cap
        self._clock = clock
        self._gate = gate or nullcontext()
        self._next_sweep: datetime | None = None
        self._next_beat: datetime | None = None

    def run(self, stop: threading.Event) -> None:
        """Work until `stop` is set; trouble with the database or the broker is waited out."""
        pause = 0.0
        while not stop.wait(pause):
            try:
                with self._gate:
                    sent = self.go_round()
                pause = BUSY_PAUSE_SECONDS if sent else IDLE_PAUSE_SECONDS
            except Exception:
                log.warning("the dispatcher is waiting for the database or the broker", exc_info=True)
                pause = TROUBLE_PAUSE_SECONDS

    def go_round(self) -> int:
        """Take back lost jobs when that is due, then send what there is room for. How many were sent."""
        now = self._clock()
        if self._next_sweep is None or now >= self._next_sweep:
            taken = sweep(self._database, now=now, cap=self._cap)
            if taken:
                log.warning("%d jobs of silent workers were taken back", taken)
            self._next_sweep = now + SWEEP_EVERY
        if self._next_beat is None or now >= self._next_beat:
            note_beat(self._database, BEAT_NAME, now)
            self._next_beat = now + BEAT_EVERY
        return self._send(pick(self._database, now=now, window=self._window, patience=self._patience))

    def _send(self, job_ids: list[str]) -> int:
        for number, job_id in enumerate(job_ids):
            try:
                self._dispatch.send(job_id)
            except Exception:
                unpick(self._database, job_ids[number:])
                raise
        return len(job_ids)


def main() -> None:
    """Run the dispatcher as a process of its own until it is asked to end."""
    from workers.queue.celery_app import app, settings

    logging.basicConfig(level=settings.log_level, format="%(asctime)s %(levelname)s %(name)s: %(message)s")
    stop = threading.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, lambda *_: stop.set())
    database = Database(settings.database_url)
    migrate(database)
    log.info("dispatching to %d children a worker", settings.worker_children)
    Dispatcher(database, CeleryDispatch(app), settings).run(stop)


if __name__ == "__main__":
    main()
