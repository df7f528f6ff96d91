"""The sewing plan as it stands in `sewing.json`."""

from __future__ import annotations

from typing import Any

from service.craft.measure import Number, length_object
from workers.sewing.crossings import Crossing
from workers.sewing.long_strips import count_joins
from workers.sewing.nesting_words import help_nesting, why_not_nesting
from workers.sewing.notes_json import notes_object, time_object, turn_object
from workers.sewing.plan import SewingPlan, Stage, StageSize
from workers.sewing.pressed import PressedSeam, name_seam
from workers.sewing.rings import RING, find_first_go
from workers.sewing.spare_triangles import spare_object
from workers.sewing.stage_notes import add_up
from workers.sewing.trips import Trips
from workers.sewing.works import Cut, Laid, Work, walk_patches

DECIMALS = 4
"""Places of a coordinate in a picture: a ten-thousandth of an inch is finer than any drawing."""

DEGREES = 45
"""In one eighth of a full turn."""


def plan_object(plan: SewingPlan, trips: Trips) -> dict[str, Any]:
    """Everything in the plan as plain JSON; coordinates in inches from the top left corner of a stage's picture."""
    measure, top = plan.project.measure, plan.project.top
    allowances = 2 * plan.project.seam_allowance
    return {
        "finished": _sizes((top.width, top.height), measure),
        "unfinished": _sizes((top.width + allowances, top.height + allowances), measure),
        "accuracy": accuracy_object(plan),
        "seam_allowance": length_object(plan.project.seam_allowance, measure),
        "stages": [_stage(stage, plan) for stage in plan.stages],
        "seams": [_seam(stage, i) for stage in plan.stages for i in range(len(stage.seams))],
        "junctions": _junctions(plan),
        "trips": trips_object(trips),
        "turn_of_cloth": turn_object(plan.project),
        "minutes": time_object(add_up(plan.notes.values(), count_joins(plan.project), plan.project.pace)),
    }


def accuracy_object(plan: SewingPlan) -> dict[str, Any]:
    """The errors that the limits of a plan reckon with."""
    accuracy, measure = plan.model.accuracy, plan.project.measure
    return {key: length_object(getattr(accuracy, key), measure) for key in ("seam", "cut", "habit")}


def trips_object(trips: Trips) -> dict[str, Any]:
    """The visits to machine, iron and mat, and how many any order takes at least."""
    return {
        "count": len(trips.visits),
        "at_least": trips.at_least,
        "least_proved": trips.least_proved,
        "visits": [{"at": visit.station, "stages": list(visit.jobs)} for visit in trips.visits],
    }


def _sizes(sizes: tuple[Number, Number], measure: str) -> dict[str, Any]:
    return {"width": length_object(sizes[0], measure), "height": length_object(sizes[1], measure)}


def size_object(size: StageSize, measure: str) -> dict[str, Any]:
    """A stage's size: unfinished, with the smallest and the largest that still join."""
    return {
        **_sizes(size.expected, measure),
        "low": _sizes(size.low, measure),
        "high": _sizes(size.high, measure),
    }


def _stage(stage: Stage, plan: SewingPlan) -> dict[str, Any]:
    work, project = stage.work, plan.project
    measure = project.measure
    return {
        "id": stage.id,
        "title": work.title,
        "makes": stage.makes,
        "count": stage.count,
        "pressed_other_way": stage.other_way,
        "piles": [
            {"copies": pile.count, "way": pile.way, "takes": list(pile.takes)}
            for pile in stage.piles
            if len(stage.piles) > 1 or pile.takes
        ],
        "needs": stage.needs,
        "size": size_object(stage.size, measure),
        "finished": _sizes((work.width, work.height), measure),
        "kind": work.kind,
        "chapter": "piecing",
        "unit": work.pointer if work.whole else "",
        "block": work.block if work.whole else "",
        "part_of": work.pointer,
        "spare": spare_object(stage, project),
        "seams": [seam.id for seam in stage.seams],
        **notes_object(plan.notes[stage.id], project),
        "parts": [_part(item) for item in work.items],
        "patches": [_patch(patch) for patch in walk_patches(Laid(work))],
    }


def _part(item: Laid) -> dict[str, Any]:
    """Where a part lies: turned about the top left corner of its own picture, which is then moved to a place."""
    stage = item.piece.stage if isinstance(item.piece, Work) else ""
    return {"stage": stage, "turn": DEGREES * item.eighths, "at": _point(item.shift)}


def _patch(cut: Cut) -> dict[str, Any]:
    hole = {"hole": [_point(corner) for corner in cut.hole]} if cut.hole else {}
    return {"fabric": cut.fabric, "points": [_point(corner) for corner in cut.corners]} | hole


def _seam(stage: Stage, number: int) -> dict[str, Any]:
    seam, *others = (seams[number] for _, seams in stage.ways)
    first = _way(seam)
    ways = [_way(other) for other in others]
    return {
        "id": seam.id,
        "stage": stage.id,
        **first,
        **_first_go(stage, number),
        "line": [_point(seam.line.start), _point(seam.line.end)],
        "other_ways": [way if way != first else None for way in ways],
    }


def _first_go(stage: Stage, number: int) -> dict[str, Any]:
    """Of a seam that is sewn in two goes, how far it is sewn at first."""
    if number or stage.work.kind != RING:
        return {}
    return {"first_go": [_point(end) for end in find_first_go(stage.work)]}


def _way(seam: PressedSeam) -> dict[str, Any]:
    """How a seam is pressed; a spun one with its halves and which way round its allowances lie."""
    way: dict[str, Any] = {"press": seam.press, "towards": seam.towards, "shadows": seam.shadows}
    if seam.halves:
        halves = [
            {"line": [_point(half.start), _point(half.end)], "press": half.press} for half in seam.halves
        ]
        way |= {
            "spin": "clockwise" if seam.clockwise else "anticlockwise",
            "halves": halves,
            "layers": seam.layers,
        }
    return way


def _junctions(plan: SewingPlan) -> dict[str, Any]:
    nested = plan.nested
    counts = {work.id: count for work, count in nested.counts.items()}
    return {
        "count": len(plan.crossings),
        "in_the_top": sum(counts[crossing.work] for crossing in plan.crossings),
        "not_nesting": [_failure(crossing, plan) for crossing in plan.failing],
        "least_proved": nested.failing_in_top == nested.at_least,
        "at_least": nested.at_least,
        "pressed_in_turn": sorted(stage.id for stage in plan.stages if stage.other_way),
        "piles": len(nested.works),
        "piles_at_least": nested.piles_at_least,
    }


def _failure(crossing: Crossing, plan: SewingPlan) -> dict[str, Any]:
    works = {work.id: work for work in plan.nested.works}
    across, first, second = (
        name_seam((works[work].stage, number))
        for work, number in ((crossing.work, crossing.across), *crossing.met)
    )
    return {
        "at": _point(crossing.at),
        "stage": works[crossing.work].stage,
        "seam": across,
        "meeting": [first, second],
        "in_the_top": plan.nested.counts[works[crossing.work]],
        "why": why_not_nesting(crossing, plan.nested.served_by_none),
        "help": help_nesting(crossing, plan.nested.served_by_none),
    }


def _point(place: complex) -> list[float]:
    # adding nought turns a negative nought into a plain one
    return [round(place.real, DECIMALS) + 0.0, round(place.imag, DECIMALS) + 0.0]
