"""The trips between mat, machine and iron as a list to tick: everything that is ready at one place in one go."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from service.craft.language import mark, phrase
from workers.sewing.trips import IRON, MACHINE, MAT

CUTTING, ALL_PATCHES = "cutting", mark("Cut all patches")
PLACES = {IRON: mark("iron"), MACHINE: mark("machine"), MAT: mark("mat")}
FEWEST = mark("No order of the work takes fewer trips.")


@dataclass(frozen=True)
class Trip:
    """Visits one after the other with the same work: their numbers, the places in order, and the stages."""

    numbers: str
    places: str
    stages: tuple[str, ...]


@dataclass(frozen=True)
class TripList:
    """All visits, and what is said about their number."""

    trips: tuple[Trip, ...]
    words: str


def list_trips(sewing: Mapping[str, Any]) -> TripList | None:
    """The visits of a sewing plan, or None where it has none or a single one."""
    plan = sewing.get("trips") or {}
    visits = plan.get("visits") or []
    if len(visits) < 2:
        return None
    titles = {str(stage.get("id")): str(stage.get("title") or "") for stage in sewing.get("stages", [])}
    titles[CUTTING] = phrase(ALL_PATCHES)
    trips = []
    for stages, inside in groupby(enumerate(visits, start=1), key=lambda item: item[1]["stages"]):
        numbered = list(inside)
        numbers = dict.fromkeys(str(numbered[end][0]) for end in (0, -1))
        places = ", ".join(phrase(PLACES[visit["at"]]) for _, visit in numbered)
        trips.append(Trip("–".join(numbers), places.capitalize(), tuple(titles[stage] for stage in stages)))
    words = phrase(
        "The whole top takes {count} trips, if everything that is ready is done each time.", count=len(visits)
    )
    return TripList(tuple(trips), f"{words} {phrase(FEWEST)}" if plan.get("least_proved") else words)
