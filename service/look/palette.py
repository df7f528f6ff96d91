"""The named colours that drawings, handouts and pages share, and the sums that judge them.

Colours are own names and sRGB values. Contrast is reckoned as WCAG 2 does (relative luminance, the ratio
of the lighter plus 0.05 to the darker plus 0.05); lightness is L* of CIE 1976, 0 black to 100 white.
"""

from __future__ import annotations

import re

WHITE = "#ffffff"

LIGHT = {
    "paper": "#fbf8f1",
    "earth": "#23201c",
    "leaf": "#2d6a3e",
    "rhubarb": "#a12d47",
    "slate": "#3c5368",
    "clay": "#a4552a",
    "straw": "#c9a24a",
    "mist": "#dfe6e2",
}
"""The colours by name, on a light ground."""

DARK = {
    "paper": "#1d1f1c",
    "earth": "#ece7dc",
    "leaf": "#86c394",
    "rhubarb": "#f09aab",
    "slate": "#a9c3da",
    "clay": "#e3a37c",
    "straw": "#8a6d2b",
    "mist": "#2e3532",
}
"""The same names on dark screens."""

PRINT = {**LIGHT, "paper": WHITE}
"""On paper the ground is the paper itself."""

TEXT_COLOURS = ("earth", "leaf", "rhubarb", "slate", "clay")
"""The names that may carry text; straw and mist are fills only."""

TEXT_ON_BANDS = ("earth", "leaf", "rhubarb", "slate")
"""The names that may carry text on mist as well: clay falls short of the contrast there."""

TEXT_CONTRAST = 4.5
"""The least contrast of text on its ground (WCAG 2.2, success criterion 1.4.3)."""

_HEX = re.compile(r"#[0-9a-fA-F]{6}")


def parse_colour(colour: str) -> tuple[int, int, int]:
    """Red, green and blue (0 to 255) of `#rrggbb`; a `ValueError` says what would be right.

    >>> parse_colour("#2d6a3e")
    (45, 106, 62)
    """
    if not _HEX.fullmatch(colour):
        raise ValueError(f"{colour!r} is no colour: write six hexadecimal digits after #, such as #2d6a3e")
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def compute_luminance(colour: str) -> float:
    """Relative luminance, 0 to 1, as WCAG 2 defines it (with the sRGB threshold 0.04045).

    >>> compute_luminance("#000000"), compute_luminance("#ffffff")
    (0.0, 1.0)
    """
    red, green, blue = (_linear(channel / 255) for channel in parse_colour(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def compute_contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, 1 to 21, whichever stands first.

    >>> compute_contrast("#000000", "#ffffff")
    21.0
    """
    high, low = sorted((compute_luminance(one), compute_luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def compute_lightness(colour: str) -> float:
    """L* of CIE 1976 (ISO/CIE 11664-4) from the luminance: 0 black, 100 white.

    >>> compute_lightness("#ffffff"), compute_lightness("#000000")
    (100.0, 0.0)
    """
    luminance = compute_luminance(colour)
    if luminance <= 216 / 24389:
        return luminance * 24389 / 27
    return 116 * float(luminance ** (1 / 3)) - 16


def mix(one: str, other: str, share: float) -> str:
    """A colour that lies `share` (0 to 1) of the way from `one` to `other`, in sRGB.

    >>> mix("#000000", "#ffffff", 0.5)
    '#808080'
    """
    pairs = zip(parse_colour(one), parse_colour(other), strict=True)
    return "#" + "".join(f"{int(a + (b - a) * share + 0.5):02x}" for a, b in pairs)


def format_css_variables(colours: dict[str, str]) -> str:
    """The colours as CSS custom properties, `--leaf: #2d6a3e;` and so on, for a `:root` rule."""
    return " ".join(f"--{name}: {value};" for name, value in colours.items())


def _linear(channel: float) -> float:
    if channel <= 0.04045:
        return channel / 12.92
    return float(((channel + 0.055) / 1.055) ** 2.4)
