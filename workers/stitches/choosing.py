"""From what a document asks for, and what is safe for cloth and thread, to the settings a piece is sewn with."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

from service.craft.fabric import Fabric
from service.craft.pieces import Piece
from service.craft.stitching import MM, choose_stitching
from workers.stitches.settings import USUAL, StitchSettings

ZIGZAG_ROWS = 3
"""A zigzag is so much more open than satin where nothing else is asked for (common practice, no source)."""


def in_mm(length: Fraction | None, otherwise: float) -> float:
    """A length of a document in millimetres."""
    return otherwise if length is None else float(length / MM)


def choose_settings(piece: Piece, fabric: Fabric) -> StitchSettings:
    """How one piece is sewn."""
    chosen = choose_stitching(piece.stitching, fabric)
    spacing = in_mm(chosen.spacing, USUAL.spacing_mm)
    wished = piece.stitching
    return replace(
        USUAL,
        width_mm=in_mm(chosen.width, USUAL.width_mm),
        zigzag_width_mm=in_mm(wished.width, USUAL.zigzag_width_mm),
        spacing_mm=spacing,
        zigzag_spacing_mm=in_mm(wished.spacing, ZIGZAG_ROWS * spacing),
        inner_target_mm=USUAL.inner_target_mm * spacing / USUAL.spacing_mm,
        crowded_mm=USUAL.crowded_mm * spacing / USUAL.spacing_mm,
        fill_row_mm=min(spacing, USUAL.fill_row_mm),
        thread_mm=thread_mm(chosen.thread_weight or Fraction(40)),
        pull_mm=in_mm(chosen.pull, USUAL.pull_mm),
        running_mm=in_mm(chosen.stitch, USUAL.running_mm),
        inside_share=float(chosen.inside or Fraction(1, 2)),
        underlay=chosen.underlay or USUAL.underlay,
        tack_down=chosen.tack_down or USUAL.tack_down,
    )


def thread_mm(weight: Fraction) -> float:
    """How thick a thread of this weight lies: 0.4 mm for 40 wt (E. Campbell, disputed), by the root of the weight."""
    return round(USUAL.thread_mm * math.sqrt(40 / weight), 3)
