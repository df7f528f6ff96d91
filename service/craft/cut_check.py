"""Cuts that no plan can make good: larger than their cloth is wide, or a strip set shorter than its pieces."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.document import Project
from service.craft.faults import Fault
from service.craft.measure import format_length
from service.craft.reading import at
from service.craft.units import StripSet, Unit
from service.craft.units.walking import walk_once


def check_cuts(project: Project) -> tuple[list[Fault], list[Fault]]:
    """Faults: pieces that fit on their cloth neither way. Warnings: strips planned longer than the document says."""
    faults: dict[Fault, None] = {}
    warnings: list[Fault] = []
    for unit in walk_once(project.top):
        faults |= dict.fromkeys(_find_too_wide(unit, project))
        if isinstance(unit, StripSet):
            warnings += _look_at_length(unit, project)
    return list(faults), warnings


def _find_too_wide(unit: Unit, project: Project) -> Iterator[Fault]:
    """Both sides longer than the cloth is wide. A strip is none of these: it is joined of several."""
    for need in unit.needs(project.rules):
        fabric = project.fabrics[need.fabric]
        if need.form == "strip" or min(need.width, need.height) <= fabric.usable_width:
            continue
        width, height, usable = (
            format_length(side, project.measure) for side in (need.width, need.height, fabric.usable_width)
        )
        yield Fault(
            unit.pointer,
            f'a piece cut {width} by {height} does not fit on "{fabric.name}", which is {usable} wide',
            "smaller patches, or a wider cloth (its `usable_width`)",
        )


def _look_at_length(unit: StripSet, project: Project) -> Iterator[Fault]:
    """Strips that are shorter than one piece are cut as long as that piece."""
    piece = project.rules.plain(unit.cut_into)
    if unit.length < piece:
        length, least = (format_length(side, project.measure) for side in (unit.length, piece))
        detail = (
            f"the strips are {length} long, and a piece of the set is cut {least}: they are planned that long"
        )
        yield Fault(at(unit.pointer, "length"), detail, f"{least} or more, or leave the length out")
