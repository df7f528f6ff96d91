"""Tracing an uploaded picture at once, in a process of its own, so that no picture takes the web side down."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from collections.abc import Callable
from typing import Any, Protocol

from service.craft.faults import Fault
from service.craft.outlines import from_json
from service.craft.tracing import CannotTrace, TracedPicture, TracingAsked

SECONDS = 20.0
"""For one picture; a person waits for it, and a page needs one."""
WAIT_SECONDS = 25.0
"""How long a picture waits for another before it."""

CHILD = "service.studio.tracing_child"


class TracePicture(Protocol):
    """What traces: the shapes of a picture; `CannotTrace` where it gives none."""

    def __call__(self, asked: TracingAsked, /) -> TracedPicture:
        """The shapes of one picture."""
        ...


class NothingTraces(Exception):
    """Nothing is installed that traces pictures."""


class TracingBusy(Exception):
    """Another picture is being traced; ask again."""


class TracingDesk:
    """Traces one picture after the other: each takes all of a core. Safe between threads."""

    def __init__(self, trace: TracePicture | None = None) -> None:
        self._trace: TracePicture = trace or trace_apart
        self._turn = threading.Lock()

    def trace(self, asked: TracingAsked) -> TracedPicture:
        """The shapes of a picture. `CannotTrace`, `TracingBusy`, `NothingTraces`."""
        if not self._turn.acquire(timeout=WAIT_SECONDS):
            raise TracingBusy
        try:
            return self._trace(asked)
        finally:
            self._turn.release()


def trace_apart(
    asked: TracingAsked, *, seconds: float = SECONDS, run: Callable[..., Any] = subprocess.run
) -> TracedPicture:
    """Trace in a child process with limits of time and memory.

    What it needs beyond them is a fault of the picture. The child is found by `service.studio.tracing_child`,
    which loads the entry point; a fault in its own code is a `RuntimeError` with its last words.
    """
    head = {
        "name": asked.name,
        "dpi": asked.dpi,
        "known_length_mm": asked.known_length_mm,
        "between": asked.between,
        "page": asked.page,
    }
    sent = json.dumps(head).encode() + b"\n" + asked.data
    # One thread for sums: the library would reserve memory for every core.
    command = ["env", "OPENBLAS_NUM_THREADS=1", "OMP_NUM_THREADS=1", sys.executable, "-m", CHILD]
    try:
        ended = run(command, input=sent, capture_output=True, timeout=seconds)
    except subprocess.TimeoutExpired:
        raise _too_much(f"tracing it takes longer than {seconds:.0f} seconds") from None
    if ended.returncode < 0:
        raise _too_much("tracing it takes more time or memory than one picture may have")
    if ended.returncode:
        raise RuntimeError(ended.stderr.decode("utf-8", "replace")[-2000:])
    return _read_answer(json.loads(ended.stdout))


def _read_answer(answer: dict[str, Any]) -> TracedPicture:
    match answer["outcome"]:
        case "traced":
            return TracedPicture(from_json(answer["file"]), answer["overlay"])
        case "faults":
            raise CannotTrace([Fault(**fault) for fault in answer["faults"]])
        case "memory":
            raise _too_much("tracing it takes more memory than one picture may have")
    raise NothingTraces


def _too_much(detail: str) -> CannotTrace:
    right = "plain shapes on plain paper, scanned at 300 dots an inch, or a part of the sheet"
    return CannotTrace([Fault("/file", detail, right)])
