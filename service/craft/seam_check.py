"""Seams that take more than a straight line: set in at a point, or deeper inside each other than anybody sews."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from service.craft.document import Project
from service.craft.faults import Fault
from service.craft.planar.splitting import TooDeep
from service.craft.units import EightPointedStar, Hexagons, Polygons, Unit
from service.craft.units.walking import walk_once

MOST_NUMBERED = 12
"""Patches that a sentence still counts up."""

LEAVE = "leave it so, for the steps say how"

ALWAYS_SET_IN: tuple[tuple[type[Unit], str, str], ...] = (
    (
        EightPointedStar,
        "round an eight-pointed star the triangles and squares of the background are set in: eight seams that stop "
        "at a point and turn there",
        f"{LEAVE}; or a star of geese and squares, which is sewn with straight seams alone",
    ),
    (
        Hexagons,
        "in a field of hexagons three patches meet at every point, so all of its seams are set in",
        f"{LEAVE}; or a block of squares and triangles for those who are new to piecing",
    ),
)
"""Units whose seams are set in whatever their size: what is said of them, and what else there is."""


def check_seams(project: Project) -> tuple[list[Fault], list[Fault]]:
    """Faults: blocks deeper than anybody sews. Warnings: patches that must be set in, or go round a middle."""
    faults, warnings = [], []
    units = list(walk_once(project.top))
    for unit in units:
        if isinstance(unit, Polygons):
            try:
                groups, rings = unit.set_in, unit.rings
            except TooDeep as why:
                faults.append(Fault(unit.pointer, f"in this block {why}", "a block made of smaller ones"))
            else:
                warnings += [_say_set_in(unit, groups)] if groups else []
                warnings += [_say_ring(unit, rings)] if rings else []
    return faults, [*warnings, *_look_at_kinds(units)]


def _look_at_kinds(units: Iterable[Unit]) -> Iterator[Fault]:
    """One warning for each kind of unit that is always set in, where the first of them stands."""
    listed = list(units)
    for kind, detail, right in ALWAYS_SET_IN:
        pointers = list(dict.fromkeys(unit.pointer for unit in listed if isinstance(unit, kind)))
        if pointers:
            more = len(pointers) - 1
            also = f" (and in {more} more place{'s' if more > 1 else ''})" if more else ""
            yield Fault(pointers[0], detail + also, right)


def _say_set_in(unit: Polygons, groups: list[tuple[int, ...]]) -> Fault:
    """Patches that no seam running straight through takes apart: sewn more slowly, and not by beginners."""
    return Fault(
        f"{unit.pointer}/patches/{groups[0][0]}",
        f"no seam runs straight between the patches {_count_up(groups[0])}: one of their seams must be set in"
        f"{_say_more(groups)}",
        f"{LEAVE}; or divide a patch so that a seam runs through",
    )


def _say_ring(unit: Polygons, groups: list[tuple[int, ...]]) -> Fault:
    """Patches that go round a middle: every seam is straight, but one is sewn in two goes."""
    return Fault(
        f"{unit.pointer}/patches/{groups[0][0]}",
        f"the patches {_count_up(groups[0])} go round a middle: their first seam is sewn part of the way and finished "
        f"last{_say_more(groups)}",
        f"{LEAVE}; or divide a patch so that a seam runs through",
    )


def _count_up(group: tuple[int, ...]) -> str:
    """The patches of a group, counted from 1 as people count them."""
    numbers = ", ".join(str(number + 1) for number in group[:MOST_NUMBERED])
    return numbers + (f" and {len(group) - MOST_NUMBERED} more" if len(group) > MOST_NUMBERED else "")


def _say_more(groups: list[tuple[int, ...]]) -> str:
    """In how many more places of the block it is so."""
    more = len(groups) - 1
    return f"; so it is in {more} more place{'' if more == 1 else 's'} of the block" if more else ""
