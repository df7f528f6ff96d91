"""Applique pieces: an outline, its cloth, its place on the top."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from service.craft.fabric import WHITE, Thread
from service.craft.measure import round_to_ruler
from service.craft.stitching import AS_CLOTH_AND_THREAD_ASK, Detail, SplitLine, Stitching

TURNED = "turned"
TRIPLE_RUN = "triple run"

HOOP_EDGES = ("satin", "zigzag", "blanket", "raw", TRIPLE_RUN)
"""Edges that a hoop machine sews."""

EDGES = (*HOOP_EDGES, TURNED)
"""How the edge of a piece is finished; the first is the default. A turned edge is folded under before it is sewn."""


@dataclass(frozen=True)
class Piece:
    """One applique piece as the document places it.

    `outline` is `file` or `file#shape`; `at` is where the middle of the outline's box lies, in inches
    from the top left corner of the finished top, x right and y down; `turn` is in degrees clockwise;
    `above` names the pieces this one lies on top of; `split` are the lines along which its edge is sewn in parts where
    a sewing field is too small for it.
    """

    pointer: str
    name: str
    outline: str
    fabric: str
    at: tuple[Fraction, Fraction]
    turn: Fraction = Fraction(0)
    mirror: bool = False
    scale: Fraction = Fraction(1)
    above: tuple[str, ...] = ()
    edge: str = "satin"
    thread: Thread = WHITE
    stitching: Stitching = AS_CLOTH_AND_THREAD_ASK
    details: tuple[Detail, ...] = ()
    split: tuple[SplitLine, ...] = ()

    def measure_place(self, seam_allowance: Fraction, measure: str) -> tuple[Fraction, Fraction]:
        """Where its middle lies from the left and the upper cut edge of the sewn top, to a ruler's mark (inches).

        The sewn top still has its allowance all round, and that edge is the one a ruler can be laid to.
        """
        across, down = (round_to_ruler(place + seam_allowance, measure) for place in self.at)
        return across, down

    @property
    def turned_under(self) -> bool:
        """Whether its edge is folded under: it is cut with an allowance, and no web holds it."""
        return self.edge == TURNED

    @property
    def hoop_edge(self) -> str:
        """What a hoop machine sews round it: a folded edge is held by a run just inside it, as a raw one is."""
        return "raw" if self.turned_under else self.edge

    @property
    def outline_file(self) -> str:
        """The outline file's name."""
        return self.outline.partition("#")[0]

    @property
    def outline_shape(self) -> str:
        """The shape's name inside the file, or empty where the file holds one shape."""
        return self.outline.partition("#")[2]
