"""The finishing chapter follows the choices of the document: fold, joins, bias, panels, sleeve."""

from __future__ import annotations

import re
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

Sewn = Callable[..., SimpleNamespace]


@pytest.fixture
def teach(units: SimpleNamespace, sewn: Sewn) -> Callable[..., dict[str, dict[str, Any]]]:
    """The finishing steps of a top with some finish, by id, for viewers who are new to all of it."""

    def steps(
        *, side: str = "30", more: dict[str, Any] | None = None, **finish: Any
    ) -> dict[str, dict[str, Any]]:
        tracks = [{"name": "new", "has": [], "reading": "new to sewing"}]
        raw = units.document(units.patch("leaf", side, side), finish=finish, tracks=tracks, **(more or {}))
        (made,) = sewn(raw).steps.values()
        return {step["id"]: step for step in made if step["chapter"] == "finishing"}

    return steps


def names(steps: dict[str, Any], stem: str) -> list[str]:
    return [key.removeprefix(stem) for key in steps if key.startswith(stem)]


SEWN_ON = ["fold", "sew", "corner", "corner-up", "corner-down", "corner-on"]
SEWN_ON += ["stop", "fold-ends", "close", "trim-ends", "close-rest", "turn-over", "turn"]
TUBE = [
    "pins",
    "halves-cut",
    "halves",
    "halves-press",
    "lines",
    "lines-trim",
    "tube-pin",
    "tube",
    "tube-press",
    "cut",
]


@pytest.mark.parametrize(
    ("cut", "made"),
    [
        ("straight", ["join", "trim-joins", "press-joins"]),
        ("bias", ["fold-corner", "cut-fold", "cut", "join", "press-joins"]),
        ("continuous bias", TUBE),
    ],
)
def test_every_cut_of_binding_is_made_and_then_sewn_on_the_same_way(teach, cut, made):
    steps = teach(binding={"fabric": "soil", "cut": cut})
    assert names(steps, "finishing.binding.") == [*made, *SEWN_ON]
    longest = [key for key in steps if "at least 132 in long" in steps[key]["text"]]
    assert longest == [f"finishing.binding.{'join' if 'join' in made else 'cut'}"]


def test_the_extra_of_the_document_is_in_the_length_to_join(teach):
    steps = teach(binding={"fabric": "soil", "extra": "20"})
    assert "at least 140 in long" in steps["finishing.binding.join"]["text"]


@pytest.mark.parametrize(
    ("join", "said"), [("diagonal", "on the slant"), ("straight", "end to end with 1/4 in allowance")]
)
def test_strips_are_joined_as_the_document_says(teach, join, said):
    text = teach(binding={"fabric": "soil", "join": join})["finishing.binding.join"]["text"]
    assert f"strips of soil brown dot {said} into one binding" in text


@pytest.mark.parametrize(
    ("binding", "fold", "allowance", "trimmed"),
    [
        ({}, "in half along its whole length", "1/4 in", "level with the edge"),
        ({"finished": "3/8"}, "in half along its whole length", "3/8 in", "1/8 in outside the edge"),
        ({"fold": "single"}, "to its wrong side, 1/2 in wide", "1/2 in", "1/4 in outside the edge"),
        (
            {"finished": "1/4", "fold": "single"},
            "to its wrong side, 1/4 in wide",
            "1/4 in",
            "level with the edge",
        ),
    ],
)
def test_a_binding_is_sewn_on_as_wide_as_it_shows_and_the_layers_trimmed_for_it(
    teach, binding, fold, allowance, trimmed
):
    """The seam stays where the top's own allowance ends, so no point is cut off: geometry."""
    steps = teach(binding={"fabric": "soil", **binding}, batting={})
    assert fold in steps["finishing.binding.fold"]["text"]
    assert f"with {allowance} allowance" in steps["finishing.binding.sew"]["text"]
    assert f"Stop {allowance} before each corner" in steps["finishing.binding.corner"]["text"]
    assert trimmed in steps["finishing.square"]["text"]


def test_a_binding_strip_is_named_as_it_is_cut(teach):
    """2 1/4 in are 57.15 mm; on a ruler with whole millimetres the cutting table says 58."""
    metric = {"measure": "mm", "seam_allowance": "6 mm"}
    text = teach(side="500", more=metric, binding={"fabric": "soil"})["finishing.binding.join"]["text"]
    assert "58 mm strips" in text


def test_a_back_wider_than_its_cloth_is_told_of_its_panels_and_a_narrow_one_is_not(teach):
    wide, narrow = (teach(side=side, backing={"fabric": "frost"}) for side in ("40", "30"))
    assert "1/2 in allowance" in wide["finishing.backing-sew"]["text"]
    assert "finishing.backing" not in narrow


def test_layers_that_stand_out_differently_are_named_apart(teach):
    apart = teach(backing={"fabric": "frost", "overhang": "4"}, batting={"overhang": "2"})["finishing.layer"][
        "text"
    ]
    assert "The backing stands out 4 in and the batting 2 in on every side" in apart
    alike = teach(backing={"fabric": "frost"}, batting={})["finishing.layer"]["text"]
    assert "What lies below stands out 4 in on every side" in alike


def test_a_sleeve_is_hemmed_folded_and_sewn_below_the_binding(teach):
    steps = teach(sleeve={"fabric": "soil"}, binding={"fabric": "soil"})
    assert names(steps, "finishing.sleeve.") == ["fold", "hem", "tube", "press", "pin", "sew"]
    assert "4 in deep" in steps["finishing.sleeve.press"]["text"]
    assert "close below the binding" in steps["finishing.sleeve.pin"]["text"]
    keys = list(steps)
    assert (
        keys.index("finishing.binding.turn")
        < keys.index("finishing.sleeve.hem")
        < keys.index("finishing.label")
    )
    assert "finishing.sleeve.join" not in steps


def test_a_sleeve_wider_than_its_cloth_is_joined_first(teach):
    steps = teach(side="50", sleeve={"fabric": "soil"})
    assert names(steps, "finishing.sleeve.")[:2] == ["join", "trim"]
    assert "end to end" in steps["finishing.sleeve.join"]["text"]
    assert "to 48 in" in steps["finishing.sleeve.trim"]["text"]


def test_every_new_step_is_short_and_says_why(teach):
    finishes = [
        {"binding": {"fabric": "soil", "cut": cut, "fold": fold}, "backing": {"fabric": "frost"}}
        | {"sleeve": {"fabric": "soil"}, "batting": {}}
        for cut in ("straight", "bias", "continuous bias")
        for fold in ("double", "single")
    ]
    for finish in finishes:
        for step in teach(side="60", **finish).values():
            assert step["why"]
            sentences = re.split(r"[.;:] ", step["text"])
            assert all(len(sentence.split()) <= 40 for sentence in sentences), step["text"]


def test_what_finishes_the_quilt_is_cut_with_the_rest(units, sewn):
    """A cloth that is in the back or the sleeve alone has its cutting step like the others."""
    finish = {"backing": {"fabric": "frost"}, "sleeve": {"fabric": "soil"}}
    (steps,) = sewn(units.document(units.patch("leaf", "30", "30"), finish=finish)).steps.values()
    cut = [step["id"] for step in steps if step["id"].startswith("cutting.cloth.")]
    assert cut == ["cutting.cloth.frost", "cutting.cloth.leaf", "cutting.cloth.soil"]
