"""Patches that come of several pieces are not missed: the cutting plan says what its joins give."""

from __future__ import annotations

import json
from typing import Any

import pytest

from service.craft.document import read_document
from workers.completeness import read_made
from workers.completeness.cloths import find_uncut
from workers.completeness.made import Made
from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput


def make(top: Any) -> Made:
    cloths = {
        "soil": {"name": "soil brown", "usable_width": "40"},
        "leaf": {"name": "leek green", "usable_width": "40"},
    }
    raw = {"title": "Bed", "fabrics": cloths, "top": top, "tracks": [{"name": "by hand", "has": []}]}
    plan, _ = make_cutting_plan(JobInput("cutting", raw))
    project = read_document(raw)
    return read_made(project, project.tracks[0], {}, {plan.name: plan.data}, [])


WIDE = {"unit": "patch", "size": ["60", "60"], "fabric": "soil"}
BORDERED = {"unit": "bordered", "inside": WIDE, "borders": [{"width": "4", "fabric": "leaf"}]}
STRIPS = [{"width": "2", "fabric": cloth} for cloth in ("soil", "leaf")]
SET = {"unit": "strip set", "strips": STRIPS, "cut_into": "2", "length": "60"}


@pytest.mark.parametrize("top", [WIDE, BORDERED, SET, {"unit": "grid", "rows": [[SET] * 200]}])
def test_panels_joined_borders_and_long_strip_sets_have_their_cuts(top: Any) -> None:
    assert list(find_uncut(make(top))) == []


def test_a_join_that_gives_less_is_found() -> None:
    made = make(BORDERED)
    plan = json.loads(made.files["cutting.json"])
    for cut in plan["cuts"]:
        cut["join"]["gives"] = cut["join"]["gives"][:1]
        cut["join"]["gives"][0]["makes"] -= 1
    short = read_made(made.project, made.track, {}, {"cutting.json": json.dumps(plan).encode()}, [])
    assert {found.where for found in find_uncut(short)} == {"/top", "/top/inside"}
