"""How much one upload may ask for, so that a small file cannot keep the studio busy for long."""

from __future__ import annotations

from dataclasses import dataclass

LARGEST_COORDINATE_MM = 10_000.0
"""Ten metres to each side: further out there is no cloth, only a slip or an attack."""

SMALLEST_SIDE_MM = 0.5
"""Thinner than this no cloth can be cut: a hair line or a speck, not a shape."""

CLOSING_GAP_MM = 0.5
"""Ends this near to each other are taken for one: the hand that drew them meant to meet."""

LARGEST_NUMBER = 1e9
"""No number in a drawing needs to be larger; beyond it sums stop being finite."""


@dataclass(frozen=True)
class Limits:
    """The budgets of one reading; each is refused by name when it is spent."""

    file_bytes: int = 5_000_000
    elements: int = 20_000
    depth: int = 64
    used_elements: int = 50_000
    segments: int = 200_000
    shapes: int = 1_000
    contours_of_a_shape: int = 500
    flattened_points: int = 400_000
    close_pairs: int = 2_000_000
    crossings: int = 2_000
