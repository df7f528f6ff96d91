"""A rectangle with corners cut off is a base with corner squares where a triangle fills each of them."""

from __future__ import annotations

from itertools import combinations

import pytest

from service.craft.planar.clipped import choose_clipped, find_clipped, gather
from service.craft.planar.figures import Figure, make_figure
from service.craft.planar.splitting import ring_groups, set_in_groups, split
from tests.block_shapes import Shape, box
from tests.more_blocks import at, clipped
from tests.straight_blocks import BLOCKS

PLACES = ("nw", "ne", "se", "sw")
CHOICES = [c for n in (1, 2, 3, 4) for c in combinations(PLACES, n)]


def figures_of(shapes: list[Shape]) -> list[Figure]:
    return [make_figure([(int(x), int(y)) for x, y in points]) for points, _ in shapes]


@pytest.mark.parametrize("places", CHOICES, ids=" ".join)
def test_every_choice_of_corners_is_found_with_its_leg(places: tuple[str, ...]) -> None:
    """The base first, then the triangles: nothing else has these corners."""
    shapes = clipped(7, 5, {place: 1 + i % 2 for i, place in enumerate(places)}, "leaf", "frost")
    (found,) = find_clipped(figures_of(shapes))
    assert found.base == 0
    assert {name: leg for name, _, leg in found.corners} == {p: 1 + i % 2 for i, p in enumerate(places)}
    assert sorted(found.members) == list(range(len(shapes)))
    assert found.whole.corners == ((0, 0), (7, 0), (7, 5), (0, 5))


def test_a_goose_a_square_on_its_corner_and_a_half_square_need_no_corner_squares() -> None:
    """They are triangles, and a square cut along the threads, by themselves."""
    for shapes in (
        clipped(4, 2, {"nw": 2, "ne": 2}, "leaf", "frost"),
        clipped(4, 4, dict.fromkeys(PLACES, 2), "leaf", "frost"),
        clipped(4, 4, {"nw": 4}, "leaf", "frost"),
    ):
        assert find_clipped(figures_of(shapes)) == []


def test_a_corner_filled_by_more_than_a_triangle_of_its_own_is_no_corner_square() -> None:
    """The neighbour's patch reaches on: a square there would cover what is not its own."""
    octagon = clipped(4, 4, dict.fromkeys(PLACES, 1), "leaf", "frost")
    missing = octagon[:-1]
    halved: list[Shape] = [
        *missing,
        ([(0, 4), (0, 3), (0.5, 3.5)], "frost"),
        ([(0, 4), (0.5, 3.5), (1, 4)], "frost"),
    ]
    doubled = [([(2 * x, 2 * y) for x, y in points], cloth) for points, cloth in halved]
    assert find_clipped(figures_of(missing)) == []
    assert find_clipped(figures_of(doubled)) == []
    assert len(find_clipped(figures_of(octagon))) == 1


@pytest.mark.parametrize(
    "points",
    [
        [(0, 0), (4, 0), (3, 2), (1, 2)],
        [(1, 0), (3, 0), (4, 2), (3, 4), (1, 4), (0, 2)],
        [(0, 0), (4, 0), (4, 4), (2, 4), (2, 2), (0, 2)],
    ],
    ids=["steeper than 45 degrees", "hexagon", "an inner corner"],
)
def test_other_slants_and_shapes_are_left_to_a_template(points: list[tuple[int, int]]) -> None:
    assert find_clipped([make_figure(points)]) == []


def test_in_a_ring_that_is_one_anyway_bases_are_sewn_first() -> None:
    """Four strips round a square, each with a slanting end: it is a ring whether they are cut whole or not."""
    strip = clipped(2, 1, {"nw": 1}, "leaf", "frost")
    turned_strips: list[Shape] = []
    for _ in range(4):
        turned_strips += strip
        strip = [([(3 - y, x) for x, y in points], cloth) for points, cloth in strip]
    shapes = [*turned_strips, *box(1, 1, 1, 1, "soil"), *at(3, 0, clipped(1, 3, {}, "soil", "soil"))]
    shapes += at(0, 3, clipped(4, 2, {"se": 1}, "leaf", "frost"))
    figures = figures_of(shapes)
    chosen = choose_clipped(figures)
    assert len(chosen) == len(find_clipped(figures)) == 5
    parts = gather(figures, chosen)
    [ring] = ring_groups(split(parts.figures))
    assert [parts.figures[part].doubled_area for part in ring] == [4, 4, 4, 4, 2]


def test_a_diagonal_that_runs_through_the_block_is_not_given_up_for_a_base() -> None:
    """A ring of strips round a square, all cut along the diagonal: that seam alone runs straight through.

    Sewn whole, the two strips it crosses would close the ring again.
    """
    shapes: list[Shape] = [
        ([(0, 0), (2, 0), (2, 1), (1, 1)], "leaf"),
        ([(0, 0), (1, 1), (0, 1)], "frost"),
        ([(1, 2), (2, 2), (3, 3), (1, 3)], "leaf"),
        ([(2, 2), (3, 2), (3, 3)], "frost"),
        ([(1, 1), (2, 1), (2, 2)], "frost"),
        ([(1, 1), (2, 2), (1, 2)], "soil"),
        *box(2, 0, 1, 2, "soil"),
        *box(0, 1, 1, 2, "soil"),
    ]
    figures = figures_of(shapes)
    assert set_in_groups(split(figures)) == ring_groups(split(figures)) == []
    assert len(find_clipped(figures)) == 2
    assert choose_clipped(figures) == []


@pytest.mark.parametrize("name", BLOCKS)
def test_what_is_chosen_makes_no_seam_set_in_that_was_straight(name: str) -> None:
    _, shapes = BLOCKS[name]()
    doubled = [([(4 * x, 4 * y) for x, y in points], cloth) for points, cloth in shapes]
    figures = figures_of(doubled)
    chosen = choose_clipped(figures)
    parts = gather(figures, chosen)
    assert sorted(n for members in parts.members for n in members) == list(range(len(figures)))
    assert len(set_in_groups(split(parts.figures))) == len(set_in_groups(split(figures)))
    assert sum(f.doubled_area for f in parts.figures) == sum(f.doubled_area for f in figures)
