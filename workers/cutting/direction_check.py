"""Looks whether cloth with a print or a pile is cut the right way up, and whether joined strips are long enough.

The way up is seen from the drawing of the top, which knows nothing of how pieces lie on the cloth.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.craft.cutting_choices import DIAGONAL_JOIN
from service.craft.document import Project
from service.craft.units import CuttingRules, Patch
from workers.cutting.cuts import Cut

Sides = tuple[Fraction, Fraction]
"""Across and down."""


def check_direction(project: Project, cuts: Sequence[Cut]) -> list[str]:
    """Pieces of cloth with a direction that no patch of the top is for, as it lies there."""
    one_way = {key for key, fabric in project.fabrics.items() if fabric.one_way}
    if not one_way.intersection(cut.fabric for cut in cuts):
        return []
    upright, others = _draw_patches(project, one_way)
    found = []
    for key in sorted(one_way):
        wanted = _count_wanted(cuts, key)
        astray = sum((wanted - upright[key]).values())
        if astray > others[key]:
            found.append(
                f'{astray - others[key]} pieces of "{project.fabrics[key].name}" lie the wrong way up'
            )
    return found


def _draw_patches(project: Project, fabrics: set[str]) -> tuple[dict[str, Counter[Sides]], Counter[str]]:
    """The cut sizes of rectangles that lie straight on the top, as they lie; and how many patches lie otherwise."""
    upright: dict[str, Counter[Sides]] = {key: Counter() for key in fabrics}
    others: Counter[str] = Counter()
    for patch in project.top.patches():
        if patch.fabric not in fabrics:
            continue
        sides = _straight_sides(patch, project.rules)
        if sides is None:
            others[patch.fabric] += 1
        else:
            upright[patch.fabric][sides] += 1
    return upright, others


def _straight_sides(patch: Patch, rules: CuttingRules) -> Sides | None:
    xs, ys = ({point[i] for point in patch.points} for i in (0, 1))
    if len(patch.points) != 4 or len(xs) != 2 or len(ys) != 2:
        return None
    return rules.plain(max(xs) - min(xs)), rules.plain(max(ys) - min(ys))


def _count_wanted(cuts: Sequence[Cut], fabric: str) -> Counter[Sides]:
    """Pieces that are sewn as they are cut. What is cut up, joined or asked to lie otherwise says nothing here."""
    wanted: Counter[Sides] = Counter()
    for cut in cuts:
        plain = not (cut.then or cut.method or cut.template or cut.grain)
        if cut.fabric == fabric and plain and cut.serves == "patches":
            wanted[cut.width, cut.height] += cut.wanted
    return wanted


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
