"""The lines under "To finish it" say what the cutting plan found, in words for the sewing table."""

from __future__ import annotations

import json
from typing import Any

import pytest

from service.craft.document import read_document
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.finishing import list_finishing
from workers.handouts.finishing_pictures import draw_finishing
from workers.recipe import JobInput


def say(width: str, height: str, **finish: Any) -> dict[str, str]:
    """The lines by their titles, for a whole-cloth top."""
    squares = [[{"unit": "patch", "size": [width, height], "fabric": "leaf"}] * 2]
    raw = {
        "title": "Beans",
        "fabrics": {"leaf": {"name": "leek green", "usable_width": "42"}},
        "top": {"unit": "grid", "rows": squares},
        "finish": finish,
    }
    made, _ = make_cutting_plan(JobInput("cutting", raw))
    rows = list_finishing(read_document(raw), json.loads(made.data))
    return {row.title: row.text for row in rows}


def test_the_usual_count_stands_beside_ours_where_it_is_short():
    said = say("30", "60", binding={"fabric": "leaf"})["Binding"]
    assert "7 strips of 2 1/4 × 42 in" in said
    assert "The usual count is 6, which comes to 240 3/4 in; with the cloth the joins take, 7." in said
    assert (
        "usual"
        not in say("30", "60", binding={"fabric": "leaf", "join": "straight", "extra": "0"})["Binding"]
    )


@pytest.mark.parametrize(
    ("cut", "words"),
    [
        ("bias", "1 piece of 25 in square"),
        ("bias", "cut on the slant into 14 strips of 2 1/4 in"),
        ("continuous bias", "1 square of 26 in"),
        ("continuous bias", "sewn to a tube and cut round and round into one strip"),
    ],
)
def test_bias_says_what_is_cut_and_how_it_becomes_a_strip(cut, words):
    assert words in say("30", "60", binding={"fabric": "leaf", "cut": cut})["Binding"]


def test_a_back_of_two_panels_says_where_its_seam_lies_and_what_the_other_way_takes():
    said = say("25", "60", backing={"fabric": "leaf"})["Backing"]
    assert "Sewn of 2 panels" in said and "wide and 58 in long" in said
    assert "from the upper or the lower edge" in said
    assert "With seams along the length instead it would take 136 in" in said


def test_a_packet_that_is_not_everywhere_as_large_is_named_with_its_doubt():
    said = say("19", "52", batting={})["Batting"]
    assert "A packet called twin, 72 × 90 in" in said and "is large enough" in said
    assert "A packet called throw, 60 in square" in said and "may do, but not every shop has it" in said
    assert "A packet called twin" in say("40", "60", batting={})["Batting"]
    assert "on its side, is large enough" in say("40", "60", batting={})["Batting"]


def test_a_sleeve_says_its_strips_and_its_depth():
    said = say("30", "60", sleeve={"fabric": "leaf"})["Hanging sleeve"]
    assert "2 strips of 8 1/2 × 29 1/4 in" in said and "joined and trimmed to 58 in" in said
    assert said.endswith("Sewn to a tube 4 in (10.2 cm) deep.")


def draw(**finish: Any) -> dict[str, str]:
    """The pictures of a whole-cloth top of 60 by 60 in, by heading."""
    squares = [[{"unit": "patch", "size": ["30", "60"], "fabric": "leaf"}] * 2]
    raw = {"title": "Beans", "fabrics": {"leaf": {"usable_width": "64"}, "soil": {"usable_width": "42"}}}
    raw |= {"top": {"unit": "grid", "rows": squares}, "finish": finish}
    made, _ = make_cutting_plan(JobInput("cutting", raw))
    return draw_finishing(read_document(raw), json.loads(made.data))


def test_only_what_words_do_not_show_is_drawn():
    assert draw(binding={"fabric": "soil"}, backing={"fabric": "leaf", "overhang": "2"}) == {}
    bias = draw(binding={"fabric": "soil", "cut": "bias"}, backing={"fabric": "soil"})
    assert (
        "Cutting on the bias" in bias["Binding"] and "The back and its seams" in bias["Layers and quilting"]
    )
    tube = draw(binding={"fabric": "soil", "cut": "continuous bias"})
    assert list(tube) == ["Binding"] and "one continuous strip" in tube["Binding"]
