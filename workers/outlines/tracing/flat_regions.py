"""The patches of flat tone on a page: a map of tones, and the edge of every patch in its pixels."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from PIL import Image, ImageDraw

from workers.outlines.tracing.flat_tones import PAPER, Labels, Tones, Values, is_flat
from workers.outlines.tracing.ink import soften
from workers.outlines.tracing.iso_lines import find_iso_lines
from workers.outlines.tracing.label_map import NONE, grow_labels
from workers.outlines.tracing.points import Points, signed_area

MAPPED_PIXELS = 4_500_000
"""A map of more is made of every second pixel: edges are settled in the whole field afterwards."""

FURTHEST = 400
"""Pixels that a tone may grow over what is of none."""

MOST_EDGE_POINTS = 2_000_000


@dataclass(frozen=True)
class FlatMap:
    """The tone of every `every`-th pixel both ways."""

    labels: Labels
    every: int

    def at(self, points: Points) -> Labels:
        """The tones at points in pixels; the paper beyond the rim."""
        where = np.round(points / self.every).astype(np.intp)
        rows, columns = self.labels.shape
        inside = ((where >= 0) & (where < (columns, rows))).all(axis=-1)
        x, y = np.clip(where[..., 0], 0, columns - 1), np.clip(where[..., 1], 0, rows - 1)
        return np.where(inside, self.labels[y, x], PAPER).astype(np.uint8)


@dataclass(frozen=True)
class Patch:
    """One patch of a tone: its outer edge and those of its holes, in pixels, ink to their right."""

    tone: int
    rings: tuple[Points, ...]

    @property
    def polygon(self) -> shapely.Polygon:
        """The patch in pixels."""
        return shapely.Polygon(self.rings[0], self.rings[1:])


def map_tones(fields: Values, tones: Tones, least_area_px: float) -> tuple[FlatMap, int]:
    """The tone of every pixel; patches smaller than a speck go to their neighbours and are counted.

    Only what is flat has a tone of its own: the greys that an edge passes through are no tone.
    """
    every = 2 if fields.shape[0] * fields.shape[1] > MAPPED_PIXELS else 1
    thin = fields[::every, ::every]
    labels = np.where(is_flat(thin), tones.nearest(thin), NONE).astype(np.uint8)
    labels = grow_labels(labels, FURTHEST)
    labels[labels == NONE] = PAPER
    small = _erase_specks(labels, least_area_px / every**2)
    labels = grow_labels(labels, FURTHEST)
    return FlatMap(labels, every), small


def _erase_specks(labels: Labels, least_area: float) -> int:
    erased = 0
    for number in np.unique(labels):
        if number == PAPER:
            continue
        mask = labels == number
        for line in _lines(np.where(mask, 0.0, 1.0).astype(np.float32)):
            if 0 < signed_area(line) < least_area:
                _erase(labels, line, number)
                erased += signed_area(line) > least_area / 2
    return erased


def _erase(labels: Labels, line: Points, number: int) -> None:
    low = np.maximum(np.floor(line.min(axis=0)).astype(int) - 1, 0)
    high = np.ceil(line.max(axis=0)).astype(int) + 2
    part = labels[low[1] : high[1], low[0] : high[0]]
    inside = Image.new("1", (part.shape[1], part.shape[0]))
    ImageDraw.Draw(inside).polygon([tuple(point) for point in (line - low).tolist()], fill=1, outline=1)
    part[np.asarray(inside) & (part == number)] = NONE


def find_patches(flat: FlatMap) -> list[Patch]:
    """Every patch that is no paper, in order of tone and of where it begins."""
    found: list[Patch] = []
    for number in np.unique(flat.labels):
        if number == PAPER:
            continue
        field = soften(np.where(flat.labels == number, 0.0, 1.0).astype(np.float32))
        lines = [line * flat.every for line in _lines(field)]
        found += [Patch(int(number), rings) for rings in _nested(lines)]
    return found


def _lines(field: Values) -> list[Points]:
    rimmed = np.pad(field, 1, constant_values=1.0)
    return [line - 1.0 for line in find_iso_lines(rimmed, 0.5, most_points=MOST_EDGE_POINTS)]


def _nested(lines: list[Points]) -> list[tuple[Points, ...]]:
    outer = sorted((line for line in lines if signed_area(line) > 0 and len(line) > 8), key=signed_area)
    polygons = [shapely.Polygon(line) for line in outer]
    holes: list[list[Points]] = [[] for _ in outer]
    for line in lines:
        if signed_area(line) < 0 and len(line) > 8:
            for polygon, held in zip(polygons, holes, strict=True):
                if polygon.area > -signed_area(line) and shapely.contains_xy(polygon, line[0, 0], line[0, 1]):
                    held.append(line)
                    break
    order = sorted(range(len(outer)), key=lambda i: tuple(outer[i].min(axis=0)[::-1]))
    return [(outer[i], *holes[i]) for i in order]
