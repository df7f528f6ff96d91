"""What finishes a top: binding, backing, batting, sleeve. And the sources its outlines come from."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from service.craft.cutting_choices import ACROSS, ALONG, DIAGONAL_JOIN, LEAST_CLOTH, STRAIGHT_JOIN
from service.craft.fabric import Fabric
from service.craft.measure import Exact, Number, exact

STRAIGHT, BIAS, CONTINUOUS = BINDING_CUTS = ("straight", "bias", "continuous bias")
BINDING_JOINS = (DIAGONAL_JOIN, STRAIGHT_JOIN)
DOUBLE, SINGLE = BINDING_FOLDS = ("double", "single")
LEAST, VERTICAL, HORIZONTAL = BACKING_SEAMS = (LEAST_CLOTH, ALONG, ACROSS)
OWN, SHARED, VIEWER = RIGHTS = ("own", "may be shared", "viewer must own")

BINDING_EXTRA = Fraction(12)
"""Inches of binding on top of the way round, for the corners and the last join. Published values run from 0 to 24
(binding tables of the tests); 12 is common practice, no source."""

BACKING_SEAM = Fraction(1, 2)
"""Seam allowance of the back, in inches: a wide seam, pressed open (quiltingboard.com t290638)."""

SLEEVE_SHORTER = Fraction(2)
"""Inches a sleeve's strip is cut shorter than the quilt is wide; its hems take a little more. Common practice, no
source."""

LAYERS = {DOUBLE: 6, SINGLE: 4}
"""How often its finished width a binding strip is wide. Single: sew-whats-new.com, M. Lewis (1/2 in from 2 in);
double: from memory (3/8 in from 2 1/4 in)."""


@dataclass(frozen=True)
class Binding:
    """Strips round the edge. `strip` is the cut width, `extra` what is added to the way round, in inches.

    `finished` is the width that shows, where the document gives that in place of the strip.
    """

    fabric: str
    strip: Fraction
    cut: str = STRAIGHT
    join: str = DIAGONAL_JOIN
    fold: str = DOUBLE
    extra: Fraction = BINDING_EXTRA
    finished: Fraction | None = None

    def allowance(self, seam_allowance: Fraction) -> Fraction:
        """Inches from the edge at which it is sewn on: as wide as it shows, so that the fold is filled."""
        if self.finished is not None:
            return self.finished
        return self.strip / LAYERS[SINGLE] if self.fold == SINGLE else seam_allowance


@dataclass(frozen=True)
class Backing:
    """The cloth of the back, so many inches larger than the top on every side; which way its seams run."""

    fabric: str
    overhang: Fraction
    seams: str = LEAST


@dataclass(frozen=True)
class Sleeve:
    """A flat tube along the upper edge of the back, to hang the whole by; `depth` finished, in inches."""

    fabric: str
    depth: Fraction

    def strip(self, width: Number, seam_allowance: Fraction) -> tuple[Exact, Fraction]:
        """Length and height of the strip it is sewn from, for a quilt of that finished width (inches).

        Folded lengthwise and sewn along its edges: twice its depth and two allowances, 8 1/2 in for a sleeve of 4 in
        (common practice, no source).
        """
        return exact(width - SLEEVE_SHORTER), 2 * (self.depth + seam_allowance)


@dataclass(frozen=True)
class Finish:
    """How the top is finished; None for what a project leaves out. Batting is given by its overhang in inches."""

    binding: Binding | None = None
    backing: Backing | None = None
    batting_overhang: Fraction | None = None
    sleeve: Sleeve | None = None


@dataclass(frozen=True)
class Source:
    """Where outlines come from, and who may pass them on. `covers` names outline files, or single shapes in them.

    `credit` is how whoever drew them wishes to be named, `licence` under which terms they are passed on.
    """

    name: str
    covers: tuple[str, ...]
    rights: str
    credit: str = ""
    licence: str = ""

    def covers_outline(self, outline: str) -> bool:
        """Whether it covers an outline (`file` or `file#shape`); a file may be named without its ending.

        >>> Source("a neighbour", ("can",), VIEWER).covers_outline("can.svg#spout")
        True
        >>> Source("a neighbour", ("can.svg#rose",), VIEWER).covers_outline("can.svg#spout")
        False
        """
        file_name, _, shape = outline.partition("#")
        stem = file_name.removesuffix(".svg")
        forms = {outline, file_name, stem} | ({f"{stem}#{shape}"} if shape else set())
        return bool(forms & set(self.covers))

    @property
    def may_leave(self) -> bool:
        """Whether what it covers may stand in a public bundle."""
        return self.rights != VIEWER


@dataclass(frozen=True)
class Part:
    """One part of a project as it is published, and the chapters it covers."""

    title: str
    covers: tuple[str, ...]


CHAPTERS = ("cutting", "piecing", "applique", "finishing")
"""The chapters of every project, in working order."""


@dataclass(frozen=True)
class Colourway:
    """Other cloths for the same project: new colours and names by fabric key.

    `cloths` are those of which another width, shrinkage, direction or form of sale is said; `same_as` names the cloth
    that one is cut from here, in place of a cloth of its own; `swatches` are photographs by fabric key, an empty name
    where the cloth is another one than in the photograph of the design.
    """

    name: str
    colours: dict[str, str]
    names: dict[str, str]
    cloths: dict[str, Fabric] = field(default_factory=dict)
    same_as: dict[str, str] = field(default_factory=dict)
    swatches: dict[str, str] = field(default_factory=dict)

    @property
    def changes_quantities(self) -> bool:
        """Whether other lengths are bought for it than for the design."""
        return bool(self.cloths or self.same_as)
