"""The least number of hoopings, held against a search through every way of sharing pieces out."""

import random

import pytest

from workers.stitches.grouping import Laid, group_boxes, group_greedily, join_boxes, sort_groups


def fits_in(width, height):
    def fits(box):
        w, h = box[2] - box[0], box[3] - box[1]
        return (w <= width and h <= height) or (h <= width and w <= height)

    return fits


def partitions(items):
    """Every way to share items out into groups."""
    if not items:
        yield []
        return
    first, *rest = items
    for smaller in partitions(rest):
        for n, group in enumerate(smaller):
            yield [*smaller[:n], [first, *group], *smaller[n + 1 :]]
        yield [[first], *smaller]


def least_of_all(pieces, fits):
    return min(
        len(groups)
        for groups in partitions(list(range(len(pieces))))
        if all(fits(join_boxes([pieces[n].box for n in group])) for group in groups)
        and sort_groups(groups, pieces) is not None
    )


@pytest.mark.parametrize("seed", range(20))
def test_no_way_of_sharing_out_takes_fewer_hoopings(seed):
    chance = random.Random(seed)
    pieces = []
    for n in range(7):
        x, y = chance.uniform(0, 200), chance.uniform(0, 150)
        below = frozenset(m for m in range(n) if chance.random() < 0.15)
        pieces.append(Laid((x, y, x + chance.uniform(10, 60), y + chance.uniform(10, 60)), False, below))
    fits = fits_in(100, 140)
    grouping = group_boxes(pieces, fits)
    assert grouping.proved
    assert len(grouping.groups) == least_of_all(pieces, fits)
    assert sort_groups(grouping.groups, pieces) == list(grouping.groups)
    assert sorted(n for group in grouping.groups for n in group) == list(range(7))


def test_a_row_that_is_taken_as_it_comes_can_cost_a_hooping_and_the_search_finds_it():
    """In a row left, A, B, right; written A, B first, which then share and leave the ends alone."""
    boxes = [(50, 0, 60, 10), (100, 0, 110, 10), (0, 0, 10, 10), (150, 0, 160, 10)]
    pieces = [Laid(box, False, frozenset()) for box in boxes]
    assert len(group_greedily(pieces, fits_in(60, 60))) == 3
    grouping = group_boxes(pieces, fits_in(60, 60))
    assert grouping.groups == ((0, 2), (1, 3)) and grouping.proved


def test_many_pieces_are_grouped_with_a_bound_though_not_searched():
    pieces = [Laid((30.0 * n, 0, 30.0 * n + 20, 20), False, frozenset()) for n in range(200)]
    grouping = group_boxes(pieces, fits_in(100, 100))
    assert grouping.at_least <= len(grouping.groups) == 67
    assert grouping.at_least >= 50
