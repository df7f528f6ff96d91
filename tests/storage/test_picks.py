"""Which job goes next: the urgent first, projects in turn, the oldest first, and none waits for ever."""

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st

from service.storage.picks import Waiting, looks_stuck, note_beat, order_by_turn, pick, read_beat, unpick
from tests.conftest import StillClock

NOW = StillClock().now
PATIENCE = timedelta(seconds=30)


def job(id_, project="p", priority=5, waited=0.0):
    return Waiting(id_, project, priority, NOW - timedelta(seconds=waited))


def order(*jobs, under_way=None):
    return [job.id for job in order_by_turn(jobs, under_way or {}, NOW)]


def test_the_more_urgent_goes_first_and_then_the_older():
    assert order(job("late", waited=5), job("early", waited=9), job("urgent", priority=0)) == [
        "urgent",
        "early",
        "late",
    ]


def test_projects_take_turns():
    jobs = [job(f"a{n}", "a", waited=9) for n in range(3)] + [job(f"b{n}", "b", waited=1) for n in range(2)]
    assert order(*jobs) == ["a0", "b0", "a1", "b1", "a2"]


def test_what_is_already_under_way_counts_as_a_turn():
    """Otherwise the older project would win each time a single place becomes free."""
    assert order(job("a", "a", waited=9), job("b", "b"), under_way={"a": 2}) == ["b", "a"]


def test_waiting_makes_urgent():
    """A background job that has waited ten minutes goes before a fresh one of usual urgency."""
    assert order(job("usual", "x", 5), job("background", "y", 9, waited=600)) == ["background", "usual"]


@given(
    st.lists(
        st.tuples(st.sampled_from("abc"), st.integers(0, 9), st.integers(0, 2000)),
        max_size=30,
    )
)
def test_every_job_is_in_the_order_once_and_none_before_a_more_urgent_one(rows):
    jobs = [job(str(n), project, priority, waited) for n, (project, priority, waited) in enumerate(rows)]
    turned = order_by_turn(jobs, {}, NOW)
    assert sorted(j.id for j in turned) == sorted(j.id for j in jobs)
    urgency = [max(0, j.priority - int((NOW - j.ready_at).total_seconds()) // 60) for j in turned]
    assert urgency == sorted(urgency)


def do_pick(batch, window=8):
    ids = pick(batch.database, now=batch.clock(), window=window, patience=PATIENCE)
    return [kind for kind, id_ in batch.jobs.items() if id_ in ids]


def test_pending_jobs_are_picked_once_and_held_ones_not(batch):
    assert do_pick(batch) == ["cutting", "sewing"]
    assert do_pick(batch) == []


def test_no_more_are_under_way_than_the_window_holds(batch):
    assert do_pick(batch, window=1) == ["cutting"]
    assert do_pick(batch, window=1) == []
    batch.make("cutting")
    assert do_pick(batch, window=1) == ["sewing"]


def test_a_message_that_led_to_nothing_is_sent_again(batch, clock):
    do_pick(batch)
    clock.move(29)
    assert do_pick(batch) == []
    clock.move(2)
    assert do_pick(batch) == ["cutting", "sewing"]


def test_a_broken_job_is_not_sent_before_its_time(batch, clock):
    batch.claim("cutting")
    batch.fail("cutting")
    assert do_pick(batch) == ["sewing"]
    clock.move(2)
    assert do_pick(batch) == ["cutting"]


def test_what_could_not_be_sent_is_picked_again(batch):
    do_pick(batch)
    unpick(batch.database, [batch.jobs["sewing"]])
    assert do_pick(batch) == ["sewing"]


def test_dispatchers_at_the_same_time_never_pick_the_same_job(batch):
    with ThreadPoolExecutor(8) as threads:
        picked = [kind for kinds in threads.map(do_pick, [batch] * 8) for kind in kinds]
    assert sorted(picked) == ["cutting", "sewing"]


def test_a_beat_is_kept_and_renewed(database, clock):
    for _ in range(2):
        clock.move(5)
        note_beat(database, "dispatcher", clock())
    with database.reading() as session:
        assert read_beat(session, "dispatcher") == clock()
        assert read_beat(session, "nobody") is None


def stuck(batch):
    with batch.database.reading() as session:
        return looks_stuck(session, batch.clock())


def test_a_worker_that_takes_nothing_for_long_looks_stuck(batch, clock):
    do_pick(batch)
    clock.move(14)
    assert not stuck(batch)
    clock.move(2)
    assert stuck(batch)
    batch.claim("cutting")
    assert not stuck(batch)


def test_jobs_that_were_never_sent_do_not_make_the_worker_look_stuck(batch, clock):
    clock.move(1000)
    assert not stuck(batch)
