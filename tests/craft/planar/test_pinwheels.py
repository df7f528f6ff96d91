"""Pinwheels are found wherever figures go round a middle, and nowhere else."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Sequence
from functools import lru_cache

import pytest

from service.craft.planar.figures import Figure, make_figure
from service.craft.planar.pinwheels import find_pinwheel
from service.craft.planar.splitting import ring_groups, set_in_groups, split

Box = tuple[int, int, int, int]
"""Left, top, right and bottom."""

RING: list[Box] = [(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3), (1, 1, 2, 2)]


def as_figure(box: Box) -> Figure:
    left, top, right, bottom = box
    return make_figure([(left, top), (right, top), (right, bottom), (left, bottom)])


def cut_up(whole: Box) -> Iterator[list[Box]]:
    """Every way of covering a box with smaller ones on the grid: the first free place is filled in all ways."""

    def fill(taken: list[Box]) -> Iterator[list[Box]]:
        covered = {(x, y) for a, b, c, d in taken for x in range(a, c) for y in range(b, d)}
        free = [(x, y) for y in range(whole[3]) for x in range(whole[2]) if (x, y) not in covered]
        if not free:
            yield taken
            return
        x, y = free[0]
        for right, bottom in itertools.product(range(x + 1, whole[2] + 1), range(y + 1, whole[3] + 1)):
            if all((i, j) not in covered for i in range(x, right) for j in range(y, bottom)):
                yield from fill([*taken, (x, y, right, bottom)])

    yield from fill([])


def can_be_joined(boxes: Sequence[Box]) -> bool:
    """Whether boxes come together by whole seams and pinwheels alone: every part of the grid is tried in every way.

    A part is joined where it is one box, where a level or upright line parts it into two that are joined, or where two
    level and two upright places make four parts round a fifth, left- or right-handed, all of them joined.
    """
    listed = set(boxes)

    @lru_cache
    def joined(part: Box) -> bool:
        left, top, right, bottom = part
        if part in listed:
            return True
        xs, ys = range(left + 1, right), range(top + 1, bottom)
        ways = [[(left, top, x, bottom), (x, top, right, bottom)] for x in xs]
        ways += [[(left, top, right, y), (left, y, right, bottom)] for y in ys]
        for (x, u), (y, v) in itertools.product(itertools.combinations(xs, 2), itertools.combinations(ys, 2)):
            middle = (x, y, u, v)
            ways.append(
                [(left, top, u, y), (u, top, right, v), (x, v, right, bottom), (left, y, x, bottom), middle]
            )
            ways.append(
                [(left, top, x, v), (x, top, right, y), (u, y, right, bottom), (left, v, u, bottom), middle]
            )
        return any(all(map(joined, way)) for way in ways)

    return joined(bounds(boxes))


def bounds(boxes: Sequence[Box]) -> Box:
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def test_what_whole_seams_and_pinwheels_do_not_join_is_set_in_and_nothing_else() -> None:
    """All ways of cutting up a box of four steps by three: straight or in rings, as brute force has it."""
    rings = 0
    for boxes in cut_up((0, 0, 4, 3)):
        assembly = split([as_figure(box) for box in boxes])
        assert (not set_in_groups(assembly)) is can_be_joined(boxes)
        rings += bool(ring_groups(assembly))
    assert rings > 0


def cut_at_random(chance: random.Random, side: int) -> list[Box]:
    """A square cut up: the first free place is filled with a box of any size that fits, again and again."""
    taken: list[Box] = []
    covered: set[tuple[int, int]] = set()
    for y, x in itertools.product(range(side), repeat=2):
        if (x, y) not in covered:
            width = next((w for w in range(1, side - x) if (x + w, y) in covered), side - x)
            right, bottom = x + chance.randint(1, width), chance.randint(y + 1, side)
            taken.append((x, y, right, bottom))
            covered |= set(itertools.product(range(x, right), range(y, bottom)))
    return taken


def test_larger_cut_ups_are_judged_as_brute_force_judges_and_some_stay_set_in() -> None:
    """Squares of seven steps cut up at random: all three kinds are among them."""
    chance, kinds = random.Random(5), set()
    for _ in range(700):
        boxes = cut_at_random(chance, 7)
        assembly = split([as_figure(box) for box in boxes])
        stuck, rings = bool(set_in_groups(assembly)), bool(ring_groups(assembly))
        assert stuck is not can_be_joined(boxes)
        kinds.add((stuck, rings))
    assert {(False, False), (False, True), (True, False)} <= kinds


@pytest.mark.parametrize("mirror", [False, True], ids=["one way round", "the other way"])
def test_both_hands_are_found_with_the_middle_last(mirror: bool) -> None:
    boxes = [(3 - c, b, 3 - a, d) if mirror else (a, b, c, d) for a, b, c, d in RING]
    found = find_pinwheel([as_figure(box) for box in boxes])
    assert found is not None
    assert len(found.lines) == 4
    assert found.parts[-1] == (4,)


def test_three_parts_round_a_triangle_are_a_pinwheel() -> None:
    """Each side of the triangle in the middle goes on at one end, up to the edge of a larger triangle."""
    figures = [
        make_figure([(0, 0), (15, 0), (9, 6), (0, 6)]),
        make_figure([(15, 0), (18, 0), (6, 12), (6, 9)]),
        make_figure([(0, 6), (6, 6), (6, 12), (0, 18)]),
        make_figure([(6, 6), (9, 6), (6, 9)]),
    ]
    found = find_pinwheel(figures)
    assert found is not None and found.parts[-1] == (3,)


def test_four_mitred_sides_round_a_square_are_none() -> None:
    """A spool: at each corner of the middle three seams end, and none runs on."""
    sides = [[(0, 0), (3, 0), (2, 1), (1, 1)], [(3, 0), (3, 3), (2, 2), (2, 1)]]
    sides += [[(3 - x, 3 - y) for x, y in side] for side in sides]
    assert find_pinwheel([make_figure(side) for side in sides] + [as_figure((1, 1, 2, 2))]) is None
