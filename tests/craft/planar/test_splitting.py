"""Straight seams: found wherever there are any, and a seam that must be set in is named."""

import pytest

from service.craft.planar.figures import make_figure
from service.craft.planar.splitting import Ring, Seam, ring_groups, set_in_groups, split, walk_seams


def checker(n):
    """n x n squares, each halved along a diagonal."""
    figures = []
    for y in range(0, 2 * n, 2):
        for x in range(0, 2 * n, 2):
            figures.append(make_figure([(x, y), (x + 2, y), (x, y + 2)]))
            figures.append(make_figure([(x + 2, y), (x + 2, y + 2), (x, y + 2)]))
    return figures


def leaves(assembly):
    if isinstance(assembly, Seam):
        return leaves(assembly.first) + leaves(assembly.second)
    return [assembly] if isinstance(assembly, int) else list(assembly.figures)


@pytest.mark.parametrize("n", [1, 2, 3, 7])
def test_every_patch_is_sewn_once_and_n_patches_take_n_minus_one_seams(n):
    figures = checker(n)
    assembly = split(figures)
    assert sorted(leaves(assembly)) == list(range(len(figures)))
    assert len(list(walk_seams(assembly))) == len(figures) - 1


def test_no_patch_crosses_a_seam():
    figures = checker(3)
    for seam in walk_seams(split(figures)):
        for part, sign in ((seam.first, -1), (seam.second, 1)):
            assert all(sign * seam.line.side(c) >= 0 for i in leaves(part) for c in figures[i].corners)


def test_strips_laid_round_a_middle_are_a_ring_with_nothing_to_set_in():
    """The ring of four strips round a square, each overlapping the next: no seam runs through (geometry)."""
    ring = [
        [(0, 0), (2, 0), (2, 1), (0, 1)],
        [(2, 0), (3, 0), (3, 2), (2, 2)],
        [(1, 2), (3, 2), (3, 3), (1, 3)],
        [(0, 1), (1, 1), (1, 3), (0, 3)],
        [(1, 1), (2, 1), (2, 2), (1, 2)],
    ]
    assembly = split([make_figure(p) for p in ring])
    assert isinstance(assembly, Ring) and assembly.parts[-1] == 4
    assert set_in_groups(assembly) == []


def test_only_the_part_that_cannot_be_sewn_straight_is_a_ring():
    """A plain strip beside the ring is joined by a straight seam."""
    ring = [
        [(0, 0), (2, 0), (2, 1), (0, 1)],
        [(2, 0), (3, 0), (3, 2), (2, 2)],
        [(1, 2), (3, 2), (3, 3), (1, 3)],
        [(0, 1), (1, 1), (1, 3), (0, 3)],
        [(1, 1), (2, 1), (2, 2), (1, 2)],
        [(3, 0), (5, 0), (5, 3), (3, 3)],
    ]
    assembly = split([make_figure(p) for p in ring])
    assert isinstance(assembly, Seam)
    assert ring_groups(assembly) == [(0, 1, 2, 3, 4)]
