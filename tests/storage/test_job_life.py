"""Whatever workers and people do in whatever order, the batch stays in order and can be finished."""

import tempfile
from collections import Counter
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from service.settings import Settings
from service.storage.batch_state import OPEN
from service.storage.batches import Fenced
from service.storage.migrate import migrate
from service.storage.recovery import NotFailed, cancel, reset, retry, sweep
from service.storage.session import Database
from tests.conftest import StillClock
from tests.storage.conftest import KINDS, SmallBatch

KIND = st.sampled_from(sorted(KINDS))
OWNER = st.sampled_from(["a", "b"])
NUMBER = st.integers(0, 11)
ENDS = st.sampled_from(["complete", "complete", "complete", "refuse", "fail", "give_up"])
MEMORY = "/dev/shm"
BLOCKED = {"aborted", "canceled", "stopped"}


class JobLife(RuleBasedStateMachine):
    """Two workers, a sweep, and somebody who cancels and retries."""

    def __init__(self):
        super().__init__()
        # Many hundred transactions, each synced to the disk: in memory, where there is such a folder.
        self.folder = tempfile.TemporaryDirectory(dir=MEMORY if Path(MEMORY).is_dir() else None)
        self.database = Database(Settings.for_folder(Path(self.folder.name)).database_url)
        migrate(self.database)
        self.clock = StillClock()
        self.batch = SmallBatch(self.database, self.clock)

    def teardown(self):
        try:
            self.finish_everything()
        finally:
            self.database.close_idle()
            self.folder.cleanup()

    def among(self, state, number):
        """One of the jobs in a state; any job when there is none, which is to change nothing."""
        states = self.batch.states()
        kinds = [kind for kind in KINDS if states[kind] == state] or list(KINDS)
        return kinds[number % len(kinds)]

    @rule(number=NUMBER, owner=OWNER)
    def claim(self, number, owner):
        kind = self.among("pending", number)
        before = self.batch.job(kind)
        claimed = self.batch.claim(kind, owner)
        assert claimed is None or before.state == "pending" or before.lease_until < self.clock()

    @rule(kind=KIND, owner=OWNER)
    def claim_whatever_its_state(self, kind, owner):
        before = self.batch.job(kind)
        claimed = self.batch.claim(kind, owner)
        assert claimed is None or before.state == "pending" or before.lease_until < self.clock()

    @rule(number=NUMBER, mine=st.sampled_from([True, True, False]), act=ENDS)
    def end(self, number, mine, act):
        kind = self.among("processing", number)
        before = self.batch.job(kind)
        owner = before.owner if mine and before.owner else "somebody else"
        try:
            getattr(self.batch, act)(kind, owner)
        except Fenced:
            canceled = before.cancel_requested or act != "give_up"
            assert before.owner != owner or before.state != "processing" or not canceled
            assert self.batch.job(kind).state == before.state
        else:
            assert before.owner == owner

    @rule(number=NUMBER, owner=OWNER, act=ENDS)
    def work(self, number, owner, act):
        """Claim and end in one go, as nearly every run does."""
        kind = self.among("pending", number)
        if self.batch.claim(kind, owner) and act != "give_up":
            getattr(self.batch, act)(kind, owner)

    @rule(kind=KIND, owner=OWNER)
    def beat(self, kind, owner):
        self.batch.beat(kind, owner)

    @rule(seconds=st.sampled_from([1, 4, 31]))
    def wait(self, seconds):
        self.clock.move(seconds)

    @rule(what=st.sampled_from(["sweep", "sweep", "restart", "cancel"]))
    def disturb(self, what):
        if what == "sweep":
            sweep(self.database, now=self.clock(), cap=3)
        elif what == "restart":
            reset(self.database, now=self.clock(), cap=3)
        else:
            with self.database.writing() as session:
                cancel(session, self.batch.id, now=self.clock())

    @rule(number=NUMBER)
    def retry(self, number):
        kind = self.among("aborted", number)
        before = self.batch.job(kind).state
        try:
            with self.database.writing() as session:
                retry(session, self.batch.jobs[kind], now=self.clock())
        except NotFailed:
            assert before != "aborted"
        else:
            assert before == "aborted"

    @invariant()
    def the_batch_is_in_order(self):
        jobs = {kind: self.batch.job(kind) for kind in KINDS}
        files = Counter(artifact.job_id for artifact in self.batch.artifacts())
        for kind, job in jobs.items():
            parents = [jobs[parent].state for parent in KINDS[kind]]
            assert files[job.id] == (job.state == "completed")
            assert (job.owner is not None) == (job.lease_until is not None) == (job.state == "processing")
            if job.state == "held":
                assert job.waits_for == sum(state != "completed" for state in parents) > 0
                assert not BLOCKED & set(parents)
            if job.state in ("pending", "processing", "completed", "aborted"):
                assert set(parents) <= {"completed"}
            if job.state == "stopped":
                assert BLOCKED & set(parents)
        states = {job.state for job in jobs.values()}
        assert "held" not in states or states & {"pending", "processing"}
        numbers = [event.seq for event in self.batch.events()]
        assert numbers == list(range(1, len(numbers) + 1))
        told = Counter(
            e.job_id for e in self.batch.events() if e.data.get("state") == "completed" and e.job_id
        )
        assert set(told.values()) <= {1}

    def finish_everything(self):
        """From any point, ordinary work alone ends the batch."""
        reset(self.database, now=self.clock(), cap=100)
        self.clock.move(100)
        for _ in KINDS:
            for kind in KINDS:
                if self.batch.claim(kind, "last"):
                    self.batch.complete(kind, "last")
        assert not set(OPEN) & set(self.batch.states().values())


TestJobLife = JobLife.TestCase
TestJobLife.settings = settings(
    max_examples=25,
    stateful_step_count=30,
    deadline=None,
    derandomize=True,
    # A story of thirty steps with a file to sync at each takes too long to be made shorter.
    phases=(Phase.explicit, Phase.generate),
    suppress_health_check=list(HealthCheck),
)
