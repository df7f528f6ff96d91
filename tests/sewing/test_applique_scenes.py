"""Whether applique steps show the piece that they are about, as far as it may be shown, and how it lies."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from shapely import Polygon

from service.craft.document import read_document
from service.craft.drawing.scenes import Scene
from service.craft.outlines import find_outline, flatten, read_svg, to_json
from service.craft.outlines.laid_pieces import lay_pieces
from tests.rights.curves import LIKE, unlikeness
from workers.sewing.plan import SewingPlan, plan_sewing
from workers.sewing.steps import list_steps
from workers.sewing.steps.scenes.finding import find_scene
from workers.sewing.steps.scenes.inner_corners import find_snips
from workers.sewing.steps.scenes.motifs import OWN_PATTERN
from workers.sewing.steps.step import Lesson

MONTH = Path("seed_data/2027-03-rhubarb-cushion")
TRACKS = ("hoop and cutter", "hoop", "cutter", "by hand")
PlanOf = Callable[[dict[str, Any]], SewingPlan]
SHOWN = (
    "lay",
    "tack-down",
    "finish",
    "trim",
    "placement",
    "draw",
    "sew",
    "snip",
    "turn",
    "card-out",
    "press-again",
    "baste",
    "peel",
    "card",
    "cut",
)
"""What the steps are called that show a shape."""


@cache
def scenes_of(track: str, *, turned: bool = False, owned: bool = False) -> dict[str, tuple[Any, Scene]]:
    """The applique steps of the cushion with their scenes; with turned edges, or of outlines viewers must own."""
    document = json.loads((MONTH / "project.json").read_text())
    if turned:
        document["pieces"] = [piece | {"edge": "turned"} for piece in document["pieces"]]
    if owned:
        document["sources"] = [
            {"name": "a book of leaves", "covers": ["rhubarb.svg"], "rights": "viewer must own"}
        ]
    project = read_document(document)
    files = {"rhubarb.svg": to_json(read_svg((MONTH / "rhubarb.svg").read_bytes(), "rhubarb.svg"))}
    outlines = {piece.name: find_outline(files, piece.outline) for piece in project.pieces}
    rests_on = lay_pieces(project.pieces, outlines).rests_on
    lesson = Lesson(plan_sewing(project), project.track(track), rests_on, outlines)
    return {s.id: (s, find_scene(s, lesson)) for s in list_steps(lesson) if s.id.startswith("applique.")}


def lesson_of(plan: SewingPlan) -> Lesson:
    return Lesson(plan, plan.project.tracks[0])


def rings_of(scene: Scene) -> list[list[tuple[float, float]]]:
    """Every closed curve of a scene: edges of pieces, and lines that come back to where they began."""
    found = [list(piece.points) for piece in scene.pieces]
    run: list[tuple[float, float]] = []
    for _, (start, end) in scene.lines:
        run = [*run, end] if run and run[-1] == start else [start, end]
        if run[0] == run[-1]:
            found.append(run)
            run = []
    return [ring for ring in found if len(ring) >= 8]


def likest(scene: Scene, outline: str) -> float:
    file = to_json(read_svg((MONTH / "rhubarb.svg").read_bytes(), "rhubarb.svg"))
    ring = flatten(find_outline({"rhubarb.svg": file}, outline).rings[0], tolerance_mm=0.05)
    return min((unlikeness(ring, one) for one in rings_of(scene)), default=1.0)


@pytest.mark.parametrize("track", TRACKS)
@pytest.mark.parametrize("turned", [False, True])
def test_every_picture_of_a_piece_shows_its_own_outline(track: str, turned: bool) -> None:
    """By the measure that finds an outline in a release: turned, mirrored, scaled or not, it is known again."""
    shown = 0
    for step_id, (step, scene) in scenes_of(track, turned=turned).items():
        if step_id.endswith(".finish") or "leaf" in step.pieces:
            outline = "rhubarb.svg#leaf" if step.pieces[0] == "leaf" else "rhubarb.svg#stalk"
            if step_id.rpartition(".")[2] in ("finish", "sew", "card", "tack-down"):
                assert likest(scene, outline) < LIKE, step_id
                shown += 1
    assert shown >= 2


@pytest.mark.parametrize("track", TRACKS)
@pytest.mark.parametrize("turned", [False, True])
def test_no_picture_shows_an_outline_that_viewers_must_own(track: str, turned: bool) -> None:
    """A plain card stands for it, and says so wherever a shape is shown."""
    for step_id, (_, scene) in scenes_of(track, turned=turned, owned=True).items():
        assert all(likest(scene, f"rhubarb.svg#{shape}") > LIKE for shape in ("leaf", "stalk")), step_id
        if ".piece." in step_id and step_id.rpartition(".")[2] in SHOWN:
            assert OWN_PATTERN in [text for _, text in scene.labels], step_id


def test_a_piece_lies_in_its_place_on_the_whole_top_with_both_measures() -> None:
    """The leaf by hand, as its step says it: both measuring lines meet in its middle, from the left and from above."""
    [(step, scene)] = [(s, scene) for s, scene in scenes_of("by hand").values() if s.id.endswith("leaf.sew")]
    starts = [start for kind, (start, _) in scene.lines if kind == "drawn"]
    [(x, y)] = {end for kind, (_, end) in scene.lines if kind == "drawn"}
    assert starts == [(0.0, y), (x, 0.0)]
    across, down = (next(text for _, text in scene.labels if text.endswith(w)) for w in ("across", "down"))
    assert f"{across.removesuffix(' across')} from the left" in step.text
    assert f"{down.removesuffix(' down')} from the upper" in step.text


def test_a_hoop_taken_off_before_the_cloth_is_trimmed_still_has_the_whole_cloth_in_it() -> None:
    """Without a cutting machine the cloth is cut back after the tack-down: until then it is a rectangle."""
    off = [s for i, (_, s) in scenes_of("hoop").items() if i.endswith(".hoop-off")]
    on = [s for i, (_, s) in scenes_of("hoop").items() if i.endswith(".hoop-on")]
    assert off and on
    assert len(off[0].pieces[-1].points) == 4
    assert len(on[0].pieces[-1].points) > 4


def test_a_snip_runs_from_the_cut_edge_almost_to_an_inner_corner_and_nowhere_else() -> None:
    """An L has one inner corner, at (1, 1); a square has none."""
    ell = Polygon([(0, 0), (3, 0), (3, 1), (1, 1), (1, 3), (0, 3)])
    [(start, end)] = find_snips(ell, ell.buffer(0.5, join_style="mitre"))
    assert start[0] == pytest.approx(start[1]) and 1 < start[0] < 1.2
    assert end == pytest.approx((1.5, 1.5))
    square = Polygon([(0, 0), (1, 0), (1, 1), (0, 1)])
    assert find_snips(square, square.buffer(0.5, join_style="mitre")) == []


def test_pins_lie_across_the_seam_that_they_hold(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Along it the needle would meet every one of them: on point, seams run upright, level and slanting."""
    top = units.on_point(units.nine_patch(), 1, 3)
    lesson = lesson_of(plan_of(units.document(top)))
    pinned = [find_scene(step, lesson) for step in list_steps(lesson) if step.stage]
    pinned = [scene for scene in pinned if scene.pins]
    assert len(pinned) >= 3
    for scene in pinned:
        (x0, y0), (x1, y1) = next(line for kind, line in scene.lines if kind == "sew")
        assert (x1 - x0) * scene.pins_along[0] + (y1 - y0) * scene.pins_along[1] == pytest.approx(0, abs=1e-6)


def test_parts_of_a_row_are_sewn_right_sides_together(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """One part shows its right side, the other its back, and both have the seam at one edge of theirs."""
    lesson = lesson_of(plan_of(units.document(units.grid([units.patch("soil"), units.patch("frost")]))))
    [scene] = [
        find_scene(step, lesson) for step in list_steps(lesson) if step.stage and step.id.endswith(".sew")
    ]
    assert {piece.back for piece in scene.pieces} == {True, False}
    assert {text for _, text in scene.labels} >= {"right side up", "right side down"}
    assert [kind for kind, _ in scene.lines] == ["sew"]


def test_points_that_are_looked_for_on_the_back_are_shown_from_the_back(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    row = units.grid([units.geese(), units.geese()])
    lesson = lesson_of(plan_of(units.document(row)))
    found = [find_scene(s, lesson) for s in list_steps(lesson) if s.id.endswith(".keep-points")]
    assert found
    assert all(piece.back for scene in found for piece in scene.pieces)


def test_edges_that_stretch_are_marked_on_a_row_that_is_sewn(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """The row lies sewn, as it is when it is laid aside, with its edges on the bias marked."""
    plan = plan_of(units.document(units.on_point(units.nine_patch(), 1, 3)))
    lesson = lesson_of(plan)
    found = [(s, find_scene(s, lesson)) for s in list_steps(lesson) if s.id.endswith(".keep-edges")]
    assert found
    for step, scene in found:
        marked = [line for kind, line in scene.lines if kind == "stretching"]
        assert len(marked) == len(plan.notes[step.stage.id].bias.outer) > 0
