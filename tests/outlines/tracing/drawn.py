"""Known shapes on a sheet, and pictures of them, made without the code that traces them.

A picture holds how much of each pixel the shapes cover, worked out edge by edge (exact along rows, a sum over
fine rows down); the truth is the polygon that was painted, in Shapely. All lengths are in mm, y down.
"""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
import shapely
from PIL import Image
from shapely.geometry import Polygon

A4 = (210.0, 297.0)
FINER = 8
"""Rows to a pixel."""
INK, PAPER = 40, 235


def wavy(radius, waves, cx, cy, n=4000):
    """A round shape whose radius swings: `waves` is a list of (how much, how often, where)."""
    t = np.linspace(0, 2 * np.pi, n, endpoint=False)
    r = radius + sum(much * np.cos(often * t + where) for much, often, where in waves)
    return Polygon(np.stack([cx + r * np.cos(t), cy + r * np.sin(t)], axis=1))


def leaf(cx, cy, length=50.0, radius=40.0):
    """Two arcs that meet in sharp tips: 77 degrees with these sizes."""
    half = np.arcsin(length / 2 / radius)
    a = np.linspace(-half, half, 2000)
    drop = radius * np.cos(half)
    top = np.stack([cx + radius * np.sin(a), cy - radius * np.cos(a) + drop], axis=1)
    low = np.stack([cx - radius * np.sin(a), cy + radius * np.cos(a) - drop], axis=1)
    return Polygon(np.concatenate([top[:-1], low[:-1]]))


def star(cx, cy, outer=25.0, inner=11.0, rays=5):
    """A star: straight sides, sharp tips and notches."""
    k = np.arange(2 * rays)
    r = np.where(k % 2 == 0, outer, inner)
    return Polygon(np.stack([cx + r * np.sin(k * np.pi / rays), cy - r * np.cos(k * np.pi / rays)], axis=1))


def rectangle(x, y, width, height, rounded=0.0):
    """A rectangle, with round corners where asked."""
    box = shapely.box(x + rounded, y + rounded, x + width - rounded, y + height - rounded)
    return box.buffer(rounded, quad_segs=400) if rounded else box


def bean(cx, cy):
    """A bent oval."""
    t = np.linspace(0, 2 * np.pi, 4000, endpoint=False)
    return Polygon(np.stack([cx + 22 * np.cos(t), cy + 10 * np.sin(t) + 6 * np.cos(t) ** 2], axis=1))


SMOOTH = {
    "blob": wavy(24, [(3, 3, 0.4), (1.5, 5, 0)], 50, 55),
    "flower": wavy(22, [(5, 6, 0)], 145, 55),
    "circle": wavy(20, [], 50, 115),
    "bean": bean(150, 245),
    "lozenge": rectangle(120, 98, 50, 34, rounded=6),
}
CORNERED = {
    "leaf": leaf(50, 180),
    "star": star(145, 180),
    "box": rectangle(30, 225, 45, 30),
    "slip": Polygon([(92, 100), (95, 100), (95, 150), (92, 150)]),  # 3 mm wide
}
HOLED = {
    "ring": wavy(16, [], 100, 255).difference(wavy(9, [], 100, 255)),
}
SHEET = {**SMOOTH, **CORNERED, **HOLED}


@dataclass(frozen=True)
class Flaws:
    """What a scanner or a camera does to a sheet."""

    skew: float = 2.0
    blur: float = 0.8
    noise: float = 6.0
    jpeg: int | None = None
    light: tuple[float, float] = (0.06, 0.04)


def skewed(shape, degrees, size=A4):
    """The shape as it lies on the glass, turned about the middle of the sheet."""
    return shapely.affinity.rotate(shape, degrees, origin=(size[0] / 2, size[1] / 2))


def paint(shapes, *, dpi, size=A4, flaws=Flaws(), seed=1, ink=INK):  # frozen
    """A grey picture (uint8) of shapes that are given as they lie on the glass."""
    return develop(cover_sheet(shapes, dpi=dpi, size=size), flaws=flaws, seed=seed, ink=ink)


def cover_sheet(shapes, *, dpi, size=A4):
    """How much of each pixel of a sheet the shapes cover, from 0 to 1."""
    scale = dpi / 25.4
    wide, high = (round(side * scale) for side in size)
    return sum(coverage(shapely.affinity.scale(s, scale, scale, origin=(0, 0)), wide, high) for s in shapes)


def develop(covered, *, flaws=Flaws(), seed=1, ink=INK):  # frozen
    """What a scanner makes of a covered sheet: blur, uneven light and noise (uint8)."""
    high, wide = covered.shape
    values = blurred(PAPER + (ink - PAPER) * covered, flaws.blur)
    y, x = np.mgrid[0:high, 0:wide]
    values *= 1 - flaws.light[0] * x / wide - flaws.light[1] * y / high
    values += np.random.default_rng(seed).normal(0, flaws.noise, values.shape)
    return np.clip(np.round(values), 0, 255).astype(np.uint8)


def coverage(shape, wide, high):
    """How much of each pixel a shape covers: exact along rows, `FINER` rows to a pixel.

    Along a row the covered length left of x is a sum over the edges that cross the row; what a pixel
    holds is the difference at its two sides.
    """
    steps = np.zeros((high, wide + 2))
    oriented = shapely.geometry.polygon.orient(shape)
    for ring in (oriented.exterior, *oriented.interiors):
        at = np.array(ring.coords)
        (x0, y0), (x1, y1) = at[:-1].T, at[1:].T
        first, last = (np.ceil(np.minimum(y0, y1) * FINER - 0.5), np.ceil(np.maximum(y0, y1) * FINER - 0.5))
        count = (last - first).astype(int)
        edge = np.repeat(np.arange(len(x0)), count)
        row = np.repeat(first, count) + np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count)
        y = (row + 0.5) / FINER
        x = x0[edge] + (x1 - x0)[edge] * (y - y0[edge]) / (y1 - y0)[edge]
        sign = np.where(y1 > y0, -1.0, 1.0)[edge] / FINER
        x = np.clip(x, 0, wide)  # what lies beyond the rim is not seen
        pixel = np.floor(x).astype(int)
        line = (row // FINER).astype(int)
        np.add.at(steps, (line, pixel), sign * (1 - (x - pixel)))
        np.add.at(steps, (line, pixel + 1), sign * (x - pixel))
    return np.cumsum(steps, axis=1)[:, :wide]


def blurred(values, sigma):
    """A Gaussian blur, as a sum over shifted pictures."""
    if not sigma:
        return values
    reach = int(np.ceil(4 * sigma))
    weights = np.exp(-(np.arange(-reach, reach + 1) ** 2) / (2 * sigma**2))
    weights /= weights.sum()
    for _ in range(2):
        padded = np.pad(values, [(reach, reach), (0, 0)], mode="edge")
        values = sum(weight * padded[k : k + len(values)] for k, weight in enumerate(weights)).T
    return values


def encode(values, form="PNG", **how):
    """The bytes of a picture file."""
    out = io.BytesIO()
    Image.fromarray(np.asarray(values)).save(out, form, **how)
    return out.getvalue()


def paint_flat(layers, *, dpi, size, flaws=Flaws(), seed=1):  # frozen
    """A picture in colours (uint8, three a pixel) of shapes that do not overlap: (shape, (red, green, blue))."""
    scale = dpi / 25.4
    wide, high = (round(side * scale) for side in size)
    covered = [
        coverage(shapely.affinity.scale(shape, scale, scale, origin=(0, 0)), wide, high)
        for shape, _ in layers
    ]
    random = np.random.default_rng(seed)
    y, x = np.mgrid[0:high, 0:wide]
    light = 1 - flaws.light[0] * x / wide - flaws.light[1] * y / high
    bands = []
    for band in range(3):
        inked = [(ink[band] - PAPER) * part for (_, ink), part in zip(layers, covered, strict=True)]
        values = blurred(PAPER + sum(inked), flaws.blur) * light
        bands.append(values + random.normal(0, flaws.noise, values.shape))
    return np.clip(np.round(np.stack(bands, axis=-1)), 0, 255).astype(np.uint8)
