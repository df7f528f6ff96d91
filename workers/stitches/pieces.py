"""The nouns of a hooping: a piece to be sewn, a pass of the needle, a set of passes in one hoop."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from service.craft.fabric import WHITE, Thread
from service.craft.outlines.split_parts import say_part_name
from workers.stitches.settings import USUAL, Field, StitchSettings

Points = NDArray[np.float64]
"""Needle points or vertices, shape (n, 2), millimetres, x right and y down."""

PLACEMENT, TACK_DOWN, UNDERLAY, FINISH, DETAIL = "placement", "tack-down", "underlay", "finish", "detail"


@dataclass(frozen=True)
class DetailLine:
    """A line or an area on a piece, in millimetres on the top. A fill's first path is its outer ring, others its holes.

    `sew` is one of `service.craft.stitching.DETAIL_KINDS`; without a `thread` it is sewn in the piece's.
    """

    sew: str
    paths: tuple[Points, ...]
    closed: bool
    width_mm: float = 2.0
    angle_degrees: float = 0.0
    thread: Thread | None = None
    pointer: str = ""


@dataclass(frozen=True)
class SplitPart:
    """One part of a piece whose edge is sewn in several hoopings: its number from 1 in sewing order, of how many.

    `region` is the room between the lines it is split along, a ring of corners that reaches well beyond the piece.
    """

    number: int
    of: int
    name: str
    region: Points


@dataclass(frozen=True)
class StitchPiece:
    """An applique piece as it lies on the top: its first ring is the outer one, further rings are holes.

    Rings are closed polylines in millimetres without the repeated last point. `above` names the pieces this
    one lies on top of; `private` is true where a source lets the outline be sewn, not passed on; `turned` where the
    edge is a fold.
    Pieces of one `motif` are the same shape, turned clockwise by `turn_degrees` from how it is drawn about the
    place `at_mm` on the top. Its rings are the whole piece also where only one `part` of its edge is sewn.
    """

    name: str
    rings: tuple[Points, ...]
    thread: Thread
    edge: str = "satin"
    trim_in_place: bool = False
    above: tuple[str, ...] = ()
    pointer: str = ""
    private: bool = False
    settings: StitchSettings = USUAL
    details: tuple[DetailLine, ...] = ()
    motif: str = ""
    turn_degrees: float = 0.0
    turned: bool = False
    at_mm: tuple[float, float] = (0.0, 0.0)
    part: SplitPart | None = None

    @property
    def title(self) -> str:
        """Its name, and which part of it is sewn."""
        return f"{self.name}, {self.part_words}" if self.part else self.name

    @property
    def part_words(self) -> str:
        """Which part of it is sewn, in words; empty where all of it is."""
        return say_part_name(self.part.name, self.part.number, self.part.of) if self.part else ""


@dataclass(frozen=True)
class Stop:
    """Why the machine stops: a message about a piece (`workers.stitches.stop_words`) with what else is done behind it,
    or another `thread`.
    """

    message: str = ""
    piece: StitchPiece | None = None
    more: str = ""
    thread: Thread | None = None


@dataclass(frozen=True)
class Again:
    """Another place that one file sews: the hooping there, its pieces, its middle on the top, how the top lies."""

    hooping: str
    pieces: tuple[str, ...]
    centre_mm: tuple[float, float]
    top_turned_degrees: float


@dataclass(frozen=True)
class Pass:
    """One run of the needle over its points. `then_stop` says why the machine stops after it, if it does.

    `joined` passes go on from the needle point before them with a stitch; all others are reached by a jump.
    `longest_mm` is how long a stitch of a detail may be; the other kinds have it from the settings.
    """

    kind: str
    piece: str
    points: Points
    then_stop: Stop | None = None
    joined: bool = False
    thread: Thread = WHITE
    longest_mm: float = 0.0


@dataclass(frozen=True)
class SewnPiece:
    """A piece with the passes that sew it, in sewing order."""

    piece: StitchPiece
    passes: tuple[Pass, ...]
    notes: tuple[str, ...] = ()

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """What the needle points of all passes reach: x0, y0, x1, y1 in millimetres."""
        return box_of([p.points for p in self.passes])


@dataclass(frozen=True)
class Hooping:
    """Pieces sewn in one hooping: everything is centred on the field, millimetres, y down.

    `turned` says that the design lies a quarter turn clockwise in the field; `centre_mm` is where the middle
    of the field lies on the top. `sequence` are the passes in sewing order; without it the pieces follow each other.
    The file `same_as` of an earlier hooping sews the same where the top is hooped turned by so much clockwise, with
    the middle of the field on `same_centre_mm`; `again` are the later hoopings that the file of this one sews.
    `of` hoopings serve the field, and no plan needs fewer than `at_least`.
    """

    number: int
    field: Field
    sewn: tuple[SewnPiece, ...]
    turned: bool
    centre_mm: tuple[float, float]
    sequence: tuple[Pass, ...] = ()
    same_as: str = ""
    top_turned_degrees: float = 0.0
    same_centre_mm: tuple[float, float] = (0.0, 0.0)
    again: tuple[Again, ...] = ()
    of: int = 1
    at_least: int = 1

    @property
    def name(self) -> str:
        """The hooping's name, as in its files: `130x180-1`."""
        return f"{self.field.label}-{self.number}"

    @property
    def threads(self) -> tuple[Thread, ...]:
        """The threads in the order they go through the needle; one that comes back stands there again."""
        found = [one.thread for one in self.passes]
        return tuple(t for t, before in zip(found, [None, *found], strict=False) if t != before)

    @property
    def private(self) -> bool:
        """Whether a source keeps the files of this hooping in the studio."""
        return any(s.piece.private for s in self.sewn)

    @property
    def passes(self) -> tuple[Pass, ...]:
        """All passes in sewing order."""
        return self.sequence or tuple(p for s in self.sewn for p in s.passes)


def box_of(groups: list[Points]) -> tuple[float, float, float, float]:
    """The box round all points, millimetres: x0, y0, x1, y1."""
    points = np.vstack(groups)
    low, high = points.min(axis=0), points.max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])
