"""Cover: exactly once everywhere, or the place where it fails."""

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon
from shapely.ops import unary_union

from service.craft.planar.cover import find_leftovers
from service.craft.planar.figures import Figure, make_figure

WIDTH, HEIGHT = 24, 16


def cut_up(data: st.DataObject, depth: int) -> list[Figure]:
    """A block cut by straight lines across whole parts, at random."""
    parts = [[(0, 0), (WIDTH, 0), (WIDTH, HEIGHT), (0, HEIGHT)]]
    for _ in range(depth):
        i = data.draw(st.integers(0, len(parts) - 1))
        part = parts[i]
        a = data.draw(st.integers(0, len(part) - 1))
        b = (a + data.draw(st.integers(2, len(part) - 1))) % len(part) if len(part) > 3 else None
        if b is None:
            p, q = part[a - 1], part[a]
            if (p[0] + q[0]) % 2 or (p[1] + q[1]) % 2:
                continue
            middle = ((p[0] + q[0]) // 2, (p[1] + q[1]) // 2)
            rest = part[a:] + part[:a]
            parts[i : i + 1] = [[middle, rest[0], rest[1]], [middle, rest[1], rest[2]]]
        else:
            low, high = sorted((a, b))
            if high - low > 1 and high - low < len(part) - 1:
                parts[i : i + 1] = [part[low : high + 1], part[high:] + part[: low + 1]]
    return [make_figure(p) for p in parts]


@given(st.data(), st.integers(0, 12))
def test_a_block_cut_up_is_covered_by_its_parts(data, depth):
    assert find_leftovers(cut_up(data, depth), WIDTH, HEIGHT) == []


@given(st.data(), st.integers(1, 12))
def test_a_patch_taken_away_or_laid_twice_is_found_at_its_own_edges(data, depth):
    figures = cut_up(data, depth)
    gone = data.draw(st.integers(0, len(figures) - 1))
    hole = Polygon(figures[gone].corners).boundary
    for faulty in (figures[:gone] + figures[gone + 1 :], [*figures, figures[gone]]):
        found = find_leftovers(faulty, WIDTH, HEIGHT)
        assert found
        for left in found:
            assert hole.covers(Polygon([left.start, left.end, left.end]).boundary)


@given(st.data(), st.integers(2, 8), st.integers(-3, 3), st.integers(-3, 3))
def test_a_patch_moved_is_found_unless_it_lies_where_it_lay(data, depth, dx, dy):
    """Independent check: areas of union and sum, by Shapely."""
    figures = cut_up(data, depth)
    i = data.draw(st.integers(0, len(figures) - 1))
    figures[i] = make_figure([(x + dx, y + dy) for x, y in figures[i].corners])
    shapes = [Polygon(f.corners) for f in figures]
    whole = Polygon([(0, 0), (WIDTH, 0), (WIDTH, HEIGHT), (0, HEIGHT)])
    covers = sum(s.area for s in shapes) == whole.area and unary_union(shapes).equals(whole)
    assert (find_leftovers(figures, WIDTH, HEIGHT) == []) is covers


def test_the_patch_whose_edge_is_left_over_is_named():
    left, right = (
        make_figure([(0, 0), (10, 0), (10, 16), (0, 16)]),
        make_figure([(12, 0), (24, 0), (24, 16), (12, 16)]),
    )
    owners = {(f.figure, f.start, f.end) for f in find_leftovers([left, right], WIDTH, HEIGHT)}
    assert (0, (10, 0), (10, 16)) in owners or (0, (10, 16), (10, 0)) in owners
    assert any(figure == 1 for figure, *_ in owners)
