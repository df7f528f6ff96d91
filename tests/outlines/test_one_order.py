"""Templates, cut files, hoopings and steps agree on which of two overlapping pieces lies on top, said or not."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.outlines import find_outline
from service.craft.outlines.laid_pieces import lay_pieces
from workers.outlines.asked import read_pieces, read_project
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.stitches.recipe import make_stitches

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

TRACKS = [
    {"name": "hoop and cutter", "has": ["hoop 130x180", "cutter 12x12"]},
    {"name": "by hand", "has": []},
]


def lower_by_templates(job: JobInput) -> list[str]:
    return [one.piece.name for one in read_pieces(job, read_project(job)) if one.under]


def lower_by_hoopings(job: JobInput) -> str:
    reports = [json.loads(file.data) for file in make_stitches(job) if file.kind == "stitch report"]
    return str(reports[0]["passes"][0]["piece"])


def lower_by_steps(job: JobInput) -> set[str]:
    names = set()
    for file in make_sewing_plan(job):
        if file.kind == "steps":
            steps = json.loads(file.data)["steps"]
            names.add(next(s["pieces"][0] for s in steps if s["id"].startswith("applique.piece.")))
    return names


@pytest.mark.parametrize("first", ["bed", "stalk"])
@pytest.mark.parametrize("above", [{}, {"bed": ["stalk"]}, {"stalk": ["bed"]}])
@pytest.mark.parametrize("edge", ["satin", "turned"])
def test_all_take_the_same_piece_to_lie_below(
    job: Job, piece: Make, first: str, above: dict[str, list[str]], edge: str
) -> None:
    """The stalk crosses the lower edge of the bed: without a word the document's first piece is the lower one."""
    places = {"bed": ["8", "8"], "stalk": ["8", "9"]}
    order = [first, *(name for name in places if name != first)]
    pieces = [piece(n, f"leek.svg#{n}", at=places[n], edge=edge, above=above.get(n, [])) for n in order]
    asked = job(*pieces, tracks=TRACKS)
    lower = next(iter(above.values()))[0] if above else first
    assert lower_by_templates(asked) == [lower]
    assert lower_by_hoopings(asked) == lower
    assert lower_by_steps(asked) == {lower}


def test_what_comes_after_is_what_overlaps_and_what_is_said_and_rests_on_only_what_touches(
    job: Job, piece: Make
) -> None:
    """A chain in which the first and the last overlap without a word, and one piece lies far away."""
    pieces = [
        piece("a", "leek.svg#bed", at=["5", "5"]),
        piece("b", "leek.svg#bed", at=["6", "5"], above=["a"]),
        piece("c", "leek.svg#bed", at=["7", "5"], above=["b", "far"]),
        piece("far", "leek.svg#bed", at=["16", "16"]),
    ]
    asked = job(*pieces)
    project = read_document(asked.document)
    laid = lay_pieces(
        project.pieces, {p.name: find_outline(asked.outlines, p.outline) for p in project.pieces}
    )
    assert laid.rests_on == {"a": (), "b": ("a",), "c": ("b", "a"), "far": ()}
    assert laid.comes_after == {"a": (), "b": ("a",), "c": ("b", "far", "a"), "far": ()}
