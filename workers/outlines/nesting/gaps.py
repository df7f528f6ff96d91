"""Puts further shapes into the gaps that are left on a mat, on a grid of small cells.

Cells that a laid shape takes and cells of a new one are compared in all places at once, by a product of their Fourier
transforms. Both are counted so widely that no rounding to cells brings two shapes nearer than the spacing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, sqrt

import numpy as np
import shapely
from numpy.typing import NDArray

from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine
from service.craft.outlines.polygons import to_polygon
from workers.outlines.asked import at_origin
from workers.outlines.nesting.taken import simplify

Cells = NDArray[np.float32]

MOST_CELLS = 200_000
FINEST_MM = 1.0
HALF_DIAGONAL = sqrt(0.5) + 0.01
"""No point lies further from the middle of its cell, in cells."""

SIMPLER_MM = 0.1
SOME_TURNS = tuple(float(turn) for turn in range(0, 360, 30))
"""Turns that are tried for a shape that may lie in any."""


class Gaps:
    """What is free on a mat of this usable room (mm), the spacing round every laid shape not counted."""

    def __init__(self, width_mm: float, height_mm: float, spacing_mm: float) -> None:
        self.width_mm, self.height_mm = width_mm, height_mm
        self.cell = max(FINEST_MM, sqrt(width_mm * height_mm / MOST_CELLS))
        self.reach = spacing_mm + HALF_DIAGONAL * self.cell
        self.taken = np.zeros((ceil(height_mm / self.cell), ceil(width_mm / self.cell)), np.float32)

    def take(self, outlines: Iterable[Outline]) -> None:
        """Marks where these lie."""
        rows, columns = self.taken.shape
        for outline in outlines:
            region, left_out = simplify(to_polygon(outline), SIMPLER_MM)
            wide = region.buffer(self.reach + left_out)
            left, top, right, bottom = (side / self.cell for side in wide.bounds)
            x0, x1 = max(0, int(left)), min(columns, ceil(right))
            y0, y1 = max(0, int(top)), min(rows, ceil(bottom))
            part = self.taken[y0:y1, x0:x1]
            part[_cells_of(wide, x0, y0, part.shape, self.cell) > 0] = 1.0

    def place(self, outline: Outline, turns: Sequence[float]) -> Outline | None:
        """The outline in the free place that ends nearest the upper edge, then the left one; marked. None without."""
        best: tuple[float, float, int] | None = None
        found: Outline | None = None
        for n, turn in enumerate(turns or SOME_TURNS):
            lying = at_origin(outline.moved(Affine.turning(turn)) if turn else outline)
            spot = self._find(lying)
            if spot is None:
                continue
            x, y = spot
            key = (round(y + lying.height_mm, 2), round(x, 2), n)
            if best is None or key < best:
                best, found = key, lying.moved(Affine.moving(x, y))
        if found is not None:
            self.take([found])
        return found

    def _find(self, lying: Outline) -> tuple[float, float] | None:
        rows = int((self.height_mm - lying.height_mm) / self.cell + 1e-6)
        columns = int((self.width_mm - lying.width_mm) / self.cell + 1e-6)
        if min(self.height_mm - lying.height_mm, self.width_mm - lying.width_mm) < 0:
            return None
        region, left_out = simplify(to_polygon(lying), SIMPLER_MM)
        wide = region.buffer(HALF_DIAGONAL * self.cell + left_out)
        shape = ceil(lying.height_mm / self.cell), ceil(lying.width_mm / self.cell)
        free = self._count_taken(_cells_of(wide, 0, 0, shape, self.cell))[: rows + 1, : columns + 1] < 0.5
        if not free.any():
            return None
        y, x = np.unravel_index(int(np.argmax(free)), free.shape)
        return round(float(x) * self.cell, 3), round(float(y) * self.cell, 3)

    def _count_taken(self, mask: Cells) -> Cells:
        """How many taken cells the mask covers, by the place of its upper left cell."""
        shape = self.taken.shape[0] + mask.shape[0], self.taken.shape[1] + mask.shape[1]
        of_mask = np.fft.rfft2(mask[::-1, ::-1], shape)
        counted = np.fft.irfft2(np.fft.rfft2(self.taken, shape) * of_mask, shape)
        return np.asarray(counted[mask.shape[0] - 1 :, mask.shape[1] - 1 :], np.float32)


def _cells_of(region: shapely.Polygon, x0: int, y0: int, shape: tuple[int, ...], cell: float) -> Cells:
    """1 for every cell whose middle lies in the region, on a part of the grid that begins at (x0, y0)."""
    ys, xs = np.mgrid[0 : shape[0], 0 : shape[1]]
    shapely.prepare(region)
    inside = shapely.contains_xy(region, (xs + x0 + 0.5) * cell, (ys + y0 + 0.5) * cell)
    return np.asarray(inside, np.float32)
