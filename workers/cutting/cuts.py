"""What is cut: one line of the cutting list."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from service.craft.joining import Joined

SQUARE, RECTANGLE, STRIP, POLYGON = "square", "rectangle", "strip", "polygon"


@dataclass(frozen=True, kw_only=True)
class Cut:
    """So many equal pieces of one cloth, straight off the mat. Inches.

    `width` lies across the roll and `height` along it, unless the piece is turned, which `may_turn`
    allows; `then` is what is done with a piece before it is sewn; `makes` patches come out of all of
    them, at least the `wanted` ones; `uses` names what they are for; `pointer` says where in the document
    the first of them stands; `finishing` cuts serve the binding or the backing, `applique` cuts the
    pieces laid on top: neither are patches;
    `in_sets`: strips that are sewn side by side before anything else; `together`: pieces that are joined later.
    `template` names what a polygon is cut with. `grain` says which way of the roll a strip runs, where
    that is asked for; `joined` how a strip comes of several pieces.
    """

    fabric: str
    width: Fraction
    height: Fraction
    count: int
    makes: int
    wanted: int
    shape: str
    then: str = ""
    method: str = ""
    uses: tuple[str, ...] = ()
    may_turn: bool = False
    pointer: str = ""
    finishing: bool = False
    applique: bool = False
    notes: tuple[str, ...] = ()
    in_sets: bool = False
    together: bool = False
    template: str = ""
    grain: str = ""
    joined: Joined | None = None

    @property
    def serves(self) -> str:
        """What comes out of it: patches, pieces laid on top, or what finishes the quilt."""
        return "finishing" if self.finishing else "pieces" if self.applique else "patches"

    @property
    def area(self) -> Fraction:
        """Cloth in all the pieces, in square inches."""
        return self.width * self.height * self.count
