"""Tracing in a process of its own: whatever a picture does to it, the web side gets a fault and goes on."""

import subprocess
import threading

import pytest

from service.craft.tracing import CannotTrace, TracedPicture, TracingAsked
from service.studio import tracing
from service.studio.tracing import NothingTraces, TracingBusy, TracingDesk, trace_apart

ASKED = TracingAsked(b"\x89PNG", "leek.png", dpi=300)


def ends(code, out=b"", err=b""):
    """A child that ended so."""
    return lambda command, **how: subprocess.CompletedProcess(command, code, out, err)


def test_a_picture_that_takes_too_long_is_a_fault_of_the_picture():
    """The child is stopped by the clock; what would be right is said."""

    def late(command, **how):
        raise subprocess.TimeoutExpired(command, how["timeout"])

    with pytest.raises(CannotTrace, match="longer than 20 seconds") as refused:
        trace_apart(ASKED, run=late)
    assert refused.value.faults[0].right


@pytest.mark.parametrize("child", [ends(-9), ends(-11), ends(0, b'{"outcome": "memory"}')])
def test_a_child_that_is_killed_or_runs_out_of_memory_is_a_fault_of_the_picture(child):
    """By the kernel, by a crash in a decoder, or by its own limit."""
    with pytest.raises(CannotTrace, match="memory"):
        trace_apart(ASKED, run=child)


def test_a_slip_of_our_own_is_no_fault_of_the_picture():
    """The child's last words are kept for the log."""
    with pytest.raises(RuntimeError, match="ZeroDivisionError"):
        trace_apart(ASKED, run=ends(1, err=b"ZeroDivisionError: division by zero"))


def test_where_nothing_is_installed_that_traces_it_is_said():
    """No entry point of that name."""
    with pytest.raises(NothingTraces):
        trace_apart(ASKED, run=ends(0, b'{"outcome": "nothing"}'))


def test_one_picture_is_traced_at_a_time(monkeypatch):
    """A second one waits its time and is then told to come again."""
    monkeypatch.setattr(tracing, "WAIT_SECONDS", 0.05)
    begun, go_on = threading.Event(), threading.Event()

    def slow(asked: TracingAsked) -> TracedPicture:
        begun.set()
        go_on.wait(10)
        raise CannotTrace([])

    desk = TracingDesk(slow)

    def ask():
        with pytest.raises(CannotTrace):
            desk.trace(ASKED)

    first = threading.Thread(target=ask)
    first.start()
    assert begun.wait(10)
    with pytest.raises(TracingBusy):
        desk.trace(ASKED)
    go_on.set()
    first.join()
    with pytest.raises(CannotTrace):
        desk.trace(ASKED)


def test_the_limits_hold_in_a_real_child(monkeypatch):
    """A child that may hardly have memory ends with a fault, and this process does not."""
    monkeypatch.setattr(tracing, "CHILD", "tests.studio.greedy_child")
    with pytest.raises(CannotTrace, match="memory"):
        trace_apart(ASKED)
