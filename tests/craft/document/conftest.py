"""A whole document with something in every field, and a way to change one thing in it."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults

Raw = dict[str, Any]


def whole() -> Raw:
    """Every kind of unit and every field the reader knows."""
    patch = {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}
    triangle = {
        "unit": "half-square triangle",
        "size": ["3", "3"],
        "fabrics": ["frost", "leaf"],
        "method": "four at a time",
    }
    corner = {
        "unit": "corner squares",
        "size": ["3", 3],
        "fabric": "frost",
        "corners": {"size": "1", "fabric": "leaf", "at": ["nw", "se"]},
    }
    flipped = {
        "unit": "square in a square",
        "size": ["3", "3"],
        "inside": "frost",
        "fabric": "leaf",
        "method": "corner squares",
    }
    return {
        "id": "x1",
        "series": "Garden year",
        "release": "2027-01-20",
        "title": "Leek row",
        "page": "https://studio.example/leek-row",
        "units": "both",
        "language": "nl",
        "summary": "A runner for January.",
        "measure": "in",
        "seam_allowance": "1/4",
        "round_to": "1/8",
        "cutting": {"plan": "simple", "join": "diagonal", "buying_step": "0.25 m", "straightening": 0}
        | {"worth_keeping": "3", "stacked": True},
        "fusible": {"width": "17 in"},
        "stitching": {"stitch": "2.2 mm", "tack_down": "double"},
        "applique": {"underlap": "1/4", "turning": "3/16"},
        "accuracy": {"seam": "1/64", "cut": "1/128", "habit": 0, "beyond_points": "3/16", "thread": "0.2 mm"},
        "pace": {"cut": 15, "seam": 20, "sewing": 1, "press": 15, "pin": 6, "beginner": 2},
        "fabrics": {
            "frost": {
                "name": "frost white",
                "colour": "#eef1ee",
                "usable_width": "40",
                "directional": False,
                "napped": False,
                "shrinkage": 0.03,
                "straightening": "1/2",
                "buying_step": "1/4 yd",
                "price_per_length": {"amount": "12.50", "per": "36"},
                "stash": [{"width": "18", "length": "21", "count": 2}],
                "sold_as": {"name": "fat quarter", "width": "22", "length": "18", "price": "4.20"},
            },
            "leaf": {},
            "fleece": {"cut": "trim in place"},
        },
        "blocks": {
            "bed": {
                "unit": "grid",
                "rows": [
                    [patch, {"unit": "turned", "inside": triangle, "turn": 90}],
                    [{"unit": "mirrored", "inside": corner}, flipped],
                ],
                "sashing": {"width": "1", "fabric": "leaf", "around": True},
                "cornerstones": "frost",
            },
            "geese": {
                "unit": "flying geese",
                "size": ["4", "2"],
                "goose": "frost",
                "sky": "leaf",
                "method": "four at a time",
            },
            "glass": {
                "unit": "quarter-square triangle",
                "size": ["4", "4"],
                "fabrics": ["frost", "leaf", "frost", "leaf"],
                "method": "two at a time",
            },
            "rows": {
                "unit": "strip set",
                "strips": [{"width": "1", "fabric": "frost"}, {"width": "2", "fabric": "leaf"}],
                "length": "30",
                "cut_into": "2",
            },
            "pond": {
                "unit": "square in a square",
                "inside": {"fabric": "frost", "size": ["4 1/2", "4 1/2"]},
                "fabric": "leaf",
                "size": ["6.364", "6.364"],
            },
        },
        "top": {
            "unit": "bordered",
            "inside": {
                "unit": "on point",
                "rows": [["bed", "bed"], ["bed", "bed"]],
                "alternate": {
                    "unit": "square in a square",
                    "inside": "frost",
                    "fabric": "leaf",
                    "size": ["9", "9"],
                },
                "side": "leaf",
                "corner": "frost",
                "extra": "1/2",
            },
            "borders": [
                {
                    "width": "2",
                    "fabric": "leaf",
                    "corners": "squares",
                    "corner_fabric": "frost",
                    "first": "long sides",
                }
            ],
        },
        "pieces": [
            {
                "name": "leek",
                "outline": "leek.svg#stalk",
                "fabric": "fleece",
                "at": ["4", "2"],
                "turn": 15,
                "mirror": True,
                "scale": 1.5,
                "above": [],
                "edge": "zigzag",
                "thread": {"name": "white", "colour": "#ffffff"},
            },
            {"name": "leaf", "outline": "leek.svg#leaf", "fabric": "leaf", "at": [4, 2], "above": ["leek"]},
        ],
        "finish": {
            "binding": {"fabric": "leaf", "strip": "2 1/4", "cut": "bias"},
            "backing": {"fabric": "frost", "overhang": "2"},
            "batting": {"overhang": "2"},
        },
        "colourways": [{"name": "dusk", "fabrics": {"frost": {"colour": "#39405a", "name": "dusk"}}}],
        "tracks": [
            {"name": "by machine", "has": ["hoop 130x180", "cutter 12x12"], "reading": "new to piecing"}
        ],
        "parts": [
            {"title": "Piecing", "covers": ["cutting", "piecing"]},
            {"title": "Applique", "covers": ["applique", "finishing"]},
        ],
        "sources": [{"name": "own drawing", "covers": ["leek.svg"], "rights": "own"}],
    }


def place(raw: Any, pointer: str, value: Any) -> Any:
    """The same document with something else where the JSON pointer points."""
    changed = deepcopy(raw)
    *steps, last = pointer.split("/")[1:]
    inside = changed
    for step in steps:
        inside = inside[int(step)] if isinstance(inside, list) else inside[step]
    inside[int(last) if isinstance(inside, list) else last] = value
    return changed


def faults_of(raw: Any) -> list[tuple[str, str, str]]:
    """Pointer, detail and remedy of every fault; an empty list for a sound document."""
    try:
        read_document(raw)
    except DocumentFaults as found:
        assert found.faults, "a document was refused without a reason"
        return [(f.pointer, f.detail, f.right) for f in found.faults]
    return []


@pytest.fixture
def garden() -> Raw:
    return whole()


@pytest.fixture
def change(garden: Raw) -> Callable[[str, Any], list[tuple[str, str, str]]]:
    """The faults of the document with one thing changed."""
    return lambda pointer, value: faults_of(place(garden, pointer, value))
