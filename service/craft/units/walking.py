"""Walking through a top where every shared unit is met once, however often it is used."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from service.craft.units.base import Unit


def walk_once(*tops: Unit) -> Iterator[Unit]:
    """Every unit of some tops once, outermost first. Takes time for each unit written, not for each one sewn."""
    seen: set[int] = set()
    waiting: list[Unit] = list(reversed(tops))
    while waiting:
        unit = waiting.pop()
        if id(unit) not in seen:
            seen.add(id(unit))
            yield unit
            waiting += _inside(unit)


def _inside(unit: Unit) -> Iterable[Unit]:
    """The first is taken last off the stack, so that the document's order comes out."""
    return reversed([child for child, _ in unit.children()])
