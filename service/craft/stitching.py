"""How pieces are sewn in the hoop: what a maker may ask for, and safe values for cloth and thread that ask for nothing.

Lengths are inches, exact, as everywhere in a document; the values here are millimetres of trade habit. Those marked M
are common practice from memory and have no published source.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from fractions import Fraction

from service.craft.fabric import Fabric, Thread
from service.craft.language import mark

MM = Fraction(5, 127)
"""Inches in a millimetre."""

UNDERLAYS = ("by width", "none", "middle run", "edge runs", "edge runs and zigzag")
TACK_DOWNS = ("running", "double", "zigzag")
DETAIL_KINDS = ("running", "triple run", "satin line", "fill")
LINE_KINDS = 'a line is sewn as "running", "triple run" or "satin line"'
"""What is right for a line that encloses nothing."""

USUAL_WEIGHT = 40
"""The weight of a thread that names none: n km weigh a kilogram."""


@dataclass(frozen=True)
class Stitching:
    """What a document asks for; None where it leaves the choice to the cloth and the thread."""

    width: Fraction | None = None
    spacing: Fraction | None = None
    pull: Fraction | None = None
    stitch: Fraction | None = None
    inside: Fraction | None = None
    underlay: str | None = None
    tack_down: str | None = None
    thread_weight: Fraction | None = None

    def over(self, common: Stitching) -> Stitching:
        """These wishes, and `common` ones where nothing is wished for here."""
        own = {f.name: getattr(self, f.name) for f in fields(self)}
        return replace(common, **{name: value for name, value in own.items() if value is not None})


AS_CLOTH_AND_THREAD_ASK = Stitching()
"""No wish of the document: everything is chosen by cloth and thread."""


@dataclass(frozen=True)
class Detail:
    """A line or an area sewn on a piece after its edge.

    `outline` is `file#name`, a closed shape of a drawing or an open line in one, which lies to the piece as it does in
    the drawing; or `points` are the corners of a line, inches from the middle of the piece's outline as it was drawn
    (x right, y down), and `closed` leads back to the first. `angle` is that of fill lines, degrees clockwise from
    straight across.
    """

    pointer: str
    sew: str
    outline: str = ""
    points: tuple[tuple[Fraction, Fraction], ...] = ()
    closed: bool = False
    width: Fraction | None = None
    angle: Fraction = Fraction(0)
    thread: Thread | None = None


@dataclass(frozen=True)
class SplitLine:
    """A straight line across a piece that is larger than a sewing field; it goes straight on beyond both places.

    `start` and `end` are inches from the middle of the piece's outline as it was drawn, as the points of a `Detail`.
    """

    pointer: str
    start: tuple[Fraction, Fraction]
    end: tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Bounds:
    """What a setting may be in millimetres (shares for `inside`), and what it does, in words for the maker."""

    least: Fraction
    most: Fraction
    words: str


SETTINGS = {
    "width": Bounds(
        Fraction(2),
        Fraction(10),
        mark(
            "How wide the satin or zigzag edge is. 3.5 mm lies well on plain cotton, 4 mm holds a pile down; above 7 "
            "mm each stitch is divided, because long loops catch."
        ),
    ),
    "spacing": Bounds(
        Fraction(3, 10),
        Fraction(3),
        mark(
            "How far it is from one stitch to the next on the same side of the edge. As far as the thread is thick "
            "covers fully; less makes the edge stiff, more lets the cloth show."
        ),
    ),
    "pull": Bounds(
        Fraction(0),
        Fraction(6, 10),
        mark(
            "How much wider each side is sewn, because tight thread draws the cloth together. 0.2 mm for plain weave, "
            "0.3 mm for pile and stretch."
        ),
    ),
    "stitch": Bounds(
        Fraction(3, 2),
        Fraction(4),
        mark(
            "How long a running stitch is: placement line, tack-down, lines. Short ones follow bends and hold fluffy "
            "cloth, long ones are quick to unpick."
        ),
    ),
    "inside": Bounds(
        Fraction(4, 10),
        Fraction(8, 10),
        mark(
            "Which share of the edge lies on the piece; the rest lies beyond it. A half is usual, 0.6 holds cloth that "
            "frays."
        ),
    ),
    "thread_weight": Bounds(
        Fraction(12),
        Fraction(100),
        mark(
            "How fine the thread is: so many kilometres weigh a kilogram, so a larger number is a finer thread. It "
            "sets the spacing where you give none."
        ),
    ),
}
"""Sources: width 4 mm hoopnfloat.blogspot.com, safe from 1 to 8 or 10 mm A. Bruce in graphics-pro.com; spacing 0.35 to
0.45 mm, full cover at 0.4 mm with 40 wt, emborado.de and E. Campbell on mrxstitch.com; pull, stitch, inside: M.
"""

CHOICES = {
    "underlay": (
        UNDERLAYS,
        mark(
            "The stitches beneath the edge, which carry it: one run along the middle of a narrow one, runs along both "
            "sides of a usual one, and an open zigzag besides under a wide one. Left out, the width decides."
        ),
    ),
    "tack_down": (
        TACK_DOWNS,
        mark(
            "How the cloth is held before it is trimmed: one running line, two for cloth that pulls out, or a narrow "
            "zigzag for loose weaves and pile."
        ),
    ),
}


def has_pile(fabric: Fabric) -> bool:
    """Whether stitches sink into the cloth: it has a nap, or is fluffy enough to be trimmed in place."""
    return fabric.napped or fabric.trim_in_place


def thread_mm(weight: Fraction | None) -> Fraction:
    """How thick a thread of this weight lies, to 0.01 mm; without one, of the usual weight."""
    return Fraction(round(40 * (USUAL_WEIGHT / float(weight or USUAL_WEIGHT)) ** 0.5), 100)


def choose_stitching(wished: Stitching, fabric: Fabric) -> Stitching:
    """Every setting decided: what was wished for, and for the rest what is safe for this cloth and thread.

    Thread is as thick as the root of its weight is small: 40 wt is taken as 0.4 mm (E. Campbell, disputed).
    """
    weight = wished.thread_weight or Fraction(USUAL_WEIGHT)
    thick = thread_mm(weight)
    pile = has_pile(fabric)
    safe = Stitching(
        width=(Fraction(4) if pile else Fraction(7, 2)) * MM,
        spacing=max(thick, SETTINGS["spacing"].least) * MM,
        pull=(Fraction(3, 10) if pile else Fraction(2, 10)) * MM,
        stitch=Fraction(5, 2) * MM,
        inside=Fraction(1, 2),
        underlay=UNDERLAYS[0],
        tack_down="double" if pile else "running",
        thread_weight=weight,
    )
    return wished.over(safe)


def finish_reach_mm(edge: str, wished: Stitching, fabric: Fabric) -> float:
    """How far an edge finish reaches beyond the raw edge in the hoop, pull included; lines inside it do not."""
    if edge in ("raw", "triple run"):
        return 0.0
    chosen = choose_stitching(wished, fabric)
    width, pull, inside = chosen.width or 0, chosen.pull or 0, chosen.inside or 0
    return float((width * (1 - inside) + pull) / MM)
