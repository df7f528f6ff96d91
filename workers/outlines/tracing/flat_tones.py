"""The flat tones of a page: which greys or colours lie on it in patches, told apart from light and shade.

A tone is three shares (red, green, blue) of the paper's light, or one of a grey picture.
"""

from __future__ import annotations

import functools
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from workers.outlines.tracing.ink import LEAST_CONTRAST, soften
from workers.outlines.tracing.label_map import NONE, grow_labels
from workers.outlines.tracing.paper import TILE_PX, Tiles
from workers.outlines.tracing.picture import Picture

Values = NDArray[np.float32]
Labels = NDArray[np.uint8]

PAPER = 0
"""The number of the paper among the tones."""

LOOK_AT_PIXELS = 400_000
"""So many say which tones there are: a page at about 60 dots an inch."""

FLAT = 0.1
"""Among neighbours that differ by less there is no edge between two tones."""

REACH = 0.06
"""What is within this share of light of a tone, in each colour, belongs to it."""

GRAIN, LEAST_FLAT = 1.8, 0.02
"""Where neighbours differ by more than this multiple of what they mostly do, and a little, an edge begins."""

GRAINY = 0.03
"""A picture whose neighbours mostly differ by more is softened before its tones are sought."""

CLEAR_OF_GRAIN = 4.0
"""Tones that lie less far apart than so many times the grain have no border to be found between the pixels."""

TOO_GRAINY = (
    "flat tones touch, but the picture is too grainy to part them: they were taken as one dark shape; "
    "a scan at 300 dots an inch or more shows their border"
)

LEAST_APART = 0.13
"""Tones less far apart are one tone in uneven light."""

BETWEEN_SHARE = 0.15
"""Where so much, against the rarer of two tones, lies halfway between them, they are one that fades."""

BIN = 0.02
MOST_HEAPS = 60

FOOT, FOOT_SHARE = 0.15, 0.05
"""So near to a fuller heap, and so much less than it, is its foot."""

LEAST_PIXELS = 16
MOST_TONES = 12
"""A page of more is a photograph, not flat colours."""

STRAY_SHARE = 0.25
"""Where more than this of all that is flat and no paper is of no tone, it is shading."""

TOUCHING_PIXELS = 3
GROWN = 4

GREY_OF = np.array([0.299, 0.587, 0.114])
"""How much each colour adds to grey (ITU-R BT.601, which Pillow follows)."""


@dataclass(frozen=True)
class Heap:
    """Flat pixels of about one colour: their mean, and how many there are."""

    centre: Values
    count: int

    def apart(self, colour: Values) -> float:
        """How far it lies from a colour, in the share of light that differs most."""
        return float(np.abs(self.centre - colour).max())


@dataclass(frozen=True)
class Tones:
    """The tones of a page: `centres` (n, colours), and for each the number of the tone it is a part of."""

    centres: Values
    belongs: NDArray[np.intp]

    def nearest(self, colours: Values, reach: float = REACH) -> Labels:
        """The tone of each colour (..., colours), `NONE` where none is near."""
        found = np.full(colours.shape[:-1], NONE, dtype=np.uint8)
        nearest = np.full(colours.shape[:-1], np.float32(reach))
        for centre, number in zip(self.centres[::-1], self.belongs[::-1], strict=True):
            off = _most_apart(colours, centre)
            near = off <= nearest
            found[near], nearest[near] = number, off[near]
        return found

    def tone(self, number: int) -> Values:
        """The middle of a tone."""
        return np.asarray(self.centres[self.belongs == number].mean(axis=0))

    def least_apart(self) -> float:
        """How far the two tones that are most alike lie apart."""
        tones = [self.tone(number) for number in range(int(self.belongs.max()) + 1)]
        return min(float(np.abs(one - other).max()) for one, other in combinations(tones, 2))

    def light(self, number: int) -> float:
        """How light a tone is against the paper."""
        return grey_of(self.tone(number)) / grey_of(self.tone(PAPER))


def _most_apart(colours: Values, centre: Values) -> Values:
    """How far colours (..., colours) lie from one, in the share of light that differs most: band by band, which is
    far cheaper than over a short last axis."""
    return functools.reduce(np.maximum, (np.abs(colours[..., k] - part) for k, part in enumerate(centre)))


def grey_of(colour: Values) -> float:
    """The grey of one colour."""
    return float(colour[0]) if len(colour) == 1 else float(colour @ GREY_OF)


def find_tones(picture: Picture, light: Tiles, level: float | None, notes: list[str]) -> Tones | None:
    """The flat tones of a page where they matter: some touch, or are lighter than `level`. Otherwise None.

    Where the picture's grain hides the border of two tones, None too, and a note says so.
    """
    rough = _small(picture, light)
    grain = float(np.median(_spread(rough)))
    small = rough if grain <= GRAINY else _softened(rough)
    flat = is_flat(small)
    tones = _modes(small[flat]) if flat.any() else None
    if tones is None or int(tones.belongs.max()) == PAPER:
        return None
    numbers = range(1, int(tones.belongs.max()) + 1)
    labels = np.where(flat, tones.nearest(small), NONE).astype(np.uint8)
    unseen = level is None or any(tones.light(number) >= level for number in numbers)
    if not unseen and not _touch(grow_labels(labels, GROWN)):
        return None
    if tones.least_apart() < CLEAR_OF_GRAIN * grain:
        notes.append(TOO_GRAINY)
        return None
    return tones


def _small(picture: Picture, light: Tiles) -> Values:
    """The picture made small, each colour divided by the paper's light."""
    image = picture.colour or Image.fromarray(np.clip(picture.grey, 0, 255).astype(np.uint8))
    by = max(1, round((image.width * image.height / LOOK_AT_PIXELS) ** 0.5))
    made_small = image.reduce(by)
    box = (0, 0, image.width / TILE_PX, image.height / TILE_PX)
    sized = Image.fromarray(light.astype(np.float32)).resize(made_small.size, Image.Resampling.BILINEAR, box)
    values = np.asarray(made_small, dtype=np.float32).reshape(made_small.height, made_small.width, -1)
    return np.asarray(values / np.asarray(sized)[..., None])


def _softened(values: Values) -> Values:
    return np.stack([soften(values[..., k].copy()) for k in range(values.shape[2])], axis=-1)


def is_flat(colours: Values) -> NDArray[np.bool_]:
    """Where no edge is: neighbours differ by hardly more than the picture's own grain makes them."""
    spread = _spread(colours)
    return np.asarray(spread < min(FLAT, GRAIN * float(np.median(spread)) + LEAST_FLAT))


def _spread(colours: Values) -> Values:
    """The greatest difference among a pixel and its eight neighbours, in the colour that differs most."""
    low, high = colours, colours
    for axis in (0, 1):
        width = [(1, 1) if a == axis else (0, 0) for a in range(3)]
        padded_low, padded_high = np.pad(low, width, mode="edge"), np.pad(high, width, mode="edge")
        parts = [slice(0, -2), slice(1, -1), slice(2, None)]
        cut = [(part, slice(None)) if axis == 0 else (slice(None), part) for part in parts]
        low = np.minimum(np.minimum(padded_low[cut[0]], padded_low[cut[1]]), padded_low[cut[2]])
        high = np.maximum(np.maximum(padded_high[cut[0]], padded_high[cut[1]]), padded_high[cut[2]])
    return np.asarray((high - low).max(axis=-1))


def _modes(colours: Values) -> Tones | None:
    """The tones that flat pixels heap up at, fullest first; None where they do not heap up."""
    values, counts = _counted(colours)
    heaps: list[Heap] = []
    left = counts.astype(np.int64)
    while left.max() > 0 and len(heaps) < MOST_HEAPS:
        centre = values[np.argmax(left)]
        for _ in range(4):
            near = (np.abs(values - centre).max(axis=1) <= REACH) & (left > 0)
            centre = np.average(values[near], axis=0, weights=left[near]).astype(np.float32)
        near = np.abs(values - centre).max(axis=1) <= REACH
        heaps.append(Heap(centre, int(left[near].sum())))
        left[near] = 0
    large = [heap for heap in heaps if heap.count >= LEAST_PIXELS]
    return _parted(values, counts, large, int(counts.sum())) if large else None


def _counted(colours: Values) -> tuple[Values, NDArray[np.intp]]:
    """The colours in steps of `BIN`, and how many there are of each: in order of red, green, blue."""
    keys = np.floor(colours / BIN).astype(np.int32)
    sides = tuple(int(side) + 1 for side in keys.max(axis=0))
    flat = np.ravel_multi_index(tuple(keys.T), sides)
    numbers, counts = np.unique(flat, return_counts=True)
    bins = np.stack(np.unravel_index(numbers, sides), axis=1)
    return ((bins + 0.5) * BIN).astype(np.float32), counts


def _parted(values: Values, counts: NDArray[np.intp], heaps: list[Heap], whole: int) -> Tones | None:
    """The heaps without the foothills of fuller ones; those that fade into each other are one tone."""
    paper = min(heaps, key=lambda heap: abs(grey_of(heap.centre) - 1))
    ink = [heap for heap in heaps if heap.apart(paper.centre) >= LEAST_CONTRAST]
    kept = [heap for n, heap in enumerate(ink) if not any(_is_foothill(heap, other) for other in ink[:n])]
    inked = whole - sum(heap.count for heap in heaps if heap.apart(paper.centre) < LEAST_CONTRAST)
    if not kept or inked - sum(heap.count for heap in kept) > STRAY_SHARE * inked:
        return None
    belongs = np.arange(len(kept)) + 1
    for one in range(len(kept)):
        for other in range(one):
            third = [heap for n, heap in enumerate(kept) if n not in (one, other)]
            if _fade(values, counts, kept[one], kept[other], third):
                belongs[belongs == belongs[one]] = belongs[other]
    _, numbered = np.unique(np.append(belongs, PAPER), return_inverse=True)
    centres = np.array([heap.centre for heap in kept] + [paper.centre])
    return Tones(centres, numbered) if int(numbered.max()) <= MOST_TONES else None


def _is_foothill(heap: Heap, fuller: Heap) -> bool:
    return heap.apart(fuller.centre) < FOOT and heap.count < FOOT_SHARE * fuller.count


def _fade(values: Values, counts: NDArray[np.intp], one: Heap, other: Heap, third: Sequence[Heap]) -> bool:
    """Whether two heaps are one tone: near, or with much between them that is of no third one."""
    if one.apart(other.centre) < LEAST_APART:
        return True
    middle = np.abs(values - (one.centre + other.centre) / 2).max(axis=1) <= REACH / 2
    for heap in third:
        middle &= np.abs(values - heap.centre).max(axis=1) > REACH
    return int(counts[middle].sum()) > BETWEEN_SHARE * min(one.count, other.count)


def _touch(labels: Labels) -> bool:
    """Whether two tones that are no paper lie side by side."""
    touching = 0
    for here, there in ((labels[:, 1:], labels[:, :-1]), (labels[1:], labels[:-1])):
        both = (here != there) & (np.maximum(here, there) != NONE) & (np.minimum(here, there) != PAPER)
        touching += int(both.sum())
    return touching >= TOUCHING_PIXELS
