"""The job as the queue calls it: files, names, bytes, faults."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from workers.recipe import CannotMake, JobInput
from workers.sewing.recipe import make_sewing_plan

Sewn = Callable[..., SimpleNamespace]
LENGTH = {"text", "inches", "mm"}


def test_one_plan_and_a_step_list_for_every_track(units: SimpleNamespace, sewn: Sewn) -> None:
    """Names by the tracks' slugs, all of them JSON for everybody."""
    tracks = [{"name": "Hoop & cutter", "has": ["hoop 130x180"]}, {"name": "by hand"}]
    files = sewn(units.document(units.nine_patch(), tracks=tracks)).files
    assert [(f.name, f.kind) for f in files] == [
        ("sewing.json", "sewing plan"),
        ("steps-hoop-cutter.json", "steps"),
        ("steps-by-hand.json", "steps"),
    ]
    assert {(f.media_type, f.public) for f in files} == {("application/json", True)}


def test_each_track_has_the_limits_of_its_own_viewers(units: SimpleNamespace, sewn: Sewn) -> None:
    """Who is new to piecing is given more room than the plan says; who is not, what the plan says."""
    tracks = [{"name": "new", "reading": "new to piecing"}, {"name": "used"}]
    made = sewn(units.document(units.nine_patch(), tracks=tracks))
    sizes = {
        track: {step["stage"]: step["size"] for step in steps if step["size"]}
        for track, steps in made.steps.items()
    }
    for stage in made.plan["stages"]:
        new, used = sizes["new"][stage["id"]], sizes["used"][stage["id"]]
        assert used == stage["size"]
        assert new["low"]["width"]["inches"] < used["low"]["width"]["inches"]
        assert new["high"]["height"]["inches"] > used["high"]["height"]["inches"]
    files = {file.name: json.loads(file.data) for file in made.files}
    assert files["sewing.json"]["accuracy"]["seam"]["inches"] == 1 / 64
    assert files["steps-new.json"]["accuracy"]["seam"]["inches"] == 1 / 32


def test_the_same_document_gives_the_same_bytes(any_top: dict[str, Any]) -> None:
    """Byte for byte, also from a copy read anew."""
    again = json.loads(json.dumps(copy.deepcopy(any_top)))
    assert [f.data for f in make_sewing_plan(JobInput("sewing", any_top))] == [
        f.data for f in make_sewing_plan(JobInput("sewing", again))
    ]


def test_the_plan_has_the_fields_that_others_read(any_top: dict[str, Any], sewn: Sewn) -> None:
    """Every field of the project document's table, of the right shape; references lead somewhere."""
    plan = sewn(any_top).plan
    for size in (plan["finished"], plan["unfinished"]):
        assert all(set(size[side]) == LENGTH for side in ("width", "height"))
    ids = {stage["id"] for stage in plan["stages"]}
    for stage in plan["stages"]:
        assert {"id", "title", "makes", "count", "needs", "size"} <= stage.keys()
        assert set(stage["needs"]) <= ids
        for size in (stage["size"], stage["size"]["low"], stage["size"]["high"]):
            assert all(set(size[side]) == LENGTH for side in ("width", "height"))
    for seam in plan["seams"]:
        assert seam["stage"] in ids
        assert seam["press"] in ("left", "right", "up", "down", "open", "spun")
        assert seam["towards"]
    junctions = plan["junctions"]
    assert junctions["count"] >= len(junctions["not_nesting"])
    assert isinstance(junctions["least_proved"], bool)
    assert all({"at", "why"} <= fault.keys() for fault in junctions["not_nesting"])


def test_a_stage_carries_its_own_picture(any_top: dict[str, Any], sewn: Sewn) -> None:
    """Its patches fill its finished box, or less where its ends are slanted, and its seams lie inside."""
    plan = sewn(any_top).plan
    lines = {seam["id"]: seam["line"] for seam in plan["seams"]}
    for stage in plan["stages"]:
        points = [point for patch in stage["patches"] for point in patch["points"]]
        points += [point for seam in stage["seams"] for point in lines[seam]]
        wide, high = (stage["finished"][side]["inches"] for side in ("width", "height"))
        assert min(x for x, _ in points) == min(y for _, y in points) == 0
        assert abs(max(x for x, _ in points) - wide) < 1e-3
        assert abs(max(y for _, y in points) - high) < 1e-3


def test_a_document_with_faults_is_not_planned(units: SimpleNamespace) -> None:
    """The fault says what, where, and what would be right."""
    raw = units.document(units.grid([units.patch("leaf"), units.patch("leaf", "3", "4")]))
    with pytest.raises(CannotMake) as refused:
        make_sewing_plan(JobInput("sewing", raw))
    assert refused.value.pointer == "/top/rows/0/1"
    assert refused.value.right


def test_progress_is_told_from_begin_to_end(units: SimpleNamespace) -> None:
    """Fractions rise to 1, with a sentence each."""
    told: list[tuple[float, str]] = []
    make_sewing_plan(
        JobInput(
            "sewing",
            units.document(units.nine_patch()),
            progress=lambda done, what: told.append((done, what)),
        )
    )
    assert [done for done, _ in told] == sorted(done for done, _ in told)
    assert told[-1][0] == 1
    assert all(what for _, what in told)


def test_a_top_of_five_thousand_patches_is_planned(units: SimpleNamespace, sewn: Sewn) -> None:
    """Fifty rows of fifty half-square triangles, all turns: every unit counted, every crossing judged."""
    one, other = units.half("frost", "leaf"), units.half("leaf", "soil")
    rows = [
        [units.turned([one, other][(i * j) % 2], [90, 180, 270][(i + 2 * j + i * j) % 3]) for j in range(50)]
        for i in range(50)
    ]
    plan = sewn(units.document(units.grid(*rows))).plan
    small = [stage for stage in plan["stages"] if stage["kind"] == "half-square triangle"]
    assert sum(stage["count"] for stage in small) == 2500
    assert len(plan["stages"][-1]["patches"]) == 5000
    # plain joins alone give 49 times 49 crossings in the top
    assert plan["junctions"]["in_the_top"] >= 49 * 49


def test_a_stage_names_its_unit_only_where_it_makes_the_whole_of_it(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """A row names the block it is a part of; the joined rows are the block."""
    stages = sewn(units.document("n", {"n": units.nine_patch()})).plan["stages"]
    assert [(s["kind"], s["unit"], s["block"], s["part_of"]) for s in stages[1:]] == [
        ("row", "", "", "/blocks/n"),
        ("row", "", "", "/blocks/n"),
        ("rows", "/blocks/n", "n", "/blocks/n"),
    ]
