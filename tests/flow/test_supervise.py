"""One command runs the service: it says what it does, restarts what ends, and leaves nothing behind."""

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from urllib.request import urlopen

import pytest

from service.settings import Settings
from service.storage.picks import pick
from service.storage.times import utc_now
from service.supervise import Supervisor
from tests.queue.stage import Stage, are_gone, tree_of
from tests.servers import free_port
from workers.queue.signals import hold_folder

pytestmark = [pytest.mark.slow, pytest.mark.timeout(90)]


class Service:
    """The supervisor as a process, and what it said."""

    def __init__(self, settings: Settings, words: Path, *arguments: str) -> None:
        self.words = words
        with words.open("wb") as out:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "tests.queue.supervised", *arguments],
                env=settings.for_children(), stdout=out, stderr=out,
            )  # fmt: skip

    def wait_for(self, text: str, seconds: float = 40) -> None:
        deadline = time.monotonic() + seconds
        while text not in self.words.read_text():
            assert time.monotonic() < deadline, self.words.read_text()
            time.sleep(0.05)

    def children(self) -> dict[str, int]:
        """The supervisor's own children: celery and http.server."""
        found = {}
        for pid in tree_of(self.process.pid)[1:]:
            if Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[1] == str(self.process.pid):
                command = Path(f"/proc/{pid}/cmdline").read_text()
                found["worker" if "celery" in command else "web side"] = pid
        return found


@pytest.fixture
def stage(settings: Settings, tmp_path: Path) -> Iterator[Stage]:
    stage = Stage(replace(settings, port=free_port()), tmp_path)
    yield stage
    stage.close()


@pytest.fixture
def serve(stage: Stage, tmp_path: Path) -> Iterator[Callable[..., Service]]:
    services = []

    def start(*arguments: str) -> Service:
        services.append(Service(stage.settings, tmp_path / "words.txt", *arguments))
        return services[-1]

    yield start
    for service in services:
        for pid in tree_of(service.process.pid):
            try:
                os.kill(pid, signal.SIGKILL)
            except ProcessLookupError:
                continue
        service.process.wait(10)


def test_it_serves_restarts_a_killed_worker_and_ends_cleanly(stage, serve):
    """Jobs are made before and after the kill; a SIGTERM ends every process with code 0."""
    service = serve()
    service.wait_for("READY")
    assert f"Ready at http://127.0.0.1:{stage.settings.port}/" in service.words.read_text()
    stage.wait(stage.submit(), lambda status: status.state == "completed")
    os.kill(service.children()["worker"], signal.SIGKILL)
    service.wait_for("The worker ended with code -9; it is started again in 1 s.")
    stage.wait(stage.submit(), lambda status: status.state == "completed")
    everything = tree_of(service.process.pid)
    service.process.terminate()
    assert service.process.wait(30) == 0
    assert are_gone(everything)
    assert service.words.read_text().rstrip().endswith("Ended.")


def test_a_pool_left_without_its_children_is_noticed_and_restarted(stage, serve):
    """Killed while they wait for work, they take the pool's lock with them: no child started later gets a job."""
    service = serve()
    service.wait_for("READY")
    for child in tree_of(service.children()["worker"])[1:]:
        os.kill(child, signal.SIGKILL)
    status = stage.wait(stage.submit(), lambda status: status.ended)
    assert status.state == "completed"


def test_the_real_web_side_answers_and_there_is_a_makers_key(stage, serve):
    """Only its owner may read the key's file."""
    service = serve("real")
    service.wait_for("READY")
    with urlopen(f"http://127.0.0.1:{stage.settings.port}/healthz", timeout=10) as answer:
        assert answer.status == 200
    key = stage.settings.data / "maker.token"
    assert key.stat().st_mode & 0o777 == 0o600 and key.read_text().strip()
    service.process.terminate()
    assert service.process.wait(30) == 0


def test_nothing_outlives_a_killed_supervisor(serve):
    service = serve()
    service.wait_for("READY")
    everything = tree_of(service.process.pid)
    assert len(everything) >= 5
    service.process.kill()
    service.process.wait(10)
    assert are_gone(everything)


def test_a_part_that_does_not_start_is_given_up_with_its_name(serve):
    service = serve("failing")
    assert service.process.wait(40) == 1
    assert "The web side does not start; its own words stand above." in service.words.read_text()
    assert "no bed for leeks" in service.words.read_text()


def test_a_taken_port_is_said_at_once(stage, serve):
    with socket.create_server(("127.0.0.1", stage.settings.port)):
        service = serve()
        assert service.process.wait(20) == 1
    assert f"Port {stage.settings.port} on 127.0.0.1 cannot be used" in service.words.read_text()


def test_a_second_worker_on_the_same_folder_ends_with_a_clear_word(stage, serve):
    """It would take the first one's jobs back as lost."""
    service = serve()
    service.wait_for("READY")
    with pytest.raises(SystemExit, match="another worker is at work in"):
        hold_folder(stage.settings.data, patience_seconds=0.2)


def test_a_worker_that_takes_nothing_is_restarted(stage, monkeypatch):
    """The worker here is a process that only sleeps; the jobs have waited long."""
    said = []
    supervisor = Supervisor(stage.settings, said.append, {"worker": ["sleep", "1000"]})
    part = supervisor._parts[0]
    part.start()
    try:
        stage.submit()
        pick(stage.database, now=utc_now(), window=8, patience=timedelta(seconds=30))
        supervisor._restart_stuck_worker()
        monkeypatch.setattr("service.supervise.utc_now", lambda: utc_now() + timedelta(seconds=100))
        supervisor._restart_stuck_worker()
        assert part.runs and said == []
        part.started_at -= 100
        supervisor._restart_stuck_worker()
        assert part.process.wait(10) == -signal.SIGKILL
        assert said == ["Jobs are waiting and the worker takes none; it is restarted."]
    finally:
        part.signal(signal.SIGKILL)
