"""The fewest changes of thread, held against every order there is."""

import itertools
import random

import pytest

from service.craft.fabric import Thread
from workers.stitches.colour_order import Turn, order_turns

THREADS = [Thread(name, "#000000") for name in ("soil", "leaf", "rhubarb")]


def changes(turns, order):
    threads = [turns[n].thread for n in order]
    return sum(a != b for a, b in itertools.pairwise(threads))


def sound(turns, order):
    return all(turns[n].after <= set(order[:at]) for at, n in enumerate(order))


@pytest.mark.parametrize("seed", range(20))
def test_no_order_that_respects_what_lies_beneath_changes_thread_less_often(seed):
    chance = random.Random(seed)
    turns = [
        Turn(
            f"piece {n}",
            chance.choice(THREADS),
            (),
            frozenset(m for m in range(n) if chance.random() < 0.25),
        )
        for n in range(7)
    ]
    order = order_turns(turns)
    assert sorted(order) == list(range(7)) and sound(turns, order)
    least = min(changes(turns, o) for o in itertools.permutations(range(7)) if sound(turns, o))
    assert changes(turns, order) == least


def test_a_hooping_of_many_pieces_in_many_threads_is_ordered_at_once():
    threads = [Thread(f"colour {n}", "#000000") for n in range(12)]
    turns = [Turn(f"piece {n}", threads[n % 12], (), frozenset()) for n in range(60)]
    assert changes(turns, order_turns(turns)) == 11
