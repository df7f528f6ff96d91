"""What can be sewn and makes the trade raise an eyebrow: tiny patches, prints that turn, sashing that dominates."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.craft.document import Project
from service.craft.faults import Fault
from service.craft.measure import ROOT_2, RULER_MARKS, Exact, format_length, round_down
from service.craft.print_direction import list_turned_prints
from service.craft.reading import at
from service.craft.units import Border, Bordered, CornerSquares, FanBladeRing, Grid, Unit
from service.craft.units.bordered import MITRED
from service.craft.units.walking import walk_once

SMALLEST_PATCH = Fraction(1, 2)
"""Inches finished; what is smaller vanishes in its own seam allowances. Common practice, no source."""

FINEST_SAID = {"in": Fraction(1, 64), "mm": Fraction(1, 254), "cm": Fraction(1, 254)}
"""Inches: the least that is written as a size, a 64th or a tenth of a millimetre."""

WIDEST_SASHING = Fraction(1, 4)
"""Of the block: 3 in for 12 in blocks. Source: quilting.about.com sashing (J. Wickell)."""


@dataclass(frozen=True)
class _Look:
    """One thing to look at. `again` is said once for all its places, each named by `pointer`."""

    pointer: str
    detail: str
    right: str


def find_warnings(project: Project) -> tuple[Fault, ...]:
    """What to look at before sewing; the same thing in several places is said once, with their number."""
    looks: list[_Look] = []
    for unit in walk_once(project.top):
        looks += _look_at_size(unit, project)
        if isinstance(unit, FanBladeRing):
            looks += [*_look_at_blades(unit, project), *_look_at_neighbours(unit, project)]
        if isinstance(unit, Grid):
            looks += _look_at_sashing(unit, project)
        if isinstance(unit, Bordered):
            looks += [
                look for i, b in enumerate(unit.borders) for look in _look_at_mitre(unit, i, b, project)
            ]
        if isinstance(unit, CornerSquares) and unit.spare_triangles:
            looks += _look_at_spare(unit, project)
    looks += [
        _Look(turned.pointer, turned.say(project.fabrics[turned.fabric].name), turned.right)
        for turned in list_turned_prints(project.top, project.fabrics, project.rules)
    ]
    return tuple(_gather(looks))


def _look_at_size(unit: Unit, project: Project) -> Iterator[_Look]:
    for patch in unit.own_patches():
        xs, ys = zip(*patch.points, strict=True)
        width, height = max(xs) - min(xs), max(ys) - min(ys)
        if min(width, height) < SMALLEST_PATCH:
            size = " by ".join(_say_side(side, project.measure) for side in (width, height))
            least = format_length(SMALLEST_PATCH, project.measure)
            yield _Look(
                patch.pointer,
                f'a patch of "{project.fabrics[patch.fabric].name}" is {size} finished',
                f"{least} or more: a smaller patch is hard to sew, and nearly all of it is seam allowance",
            )


def _say_side(side: Exact, measure: str) -> str:
    """A side in words; one that no ruler shows is not said to be nothing."""
    least = FINEST_SAID[measure]
    return f"less than {format_length(least, measure)}" if side < least else format_length(side, measure)


def _look_at_blades(ring: FanBladeRing, project: Project) -> Iterator[_Look]:
    """The narrow ends of blades, which seams come closest together at."""
    for fabric, width in ring.inner_widths.items():
        if width < SMALLEST_PATCH:
            narrow = format_length(round_down(width, RULER_MARKS[project.measure]), project.measure)
            least = format_length(SMALLEST_PATCH, project.measure)
            yield _Look(
                ring.pointer,
                f'the blades of "{project.fabrics[fabric].name}" are {narrow} wide finished at their narrow ends',
                f"{least} or more: fewer blades, or a larger hole and a larger centre over it",
            )


def _look_at_neighbours(ring: FanBladeRing, project: Project) -> Iterator[_Look]:
    """Cloths that come round in turn and do not come out even: then two blades alike lie side by side, once."""
    alike = [i for i, blade in enumerate(ring.blades) if ring.blades[i - 1].fabric == blade.fabric]
    if len(alike) != 1:
        return
    first, second = (number % len(ring.blades) + 1 for number in (alike[0] - 1, alike[0]))
    cloth = project.fabrics[ring.blades[alike[0]].fabric].name
    yield _Look(
        ring.pointer,
        f'blades {first} and {second} of the ring lie side by side and are both "{cloth}"',
        "a number of blades, or of cloths, that comes out even all round",
    )


def _look_at_sashing(grid: Grid, project: Project) -> Iterator[_Look]:
    """Sashing is planned up to a quarter of the block, so that the blocks stay the main thing."""
    block = min(side for row in grid.rows for unit in row for side in (unit.width, unit.height))
    if grid.sashing is None or grid.sashing.width <= block * WIDEST_SASHING:
        return
    width, side, most = (
        format_length(v, project.measure) for v in (grid.sashing.width, block, block * WIDEST_SASHING)
    )
    yield _Look(
        at(grid.pointer, "sashing", "width"),
        f"the sashing is {width} wide between blocks of {side}",
        f"up to a quarter of the block, {most}, unless the sashing is meant to be the main thing",
    )


def _look_at_mitre(unit: Bordered, number: int, border: Border, project: Project) -> Iterator[_Look]:
    """Strips whose ends do not reach a seam allowance beyond their slanting seams.

    At the outer edge that takes two allowances and, along the strip, √2 times two more: 2s(1 + √2), geometry.
    """
    least = project.rules.round(2 * project.seam_allowance * (1 + ROOT_2))
    if border.corners != MITRED or border.mitre_allowance >= least:
        return
    given, enough = (format_length(v, project.measure) for v in (border.mitre_allowance, least))
    yield _Look(
        at(unit.pointer, "borders", number, "mitre_allowance"),
        f"the mitred border allows {given} for its corners, which leaves less than a seam allowance there",
        f"{enough} or more, counted from the finished size of what the border goes round",
    )


def _look_at_spare(unit: CornerSquares, project: Project) -> Iterator[_Look]:
    """A corner too small leaves nothing to sew a spare unit of: then none is planned."""
    if unit.spare_side(project.rules) is None:
        leg, least = (format_length(v, project.measure) for v in (unit.leg, 4 * project.seam_allowance))
        yield _Look(
            at(unit.pointer, "spare_triangles"),
            f"a corner with a leg of {leg} leaves no spare triangle unit",
            f"corners with legs of more than {least}, or none of the spare units",
        )


def _gather(looks: Iterable[_Look]) -> Iterator[Fault]:
    """One warning for what is the same in several places, where it is found first."""
    places: dict[tuple[str, str], dict[str, None]] = {}
    for look in looks:
        places.setdefault((look.detail, look.right), {})[look.pointer] = None
    for (detail, right), pointers in places.items():
        more = len(pointers) - 1
        also = f" (and in {more} more place{'s' if more > 1 else ''})" if more else ""
        yield Fault(next(iter(pointers)), detail + also, right)
