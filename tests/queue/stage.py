"""A place where real workers do the jobs of slow recipes: starts and kills them, and looks at what is left."""

import os
import signal
import subprocess
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import SimpleNamespace

from sqlalchemy import select

from service.craft.tracks import Track, parse_equipment
from service.jobs.status import BatchStatus, read_batch
from service.jobs.submit import submit_batch
from service.processes import die_with_parent
from service.settings import Settings
from service.storage.files import FileStore
from service.storage.migrate import migrate
from service.storage.models import Artifact, Event, Job, JobEdge, Project
from service.storage.session import Database
from service.storage.times import utc_now, uuid7
from service.supervise import dispatcher_command, worker_command

RECIPES = "tests.queue.slow_recipes:TABLE"
TRACKS = [
    {"name": "hoop and cutter", "has": ["hoop 130x180", "cutter 12x12"]},
    {"name": "by hand", "has": []},
]


def read_view(document: dict) -> SimpleNamespace:
    """What planning needs of a document, without asking whether it can be sewn."""
    tracks = [
        Track(track["name"], tuple(parse_equipment(text) for text in track["has"]))
        for track in document["tracks"]
    ]
    traced = document.get("traced", [])
    return SimpleNamespace(
        tracks=tracks,
        pieces=document["pieces"],
        needs_templates=lambda track: track.cutter is None or track.name in traced,
    )


def tree_of(pid: int) -> list[int]:
    """A process and everything below it, from /proc."""
    parents = {}
    for entry in Path("/proc").glob("[0-9]*/stat"):
        try:
            parents[int(entry.parent.name)] = int(entry.read_text().rpartition(")")[2].split()[1])
        except (OSError, ValueError):
            continue
    tree = [pid]
    for known in tree:
        tree += [child for child, parent in parents.items() if parent == known]
    return tree


def are_gone(pids: list[int], seconds: float = 60) -> bool:
    """Whether none of the processes runs any more, after waiting a while for it."""
    deadline = time.monotonic() + seconds
    while any(_lives(pid) for pid in pids):
        if time.monotonic() > deadline:
            return False
        time.sleep(0.05)
    return True


def _lives(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


@dataclass
class Stage:
    """Settings, database and the processes that were started. Times are real."""

    settings: Settings
    folder: Path
    database: Database = field(init=False)
    running: dict[str, subprocess.Popen] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.settings = replace(self.settings, recipes=RECIPES)
        self.database = Database(self.settings.database_url)
        migrate(self.database)

    @property
    def log(self) -> Path:
        return self.folder / "starts.log"

    def starts(self) -> list[list[str]]:
        """Every start of a recipe: title, kind, track, process, time."""
        return [line.split("|") for line in self.log.read_text().splitlines()] if self.log.exists() else []

    def submit(self, projects: int = 1, **test) -> str:
        """Submit projects that log their starts; the batch's id."""
        now = utc_now()
        ids = []
        with self.database.writing() as session:
            for number in range(projects):
                title = f"Leek Row {number} {uuid7(now)}"
                document = {
                    "title": title,
                    "tracks": TRACKS,
                    "pieces": [{}],
                    "test": {"log": str(self.log), **test},
                }
                project = Project(
                    id=uuid7(now), title=title, document=document, created_at=now, updated_at=now
                )
                session.add(project)
                ids.append(project.id)
            session.flush()
            return submit_batch(session, ids, read=read_view, now=now).id

    def start(self) -> None:
        """Start the worker, and in the shared form the dispatcher, if they do not run."""
        commands = {"worker": worker_command(self.settings)}
        if not self.settings.embedded:
            commands["dispatcher"] = dispatcher_command()
        for name, command in commands.items():
            if name not in self.running or self.running[name].poll() is not None:
                with (self.folder / f"{name}.log").open("ab") as out:
                    self.running[name] = subprocess.Popen(
                        command, env=self.settings.for_children(), stdout=out, stderr=out,
                        preexec_fn=die_with_parent,
                    )  # fmt: skip

    def kill(self, name: str = "worker") -> None:
        """kill -9 of a process and everything below it."""
        process = self.running.pop(name)
        for pid in tree_of(process.pid):
            try:
                os.kill(pid, signal.SIGKILL)
            except ProcessLookupError:
                continue
        process.wait(10)

    def close(self) -> None:
        for name in list(self.running):
            self.kill(name)
        self.database.close_idle()

    def status(self, batch_id: str) -> BatchStatus:
        with self.database.reading() as session:
            return read_batch(session, batch_id)

    def wait(self, batch_id: str, until: Callable[[BatchStatus], bool], seconds: float = 60) -> BatchStatus:
        """Look until it is so; fails with what the processes said."""
        deadline = time.monotonic() + seconds
        while not until(status := self.status(batch_id)):
            assert time.monotonic() < deadline, f"{status.counts}\n{self.words()}"
            time.sleep(0.03)
        return status

    def words(self) -> str:
        """The last lines of every process's log."""
        logs = sorted(self.folder.glob("*er.log"))
        return "\n".join(f"--- {log.name}\n{log.read_text()[-3000:]}" for log in logs)

    def check_nothing_lost_or_doubled(self, batch_id: str) -> None:
        """Every job completed once, in order, with its own file, whose bytes are in the store."""
        with self.database.reading() as session:
            jobs = {job.id: job for job in session.scalars(select(Job).where(Job.batch_id == batch_id))}
            assert Counter(job.state for job in jobs.values()) == {"completed": len(jobs)}
            events = session.scalars(
                select(Event).where(Event.batch_id == batch_id).order_by(Event.seq)
            ).all()
            completions = Counter(
                e.job_id for e in events if e.type == "job" and e.data["state"] == "completed"
            )
            assert completions == dict.fromkeys(jobs, 1)
            assert [event.seq for event in events] == list(range(1, len(events) + 1))
            artifacts = session.scalars(select(Artifact).where(Artifact.job_id.in_(jobs))).all()
            assert Counter(artifact.job_id for artifact in artifacts) == dict.fromkeys(jobs, 1)
            edges = session.scalars(select(JobEdge).where(JobEdge.parent_id.in_(jobs))).all()
            assert len(edges) > len(jobs) / 2
            for edge in edges:
                assert jobs[edge.child_id].started_at >= jobs[edge.parent_id].finished_at
        self._check_bytes(jobs, artifacts, edges)

    def _check_bytes(self, jobs: dict, artifacts: Sequence[Artifact], edges: Sequence[JobEdge]) -> None:
        store, names = FileStore(self.settings.data), {a.job_id: a.name for a in artifacts}
        assert len({artifact.sha256 for artifact in artifacts}) == len(jobs)
        for artifact in artifacts:
            job = jobs[artifact.job_id]
            inputs = sorted(names[edge.parent_id] for edge in edges if edge.child_id == job.id)
            lines = store.read(artifact.sha256).decode().splitlines()
            assert lines[0].split("|")[1:] == [job.kind, job.track or ""]
            assert lines[1] == " ".join(inputs)
