"""A unit turned by quarter turns clockwise, or mirrored left to right."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from service.craft.faults import show
from service.craft.measure import Exact
from service.craft.reading import at
from service.craft.units.base import ZERO, Frame, Unit
from service.craft.units.reading import UnitReader

TURNED_FIELDS = frozenset({"inside", "turn"})
MIRRORED_FIELDS = frozenset({"inside"})
TURNS = (90, 180, 270)

ONE, MINUS = Exact(1), Exact(-1)


@dataclass(frozen=True, kw_only=True)
class Turned(Unit):
    """A unit turned clockwise by 90, 180 or 270 degrees."""

    kind: ClassVar[str] = "turned"
    inside: Unit
    turn: int

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return self.inside.width if self.turn == 180 else self.inside.height

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return self.inside.height if self.turn == 180 else self.inside.width

    def children(self) -> list[tuple[Unit, Frame]]:
        """The one unit, turned about the corner that comes to lie top left."""
        if self.turn == 90:
            return [(self.inside, Frame(self.width, ZERO, (ZERO, MINUS, ONE, ZERO)))]
        if self.turn == 180:
            return [(self.inside, Frame(self.width, self.height, (MINUS, ZERO, ZERO, MINUS)))]
        return [(self.inside, Frame(ZERO, self.height, (ZERO, ONE, MINUS, ZERO)))]


@dataclass(frozen=True, kw_only=True)
class Mirrored(Unit):
    """A unit as seen in a mirror: left and right change places."""

    kind: ClassVar[str] = "mirrored"
    inside: Unit

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return self.inside.width

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return self.inside.height

    def children(self) -> list[tuple[Unit, Frame]]:
        """The one unit, left to right."""
        return [(self.inside, Frame(self.width, ZERO, (MINUS, ZERO, ZERO, ONE)))]


def read_turned(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Turned | None:
    """A turned unit from the document."""
    inside = units.unit(raw.get("inside"), at(pointer, "inside"))
    turn = raw.get("turn")
    if isinstance(turn, bool) or turn not in TURNS:
        where = at(pointer, "turn") if "turn" in raw else pointer
        units.reader.fault(
            where,
            f'"turn" is {"missing" if turn is None else show(turn)}',
            "the number 90, 180 or 270 (degrees clockwise)",
        )
        return None
    return None if inside is None else Turned(pointer=pointer, inside=inside, turn=int(turn))


def read_mirrored(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Mirrored | None:
    """A mirrored unit from the document."""
    inside = units.unit(raw.get("inside"), at(pointer, "inside"))
    return None if inside is None else Mirrored(pointer=pointer, inside=inside)
