"""How the seams of one stage are pressed, in words: to a side, open, or spun; and the piles of copies made alike."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from service.craft.fabric import Fabric
from service.craft.language import mark, phrase
from workers.sewing.crossings import Spin, seam_key
from workers.sewing.liking import name_press, name_towards, shows_through
from workers.sewing.nesting import Nested
from workers.sewing.works import SeamLine, Work

NO_CLOTH: Mapping[str, Fabric] = {}
OPEN, SPUN = "open", "spun"
BOTH_SIDES, IN_A_RING = mark("both sides"), mark("in a ring round the middle")


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
    dark cloth lies under light cloth.
    """

    id: str
    line: SeamLine
    press: str
    towards: str
    halves: tuple[Half, ...] = ()
    clockwise: bool = False
    layers: int = 0
    shadows: bool = False


@dataclass(frozen=True)
class Pile:
    """Copies of one stage that are made exactly alike.

    `way` is 1 where they are pressed like the first pile, else the number of the way they are pressed in. `takes` says
    of each part from which of its piles it comes (from 1), or 0 where it is a patch or there is one pile only.
    """

    work: Work
    count: int
    seams: tuple[PressedSeam, ...]
    way: int
    takes: tuple[int, ...] = ()


def sort_into_piles(nested: Nested, fabrics: Mapping[str, Fabric]) -> dict[str, tuple[Pile, ...]]:
    """The piles of every stage, the largest first."""
    stages: dict[str, list[Work]] = {}
    for work in nested.works:
        stages.setdefault(work.stage, []).append(work)
    for works in stages.values():
        works.sort(key=lambda work: -nested.counts[work])
    numbers = {
        work: number if len(works) > 1 else 0
        for works in stages.values()
        for number, work in enumerate(works, start=1)
    }
    return {stage: tuple(_list_piles(works, nested, numbers, fabrics)) for stage, works in stages.items()}


def _list_piles(
    works: Sequence[Work], nested: Nested, numbers: Mapping[Work, int], fabrics: Mapping[str, Fabric]
) -> Iterator[Pile]:
    ways: dict[tuple[object, ...], int] = {}
    for work in works:
        seams = press_seams_of(work, nested, fabrics)
        way = ways.setdefault(tuple((seam.press, seam.halves) for seam in seams), len(ways) + 1)
        takes = tuple(numbers[item.piece] if isinstance(item.piece, Work) else 0 for item in work.items)
        yield Pile(work, nested.counts[work], seams, way, takes if any(takes) else ())


def name_seam(seam: tuple[str, int]) -> str:
    """The id of a seam."""
    return f"{seam[0]}.seam-{seam[1] + 1}"


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
        return PressedSeam(seam_id, line, OPEN, phrase(BOTH_SIDES))
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
    return PressedSeam(
        seam_id, line, SPUN, phrase(IN_A_RING), halves, clockwise=side == 0, layers=spin.layers
    )
