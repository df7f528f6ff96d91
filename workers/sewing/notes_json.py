"""What is noted of a stage, as it stands in `sewing.json`."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from service.craft.document import Project
from service.craft.measure import length_object
from workers.sewing.bias import BiasEdge, BiasEdges
from workers.sewing.minutes import Minutes, as_minutes
from workers.sewing.points import Point
from workers.sewing.stage_notes import StageNotes, WholeTime
from workers.sewing.turn_of_cloth import scant_allowance, turn_of

DECIMALS = 4
SHARE_DECIMALS = 3
ROUNDED = 10**4
"""Parts of an inch that lengths measured in a picture are rounded to."""


def notes_object(notes: StageNotes, project: Project) -> dict[str, Any]:
    """A stage's points, bias edges and minutes."""
    return {
        "points": [_point(point, project.measure) for point in notes.points],
        "bias_edges": _bias(notes.bias, project.measure) | {"pin": notes.pin},
        "minutes": minutes_object(as_minutes(notes.seconds.total, project.pace)),
        "counts": {
            "cuts": notes.counts.cuts,
            "seams": notes.counts.seams,
            "seam_length": length_object(_fraction(notes.counts.inches), project.measure),
            "pressings": notes.counts.pressings,
            "pins": notes.counts.pins,
            "trimmings": notes.counts.trimmings,
        },
    }


def _point(point: Point, measure: str) -> dict[str, Any]:
    return {
        "at": _place(point.at),
        "low": length_object(point.low, measure),
        "least": length_object(point.least, measure),
        "share_below": round(point.share, SHARE_DECIMALS),
        "at_risk": point.at_risk,
    }


def _bias(bias: BiasEdges, measure: str) -> dict[str, Any]:
    return {
        "sewn": [_edge(edge, measure) | {"seam": (edge.seam or 0) + 1} for edge in bias.sewn],
        "outer": [_edge(edge, measure) for edge in bias.outer],
    }


def _edge(edge: BiasEdge, measure: str) -> dict[str, Any]:
    return {
        "line": [_place(edge.start), _place(edge.end)],
        "length": length_object(_fraction(edge.length), measure),
    }


def minutes_object(minutes: Minutes) -> dict[str, int]:
    """Whole minutes for both paces."""
    return {"practised": minutes.practised, "beginner": minutes.beginner}


def time_object(time: WholeTime) -> dict[str, Any]:
    """The minutes of the whole top; `joins` are those of long strips, in cutting and piecing already."""
    return {
        "cutting": minutes_object(time.cutting),
        "piecing": minutes_object(time.piecing),
        "total": minutes_object(time.total),
        "joins": minutes_object(time.joins),
    }


def turn_object(project: Project) -> dict[str, Any]:
    """What folds use up and what makes up for it, by cloth; see `turn_of_cloth.py` for the formula."""
    used = project.cloths_of_top
    return {fabric: _turn(project, fabric) for fabric in used}


def _turn(project: Project, fabric: str) -> dict[str, Any]:
    turn, measure = turn_of(project, fabric), project.measure
    lengths = {
        "thickness": project.fabrics[fabric].thickness,
        "lost_in_a_seam": turn.loss,
        "scant_allowance": scant_allowance(project, fabric),
        "beside_the_diagonal": turn.beside_diagonal,
    }
    return {name: length_object(value, measure) for name, value in lengths.items()}


def _fraction(inches: float) -> Fraction:
    return Fraction(round(inches * ROUNDED), ROUNDED)


def _place(at: complex) -> list[float]:
    # adding nought turns a negative nought into a plain one
    return [round(at.real, DECIMALS) + 0.0, round(at.imag, DECIMALS) + 0.0]
