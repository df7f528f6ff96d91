"""What lies under a piece that viewers must own is cut without telling them a part of that piece's edge."""

import math

import numpy as np
import pytest
import shapely

from service.craft.outlines import find_outline, flatten
from tests.outlines.conftest import TRACKS, a_piece
from tests.rights.curves import find_stretches, read_curves
from workers.outlines.asked import read_pieces, read_project
from workers.outlines.cut_files import make_cut_files
from workers.outlines.templates import make_templates

INCH = 25.4


def waved(width, height, waves=2.5, deep=4.0):
    """A rectangle whose upper edge goes in waves, as path data."""
    xs = np.linspace(0, width, 400)
    top = " ".join(f"L{x:.3f} {deep * math.cos(2 * math.pi * waves * x / width):.3f}" for x in xs)
    return f"M0 {height}{top}L{width} {height}z"


FILES = {
    "bed.svg": '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" viewBox="0 0 200 200">'
    '<rect id="bed" width="120" height="60"/></svg>',
    "book.svg": '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" viewBox="0 0 200 200">'
    f'<path id="hedge" d="{waved(100, 30)}"/></svg>',
}


def at(x, y):
    return [f"{round(16 * mm / INCH)}/16" for mm in (x, y)]


def ask(job, rights, tuck_mm):
    """A bed, and on its lower edge a hedge with a waved edge under which the bed ends after so many millimetres."""
    pieces = [
        a_piece("bed", "bed.svg#bed", at=at(150, 130), edge="raw"),
        a_piece("hedge", "book.svg#hedge", at=at(150, 160 + 15 - tuck_mm), edge="raw", above=["bed"]),
    ]
    sources = (
        {"name": "own drawing", "covers": ["bed.svg"], "rights": "own"},
        {"name": "a neighbour's book", "covers": ["book.svg"], "rights": rights},
    )
    return job(*pieces, files=FILES, sources=sources, track="by hand", tracks=TRACKS)


def public_curves(asked):
    made = [*make_cut_files(asked), *make_templates(asked)]
    return [curve for file in made if file.public for curve in read_curves(file.name, file.data)]


def waves(asked):
    """The upper edge of the hedge as it is drawn, without its corners: those are like any others."""
    ring = flatten(find_outline(asked.outlines, "book.svg#hedge").rings[0], tolerance_mm=0.05)
    upper = np.array([p for p in ring if p[1] < 5 and 1 < p[0] < 99])
    return upper[np.argsort(upper[:, 0])]


@pytest.mark.parametrize("tuck_mm", [1, 4, 6])
def test_no_stretch_of_an_owned_edge_is_cut_into_what_lies_under_it(job, tuck_mm):
    """The bed reaches under the hedge by a tab; no public curve follows 30 mm of the hedge's edge or of a parallel."""
    asked = ask(job, "viewer must own", tuck_mm)
    bed = next(one for one in read_pieces(asked, read_project(asked)) if one.piece.name == "bed")
    assert bed.underlaps
    curves = public_curves(asked)
    assert {name.rpartition(".")[2] for name, _ in curves} >= {"svg", "dxf"}
    assert find_stretches(waves(asked), curves) == []


def test_the_search_finds_the_edge_where_it_may_leave(job):
    """The control: the studio's own hedge is in the cut files and the templates, and is found in each."""
    asked = ask(job, "own", 2)
    names = {name.rpartition(".")[2] for name, _ in find_stretches(waves(asked), public_curves(asked))}
    assert names >= {"svg", "dxf", "pdf"}


def test_the_search_finds_a_parallel_and_a_part_of_an_edge(job):
    """Sixty millimetres of the edge turned and mirrored, and a parallel 3 mm off."""
    edge = waves(ask(job, "own", 2))
    part = edge[(edge[:, 0] > 10) & (edge[:, 0] < 70)] @ [[0.6, 0.8], [0.8, -0.6]]
    inside = np.array(shapely.LineString(edge).offset_curve(3).coords)
    assert len(find_stretches(edge, [("part", part), ("parallel", inside)])) == 2
