"""Open lines that are filled: a fill closes them by a straight line (SVG 2, Painting), so they are outlines as seen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from service.craft.outlines.contours import Contour
from service.craft.outlines.drawing_walk import Drawn
from service.craft.outlines.joining import join_ends
from service.craft.outlines.limits import CLOSING_GAP_MM, SMALLEST_SIDE_MM


def close_filled(drawn: Sequence[Drawn], notes: list[str]) -> list[Drawn]:
    """The drawing with its filled open lines closed, each with a note that has the gap's length.

    Lines whose ends meet others stay open, to be joined to them; so do lines without a fill, and straight ones.
    """
    open_lines = [line for shape in drawn for line in join_ends(_open_in(shape)).left]
    alone = {id(line) for line in join_ends(open_lines).left}
    closed = []
    for shape in drawn:
        fill = [
            line for line in shape.contours if id(line) in alone and shape.styling.filled and _bends(line)
        ]
        notes += [
            f"{shape.where}: an open line is filled, so its ends, {line.gap:.1f} mm apart,"
            " were joined by a straight line"
            for line in fill
        ]
        taken = {id(line) for line in fill}
        contours = tuple(replace(c, closed=True) if id(c) in taken else c for c in shape.contours)
        closed.append(replace(shape, contours=contours) if fill else shape)
    return closed


def _open_in(shape: Drawn) -> list[Contour]:
    return [line for line in shape.contours if line.gap > CLOSING_GAP_MM]


def _bends(line: Contour) -> bool:
    """Whether a line leaves the straight way between its ends by as much as can be cut."""
    points = np.array([line.start, *(point for segment in line.segments for point in segment.points)])
    along = points[-1] - points[0]
    away = points - points[0]
    off = np.abs(away[:, 0] * along[1] - away[:, 1] * along[0]) / np.hypot(*along)
    return bool(off.max() >= SMALLEST_SIDE_MM / 2)
