"""Following a batch: one moving line on a terminal, plain sentences for what matters."""

from __future__ import annotations

import shutil
import sys
import time
from typing import Any

import click
import httpx

from service.cli.client import Client
from service.storage.batch_state import OPEN

PAUSE_SECONDS = 0.3
BAR = 24


class NotAllMade(click.ClickException):
    """A batch has ended, and something in it was not made."""

    exit_code = 4


def follow(client: Client, batch_id: str, *, quiet: bool = False) -> dict[str, Any]:
    """Wait until a batch has ended; its last state. Says how far it is, and at once what fails."""
    told: dict[str, str] = {}
    line = ""
    while True:
        answer: httpx.Response = client.call("GET", f"/batches/{batch_id}")
        batch: dict[str, Any] = answer.json()
        _tell_failures(batch, told)
        if not quiet:
            line = _show_line(batch, line)
        if batch["state"] not in OPEN:
            if line and sys.stderr.isatty():
                click.echo(err=True)
            return batch
        time.sleep(PAUSE_SECONDS)


def check_all_made(batch: dict[str, Any]) -> None:
    """`NotAllMade`, with each job that failed, unless the batch is completed."""
    if batch["state"] == "completed":
        return
    if batch["state"] == "canceled":
        raise NotAllMade("The batch was canceled.")
    failed = [job for job in batch["jobs"] if job["state"] == "aborted"]
    lines = [f"  batchbee retry {job['id']}" for job in failed]
    raise NotAllMade("\n".join(["Not everything was made. Once it is mended, try again with:", *lines]))


def format_progress(batch: dict[str, Any]) -> str:
    """How far a batch is, in one line.

    >>> format_progress({"state": "processing", "fraction_done": 0.5, "counts": {"completed": 3},
    ...   "jobs": [{"kind": "handout", "track": "by hand", "state": "processing"}] + [{"state": "completed"}] * 5})
    '[############            ] 3 of 6 made; now the handout for "by hand"'
    """
    done = round(BAR * batch["fraction_done"])
    made = f"{batch['counts'].get('completed', 0)} of {len(batch['jobs'])} made"
    now = [name_job(job) for job in batch["jobs"] if job["state"] == "processing"]
    doing = f"; now {' and '.join(now)}" if now else "" if batch["state"] in OPEN else f"; {batch['state']}"
    return f"[{'#' * done}{' ' * (BAR - done)}] {made}{doing}"


def name_job(job: dict[str, Any]) -> str:
    """A job in words."""
    return f"the {job['kind']}" + (f' for "{job["track"]}"' if job.get("track") else "")


def format_failure(job: dict[str, Any]) -> str:
    """Why a job failed, where, and what would be right.

    >>> format_failure({"kind": "cutting", "message": "The cloth is too narrow.", "problem": {
    ...   "pointer": "/fabrics/soil", "right": "cloth 42 in wide"}})
    'The cutting failed: The cloth is too narrow (/fabrics/soil). Right would be: cloth 42 in wide.'
    """
    problem = job["problem"] or {}
    where = f" ({problem['pointer']})" if problem.get("pointer") else ""
    right = f" Right would be: {problem['right'].rstrip('.')}." if problem.get("right") else ""
    name = name_job(job)
    return f"{name[0].upper()}{name[1:]} failed: {job['message'].rstrip('.')}{where}.{right}"


def _tell_failures(batch: dict[str, Any], told: dict[str, str]) -> None:
    for job in batch["jobs"]:
        if job["state"] == "aborted" and told.get(job["id"]) != job["message"]:
            told[job["id"]] = job["message"]
            _clear()
            click.echo(format_failure(job), err=True)


def _show_line(batch: dict[str, Any], before: str) -> str:
    """Show how far the batch is: always on a terminal, in a log when something more was made."""
    line = format_progress(batch)
    if sys.stderr.isatty():
        width = shutil.get_terminal_size().columns - 1
        click.echo(f"\r\033[K{line[:width]}", nl=False, err=True)
        return line
    made = line.partition(";")[0].partition("] ")[2]
    if made != before:
        click.echo(line, err=True)
    return made


def _clear() -> None:
    if sys.stderr.isatty():
        click.echo("\r\033[K", nl=False, err=True)
