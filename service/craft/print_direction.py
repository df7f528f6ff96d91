"""Where a print does not stand upright on the finished top, or a pile does not run down it, and why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from service.craft.cutting_choices import ACROSS, ALONG
from service.craft.fabric import Fabric
from service.craft.units import (
    Bordered,
    CornerSquares,
    CuttingRules,
    FlyingGeese,
    Mirrored,
    OnPoint,
    Polygons,
    SquareInASquare,
    Turned,
    Unit,
)
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from service.craft.units.flying_geese import CORNERS
from service.craft.units.square_in_a_square import FLIPPED

SIDE, HEAD, SLANT, FLIPPED_OVER, SCATTERED, ROUND, IN_A_STAR, IN_A_RING = (
    "on its side",
    "on its head",
    "slantwise",
    "flipped over",
    "scattered",
    "round",
    "round a star",
    "round a ring",
)
ASKED = {ALONG: "along each strip", ACROSS: "across each strip"}
"""How it comes to lie in strips that the document asks to be cut one way of the cloth."""

DETAILS = {
    SIDE: 'in what is turned here the {what} of "{name}" comes to lie on its side',
    HEAD: 'in what is turned here the {what} of "{name}" comes to stand on its head',
    SLANT: 'in what stands on its corner here the {what} of "{name}" runs slantwise',
    FLIPPED_OVER: 'a corner square is flipped over its diagonal, and the {what} of "{name}" turns with it',
    SCATTERED: 'triangles of "{name}" come out of their squares with the {what} in different directions',
    IN_A_STAR: 'the diamonds of "{name}" lie in different directions round the middle of the star, its {what} too',
    IN_A_RING: 'the blades of "{name}" lie in all directions round the middle of the ring, its {what} too',
    ROUND: 'the {what} of "{name}" runs along one pair of border strips and across the other',
    **{way: 'as the strips are to be cut here, the {what} of "{name}" runs ' + way for way in ASKED.values()},
}

REMEDIES = {
    SIDE: "sew these apart with {upright}, as the cutting list has it, or a cloth without a direction",
    HEAD: "sew these apart with {upright}, or a cloth without a direction",
    SLANT: "a cloth without a direction, or the slant on purpose",
    FLIPPED_OVER: "a cloth without a direction, or try one corner before you cut the rest",
    SCATTERED: "a cloth without a direction, or lay all triangles out before you sew",
    IN_A_STAR: "a cloth without a direction, or the turn on purpose",
    IN_A_RING: "a cloth without a direction, or the turn on purpose",
    **dict.fromkeys(
        ASKED.values(), "strips cut as takes the least cloth: then with {upright}, or it is on purpose"
    ),
    ROUND: "strips cut with {upright} on all sides, as the cutting list has it, or a cloth without a direction",
}

UPRIGHT = {False: "the print upright", True: "the pile running down"}


@dataclass(frozen=True)
class TurnedPrint:
    """A cloth whose print does not stand upright, or whose pile (`napped`) does not run down; `pointer` names
    what turns it.
    """

    pointer: str
    fabric: str
    way: str
    napped: bool = False

    @property
    def right(self) -> str:
        """What would be right."""
        return REMEDIES[self.way].format(upright=UPRIGHT[self.napped])

    def say(self, cloth: str) -> str:
        """What is to be seen, about a cloth of that name."""
        return DETAILS[self.way].format(what="pile" if self.napped else "print", name=cloth)


@dataclass(frozen=True)
class _Stand:
    """How a unit stands on the top: eighths of a turn clockwise, mirrored or not, and by what."""

    eighths: int = 0
    mirrored: bool = False
    pointer: str = ""

    @property
    def way(self) -> str:
        """How an upright print comes to stand, empty where it stays upright."""
        return SLANT if self.eighths % 2 else ("", SIDE, HEAD, SIDE)[self.eighths // 2]

    def turned(self, eighths: int, pointer: str) -> _Stand:
        """How something stands that is turned inside; a turn seen in a mirror goes the other way round."""
        turn = -eighths if self.mirrored else eighths
        return replace(self, eighths=(self.eighths + turn) % 8, pointer=pointer)


def list_turned_prints(
    top: Unit, fabrics: Mapping[str, Fabric], rules: CuttingRules
) -> Iterator[TurnedPrint]:
    """Every cloth with a print or pile that comes to lie otherwise than upright, by what turns it, each once.

    A cloth with both is spoken of by its print.
    """
    napped = {key: not fabric.directional for key, fabric in fabrics.items() if fabric.one_way}
    found: dict[TurnedPrint, None] = {}
    seen: set[tuple[int, _Stand]] = set()
    waiting = [(top, _Stand())] if napped else []
    while waiting:
        unit, stand = waiting.pop()
        if (id(unit), stand) in seen:
            continue
        seen.add((id(unit), stand))
        own = (t for t in _own_turned(unit, stand, rules) if t.fabric in napped)
        found |= dict.fromkeys(replace(t, napped=napped[t.fabric]) for t in own)
        waiting += [(child, inner) for child, inner in reversed(_inside(unit, stand))]
    return iter(found)


def _inside(unit: Unit, stand: _Stand) -> list[tuple[Unit, _Stand]]:
    """What lies in a unit, and how it stands there."""
    inner = stand
    if isinstance(unit, Turned):
        inner = stand.turned(unit.turn // 45, unit.pointer)
    elif isinstance(unit, OnPoint | SquareInASquare):
        inner = stand.turned(1, unit.pointer)
    elif isinstance(unit, Mirrored):
        inner = replace(stand, mirrored=not stand.mirrored)
    return [(child, inner) for child, _ in unit.children()]


def _own_turned(unit: Unit, stand: _Stand, rules: CuttingRules) -> Iterator[TurnedPrint]:
    """The cloths of a unit's own patches that turn: by what the unit is, or by how it stands."""
    flipped = _flipped_cloth(unit)
    for need in unit.needs(rules):
        if need.then in (ONCE, TWICE) or need.method:
            yield TurnedPrint(unit.pointer, need.fabric, SCATTERED)
        elif need.then == DIAMONDS:
            yield TurnedPrint(unit.pointer, need.fabric, IN_A_STAR)
        elif need.all_ways:
            yield TurnedPrint(unit.pointer, need.fabric, IN_A_RING)
        elif need.lay in ASKED:
            yield TurnedPrint(unit.pointer, need.fabric, ASKED[need.lay])
        elif need.fabric == flipped:
            yield TurnedPrint(unit.pointer, need.fabric, FLIPPED_OVER)
        elif isinstance(unit, SquareInASquare) and not flipped:
            yield TurnedPrint(unit.pointer, need.fabric, SLANT)
        elif stand.way:
            yield TurnedPrint(stand.pointer, need.fabric, stand.way)
        elif isinstance(unit, Bordered):
            yield TurnedPrint(unit.pointer, need.fabric, ROUND)
    if isinstance(unit, Polygons):
        yield from (TurnedPrint(unit.pointer, fabric, SLANT) for fabric in unit.slanting)
        yield from (TurnedPrint(unit.pointer, fabric, FLIPPED_OVER) for fabric in unit.flipped)


def _flipped_cloth(unit: Unit) -> str:
    """The cloth of squares that are flipped over their diagonal, or nothing."""
    if isinstance(unit, CornerSquares):
        return unit.corner_fabric
    if isinstance(unit, SquareInASquare) and unit.method == FLIPPED:
        return unit.fabric
    if isinstance(unit, FlyingGeese) and unit.method == CORNERS:
        return unit.sky
    return ""
