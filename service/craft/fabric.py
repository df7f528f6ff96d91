"""Cloth and thread: what a project is made of, as the document names it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

TRIM_IN_PLACE = "trim in place"
"""Cloth laid over its placement line, tacked down and trimmed there: it never goes on a cutting mat."""


@dataclass(frozen=True)
class StashPiece:
    """A piece already at home: inches, and how many there are."""

    width: Fraction
    length: Fraction
    count: int


@dataclass(frozen=True)
class Fabric:
    """One cloth. Lengths in inches; `colour` is sRGB as `#rrggbb`; `shrinkage` a share (0.03 is 3 %).

    `price` is (amount, for so many inches of length) or None.
    """

    key: str
    name: str
    colour: str
    usable_width: Fraction
    directional: bool = False
    shrinkage: Fraction = Fraction(0)
    price: tuple[Fraction, Fraction] | None = None
    stash: tuple[StashPiece, ...] = ()
    trim_in_place: bool = False


@dataclass(frozen=True)
class Thread:
    """A sewing thread by a name of our own and its sRGB colour."""

    name: str
    colour: str


WHITE = Thread("white", "#ffffff")
"""The thread of a piece that names none."""
