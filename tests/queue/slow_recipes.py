"""A recipe that takes its time and can be told to misbehave, for tests of the queue.

The document's `test` field: `log` (a file that gets a line for each start), `ms` (least and most time),
`act` (kind of job -> what it does instead), `release_file` (what `wait` waits for).
"""

import hashlib
import os
import time
from pathlib import Path

from service.jobs.plan import KINDS
from workers.recipe import CannotMake, JobInput, MadeFile

TABLE = dict.fromkeys(KINDS, "tests.queue.slow_recipes:make_slowly")


def name_file(kind: str, track: str | None) -> str:
    return f"{kind}-{track or 'all'}.txt"


def make_slowly(job: JobInput) -> list[MadeFile]:
    test = job.document["test"]
    who = f"{job.document['title']}|{job.kind}|{job.track or ''}"
    if "log" in test:
        _write_line(Path(test["log"]), f"{who}|{os.getpid()}|{time.time():.4f}\n")
    _act(test.get("act", {}).get(job.kind, ""), test)
    _take_time(job, who, *test.get("ms", (0, 0)))
    data = f"{who}\n{' '.join(sorted(job.inputs))}\n".encode() * 40
    return [MadeFile(name_file(job.kind, job.track), "text/plain", data, kind=job.kind)]


def _act(act: str, test: dict) -> None:
    if act == "refuse":
        raise CannotMake("the leek is longer than the bed", pointer="/pieces/0", right="a shorter leek")
    if act == "break":
        raise RuntimeError("the needle broke")
    if act == "break until mended" and not Path(test["release_file"]).exists():
        raise RuntimeError("the needle broke")
    if act == "die":
        os.kill(os.getpid(), 9)
    while act == "wait" and not Path(test["release_file"]).exists():
        time.sleep(0.01)


def _take_time(job: JobInput, who: str, least_ms: int, most_ms: int) -> None:
    share = hashlib.sha256(who.encode()).digest()[0] / 255
    steps = 5
    for step in range(steps):
        job.progress(step / steps, f"step {step + 1} of {steps}")
        time.sleep((least_ms + share * (most_ms - least_ms)) / 1000 / steps)


def _write_line(log: Path, line: str) -> None:
    # One write of few bytes to a file opened for appending is not torn, not even by a kill.
    handle = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    os.write(handle, line.encode())
    os.close(handle)
