"""Looks a cutting plan over before anybody cuts: by other means than it was made with.

It lays every piece down strip by strip, counts the top's patches from its drawing, and the applique pieces from theirs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from service.craft.document import Project
from service.craft.measure import MM_PER_INCH
from service.craft.outlines import find_outline, flatten, place, read_files
from workers.cutting.cloth_check import check_cloth
from workers.cutting.cuts import Cut
from workers.cutting.direction_check import check_direction, check_joins, check_panels
from workers.cutting.plan import ClothPlan


def check_plan(project: Project, cuts: Sequence[Cut], plans: Sequence[ClothPlan]) -> list[str]:
    """What is wrong with a plan, in sentences; empty where it can be cut and sewn."""
    found = [*check_patches(project, cuts), *check_direction(project, cuts), *check_joins(project, cuts)]
    found += check_panels(project, cuts)
    for plan in plans:
        found += check_cloth(cuts, plan)
    planned = {plan.fabric.key for plan in plans}
    return found + [f'no strips for "{c.fabric}"' for c in cuts if c.fabric not in planned]


def check_patches(project: Project, cuts: Sequence[Cut]) -> list[str]:
    """Every patch of the top has a cut it comes from, and no more cuts than its patches need."""
    drawn: Counter[str] = Counter()
    for unit in project.top.walk():
        drawn.update(patch.fabric for patch in unit.own_patches())
    wanted: Counter[str] = Counter()
    found = []
    for cut in (c for c in cuts if c.serves == "patches"):
        wanted[cut.fabric] += cut.wanted
        if cut.makes < cut.wanted:
            found.append(f"a cut makes {cut.makes} of the {cut.wanted} patches it is for")
    for fabric in drawn | wanted:
        if drawn[fabric] != wanted[fabric]:
            found.append(
                f'the top has {drawn[fabric]} patches of "{fabric}", the cuts are for {wanted[fabric]}'
            )
    return found


def check_pieces(project: Project, outlines: Mapping[str, Any], cuts: Sequence[Cut]) -> list[str]:
    """Every applique piece has one rectangle of its cloth, larger on every side than its outline laid there."""
    cut_for = {(cut.fabric, name): cut for cut in cuts if cut.applique for name in cut.uses}
    found, files = [], read_files(outlines)
    for piece in project.pieces:
        cut = cut_for.pop((piece.fabric, piece.name), None)
        if cut is None:
            found.append(f'no cloth is cut for "{piece.name}"')
            continue
        directional = project.fabrics[piece.fabric].one_way
        lying = place(
            piece if directional else replace(piece, turn=Fraction(0)), find_outline(files, piece.outline)
        )
        xs, ys = zip(*(point for ring in lying.rings for point in flatten(ring)), strict=True)
        sides = [max(values) - min(values) for values in (xs, ys)]
        ways = [sides] if directional else [sides, sides[::-1]]
        if not any(w < cut.width * MM_PER_INCH and h < cut.height * MM_PER_INCH for w, h in ways):
            found.append(f'the cloth for "{piece.name}" is smaller than the piece')
    uses = sum(len(cut.uses) for cut in cuts if cut.applique)
    due = sum(cut.count for cut in cuts if cut.applique)
    if cut_for or uses != due:
        found.append(f"{due} rectangles are cut for {len(project.pieces)} applique pieces")
    return found
