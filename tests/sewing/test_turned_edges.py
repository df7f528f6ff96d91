"""What viewers read of pieces with a turned edge, on every track; and of pieces that overlap without a word."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.outlines import read_svg, to_json
from workers.sewing.names import label

Sewn = Callable[..., SimpleNamespace]

TRACKS = [
    {"name": "hoop and cutter", "has": ["hoop 130x180", "cutter 12x12"]},
    {"name": "hoop", "has": ["hoop 130x180"]},
    {"name": "cutter", "has": ["cutter 12x12"]},
    {"name": "by hand", "has": []},
]
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">'
    '<rect id="bed" width="40" height="40"/></svg>'
)


def bed(name: str, x: str, **more: Any) -> dict[str, Any]:
    return {"name": name, "outline": "bed.svg", "fabric": "leaf", "at": [x, "4"], **more}


@pytest.fixture
def steps_of(units: SimpleNamespace, sewn: Sewn) -> Callable[..., dict[str, list[dict[str, Any]]]]:
    """The steps by track of a top with these pieces on it; `drawn` says whether their outline is there."""

    def make(*pieces: dict[str, Any], drawn: bool = True, **more: Any) -> dict[str, list[dict[str, Any]]]:
        raw = units.document(units.patch("frost", "12", "8"), pieces=list(pieces), tracks=TRACKS, **more)
        outlines = {"bed.svg": to_json(read_svg(SVG.encode(), "bed.svg"))} if drawn else {}
        steps: dict[str, list[dict[str, Any]]] = sewn(raw, outlines=outlines).steps
        return steps

    return make


def about(steps: list[dict[str, Any]], piece: str) -> list[str]:
    stem = f"applique.piece.{piece}."
    return [step["id"].removeprefix(stem) for step in steps if step["id"].startswith(stem)]


def find(steps: list[dict[str, Any]], step_id: str) -> dict[str, Any]:
    return next(step for step in steps if step["id"] == step_id)


PRESSED = ["snip", "turn", "card-out", "press-again"]
IN_HOOP = [*PRESSED, "placement", "hoop-off", "lay", "baste", "hoop-on", "tack-down", "finish"]
WAYS = {
    "by hand": [*PRESSED, "lay", "finish"],
    "cutter": [*PRESSED, "lay", "finish"],
    "hoop": IN_HOOP,
    "hoop and cutter": IN_HOOP,
}


@pytest.mark.parametrize("track", WAYS)
def test_a_turned_piece_is_pressed_over_its_card_then_laid_then_sewn(steps_of: Any, track: str) -> None:
    assert about(steps_of(bed("bed", "3", edge="turned"))[track], "bed") == WAYS[track]


CUTTING = {
    "by hand": ["card", "cut"],
    "hoop": ["card", "cut"],
    "cutter": ["card", "mat", "cut"],
    "hoop and cutter": ["card", "mat", "cut"],
}


@pytest.mark.parametrize("track", CUTTING)
def test_every_track_cuts_a_card_from_a_printed_line_and_the_cloth_beyond_it(
    steps_of: Any, track: str
) -> None:
    steps = steps_of(bed("bed", "3", edge="turned"))[track]
    stem = "applique.turned.leaf."
    assert [s["id"].removeprefix(stem) for s in steps if s["id"].startswith(stem)] == CUTTING[track]
    slug = track.replace(" ", "-")
    assert find(steps, f"{stem}card")["files"] == [f"templates-{slug}.pdf"]
    files = find(steps, f"{stem}cut")["files"]
    assert files == (["cut-leaf-turned-*"] if "cutter" in track else [])


@pytest.mark.parametrize("track", WAYS)
def test_no_step_about_a_turned_piece_fuses_or_trims(steps_of: Any, track: str) -> None:
    """Web would keep the allowance from turning, and a fold that is trimmed frays away."""
    steps = [s for s in steps_of(bed("bed", "3", edge="turned"))[track] if "bed" in s["pieces"]]
    words = " ".join(s["text"] for s in steps).lower()
    assert steps
    assert "fuse" not in words
    assert "trim" not in words


@pytest.mark.parametrize("track", WAYS)
def test_the_allowance_is_said_as_the_document_has_it(steps_of: Any, track: str) -> None:
    steps = steps_of(bed("bed", "3", edge="turned"), applique={"turning": "1/4"})[track]
    assert "allowance of 1/4 in" in find(steps, "applique.piece.bed.turn")["text"]
    if "cutter" not in track:
        assert "1/4 in beyond it" in find(steps, "applique.turned.leaf.cut")["text"]


@pytest.mark.parametrize("track", WAYS)
def test_a_second_turned_piece_has_a_step_of_its_own_with_its_place(steps_of: Any, track: str) -> None:
    steps = steps_of(bed("bed", "3", edge="turned"), bed("other bed", "9", edge="turned"))[track]
    (again,) = [s for s in steps if s["pieces"] == ["other bed"]]
    assert again["id"] == f"applique.piece.{label('other bed')}.sew"
    assert "9 1/4 in from the left" in again["text"]


@pytest.mark.parametrize("track", WAYS)
@pytest.mark.parametrize("above", [[], ["low bed"]])
def test_an_edge_under_another_piece_stays_flat_whether_or_not_it_is_said(
    steps_of: Any, track: str, above: list[str]
) -> None:
    """The upper bed overlaps the lower by 14.6 mm; without a word it lies above, as the later one."""
    pieces = bed("low bed", "3", edge="turned"), bed("high bed", "4", edge="turned", above=above)
    steps = steps_of(*pieces)[track]
    low = next(s for s in steps if s["pieces"] == ["low bed"] and s["id"].endswith(".snip"))
    assert "Leave its edge flat under the high bed." in low["text"]
    high = [s for s in steps if s["pieces"] == ["high bed"]]
    assert any(s["why"].startswith("It lies over the low bed") for s in high)
    order = [s["pieces"] for s in steps if s["id"].startswith("applique.piece.")]
    assert order.index(["low bed"]) < order.index(["high bed"])


def test_what_is_said_to_lie_above_and_touches_nowhere_is_not_said_to_cover(steps_of: Any) -> None:
    pieces = bed("low bed", "3", edge="turned"), bed("high bed", "9", edge="turned", above=["low bed"])
    text = " ".join(s["text"] + s["why"] for s in steps_of(*pieces)["by hand"])
    assert "lies over" not in text
    assert "Leave its edge" not in text


def test_without_outlines_the_steps_go_by_what_is_said(steps_of: Any) -> None:
    pieces = bed("high bed", "4", above=["low bed"]), bed("low bed", "3")
    steps = steps_of(*pieces, drawn=False)["by hand"]
    order = [s["pieces"] for s in steps if s["id"].startswith("applique.piece.")]
    assert order.index(["low bed"]) < order.index(["high bed"])
    assert any(s["why"].startswith("It lies over the low bed") for s in steps)
