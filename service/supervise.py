"""Runs the whole service from one command: starts its parts, restarts what ends, and ends them together.

Embedded: the web side and one worker. Shared: the web side, a worker and a dispatcher. Parts are started
as commands, so nothing of a worker is imported here.
"""

from __future__ import annotations

import http.client
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from types import FrameType
from typing import TypeVar

from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.orm import Session

from service.processes import die_with_parent
from service.settings import Settings
from service.storage.migrate import migrate
from service.storage.picks import STUCK_AFTER, looks_stuck, read_beat
from service.storage.session import Database
from service.storage.times import utc_now

LOOK_EVERY_SECONDS = 0.2
STUCK_LOOK_EVERY_SECONDS = 5.0
FIRST_PAUSE_SECONDS = 1.0
LONGEST_PAUSE_SECONDS = 30.0
STEADY_AFTER_SECONDS = 60.0
TRIES_TO_START = 3
"""A part that ends this often before all were ready will not get better by itself."""
PATIENCE_SECONDS = 160.0
"""How long running jobs are given to finish at the end: a little over a worker's time limit."""

Say = Callable[[str], None]
T = TypeVar("T")


def web_command(settings: Settings) -> list[str]:
    """The command that serves the API and the pages."""
    gunicorn = [sys.executable, "-m", "gunicorn", "service.app:create_app()"]
    size = ["--worker-class", "gthread", "--workers", "1", "--threads", str(settings.web_threads)]
    log = ["--log-level", settings.log_level.lower(), "--no-control-socket"]
    start = ["--config", "python:service.web_start"]
    return [*gunicorn, *start, *size, "--bind", _address(settings), *log]


def worker_command(settings: Settings) -> list[str]:
    """The command that computes; embedded, it dispatches too."""
    celery = [sys.executable, "-m", "celery", "--quiet", "-A", "workers.queue.celery_app", "worker"]
    pool = ["-Q", "work", "-P", "prefork", "-c", str(settings.worker_children), "-l", settings.log_level]
    return [*celery, *pool, "--without-gossip", "--without-mingle", "--without-heartbeat"]


def dispatcher_command() -> list[str]:
    """The command that sends jobs to workers in the shared form."""
    return [sys.executable, "-m", "workers.queue.dispatcher"]


def commands(settings: Settings) -> dict[str, list[str]]:
    """The parts of the service by name."""
    parts = {"web side": web_command(settings), "worker": worker_command(settings)}
    return parts if settings.embedded else {**parts, "dispatcher": dispatcher_command()}


@dataclass
class Part:
    """One process of the service, and how often it ended."""

    name: str
    command: list[str]
    environ: dict[str, str] = field(repr=False)
    process: subprocess.Popen[bytes] | None = None
    ended: int = 0
    started_at: float = 0.0
    start_at: float = 0.0

    def start(self) -> None:
        """Start it in a process group of its own, so that Ctrl-C reaches the supervisor alone."""
        self.started_at = time.monotonic()
        self.process = subprocess.Popen(  # noqa: S603 -- commands of our own, no shell
            self.command, env=self.environ, process_group=0, preexec_fn=die_with_parent
        )

    def look(self, say: Say) -> None:
        """Note that it ended, and start it again once its pause is over."""
        now = time.monotonic()
        if self.process is not None:
            code = self.process.poll()
            if code is None:
                return
            steady = now - self.started_at > STEADY_AFTER_SECONDS
            self.ended = 1 if steady else self.ended + 1
            pause = min(FIRST_PAUSE_SECONDS * 2 ** (self.ended - 1), LONGEST_PAUSE_SECONDS)
            say(f"The {self.name} ended with code {code}; it is started again in {pause:g} s.")
            self.process, self.start_at = None, now + pause
        if now >= self.start_at:
            self.start()

    def signal(self, number: int) -> None:
        """Send a signal if it runs."""
        if self.process is not None and self.process.poll() is None:
            self.process.send_signal(number)

    @property
    def runs(self) -> bool:
        """Whether the process is there."""
        return self.process is not None and self.process.poll() is None


class CannotServe(Exception):
    """The service cannot be started here: why, and what would help."""


class Supervisor:
    """Keeps the parts of one service going until it is told to end."""

    def __init__(self, settings: Settings, say: Say, parts: dict[str, list[str]] | None = None) -> None:
        self._settings = settings
        self._say = say
        environ = settings.for_children()
        named = commands(settings) if parts is None else parts
        self._parts = [Part(name, command, environ) for name, command in named.items()]
        self._asked_to_end = 0

    def run(self, ready: Callable[[], None] = lambda: None) -> int:
        """Serve until SIGTERM or SIGINT; the exit code. `ready` is called once everything answers."""
        try:
            begun = self._check_place()
        except CannotServe as why:
            self._say(str(why))
            return 1
        before = {number: signal.signal(number, self._end) for number in (signal.SIGTERM, signal.SIGINT)}
        try:
            return self._keep_going(begun, ready)
        finally:
            self._end_parts()
            for number, handler in before.items():
                signal.signal(number, handler)

    def _check_place(self) -> datetime:
        settings = self._settings
        _check_port(settings.host, settings.port)
        try:
            settings.data.mkdir(parents=True, exist_ok=True)
            database = Database(settings.database_url)
            migrate(database)
            database.close_idle()
        except (OSError, SQLAlchemyError) as why:
            raise CannotServe(
                f"The database or the data folder {settings.data} cannot be used: {why}"
            ) from why
        return utc_now()

    def _keep_going(self, begun: datetime, ready: Callable[[], None]) -> int:
        names = ", ".join(f"the {part.name}" for part in self._parts)
        self._say(f"Starting {names}; everything is kept in {self._settings.data}.")
        is_ready, next_stuck_look = False, time.monotonic() + STUCK_LOOK_EVERY_SECONDS
        while not self._asked_to_end:
            for part in self._parts:
                part.look(self._say)
                if not is_ready and part.ended >= TRIES_TO_START:
                    self._say(f"The {part.name} does not start; its own words stand above.")
                    return 1
            if not is_ready and self._answers(begun):
                is_ready = True
                self._say(f"Ready at http://{_address(self._settings)}/ (Ctrl-C ends it).")
                ready()
            if time.monotonic() >= next_stuck_look:
                self._restart_stuck_worker()
                next_stuck_look = time.monotonic() + STUCK_LOOK_EVERY_SECONDS
            time.sleep(LOOK_EVERY_SECONDS)
        return 0

    def _answers(self, begun: datetime) -> bool:
        """Whether the web side answers and jobs are being dispatched."""
        if not all(part.runs for part in self._parts) or not _answers_http(self._settings):
            return False
        beat = self._ask_database(lambda session: read_beat(session, "dispatcher"))
        return beat is not None and beat >= begun

    def _restart_stuck_worker(self) -> None:
        """Jobs that waited from before the worker came up are no sign: it is given its time first."""
        long_up = time.monotonic() - STUCK_AFTER.total_seconds()
        workers = [p for p in self._parts if p.name == "worker" and p.runs and p.started_at < long_up]
        stuck = self._ask_database(lambda session: looks_stuck(session, utc_now())) if workers else None
        if stuck:
            self._say("Jobs are waiting and the worker takes none; it is restarted.")
            for part in workers:
                # a stuck pool would wait for itself to end politely; nothing runs that could be lost
                part.signal(signal.SIGKILL)

    def _ask_database(self, question: Callable[[Session], T]) -> T | None:
        """The answer, or None while the database does not answer; that is said."""
        database = Database(self._settings.database_url)
        try:
            with database.reading() as session:
                return question(session)
        except SQLAlchemyError as why:
            self._say(f"The database does not answer: {why}")
            return None
        finally:
            database.close_idle()

    def _end(self, _number: int, _frame: FrameType | None) -> None:
        self._asked_to_end += 1

    def _end_parts(self) -> None:
        self._say("Ending; running jobs are finished first (a second Ctrl-C does not wait for them).")
        asked, deadline = self._asked_to_end, time.monotonic() + PATIENCE_SECONDS
        for part in self._parts:
            part.signal(signal.SIGTERM)
        while any(part.runs for part in self._parts):
            if self._asked_to_end > max(asked, 1) or time.monotonic() > deadline:
                for part in self._parts:
                    part.signal(signal.SIGKILL)
            time.sleep(LOOK_EVERY_SECONDS / 4)
        self._say("Ended.")


def _address(settings: Settings) -> str:
    host = f"[{settings.host}]" if ":" in settings.host else settings.host
    return f"{host}:{settings.port}"


def _check_port(host: str, port: int) -> None:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as why:
            raise CannotServe(
                f"Port {port} on {host} cannot be used ({why.strerror}); choose another with --port."
            ) from why


def _answers_http(settings: Settings) -> bool:
    """Any answer will do: what matters is that requests are served."""
    host = {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(settings.host, settings.host)  # noqa: S104 -- compared, not bound
    connection = http.client.HTTPConnection(host, settings.port, timeout=2)
    try:
        connection.request("HEAD", "/")
        connection.getresponse()
    except (OSError, http.client.HTTPException):
        return False
    finally:
        connection.close()
    return True
