"""Sheets of a large template laid on each other, measured on the printed PDF by an outside reader (pdfium)."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import shapely
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from tests.outlines.test_templates import POINT_MM, print_templates, trace_points_mm
from workers.recipe import JobInput

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

CROSS_MM = 6.0
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""ISO 216; ANSI/ASME Y14.1 (8 1/2 by 11 in)."""

NEIGHBOURS = ((0, 1), (2, 3), (0, 2), (1, 3))
"""Sheets of two by two, beside and below each other."""

HALF_OVERLAP_MM = 4.5
"""Half of the overlap of 10 mm, and a little less."""

NO_PRINT_MM = 6.35
"""What a printer leaves free at the rim: 1/4 in, common practice, no source."""


def trace_pages(document: pypdfium2.PdfDocument, paper: tuple[float, float]) -> list[list[np.ndarray]]:
    """The paths of every page, mm on a paper on which the page is printed centred, y up."""
    pages = []
    for page in document:
        middle = np.array(page.get_size()) * POINT_MM / 2
        paths = page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=15)
        pages.append([trace_points_mm(path) - middle + np.array(paper) / 2 for path in paths])
    return pages


def find_crosses(paths: list[np.ndarray]) -> np.ndarray:
    """The middles of crosses: straight lines of two points, as wide as high, two in one place."""
    lines = [p for p in paths if len(p) == 2 and np.abs(np.abs(p[1] - p[0]) - CROSS_MM).max() < 0.02]
    middles = np.array([p.mean(axis=0) for p in lines]).reshape(-1, 2)
    for one in middles:
        assert (np.linalg.norm(middles - one, axis=1) < 0.01).sum() == 2
    return middles[::2]


def shared(a: np.ndarray, b: np.ndarray, move: np.ndarray) -> np.ndarray:
    """The crosses of a sheet on which those of another fall, within 0.05 mm, when that is moved."""
    far = np.linalg.norm(a[:, None] - (b + move)[None], axis=2)
    met: np.ndarray = a[(far < 0.05).any(axis=1)]
    return met


def lay_sheets(a: np.ndarray, b: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The move that brings the most crosses of the second sheet onto the first, and those it meets there."""
    moves = (a[:, None] - b[None]).reshape(-1, 2)
    best = max((m for m in moves if np.linalg.norm(m) > 100), key=lambda m: len(shared(a, b, m)))
    return best, shared(a, b, best)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("edge", ["satin", "turned"])
def test_the_same_point_of_two_sheets_is_within_a_twentieth_of_a_millimetre(
    job: Job, piece: Make, paper: str, edge: str
) -> None:
    """The ring is 300 mm across: two by two sheets. Laid cross on cross, crosses and outline fall on each other."""
    document = print_templates(job(piece("ring", "leek.svg#ring", scale=5, edge=edge), track="by hand"))
    pages = trace_pages(document, PAPERS[paper])[1:5]
    crosses = [find_crosses(paths) for paths in pages]
    assert all(len(found) >= 4 for found in crosses)
    for one, other in NEIGHBOURS:
        move, met = lay_sheets(crosses[one], crosses[other])
        across = int(np.argmin(np.median(np.abs(met - np.median(met, axis=0)), axis=0)))
        on_line = met[np.abs(met - np.median(met, axis=0))[:, across] < 0.05]
        assert len(on_line) >= 3
        joint = shapely.MultiPoint(on_line).envelope.buffer(HALF_OVERLAP_MM, join_style="mitre")
        first = _outline(pages[one], np.zeros(2)).intersection(joint)
        second = _outline(pages[other], move).intersection(joint)
        assert min(first.length, second.length) > 5
        assert first.hausdorff_distance(second) < 0.05


def _outline(paths: list[np.ndarray], move: np.ndarray) -> BaseGeometry:
    """The lines with corners, moved: what is cut and what is folded."""
    return unary_union([shapely.LineString(p + move) for p in paths if len(p) > 2])


@pytest.mark.parametrize("paper", PAPERS)
def test_every_line_of_every_page_can_be_printed(job: Job, piece: Make, paper: str) -> None:
    document = print_templates(job(piece("ring", "leek.svg#ring", scale=5, edge="turned"), track="by hand"))
    width, height = PAPERS[paper]
    room = shapely.box(0, 0, width, height).buffer(-NO_PRINT_MM, join_style="mitre")
    for paths in trace_pages(document, PAPERS[paper]):
        assert paths
        for path in paths:
            if len(path) > 1 and np.ptp(path, axis=0).max() < 290:
                assert shapely.covers(room, shapely.LineString(path))
