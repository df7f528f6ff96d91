"""How the seams of one stage are pressed, in words: to a side, open, or spun; and the copies pressed another way."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from service.craft.fabric import Fabric
from workers.sewing.crossings import Spin, seam_key
from workers.sewing.liking import name_press, name_towards, shows_through
from workers.sewing.nesting import Nested
from workers.sewing.works import SeamLine, Work

NO_CLOTH: Mapping[str, Fabric] = {}
OPEN, SPUN = "open", "spun"
BOTH_SIDES, IN_A_RING = "both sides", "in a ring round the middle"


@dataclass(frozen=True)
class Half:
    """One half of a spun seam: its ends, and the way it is pressed in a word."""

    start: complex
    end: complex
    press: str


@dataclass(frozen=True)
class PressedSeam:
    """A seam of a stage with the way it is pressed, in a word, and what it falls towards, in words.

    A spun seam has two `halves`, and `layers` seams end where they meet. `shadows`:
    dark cloth lies under light cloth. `other` is how it is pressed in the copies
    that are pressed the second way, where that is another one.
    """

    id: str
    line: SeamLine
    press: str
    towards: str
    halves: tuple[Half, ...] = ()
    clockwise: bool = False
    layers: int = 0
    shadows: bool = False
    other: PressedSeam | None = None


@dataclass(frozen=True)
class PressedWays:
    """The seams of a stage as most of its copies are pressed, and how many are pressed the second way."""

    work: Work
    seams: tuple[PressedSeam, ...]
    other_way: int
    second: frozenset[str]
    """The ids of the works that are pressed the second way."""


@dataclass(frozen=True)
class Laying:
    """So many copies of a stage hold parts that are pressed the second way, in these places (from nought)."""

    copies: int
    places: tuple[int, ...]


def find_layings(works: Sequence[Work], second: Collection[str], nested: Nested) -> tuple[Laying, ...]:
    """Which copies of one stage take parts pressed the second way, and where; empty where none does."""
    found: dict[tuple[int, ...], int] = {}
    for work in works:
        places = tuple(
            i for i, item in enumerate(work.items) if isinstance(item.piece, Work) and item.piece.id in second
        )
        found[places] = found.get(places, 0) + nested.counts[work]
    return tuple(Laying(copies, places) for places, copies in found.items()) if any(found) else ()


def name_seam(seam: tuple[str, int]) -> str:
    """The id of a seam."""
    return f"{seam[0]}.seam-{seam[1] + 1}"


def press_in_ways(works: Sequence[Work], nested: Nested, fabrics: Mapping[str, Fabric]) -> PressedWays:
    """The seams of works that are sewn in one stage. Twins that turn out to be pressed alike are one way."""
    ways: dict[tuple[object, ...], list[Work]] = {}
    for work in works:
        key = tuple((seam.press, seam.halves) for seam in press_seams_of(work, nested))
        ways.setdefault(key, []).append(work)
    (work, *_), *others = ways.values()
    seams = press_seams_of(work, nested, fabrics)
    if others:
        second = press_seams_of(others[0][0], nested, fabrics)
        seams = tuple(
            replace(seam, other=other) if (seam.press, seam.halves) != (other.press, other.halves) else seam
            for seam, other in zip(seams, second, strict=True)
        )
    other = [work for way in others for work in way]
    return PressedWays(
        work, seams, sum(nested.counts[work] for work in other), frozenset(work.id for work in other)
    )


def press_seams_of(
    work: Work, nested: Nested, fabrics: Mapping[str, Fabric] = NO_CLOTH
) -> tuple[PressedSeam, ...]:
    """The seams of one work; without cloths nothing is said of what shows through."""
    return tuple(_press_seam(work, number, nested, fabrics) for number in range(len(work.seams)))


def _press_seam(work: Work, number: int, nested: Nested, fabrics: Mapping[str, Fabric]) -> PressedSeam:
    line, key, seam_id = work.seams[number], seam_key(work, number), name_seam((work.stage, number))
    if (work.id, number) in nested.spins:
        return _spin(seam_id, line, nested.spins[work.id, number], nested)
    if key in nested.served_by_none:
        return PressedSeam(seam_id, line, OPEN, BOTH_SIDES)
    side = nested.pressing.sides.get(key, 0)
    shadows = shows_through(line, side, fabrics)
    return PressedSeam(seam_id, line, name_press(line, side), name_towards(line, side), shadows=shadows)


def _spin(seam_id: str, line: SeamLine, spin: Spin, nested: Nested) -> PressedSeam:
    side = spin.find_side(nested.pressing.sides[spin.by])
    halves = (
        Half(line.start, spin.at, name_press(line, side)),
        Half(spin.at, line.end, name_press(line, 1 - side)),
    )
    # seen from the middle, the half before it has the side that is at its right hand at the left one
    return PressedSeam(seam_id, line, SPUN, IN_A_RING, halves, clockwise=side == 0, layers=spin.layers)
