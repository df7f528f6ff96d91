"""A top as it would be photographed: every patch out of its cloth's photograph, at the scale of the drawing.

A patch is cut out of some place of the photograph, whole where it holds the patch, and lies as its cloth lies
(`service.craft.cloth_lie`). A larger patch repeats the photograph edge to edge. It is never mirrored to hide the line
where it repeats: no cloth is printed so.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from io import BytesIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from service.craft.cloth_lie import UP, Vector
from service.craft.drawing import TopView
from service.craft.drawing.signs import SWATCH_MM
from service.craft.outlines import flatten
from service.craft.swatches import Swatch
from service.craft.tracks import MM_PER_INCH
from workers.recipe import SwatchPicture

DOTS_A_MM = 200 / 25.4
"""Pixels to a millimetre of paper: 200 an inch print as fine as a photograph on plain paper can be seen."""

QUALITY = 85
CURVES_MM = 0.2
GOLDEN, SILVER = 0.6180339887498949, 0.4142135623730951
"""Steps through the photograph from patch to patch that never come back to the same place (golden ratio, and the root
of 2), so that neighbours are not cut from one place."""

Pixels = NDArray[np.uint8]
Ring = Sequence[tuple[float, float]]


@dataclass(frozen=True)
class Photograph:
    """A cloth's photograph at the fineness of the picture that is made of it: `mm` on the cloth is one pixel."""

    pixels: Pixels
    mm: float

    @property
    def sides_mm(self) -> tuple[float, float]:
        """Width and height of the cloth in it."""
        return self.pixels.shape[1] * self.mm, self.pixels.shape[0] * self.mm

    def cut(self, across: NDArray[np.float64], down: NDArray[np.float64]) -> Pixels:
        """The colours at places in millimetres from its top left corner; past its edge it begins again."""
        rows = np.floor(down / self.mm).astype(np.int64) % self.pixels.shape[0]
        columns = np.floor(across / self.mm).astype(np.int64) % self.pixels.shape[1]
        found: Pixels = self.pixels[rows, columns]
        return found


def open_photograph(picture: SwatchPicture, mm: float) -> Photograph:
    """The photograph, no finer than `mm` a pixel: what is finer than a dot of print would only flicker."""
    swatch: Swatch = picture.swatch
    image = Image.open(BytesIO(picture.data)).convert("RGB")
    if swatch.mm_per_pixel < mm:
        share = swatch.mm_per_pixel / mm
        size = (max(1, round(image.width * share)), max(1, round(image.height * share)))
        image = image.resize(size, Image.Resampling.BOX)
    return Photograph(np.asarray(image), swatch.width_mm / image.width)


def photograph_top(
    top: TopView, lies: Sequence[Vector], pictures: Mapping[str, SwatchPicture], scale: float
) -> TopView:
    """The top with the photographs of its cloths, by cloth key, under its lines; `scale` is mm on paper to an inch.

    `lies` say where up of the cloth points in each patch. Pieces lie upright, as they are placed.
    """
    if not pictures:
        return top
    mm = float(MM_PER_INCH) / (scale * DOTS_A_MM)
    photographs = {key: open_photograph(picture, mm) for key, picture in pictures.items()}
    cloths = {
        key: replace(cloth, filled=False, hatched=False, sample=_write_sample(photographs[key], mm))
        if key in photographs
        else replace(cloth, filled=False)
        for key, cloth in top.cloths.items()
    }
    ground = _paint(top, lies, photographs, mm)
    return replace(top, cloths=cloths, ground=write_jpeg(ground))


def turn_grey(jpeg: bytes) -> bytes:
    """The photograph in greys of the same lightness: luminance by IEC 61966-2-1, written as grey."""
    pixels = np.asarray(Image.open(BytesIO(jpeg)).convert("RGB")) / 255
    linear = np.where(pixels <= 0.04045, pixels / 12.92, ((pixels + 0.055) / 1.055) ** 2.4)
    light = linear @ np.array([0.2126, 0.7152, 0.0722])
    grey = np.where(light <= 0.0031308, light * 12.92, 1.055 * light ** (1 / 2.4) - 0.055)
    return write_jpeg(Image.fromarray(np.round(grey * 255).astype(np.uint8)))


def write_jpeg(image: Image.Image) -> bytes:
    """The picture as JPEG, the same bytes for the same pixels."""
    out = BytesIO()
    image.save(out, "JPEG", quality=QUALITY)
    return out.getvalue()


def _paint(
    top: TopView, lies: Sequence[Vector], photographs: Mapping[str, Photograph], mm: float
) -> Image.Image:
    inch = float(MM_PER_INCH)
    size = max(1, round(top.width * inch / mm)), max(1, round(top.height * inch / mm))
    ground = Image.new("RGB", size, "white")
    for number, (rings, cloth, up) in enumerate(_list_shapes(top, lies)):
        photograph = photographs.get(cloth)
        if photograph is None:
            colour = top.cloths[cloth].colour if cloth in top.cloths else "#ffffff"
            _fill(ground, rings, mm, Image.new("RGB", size, colour))
        else:
            _fill(ground, rings, mm, _cut(rings, photograph, up, number, mm))
    return ground


def _list_shapes(top: TopView, lies: Sequence[Vector]) -> Iterator[tuple[list[Ring], str, Vector]]:
    """Patches and pieces in the order they lie: rings in mm, cloth, and where up of it points."""
    inch = float(MM_PER_INCH)
    for patch, up in zip(top.patches, lies, strict=True):
        yield patch.place(lambda corner: (corner[0] * inch, corner[1] * inch)), patch.cloth, up
    for piece in top.pieces:
        rings = [[(float(x), float(y)) for x, y in flatten(r, tolerance_mm=CURVES_MM)] for r in piece.rings]
        yield list(rings), piece.cloth, UP


def _cut(rings: Sequence[Ring], photograph: Photograph, up: Vector, number: int, mm: float) -> Image.Image:
    """What the photograph shows in the box of a shape that is cut from it."""
    left, top, right, bottom = _box(rings[0], mm)
    y, x = np.mgrid[top:bottom, left:right] + 0.5
    right_way = (-up[1], up[0])
    across = (x * right_way[0] + y * right_way[1]) * mm
    down = -(x * up[0] + y * up[1]) * mm
    starts = []
    for axis, side, step in zip(
        (right_way, (-up[0], -up[1])), photograph.sides_mm, (GOLDEN, SILVER), strict=True
    ):
        places = [px * axis[0] + py * axis[1] for px, py in rings[0]]
        room = side - (max(places) - min(places))
        starts.append(math.modf(number * step)[0] * (room if room > 0 else side) - min(places))
    return Image.fromarray(photograph.cut(across + starts[0], down + starts[1]))


def _fill(ground: Image.Image, rings: Sequence[Ring], mm: float, cloth: Image.Image) -> None:
    """Lay a cloth into a shape (even-odd); the cloth begins at the shape's box, or is as large as the whole."""
    left, top, right, bottom = _box(rings[0], mm)
    mask = Image.new("1", (right - left, bottom - top))
    draw = ImageDraw.Draw(mask)
    for place, ring in enumerate(rings):
        draw.polygon(
            [(x / mm - left - 0.5, y / mm - top - 0.5) for x, y in ring], fill=1 if place == 0 else 0
        )
    ground.paste(cloth.crop((0, 0, right - left, bottom - top)), (left, top), mask)


def _box(ring: Ring, mm: float) -> tuple[int, int, int, int]:
    """The pixels that hold a ring, at least one."""
    xs, ys = ([point[axis] / mm for point in ring] for axis in (0, 1))
    left, top = math.floor(min(xs)), math.floor(min(ys))
    return left, top, max(left + 1, math.ceil(max(xs))), max(top + 1, math.ceil(max(ys)))


def _write_sample(photograph: Photograph, mm: float) -> bytes:
    """A piece of the photograph as large as a swatch of the legend, at the scale of the drawing."""
    columns, rows = (max(1, round(side * DOTS_A_MM)) for side in SWATCH_MM)
    y, x = np.mgrid[0:rows, 0:columns] + 0.5
    return write_jpeg(Image.fromarray(photograph.cut(x * mm, y * mm)))
