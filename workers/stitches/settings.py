"""What the stitches are made with: every length, share and limit in one place, in millimetres.

Values marked M in the trade tables are common practice from memory and have no published source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

LINES_INSIDE = ("raw", "triple run")
"""Edges that are held by a line inside them and hide nothing."""


@dataclass(frozen=True)
class Field:
    """A sewing field: the largest area one hooping reaches, in millimetres."""

    width_mm: float
    height_mm: float

    @property
    def label(self) -> str:
        """The size in whole millimetres, as used in file names.

        >>> Field(130.0, 180.0).label
        '130x180'
        """
        return f"{round(self.width_mm)}x{round(self.height_mm)}"


@dataclass(frozen=True)
class StitchSettings:
    """How everything is sewn.

    `spacing_mm` is measured between neighbouring needle points on the same side of the band, on the rail
    that leads (the longer one of a bend): a there-and-back pair of stitches advances by it, so a straight
    band of length L takes 2 L / spacing stitches. `pull_mm` widens the band on each side, because thread
    draws the cloth together. `inside_share` is the part of the width that lies on the piece.
    """

    width_mm: float = 3.5
    inside_share: float = 0.5
    spacing_mm: float = 0.4
    pull_mm: float = 0.2
    zigzag_width_mm: float = 3.0
    zigzag_spacing_mm: float = 1.2
    crowded_mm: float = 0.22
    inner_target_mm: float = 0.28
    blanket_bite_mm: float = 3.0
    blanket_pitch_mm: float = 2.5
    blanket_outside_mm: float = 0.4
    raw_inset_mm: float = 2.0
    triple_inset_mm: float = 1.5
    underlay: str = "by width"
    tack_down: str = "running"
    tack_zigzag_mm: float = 1.0
    tack_pitch_mm: float = 1.5
    fill_row_mm: float = 0.4
    fill_stitch_mm: float = 4.0
    shortest_fill_mm: float = 0.7
    line_width_mm: float = 2.0
    narrowest_line_mm: float = 1.0
    lap_mm: float = 0.12
    split_over_mm: float = 7.0
    running_mm: float = 2.5
    chord_off_mm: float = 0.1
    tack_inset_mm: float = 1.0
    underlay_mm: float = 2.0
    underlay_inset_mm: float = 0.5
    underlay_zigzag_over_mm: float = 4.0
    underlay_zigzag_mm: float = 2.5
    tie_mm: float = 0.6
    tie_count: int = 4
    shortest_mm: float = 0.4
    longest_move_mm: float = 12.1
    trim_over_mm: float = 3.0
    keep_out_mm: float = 3.0
    displacement_mm: float = 0.5
    thread_mm: float = 0.4
    take_up_mm: float = 0.6
    stitches_a_minute: int = 600
    narrowest_mm: float = 1.5
    corner_degrees: float = 30.0

    def width_of(self, edge: str) -> float:
        """The width of a satin or zigzag finish before the allowance for pull, millimetres."""
        return self.zigzag_width_mm if edge == "zigzag" else self.width_mm

    def spacing_of(self, edge: str) -> float:
        """The advance of a there-and-back pair of a satin or zigzag finish, millimetres."""
        return self.zigzag_spacing_mm if edge == "zigzag" else self.spacing_mm

    def outside_mm(self, edge: str) -> float:
        """How far the finish reaches beyond the raw edge, pull included (a raw edge's line itself stays inside)."""
        if edge in ("blanket", *LINES_INSIDE):
            return self.blanket_outside_mm
        return self.width_of(edge) * (1 - self.inside_share) + self.pull_mm

    def inside_mm(self, edge: str) -> float:
        """How far the finish reaches onto the piece, pull included.

        Twice the inset for a raw edge: enough to see where the piece is narrower than the line needs.
        """
        if edge in LINES_INSIDE:
            return 2 * self.inset_mm(edge)
        if edge == "blanket":
            return self.blanket_bite_mm
        return self.width_of(edge) * self.inside_share + self.pull_mm

    def underlay_of(self, width_mm: float) -> str:
        """What lies under a band so wide where nothing else is asked for (common practice, no source)."""
        if self.underlay != "by width":
            return self.underlay
        if width_mm < 2:
            return "middle run"
        return "edge runs and zigzag" if width_mm > self.underlay_zigzag_over_mm else "edge runs"

    def inset_mm(self, edge: str) -> float:
        """How far inside the edge the line lies that holds a raw one, or is its triple run."""
        return self.triple_inset_mm if edge == "triple run" else self.raw_inset_mm

    @property
    def fill_out_mm(self) -> float:
        """How far the rows of a fill reach beyond their area, because thread draws the cloth together."""
        return self.pull_mm

    @property
    def longest_fill_mm(self) -> float:
        """The longest stitch of a fill: its own, and what it takes over from a neighbour too short to be sewn."""
        return self.fill_stitch_mm + 2 * self.shortest_fill_mm

    def longest_line_mm(self, width_mm: float) -> float:
        """The longest stitch of a satin line so wide: pull on both sides, and 0.2 mm for slant."""
        return min(math.hypot(width_mm + 2 * self.pull_mm, self.spacing_mm / 2) + 0.2, self.split_over_mm)

    @property
    def longest_running_mm(self) -> float:
        """The longest running stitch: its step, and what it takes over from a neighbour too short to be sewn."""
        return self.running_mm + self.shortest_mm + 0.15

    def longest_stitch_mm(self, edge: str) -> float:
        """The longest stitch the finish may have: its width with pull on both sides, and 0.2 mm for slant."""
        if edge in LINES_INSIDE:
            return self.longest_running_mm
        step = self.spacing_of(edge) / 2 if edge != "blanket" else 0.0
        slanted = math.hypot(self.outside_mm(edge) + self.inside_mm(edge), step)
        return min(slanted + 0.2, self.split_over_mm)


USUAL = StitchSettings()
"""How a piece is sewn that asks for nothing else."""
