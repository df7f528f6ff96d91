"""Units that are trimmed to size before they are sewn on: what is left of their errors, and what there is to trim."""

from __future__ import annotations

from fractions import Fraction

from service.craft.measure import ROOT_2
from service.craft.units import FlyingGeese, HalfSquareTriangle, QuarterSquareTriangle, SquareInASquare
from service.craft.units.base import CuttingRules
from service.craft.units.half_square_triangle import FOUR, OVERSIZE, TO_TRIM
from service.craft.units.square_in_a_square import FLIPPED
from workers.sewing.panels import PANELS
from workers.sewing.works import Work


def find_room_to_trim(work: Work, rules: CuttingRules) -> float | None:
    """Inches by which a unit that is trimmed comes out larger than it shall be; None where nothing is trimmed.

    A square of side c gives a half-square triangle of c - s√2 and a quarter-square triangle of c - 2s√2 (geometry).
    Where the room depends on roundings of several cuts, it is taken as none: that is the safe side.
    """
    s, finished = rules.seam_allowance, work.width
    unfinished = finished + 2 * s
    if work.kind == PANELS:
        return float(Fraction(work.facts["to trim"])) if work.facts["to trim"] else None
    if work.kind == HalfSquareTriangle.kind:
        if work.facts["method"] == FOUR:
            return 0.0
        side = finished + (TO_TRIM if work.facts["trim"] == OVERSIZE else 0)
        return float(rules.half_square(side) - s * ROOT_2 - unfinished)
    if work.kind == QuarterSquareTriangle.kind:
        return float(rules.quarter_square(finished) - 2 * s * ROOT_2 - unfinished)
    if work.kind == FlyingGeese.kind:
        return 0.0
    if work.kind == SquareInASquare.kind and work.facts["method"] != FLIPPED:
        return 0.0
    return None
