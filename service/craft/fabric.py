"""Cloth and thread: what a project is made of, as the document names it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from service.craft.accuracy import THICKNESS
from service.craft.cutting_choices import BUYING_STEPS, DEFAULT_STRAIGHTENING

TRIM_IN_PLACE = "trim in place"
"""Cloth laid over its placement line, tacked down and trimmed there: it never goes on a cutting mat."""


@dataclass(frozen=True)
class StashPiece:
    """A piece already at home: inches, and how many there are."""

    width: Fraction
    length: Fraction
    count: int


@dataclass(frozen=True)
class SoldAs:
    """A piece the cloth is sold as, cut already: inches across and along the cloth; `price` of one, or None."""

    name: str
    width: Fraction
    length: Fraction
    price: Fraction | None = None


@dataclass(frozen=True)
class Fabric:
    """One cloth. Lengths in inches; `colour` is sRGB as `#rrggbb`; `shrinkage` a share (0.03 is 3 %).

    `price` is (amount, for so many inches of length) or None. `directional` cloth has a print with a right way up,
    `napped` cloth a pile that runs one way. `straightening` is lost where its end is cut straight, and shops cut it
    in steps of `buying_step`. `thickness` is that of one layer, `swatch` the name of a photograph or nothing.
    """

    key: str
    name: str
    colour: str
    usable_width: Fraction
    directional: bool = False
    shrinkage: Fraction = Fraction(0)
    price: tuple[Fraction, Fraction] | None = None
    stash: tuple[StashPiece, ...] = ()
    sold_as: SoldAs | None = None
    trim_in_place: bool = False
    napped: bool = False
    straightening: Fraction = DEFAULT_STRAIGHTENING["in"]
    buying_step: Fraction = BUYING_STEPS["1/8 yd"]
    thickness: Fraction = THICKNESS
    swatch: str = ""

    @property
    def one_way(self) -> bool:
        """Whether its pieces lie on the cloth as they stand in the top, never turned: by print or by pile."""
        return self.directional or self.napped


@dataclass(frozen=True)
class Thread:
    """A sewing thread by a name of our own and its sRGB colour."""

    name: str
    colour: str


WHITE = Thread("white", "#ffffff")
"""The thread of a piece that names none."""
