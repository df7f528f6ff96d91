"""Looks whether cloth with a print or a pile is cut the right way up, and whether joined strips are long enough.

The way up is seen from the drawing of the top, which knows nothing of how pieces lie on the cloth.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.craft.cutting_choices import DIAGONAL_JOIN
from service.craft.document import Project
from service.craft.units import CuttingRules, Frame, Patch, Unit
from workers.cutting.cuts import STRIP, Cut

Sides = tuple[Fraction, Fraction]
"""Across and down."""

Lying = tuple[str, Sides | None]
"""A cloth, and the sides of a rectangle that lies straight."""

Turn = tuple[float, float, float, float]
"""How something is turned on the top: xx, xy, yx, yy."""


def check_direction(project: Project, cuts: Sequence[Cut]) -> list[str]:
    """Pieces of cloth with a direction that no patch of the top is for, as it lies there."""
    one_way = {key for key, fabric in project.fabrics.items() if fabric.one_way}
    if not one_way.intersection(cut.fabric for cut in cuts):
        return []
    drawn = _Drawing(project.rules).count(project.top, (1.0, 0.0, 0.0, 1.0))
    found = []
    for key in sorted(one_way):
        wanted = _count_wanted(cuts, key)
        upright = Counter({sides: n for (cloth, sides), n in drawn.items() if cloth == key and sides})
        # a patch that lies on the slant, or is no rectangle, may be sewn of any piece
        astray = sum((wanted - upright).values()) - drawn[key, None]
        if astray > 0:
            found.append(f'{astray} pieces of "{project.fabrics[key].name}" lie the wrong way up')
    return found


class _Drawing:
    """Counts patches by cloth and by how they lie on the top, going by the frames in which units are drawn."""

    def __init__(self, rules: CuttingRules) -> None:
        self.rules = rules
        self.known: dict[tuple[int, Turn], Counter[Lying]] = {}

    def count(self, unit: Unit, turn: Turn) -> Counter[Lying]:
        """Every patch of a unit that is drawn with that turn; equal units are looked at once."""
        key = (id(unit), turn)
        if key not in self.known:
            found = Counter((patch.fabric, self._sides(patch, turn)) for patch in unit.own_patches())
            for child, frame in unit.children():
                found.update(self.count(child, _turn_further(turn, frame)))
            self.known[key] = found
        return self.known[key]

    def _sides(self, patch: Patch, turn: Turn) -> Sides | None:
        """The cut size of a rectangle that lies straight on the top, as it lies; None for any other patch."""
        xs, ys = ({point[i] for point in patch.points} for i in (0, 1))
        if len(patch.points) != 4 or len(xs) != 2 or len(ys) != 2 or 0 not in turn:
            return None
        width, height = (self.rules.plain(max(values) - min(values)) for values in (xs, ys))
        return (height, width) if turn[0] == 0 else (width, height)


def _turn_further(turn: Turn, frame: Frame) -> Turn:
    if frame.turn is None:
        return turn
    a, b, c, d = turn
    e, f, g, h = map(float, frame.turn)
    return _near(a * e + b * g), _near(a * f + b * h), _near(c * e + d * g), _near(c * f + d * h)


def _near(value: float) -> float:
    """What is as near as that to nothing is nothing: there are turns by eighths alone."""
    return round(value, 9) + 0.0


def _is_pieced(cut: Cut) -> bool:
    """Whether a patch is sewn of panels; of a strip, several patches may come."""
    return cut.joined is not None and cut.joined.in_panels and cut.shape != STRIP


def _count_wanted(cuts: Sequence[Cut], fabric: str) -> Counter[Sides]:
    """Pieces that are sewn as they are cut, or of panels side by side. What is cut up, joined end to end or asked to
    lie otherwise says nothing here.
    """
    wanted: Counter[Sides] = Counter()
    for cut in cuts:
        if cut.fabric != fabric or cut.serves != "patches" or cut.method or cut.template or cut.grain:
            continue
        if cut.joined is not None and _is_pieced(cut):
            wanted[cut.joined.wanted, cut.height] += cut.wanted
        elif not cut.then:
            wanted[cut.width, cut.height] += cut.wanted
    return wanted


def check_panels(project: Project, cuts: Sequence[Cut]) -> Iterator[str]:
    """Panels: each fits across its cloth with its allowances, no more are sewn than it takes, and as large a patch is
    in the top.
    """
    drawn = (
        _Drawing(project.rules).count(project.top, (1.0, 0.0, 0.0, 1.0))
        if any(map(_is_pieced, cuts))
        else Counter()
    )
    for number, cut in enumerate(cuts):
        if cut.joined is None or not cut.joined.in_panels:
            continue
        usable, loss = project.fabrics[cut.fabric].usable_width, 2 * project.seam_allowance
        if not loss < cut.width <= usable:
            yield f"cut {number}: a panel of {cut.width} in on cloth of {usable} in"
        if cut.joined.total < cut.joined.wanted:
            yield f"cut {number}: panels of {cut.joined.total} in for {cut.joined.wanted} in"
        if (cut.joined.pieces - 1) * (usable - loss) + loss >= cut.joined.wanted:
            yield f"cut {number}: {cut.joined.pieces} panels where fewer are enough"
        if not _is_pieced(cut):
            continue
        if cut.joined.pieces * cut.wanted > cut.count:
            yield f"cut {number}: {cut.count} panels for {cut.wanted} pieces of {cut.joined.pieces}"
        sides = (cut.joined.wanted, cut.height)
        there = sum(drawn[cut.fabric, way] for way in {sides, sides[::-1]}) + drawn[cut.fabric, None]
        if there < cut.wanted:
            yield f"cut {number}: panels for {cut.wanted} pieces, {there} such patches in the top"


def check_joins(project: Project, cuts: Sequence[Cut]) -> Iterator[str]:
    """Joined strips come in whole sets, and their pieces, less what the joins take, to the length that is told."""
    for number, cut in enumerate(cuts):
        if cut.joined is None:
            continue
        diagonal = cut.joined.seams == DIAGONAL_JOIN
        loss = cut.height if diagonal else 2 * project.seam_allowance
        together = sum([cut.width] * cut.joined.pieces) - loss * (cut.joined.pieces - 1)
        if together != cut.joined.total or cut.count % cut.joined.pieces:
            yield f"cut {number}: {cut.joined.pieces} pieces come to {together} in, not to {cut.joined.total} in"
        given = sum((part.count * part.length for part in cut.joined.parts), Fraction(0)) or cut.joined.wanted
        if given > cut.joined.total:
            yield f"cut {number}: {given} in from a strip joined to {cut.joined.total} in"
