"""Neighbours are sewn opposite ways, so that their pull cancels: measured on the file as it is read back."""

from itertools import pairwise

import numpy as np
import pytest

from tests.stitches.conftest import SETTINGS, make_piece
from tests.stitches.independent_reader import read
from tests.stitches.shapes import circle, leaf, rectangle
from workers.stitches.hooping import plan_hoopings
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import DETAIL, FINISH, DetailLine
from workers.stitches.settings import Field
from workers.stitches.writing import write_hooping


def write(*pieces):
    [hooping] = plan_hoopings([sew_piece(piece, SETTINGS) for piece in pieces], Field(200, 200), SETTINGS)
    return write_hooping(hooping, SETTINGS)


def stitches(written, piece, kind=FINISH):
    """The stitches of one kind in sewing order, a list a pass: their ends by an independent reader, mm, y down."""
    events = read(written.data).events
    at = np.array([(0.0, 0.0), *((x / 10, -y / 10) for _, _, _, x, y in events)])
    passes = zip(written.checked.hooping.passes, written.checked.ranges, strict=True)
    return [
        np.stack([at[a : b + 1], at[a + 1 : b + 2]], axis=1)
        for one, (a, b) in passes
        if one.piece == piece and one.kind == kind
    ]


def way(found, low, high):
    """Which way a column between two places across is sewn: down (1) or up (-1), by the steps of its stitches' middles.

    A ring is begun in the middle of a side, so its first and last stitches may lie in one column: only steps count.
    """
    middles = found.mean(axis=1)
    inside = (middles[:, 0] > low) & (middles[:, 0] < high)
    steps = np.diff(middles[:, 1])[inside[1:] & inside[:-1]]
    return np.sign(steps[np.abs(steps) < 1.0].sum())


def boxes(found):
    points = np.concatenate(found).reshape(-1, 2)
    return points.min(axis=0), points.max(axis=0)


@pytest.mark.parametrize("ring", [rectangle(20, 80), leaf(80, 20)[:, ::-1].copy()], ids=["bed", "leaf"])
def test_columns_that_face_each_other_on_neighbouring_pieces_are_sewn_opposite_ways(ring):
    """Three in a row: their six sides go up and down by turns."""
    pieces = [make_piece(f"piece {n}", (ring + np.array([26.0 * n, 0.0]),)) for n in range(3)]
    written = write(*pieces)
    ways = []
    for n in range(3):
        found = np.concatenate(stitches(written, f"piece {n}"))
        (left, _), (right, _) = boxes([found])
        middle = (left + right) / 2
        ways += [way(found, left - 1, middle), way(found, middle, right + 1)]
    assert all(a == -b for a, b in pairwise(ways)), ways


def test_the_two_edges_of_a_ring_are_sewn_opposite_ways_round():
    """Outside and hole: the turn round the middle has opposite signs."""
    written = write(make_piece("ring", (circle(30.0), circle(14.0, 180))))
    turns = []
    for found in stitches(written, "ring"):
        middles = found.mean(axis=1)
        x, y = (middles - middles.mean(axis=0)).T
        turns.append(np.sign(np.diff(np.unwrap(np.arctan2(y, x))).sum()))
    assert sorted(turns) == [-1, 1]


@pytest.mark.parametrize("drawn", [(1, 1, 1, 1), (1, -1, -1, 1)])
def test_satin_lines_beside_each_other_are_sewn_up_and_down_by_turns_however_they_are_drawn(drawn):
    """Four veins 8 mm apart: of each the satin, which is sewn back over its run, alternates."""
    lines = [
        DetailLine("satin line", (np.array([[8.0 * n, 10.0], [8.0 * n, 60.0]])[::one],), closed=False)
        for n, one in enumerate(drawn, start=1)
    ]
    written = write(make_piece("leaf", (rectangle(40, 70),), details=tuple(lines)))
    ways = []
    for found in stitches(written, "leaf", DETAIL):
        across = np.abs(found[:, 1, 0] - found[:, 0, 0]) > 1.0
        heights = found[across].mean(axis=1)[:, 1]
        ways.append(np.sign(heights[-20:].mean() - heights[:20].mean()))
    assert len(ways) == 4 and all(a == -b for a, b in pairwise(ways)), ways


def test_the_rows_of_a_fill_are_sewn_to_and_fro_and_its_two_layers_up_and_down():
    """Every row goes the other way than the one before; every second row on the way up, the rest on the way back."""
    area = DetailLine("fill", (np.array([[5.0, 5.0], [35.0, 5.0], [35.0, 45.0], [5.0, 45.0]]),), closed=True)
    written = write(make_piece("bed", (rectangle(40, 50),), details=(area,)))
    found = np.concatenate(stitches(written, "bed", DETAIL))
    long = found[np.abs(found[:, 1, 0] - found[:, 0, 0]) > 1.0]
    heights, ways = np.round(long[:, 0, 1], 1), np.sign(long[:, 1, 0] - long[:, 0, 0])
    begins = np.flatnonzero(np.concatenate([[True], np.abs(np.diff(heights)) > 0.25]))
    rows, row_ways = heights[begins], ways[begins]
    assert len(rows) > 90 and (row_ways[1:] == -row_ways[:-1]).mean() > 0.97
    climbs = np.sign(np.diff(rows))
    assert np.count_nonzero(climbs[1:] != climbs[:-1]) <= 2 and {-1.0, 1.0} <= set(climbs)
