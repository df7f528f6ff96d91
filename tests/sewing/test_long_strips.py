"""Strips longer than their cloth is wide are joined in steps of their own, before they are sewn in."""

from __future__ import annotations

import json

import pytest

from service.craft.document import read_document
from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.sewing.steps.long_strips import find_long_strips

from .beds import Raw, bed


def sew(raw: Raw) -> list[Raw]:
    """The steps of the first track about long strips."""
    _, steps = make_sewing_plan(JobInput("sewing", raw))
    return [step for step in json.loads(steps.data)["steps"] if ".long-strips." in step["id"]]


def test_a_border_longer_than_its_cloth_is_wide_is_joined_pressed_and_cut() -> None:
    """A side of 30 in from cloth of 20 in; the step names the cloth, the seam, and where to look how many."""
    join, press, cut = sew(bed("30"))
    assert [step["id"].rpartition(".")[2] for step in (join, press, cut)] == ["join", "press-joins", "cut"]
    assert "soil brown strips that the cutting table says to join, end to end with 1/4 in" in join["text"]
    assert (press["text"], "guard" in cut["caution"]) == ("Press the joins open.", True)
    assert all(step["picture"]["svg"] and step["picture"]["alt"] for step in (join, press, cut))


def test_joins_on_the_diagonal_are_said_so() -> None:
    """As the document asks for them."""
    assert "on the diagonal" in sew(bed("30", cutting={"join": "diagonal"}))[0]["text"]


def test_a_border_as_long_as_its_cloth_is_wide_is_not_joined() -> None:
    """15 1/2 in and two borders of 2 in are 19 1/2 in, cut 20 in: just as wide as the cloth. 1/8 in more is joined."""
    assert sew(bed("15 1/2")) == []
    assert len(sew(bed("15 5/8"))) == 3


def test_strips_that_are_cut_along_the_cloth_are_never_joined() -> None:
    """The cloth is as long as it takes."""
    assert sew(bed("30", "along the length")) == []


@pytest.mark.parametrize("cut", ["least cloth", "across the width", "along the length"])
@pytest.mark.parametrize("side", ["10", "15 1/2", "15 5/8", "18", "30", "56"])
def test_the_steps_are_there_wherever_the_cutting_plan_joins_a_strip(side: str, cut: str) -> None:
    """What `cutting.json` says of its cuts against what the sewing plan finds by itself."""
    raw = bed(side, cut)
    file, _ = make_cutting_plan(JobInput("cutting", raw))
    joined = {cut["fabric"] for cut in json.loads(file.data)["cuts"] if "join" in cut["then"]}
    assert joined <= set(find_long_strips(read_document(raw)))
