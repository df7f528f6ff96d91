"""The solver against every way there is, on graphs small enough to try them all."""

from __future__ import annotations

import random
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workers.sewing import fewest_broken as fewest_broken_room
from workers.sewing import pressing
from workers.sewing.pressing import Bond, Pressing, solve_pressing

Costs = dict[int, tuple[float, float]]
Bonds = list[Bond[int]]

SEAMS = 7


def broken(sides: dict[int, int], bonds: Bonds) -> tuple[int, ...]:
    return tuple(i for i, b in enumerate(bonds) if (sides[b.first] == sides[b.second]) != b.alike)


def best_of_all(costs: Costs, bonds: Bonds) -> tuple[int, float]:
    """Fewest broken bonds, then least cost, by trying every way."""
    tried = []
    for way in product((0, 1), repeat=len(costs)):
        sides = dict(zip(costs, way, strict=True))
        tried.append((len(broken(sides, bonds)), sum(costs[seam][side] for seam, side in sides.items())))
    return min(tried)


def cost_of(costs: Costs, solved: Pressing[int]) -> float:
    return sum(costs[seam][side] for seam, side in solved.sides.items())


BONDS = st.lists(
    st.builds(Bond, st.integers(0, SEAMS - 1), st.integers(0, SEAMS - 1), st.booleans()), max_size=14
)
COSTS = st.lists(
    st.tuples(st.integers(0, 3).map(float), st.integers(0, 3).map(float)), min_size=SEAMS, max_size=SEAMS
).map(lambda pairs: dict(enumerate(pairs)))


@settings(max_examples=150, deadline=None)
@given(costs=COSTS, bonds=BONDS)
def test_no_way_is_better(costs: Costs, bonds: Bonds) -> None:
    """Trying every way finds neither fewer broken bonds nor as many at less cost."""
    solved = solve_pressing(costs, bonds)
    assert solved.broken == broken(solved.sides, bonds)
    assert (len(solved.broken), cost_of(costs, solved)) == best_of_all(costs, bonds)
    assert solved.least_proved


def fewest_broken(seams: int, bonds: Bonds) -> int:
    """The fewest broken bonds over every way of up to 16 seams."""
    ways = np.arange(2**seams)
    broken = np.zeros(len(ways), np.int64)
    for bond in bonds:
        broken += ((ways >> bond.first ^ ways >> bond.second) & 1) == bond.alike
    return int(broken.min())


@pytest.mark.parametrize("seams", [4, 8, 12, 16])
def test_the_search_for_large_parts_proves_the_fewest(seams: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Forty random graphs of each size, sparse and dense, with the trying of all ways left out: the number of broken
    bonds is that of trying every way, and it is proved."""
    monkeypatch.setattr(pressing, "SMALL_PART", 0)
    for seed in range(40):
        chance = random.Random(seed)
        bonds = [
            Bond(chance.randrange(seams), chance.randrange(seams), chance.random() < 0.5)
            for _ in range(seams + seed)
        ]
        costs = {i: (float(chance.randrange(3)), float(chance.randrange(3))) for i in range(seams)}
        solved = solve_pressing(costs, bonds)
        assert solved.broken == broken(solved.sides, bonds)
        assert len(solved.broken) == fewest_broken(seams, bonds)
        assert solved.least_proved


def test_a_lattice_of_odd_and_even_circles_is_proved() -> None:
    """A hundred seams in a lattice of ten by ten, bonds at random: far too many ways to try, and proved all the same.
    Turning any seam, or any row of seams, leaves no fewer."""
    chance = random.Random(1)
    bonds = [
        Bond(10 * x + y, 10 * (x + dx) + y + dy, chance.random() < 0.5)
        for x in range(10)
        for y in range(10)
        for dx, dy in ((1, 0), (0, 1))
        if x + dx < 10 and y + dy < 10
    ]
    solved = solve_pressing(dict.fromkeys(range(100), (0.0, 0.0)), bonds)
    assert solved.least_proved
    assert len(solved.broken) > 10
    for turned in [{i} for i in range(100)] + [{10 * x + y for y in range(10)} for x in range(10)]:
        other = {seam: side ^ (seam in turned) for seam, side in solved.sides.items()}
        assert len(broken(other, bonds)) >= len(solved.broken)


def test_a_search_that_strikes_its_limit_claims_no_more_than_it_proved(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """With no round left for the whole-number program, the circles apart are the bound, and it may fall short."""
    monkeypatch.setattr(pressing, "SMALL_PART", 0)
    monkeypatch.setattr(fewest_broken_room, "MOST_ROUNDS", 0)
    whole = [Bond(a, b, False) for a in range(6) for b in range(a)]
    solved = solve_pressing(dict.fromkeys(range(6), (0.0, 0.0)), whole)
    assert solved.at_least <= fewest_broken(6, whole) <= len(solved.broken)
    assert solved.at_least < fewest_broken(6, whole)
    assert not solved.least_proved


def test_an_odd_circle_breaks_one_bond() -> None:
    """Three seams that all want to differ cannot: one bond is broken, and that is proved."""
    triangle = [Bond("a", "b", False), Bond("b", "c", False), Bond("c", "a", False)]
    solved = solve_pressing(dict.fromkeys("abc", (0.0, 0.0)), triangle)
    assert (len(solved.broken), solved.at_least, solved.least_proved) == (1, 1, True)


def test_a_seam_that_meets_itself_unlike_is_always_broken() -> None:
    """No side differs from itself; other bonds are kept all the same."""
    solved = solve_pressing({"a": (0, 5), "b": (0, 0)}, [Bond("a", "a", False), Bond("a", "b", True)])
    assert (solved.broken, solved.least_proved) == ((0,), True)
    assert solved.sides == {"a": 0, "b": 0}


def test_a_long_odd_ring_is_proved_without_trying_all() -> None:
    """A ring of 41 seams that all want to differ loses one bond; one circle proves it."""
    ring = [Bond(i, (i + 1) % 41, False) for i in range(41)]
    solved = solve_pressing(dict.fromkeys(range(41), (0.0, 0.0)), ring)
    assert (len(solved.broken), solved.least_proved) == (1, True)


def test_of_two_ways_the_cheaper_one_is_taken() -> None:
    """Bonds leave two ways; the preferences of both seams together decide."""
    solved = solve_pressing({"a": (0, 1), "b": (3, 0)}, [Bond("a", "b", True)])
    assert solved.sides == {"a": 1, "b": 1}


def test_nothing_to_press_is_solved() -> None:
    """No seams, no bonds: nothing is broken, and that is the least."""
    assert solve_pressing({}, []) == Pressing({}, (), 0)
