"""The heart beats while a run computes, and stops the computing when it is told to."""

import cProfile
import threading
import time

import pytest

from service.storage.batches import Pulse
from workers.queue.heart import Heart, StopRun


class Listener:
    """Counts beats and answers what it was set to."""

    def __init__(self, answer=Pulse.GO_ON):
        self.answer = answer
        self.beats = []
        self.heard = threading.Event()

    def __call__(self, fraction, message):
        self.beats.append((fraction, message))
        self.heard.set()
        if isinstance(self.answer, Exception):
            raise self.answer
        return self.answer


def wait_for_ever():
    while True:
        time.sleep(0.005)


def test_progress_goes_out_with_the_beats():
    listener = Listener()
    with Heart(listener, 0.04) as heart:
        heart.note(0.25, "cutting strips")
        while (0.25, "cutting strips") not in listener.beats:
            listener.heard.wait()
        heart.note(7, "more than everything")
        while (1.0, "more than everything") not in listener.beats:
            listener.heard.wait()


@pytest.mark.parametrize("answer", [Pulse.CANCEL, Pulse.FENCED])
def test_a_recipe_that_reports_nothing_is_stopped_all_the_same(answer):
    heart = Heart(Listener(answer), 0.04)
    with pytest.raises(StopRun), heart, heart.computing():
        wait_for_ever()
    assert heart.verdict is answer


def test_a_recipe_that_catches_every_exception_is_stopped():
    heart = Heart(Listener(Pulse.CANCEL), 0.04)
    with pytest.raises(StopRun), heart, heart.computing():
        try:
            wait_for_ever()
        except Exception:
            wait_for_ever()


def test_outside_of_computing_nothing_is_interrupted():
    """Storing and finishing are left alone; the database says there whose the job is."""
    listener = Listener(Pulse.FENCED)
    with Heart(listener, 0.04) as heart:
        with heart.computing():
            pass
        listener.heard.wait()
        time.sleep(0.05)
    assert heart.verdict is Pulse.FENCED
    with pytest.raises(StopRun), heart.computing():
        pass
    with pytest.raises(StopRun):
        heart.note(0.5, "")


def test_beats_that_fail_are_tried_again():
    """The lease outlasts a database that is away for a moment."""
    listener = Listener(OSError("away"))
    with Heart(listener, 0.04):
        while len(listener.beats) < 3:
            time.sleep(0.005)


def test_no_beat_comes_after_the_end():
    listener = Listener()
    with Heart(listener, 0.04):
        listener.heard.wait()
    count = len(listener.beats)
    time.sleep(0.05)
    assert len(listener.beats) == count


@pytest.mark.timeout(30, method="thread")
def test_what_follows_the_computing_can_be_traced():
    """A taken-back interruption once kept a profiled run for ever at the first step after its recipe."""
    profile = cProfile.Profile()
    with Heart(Listener(), 0.04) as heart:

        def compute_and_count():
            with heart.computing():
                pass
            return sum(number for number in range(1000))

        assert profile.runcall(compute_and_count) == 499_500


def test_a_stop_at_the_very_end_is_met_inside_the_run():
    """Many short runs, each told to stop at once: none lets the interruption out of its own block."""
    for _ in range(50):
        heart = Heart(Listener(Pulse.CANCEL), 0.004)
        try:
            with heart, heart.computing():
                time.sleep(0.001)
        except StopRun:
            continue
    assert sum(range(1000)) == 499_500
