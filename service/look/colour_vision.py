"""What two colours look like to people who see red and green alike, and how far apart two colours are.

The two commonest kinds (about one man in twelve has one of them or a milder form): linear sRGB through the matrices of
Viénot, Brettel and Mollon, "Digital video colourmaps for checking the legibility of displays by dichromats", Color
Research and Application 24 (1999); their figures for sRGB from memory, held in tests against another library's reading
of the same paper, and against what follows from the method: greys stay as they are.
"""

from __future__ import annotations

import math

from service.look.palette import parse_colour

Vector = tuple[float, float, float]

KINDS: dict[str, tuple[Vector, Vector, Vector]] = {
    "without red receptors (protanopia)": (
        (0.11238, 0.88762, 0.0),
        (0.11238, 0.88762, 0.0),
        (0.00401, -0.00401, 1.0),
    ),
    "without green receptors (deuteranopia)": (
        (0.29275, 0.70725, 0.0),
        (0.29275, 0.70725, 0.0),
        (-0.02234, 0.02234, 1.0),
    ),
}
"""Name of the kind, and its matrix for linear sRGB."""

TO_XYZ = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
"""Linear sRGB to CIE XYZ (IEC 61966-2-1)."""

DAYLIGHT: Vector = (0.9505, 1.0, 1.0890)
"""White of D65."""


def measure_difference(one: str, other: str, kind: str = "") -> float:
    """How far apart two colours are (the distance in CIELAB, CIE 1976), seen with all receptors or as a `kind` sees.

    >>> round(measure_difference("#000000", "#ffffff"))
    100
    """
    return math.dist(_lab(_see(one, kind)), _lab(_see(other, kind)))


def _see(colour: str, kind: str) -> Vector:
    linear = tuple(_linear(channel / 255) for channel in parse_colour(colour))
    return _times(KINDS[kind], linear) if kind else (linear[0], linear[1], linear[2])


def _times(matrix: tuple[Vector, Vector, Vector], vector: tuple[float, ...]) -> Vector:
    rows = [sum(a * b for a, b in zip(row, vector, strict=True)) for row in matrix]
    return max(rows[0], 0.0), max(rows[1], 0.0), max(rows[2], 0.0)


def _lab(linear: Vector) -> Vector:
    x, y, z = (_root(part / white) for part, white in zip(_times(TO_XYZ, linear), DAYLIGHT, strict=True))
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _root(part: float) -> float:
    return math.cbrt(part) if part > 216 / 24389 else part * 24389 / 27 / 116 + 16 / 116


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
