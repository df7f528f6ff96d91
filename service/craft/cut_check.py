"""Cuts that no plan can make good: larger than their cloth is wide, or a strip set shorter than its pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.craft.cutting_choices import ALONG, LEAST_CLOTH
from service.craft.document import Project
from service.craft.fabric import Fabric
from service.craft.faults import Fault
from service.craft.measure import format_length
from service.craft.panels import find_panels, fits_on, is_strip, least_width, lie_on_cloth, may_be_pieced
from service.craft.reading import at
from service.craft.units import StripSet
from service.craft.units.base import Need
from service.craft.units.counting import UnitUse, count_units
from service.craft.units.walking import walk_once


def check_cuts(project: Project) -> tuple[list[Fault], list[Fault]]:
    """Faults: pieces that fit on their cloth in no way, and cannot be pieced of it. Warnings: pieces with a seam that
    shows, and strips planned longer than the document says.
    """
    faults: dict[Fault, None] = {}
    warnings: dict[Fault, None] = {}
    told: set[str] = set()
    for use in count_units(project.top):
        for need in use.unit.needs(project.rules):
            fabric = project.fabrics[need.fabric]
            lying = lie_on_cloth(need, fabric, sideways=use.sideways)
            if not fits_on(lying, fabric):
                wide = _Wide(project, use, lying, fabric)
                faults |= dict.fromkeys(_find_wrong(wide))
                # one look at each size is enough: a top may have hundreds of it
                warnings |= {look: None for look in _look_at_seams(wide) if look.detail not in told}
                told |= {look.detail for look in warnings}
    for unit in walk_once(project.top):
        if isinstance(unit, StripSet):
            warnings |= dict.fromkeys(_look_at_length(unit, project))
    return list(faults), list(warnings)


@dataclass(frozen=True)
class _Wide:
    """A piece, as it lies, that is larger than its cloth in every way it may lie."""

    project: Project
    use: UnitUse
    need: Need
    fabric: Fabric

    def say(self, length: Fraction) -> str:
        """A length as the document writes it."""
        return format_length(length, self.project.measure)

    @property
    def words(self) -> str:
        """What does not fit where."""
        need, fabric = self.need, self.fabric
        size = f"{self.say(need.width)} by {self.say(need.height)}"
        usable = self.say(fabric.usable_width)
        turned = " (and is not turned, for it has a right way up)" if fabric.one_way else ""
        return f'a piece cut {size} does not fit on "{fabric.name}", which is {usable} wide{turned}'

    @property
    def whole(self) -> str:
        """How wide a cloth takes it in one piece."""
        need, rules = self.need, self.project.rules
        free = not self.fabric.one_way and need.lay == LEAST_CLOTH
        return self.say(rules.round(min(need.width, need.height) if free else need.width))

    @property
    def least_width(self) -> Fraction:
        """Inches of cloth from which it can be joined: end to end a strip that lies across, in panels all else."""
        rules, need = self.project.rules, self.need
        if is_strip(need) and need.lay != ALONG and need.width >= need.height:
            return rules.round(2 * rules.seam_allowance + rules.round_to)
        return least_width(rules)


def _find_wrong(wide: _Wide) -> Iterator[Fault]:
    """Why a piece that does not fit cannot be sewn of several either."""
    need, where = wide.need, wide.use.unit.pointer
    if not is_strip(need) and not may_be_pieced(need):
        what = "is cut with its template" if need.template else "is cut up afterwards"
        detail = f"{wide.words}; it {what}, so it is not pieced: each patch would have its seam elsewhere"
        yield Fault(where, detail, f"smaller patches, or a wider cloth: {wide.whole} of `usable_width`")
    elif wide.fabric.usable_width < wide.least_width:
        detail = (
            f"{wide.words}; that is too narrow to sew it of several, for seams would take nearly all of it"
        )
        least = wide.say(wide.least_width)
        yield Fault(
            where, detail, f"a wider cloth: {least} of `usable_width` to join it, {wide.whole} in one piece"
        )


def _look_at_seams(wide: _Wide) -> Iterator[Fault]:
    """A patch that is sewn of panels has a seam that shows. A strip is joined, and nothing is said of it."""
    if may_be_pieced(wide.need):
        panels = find_panels(wide.need, wide.fabric, wide.project.rules)
        if panels is not None:
            seams = "a seam that shows" if panels.joined.pieces == 2 else "seams that show"
            detail = f"{wide.words}: it is sewn of {panels.joined.pieces} panels, with {seams}"
            right = f"a cloth {wide.whole} wide where no seam shall show, or the seam on purpose"
            yield Fault(wide.use.unit.pointer, detail, right)


def _look_at_length(unit: StripSet, project: Project) -> Iterator[Fault]:
    """Strips that are shorter than one piece are cut as long as that piece."""
    piece = project.rules.plain(unit.cut_into)
    if unit.length < piece:
        length, least = (format_length(side, project.measure) for side in (unit.length, piece))
        detail = (
            f"the strips are {length} long, and a piece of the set is cut {least}: they are planned that long"
        )
        yield Fault(at(unit.pointer, "length"), detail, f"{least} or more, or leave the length out")
