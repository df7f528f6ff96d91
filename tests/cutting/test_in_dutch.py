"""The cutting plan for viewers who read Dutch: the same cuts and numbers, and no English word in what is printed."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest

from service.craft.document import read_document
from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput

from .conftest import Document, document, patch

TRACKS = [{"name": "by hand", "has": []}, {"name": "met de hand", "has": [], "language": "nl"}]
PRINTED = ("text", "then", "method", "notes", "for", "cautions", "because", "why", "buy_words")
"""Fields of the plan that hold words for readers, at any depth."""

ENGLISH = re.compile(
    r"\b(the|and|with|from|cut|sew|for|wide|strips?|squares?|rectangles?|each|leave|join|trim|fold|border|backing)\b"
)
"""Words that no Dutch text has, as far as these plans go."""


def fan(star: Document) -> Document:
    """A top with long strips to join, a strip set, triangles, and finishing on the bias."""
    rails = {
        "unit": "strip set",
        "strips": [{"width": "1", "fabric": cloth} for cloth in ("frost", "leaf")],
        "cut_into": "6",
    }
    row = {"unit": "grid", "rows": [["star", "rails", "rails", "rails"]] * 6}
    return document(
        {"unit": "bordered", "inside": row, "borders": [{"width": "3", "fabric": "leaf"}]},
        blocks={"star": star, "rails": rails},
        finish={
            "binding": {"fabric": "leaf", "cut": "bias"},
            "backing": {"fabric": "frost", "overhang": "4"},
            "batting": {"overhang": "4"},
            "sleeve": {"fabric": "frost"},
        },
    )


def read(raw: Document) -> dict[str, Document]:
    """Every file of the plan by its name."""
    return {made.name: json.loads(made.data) for made in make_cutting_plan(JobInput("cutting", raw))}


def without_words(value: Any) -> Any:
    """A plan as programs compare it: lengths without their text, and no field with words for readers."""
    if isinstance(value, dict):
        return {key: without_words(inner) for key, inner in value.items() if key not in PRINTED}
    return [without_words(inner) for inner in value] if isinstance(value, list) else value


def list_words(value: Any, field: str = "") -> Iterator[str]:
    """Every text that is for readers."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from list_words(inner, key)
    elif isinstance(value, list):
        for inner in value:
            yield from list_words(inner, field)
    elif isinstance(value, str) and field in PRINTED:
        yield value


def make_both(raw: Document) -> tuple[Document, Document]:
    """The plan in English, and the one of a track that reads Dutch."""
    made = read(raw | {"tracks": TRACKS})
    return made["cutting.json"], made["cutting-nl-as-written.json"]


def test_a_track_in_dutch_gets_the_same_cuts_in_its_own_words(star: Document) -> None:
    """What programs compare is the same to the last number and key; every text for readers says something else."""
    english, dutch = make_both(fan(star))
    assert without_words(dutch) == without_words(english)
    assert len(dutch["order"]) == len(english["order"]) > 10
    for line, other in zip(dutch["order"], english["order"], strict=True):
        assert line["text"] != other["text"]


def test_no_english_word_is_left_in_a_dutch_plan(star: Document) -> None:
    """Order, cuts, notes, finishing and cautions are Dutch throughout; names are the maker's."""
    _, dutch = make_both(fan(star))
    words = [text for text in list_words(dutch) if text]
    assert len(words) > 40
    assert [text for text in words if ENGLISH.search(text)] == []


def test_a_document_in_dutch_has_the_numbers_of_the_english_one(star: Document) -> None:
    """The language of the whole document moves no cut, no strip and no length."""
    english = read(fan(star))["cutting.json"]
    dutch = read(fan(star) | {"language": "nl"})["cutting.json"]
    assert without_words(dutch["fabrics"]) == without_words(english["fabrics"])
    assert without_words(dutch["cuts"]) == without_words(english["cuts"])
    assert dutch["fabrics"][0]["because"] != english["fabrics"][0]["because"]


def test_why_a_plan_is_followed_is_said_to_each_audience(star: Document) -> None:
    """The choice is made once for everybody, its reason told in the language of who reads."""
    english, dutch = make_both(document(star) | {"cutting": {"plan": "tight"}})
    assert {cloth["because"] for cloth in english["fabrics"]} == {"the document asks for the tight plan"}
    assert {cloth["because"] for cloth in dutch["fabrics"]} == {"het document vraagt om het zuinige plan"}


@pytest.mark.parametrize(("measure", "side"), [("in", "3 1/2 inch"), ("cm", "12,5 cm")])
def test_sizes_are_written_as_dutch_makers_write_them(measure: str, side: str) -> None:
    """A patch of 3 in finished is cut 3 1/2 in; of 11 cm with 0.75 cm round it 12.5 cm (sums)."""
    finished = "3" if measure == "in" else "11"
    row = {"unit": "grid", "rows": [[patch(finished, finished, "leaf")] * 3]}
    raw = document(row) | {"measure": measure, "language": "nl"}
    if measure == "cm":
        raw["fabrics"] = {key: cloth | {"usable_width": "100"} for key, cloth in raw["fabrics"].items()}
    made = read(raw)["cutting.json"]
    assert made["cuts"][0]["width"]["text"] == side
    assert f"3 vierkanten van {side}" in " ".join(line["text"] for line in made["order"])
    assert read_document(raw).top.width == read_document(raw | {"language": "en"}).top.width
