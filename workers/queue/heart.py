"""Keeps a run's lease while it computes, and stops the computing when the job is no longer its own."""

from __future__ import annotations

import ctypes
import logging
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import TracebackType

from service.storage.batches import Pulse

LONGEST_PAUSE_SECONDS = 2.0
"""Progress is written at least this often, however long the lease."""

Beat = Callable[[float, str], Pulse]
"""Writes the lease and the progress, and answers what the run is to do."""

log = logging.getLogger(__name__)


class StopRun(BaseException):
    """Raised inside a recipe when its job was canceled or went to another run.

    Not an `Exception`, so that a recipe that catches those does not swallow it.
    """


class Heart:
    """A thread that beats while the `with` block lasts. `verdict` is the last answer it got."""

    def __init__(self, beat: Beat, lease_seconds: float) -> None:
        self.verdict = Pulse.GO_ON
        self._beat = beat
        self._pause = min(lease_seconds / 4, LONGEST_PAUSE_SECONDS)
        self._progress = (0.0, "")
        self._over = threading.Event()
        self._lock = threading.Lock()
        self._computing: int | None = None
        self._thread = threading.Thread(target=self._run, name="heart", daemon=True)

    def __enter__(self) -> Heart:
        self._thread.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._over.set()
        self._thread.join()

    def note(self, fraction: float, message: str) -> None:
        """Progress, as recipes tell it; it is written with the next beat."""
        if self.verdict is not Pulse.GO_ON:
            raise StopRun
        self._progress = (min(max(fraction, 0.0), 1.0), message)

    @contextmanager
    def computing(self) -> Iterator[None]:
        """The stretch in which the calling thread may be stopped; what follows it is left alone.

        A `StopRun` that falls on the very end is met at the caller's next step. It is not taken back:
        CPython 3.11 would then look for it at every further step, and never leave one that is traced.
        """
        with self._lock:
            if self.verdict is not Pulse.GO_ON:
                raise StopRun
            self._computing = threading.get_ident()
        try:
            yield
        finally:
            with self._lock:
                self._computing = None

    def _run(self) -> None:
        while not self._over.wait(self._pause):
            try:
                self.verdict = self._beat(*self._progress)
            except Exception:
                # The lease outlasts a few lost beats; if it does not, the job goes to another run.
                log.warning("a heartbeat could not be written", exc_info=True)
            if self.verdict is not Pulse.GO_ON:
                self._stop()
                return

    def _stop(self) -> None:
        with self._lock:
            if self._computing is not None:
                _raise_in(self._computing, StopRun)


def _raise_in(thread_id: int, error: type[BaseException]) -> None:
    """Raise `error` in a thread at its next step."""
    ctypes.pythonapi.PyThreadState_SetAsyncExc(ctypes.c_ulong(thread_id), ctypes.py_object(error))
