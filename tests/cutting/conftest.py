"""A winter bed of leeks and a few whole documents to cut."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput

Document = dict[str, Any]


def patch(width: str, height: str, fabric: str) -> Document:
    return {"unit": "patch", "size": [width, height], "fabric": fabric}


def triangle(side: str, first: str, second: str, method: str = "two at a time") -> Document:
    return {
        "unit": "half-square triangle",
        "size": [side, side],
        "fabrics": [first, second],
        "method": method,
    }


def document(top: Document | str, **more: Any) -> Document:
    """A document of two cloths 40 in wide round one top."""
    whole: Document = {
        "title": "Leek bed",
        "fabrics": {
            "frost": {"name": "frost white", "usable_width": "40"},
            "leaf": {"name": "leek green", "usable_width": "40"},
        },
        "top": top,
    }
    return whole | more


@pytest.fixture
def star() -> Document:
    """A three by three block, 6 in finished: four corner squares, triangles at the sides, one patch."""
    corner, middle = patch("2", "2", "frost"), patch("2", "2", "leaf")
    side = triangle("2", "frost", "leaf")
    back = triangle("2", "leaf", "frost")
    return {"unit": "grid", "rows": [[corner, side, corner], [back, middle, side], [corner, back, corner]]}


@pytest.fixture
def runner(star: Document) -> Document:
    """A table runner of six blocks on point with a border, binding, backing and batting."""
    return document(
        {
            "unit": "bordered",
            "inside": {"unit": "on point", "rows": [["star"] * 6], "side": "leaf", "corner": "leaf"},
            "borders": [{"width": "2", "fabric": "leaf"}],
        },
        blocks={"star": star},
        finish={
            "binding": {"fabric": "leaf"},
            "backing": {"fabric": "frost", "overhang": "2"},
            "batting": {"overhang": "2"},
        },
    )


@pytest.fixture
def plan() -> Callable[[Document], Document]:
    """The cutting plan of a document, read back from its bytes."""

    def make(raw: Document) -> Document:
        _, made = make_cutting_plan(JobInput("cutting", raw))
        read: Document = json.loads(made.data)
        return read

    return make
