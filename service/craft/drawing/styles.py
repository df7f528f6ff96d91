"""How lines look in every drawing: widths in millimetres on paper, colours from the palette."""

from __future__ import annotations

from dataclasses import dataclass

from service.look.palette import PRINT, WHITE, compute_lightness, mix

EARTH = PRINT["earth"]
MIST = PRINT["mist"]
PAPER = WHITE


@dataclass(frozen=True)
class Stroke:
    """A line: width in mm, colour, dashes in mm (drawn, left out, drawn, …), and whether ends are round."""

    width_mm: float
    colour: str = EARTH
    dash_mm: tuple[float, ...] = ()
    round_ends: bool = False


PATCH_EDGE = Stroke(0.35)
"""Round every patch and piece."""

SEWN = Stroke(0.18)
"""A seam already sewn: thin and continuous."""

CUT = Stroke(0.5)
"""A line to cut: solid."""

SEW = Stroke(0.35, dash_mm=(1.5, 1.5))
"""A line to sew: an even dash."""

FOLD = Stroke(0.45, dash_mm=(0.0, 1.1), round_ends=True)
"""A fold: dotted."""

WITNESS = Stroke(0.12)
"""Witness lines and dimension lines."""

GRAIN = Stroke(0.25)
"""The grain arrow."""

BRING = Stroke(0.35, dash_mm=(3.0, 1.5))
"""Round what a viewer brings along: longer dashes than a line to sew, and words inside."""

WASTE = Stroke(0.1, mix(EARTH, PAPER, 0.45))
"""The cross-hatch of cloth that is left over."""

CASING_SHARE = 0.55
"""How far towards white the casing of an edge between dark cloths goes."""

HATCH_WIDTH_MM = 0.13
HATCH_ANGLES = (45.0, 135.0, 20.0, 110.0, 70.0, 160.0)
"""Degrees, by the order of cloths, so that two cloths of one lightness still differ in grey."""

DENSEST_MM, LOOSEST_MM = 0.9, 5.0
BARE_LIGHTNESS = 96.0
"""Cloths lighter than this are left bare: white is white."""


def hatch_spacing_mm(colour: str) -> float | None:
    """Millimetres between hatch lines: the darker the cloth (L*), the closer; None for white cloth.

    >>> hatch_spacing_mm("#ffffff") is None
    True
    >>> hatch_spacing_mm("#222222") < hatch_spacing_mm("#888888") < hatch_spacing_mm("#eeeeee")
    True
    """
    lightness = compute_lightness(colour)
    if lightness >= BARE_LIGHTNESS:
        return None
    return float(DENSEST_MM + (LOOSEST_MM - DENSEST_MM) * (lightness / 100) ** 1.5)


def hatch_stroke(colour: str) -> Stroke:
    """The hatch line of a cloth: the cloth's colour half way to dark, or to white on dark cloth."""
    dark = compute_lightness(colour) < 50
    return Stroke(HATCH_WIDTH_MM, mix(colour, PAPER if dark else EARTH, 0.5))
