"""How often each unit of a top is sewn: every shared block is looked at once, however often it is used."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from service.craft.units import Mirrored, Turned, Unit

TOP = "top"

QUARTER_TURNS = (90, 270)


@dataclass(frozen=True)
class UnitUse:
    """A unit, the nearest named block it belongs to (or "top"), how often, how it lies.

    `sideways`: on its side; `mirrored`: as seen in a mirror.
    """

    unit: Unit
    block: str
    sideways: bool
    times: int
    mirrored: bool = False


_Key = tuple[int, str, bool, bool]


@dataclass(frozen=True)
class _Place:
    unit: Unit
    block: str
    sideways: bool
    mirrored: bool = False

    @property
    def key(self) -> _Key:
        return id(self.unit), self.block, self.sideways, self.mirrored


def count_units(top: Unit) -> list[UnitUse]:
    """Every unit of the top once for each block and direction it is used in, outermost first.

    Takes time for each unit of the document, not for each of the top's thousands.
    """
    order = _outermost_first(_Place(top, top.block or TOP, False))
    times: Counter[_Key] = Counter({order[0].key: 1})
    for place in order:
        for inner, count in _inside(place):
            times[inner.key] += count * times[place.key]
    return [UnitUse(p.unit, p.block, p.sideways, times[p.key], p.mirrored) for p in order]


def _outermost_first(top: _Place) -> list[_Place]:
    """Every place after all that it lies in."""
    finished: dict[_Key, _Place] = {}

    def visit(place: _Place) -> None:
        # the last first, so that the reversed order is the document's own
        for inner, _ in reversed(list(_inside(place))):
            if inner.key not in finished:
                visit(inner)
        finished[place.key] = place

    visit(top)
    return list(reversed(finished.values()))


def _inside(place: _Place) -> Iterator[tuple[_Place, int]]:
    """What lies straight inside, each once, and how often."""
    sideways = place.sideways
    if isinstance(place.unit, Turned) and place.unit.turn in QUARTER_TURNS:
        sideways = not sideways
    mirrored = place.mirrored != isinstance(place.unit, Mirrored)
    children = [child for child, _ in place.unit.children()]
    counts = Counter(map(id, children))
    for child in {id(c): c for c in children}.values():
        yield _Place(child, child.block or place.block, sideways, mirrored), counts[id(child)]
