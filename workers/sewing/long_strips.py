"""Strips of a top that are longer than their cloth is wide: which, and how many joins they take.

Whether a cloth's strips share a longer joined one is for the cutting plan; it then has as many joins or fewer.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.craft.cutting_choices import ALONG, DIAGONAL_JOIN
from service.craft.document import Project
from service.craft.joining import Joined, join_on_the_diagonal, join_strips
from service.craft.measure import ROOT_2
from service.craft.panels import is_strip, lie_on_cloth
from service.craft.units.base import Need
from service.craft.units.counting import count_units
from workers.sewing.minutes import PINNED_FROM, Counts


@dataclass(frozen=True)
class LongStrip:
    """So many strips of one cut size (inches) that are longer than their cloth is wide."""

    fabric: str
    length: Fraction
    width: Fraction
    count: int

    def join(self, project: Project) -> Joined | None:
        """How one of them is joined where it is joined for itself; None where the cloth is too narrow for it."""
        rules, usable = project.rules, project.fabrics[self.fabric].usable_width
        if project.cutting.join == DIAGONAL_JOIN:
            slanting = join_on_the_diagonal(self.length, usable, strip=self.width, round_to=rules.round_to)
            if slanting is not None:
                return slanting
        return join_strips(self.length, usable, seam_allowance=rules.seam_allowance, round_to=rules.round_to)


def list_long_strips(project: Project) -> Iterator[LongStrip]:
    """Every size of strip that is too long for the width of its cloth, as often as the top needs it."""
    for use in count_units(project.top):
        for need in use.unit.needs(project.rules):
            lying = _lie_long(need, project, sideways=use.sideways)
            if lying is not None:
                yield LongStrip(need.fabric, lying.width, lying.height, need.pieces * use.times)


def _lie_long(need: Need, project: Project, *, sideways: bool) -> Need | None:
    """The strip as it lies across its cloth, where it is longer than that is wide."""
    if not is_strip(need) or need.lay == ALONG:
        return None
    fabric = project.fabrics[need.fabric]
    lying = lie_on_cloth(need, fabric, sideways=sideways)
    return lying if lying.width > max(lying.height, fabric.usable_width) else None


def count_joins(project: Project) -> Counts:
    """What is done to join them: the lengths of cloth cut, the joins sewn and pressed, a pin for every so much.

    The cut to length afterwards is the cut of the patch itself.
    """
    cuts = seams = pins = 0
    inches = 0.0
    for strip in list_long_strips(project):
        joined = strip.join(project)
        if joined is None:
            continue
        joins = strip.count * (joined.pieces - 1)
        seam = float(strip.width * ROOT_2 if joined.seams == DIAGONAL_JOIN else strip.width)
        cuts += strip.count * joined.pieces
        seams += joins
        inches += joins * seam
        pins += joins * int(seam / PINNED_FROM)
    return Counts(cuts=cuts, seams=seams, inches=inches, pressings=seams, pins=pins)
