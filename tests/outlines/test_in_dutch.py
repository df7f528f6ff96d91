"""Templates and cut files for viewers who read Dutch: no English word on a page, the same shapes in the files."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Callable
from typing import Any

import pikepdf
import pypdfium2

from workers.outlines.cut_files import make_cut_files
from workers.outlines.templates import make_templates
from workers.recipe import JobInput

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

OWN = {
    "plot",
    "twelve",
    "bean",
    "pod",
    "stalk",
    "bed",
    "leek",
    "green",
    "fleece",
    "thin",
    "white",
    "soil",
    "brown",
}
"""Names that the maker gave."""

SHARED = {"in", "of", "is", "mm", "letter", "ware", "plat", "over", "rest", "card", "dot", "die", "top"}
"""Words that both languages have, or that are the same in both."""


def read_words(job: JobInput) -> set[str]:
    """Every word on every page, in small letters."""
    pdf = pypdfium2.PdfDocument(io.BytesIO(make_templates(job)[0].data))
    text = " ".join(page.get_textpage().get_text_bounded() for page in pdf)
    return {word.lower() for word in re.findall(r"[^\W\d_]{2,}", text)} - OWN


def pieces(piece: Make) -> list[dict[str, Any]]:
    """A piece that is fused, one pressed over a card, a mirrored one, and one trimmed in place."""
    return [
        piece("bean pod", "leek.svg#stalk"),
        piece("leek bed", "leek.svg#bed", edge="turned"),
        piece("soil stalk", "leek.svg#stalk", mirror=True),
        piece("fleece bed", "leek.svg#bed", fabric="fleece"),
    ]


def test_a_dutch_template_page_shares_no_word_with_the_english_one(job: Job, piece: Make) -> None:
    """Read back by an outside reader of PDF, only what the maker named is the same in both."""
    english = read_words(job(*pieces(piece), track="by hand"))
    dutch = read_words(job(*pieces(piece), track="by hand", more={"language": "nl"}))
    assert len(english) > 60 and len(dutch) > 60
    assert (english & dutch) - SHARED == set()
    assert {"mallen", "testvierkant", "knip", "draadrichting"} <= dutch


def test_a_dutch_template_says_what_language_it_is_in(job: Job, piece: Make) -> None:
    """Screen readers ask the file for its language (PDF 1.7, 14.9.2)."""
    [made] = make_templates(
        job(piece("bean pod", "leek.svg#stalk"), track="by hand", more={"language": "nl"})
    )
    with pikepdf.open(io.BytesIO(made.data)) as pdf:
        assert str(pdf.Root.Lang) == "nl"


def test_cut_files_in_dutch_cut_the_same_and_report_it_in_dutch(job: Job, piece: Make) -> None:
    """The lines that a blade follows do not change with the language; titles and notes do, keys do not."""
    some = [piece("bean pod", "leek.svg#stalk"), piece("soil pod", "leek.svg#ring")]
    english = {made.name: made.data for made in make_cut_files(job(*some))}
    dutch = {made.name: made.data for made in make_cut_files(job(*some, more={"language": "nl"}))}
    assert dutch.keys() == english.keys()
    for name, data in english.items():
        if name.endswith(".dxf"):
            assert dutch[name] == data
        if name.endswith(".svg"):
            assert re.findall(rb' d="[^"]*"', dutch[name]) == re.findall(rb' d="[^"]*"', data)
    here, there = json.loads(dutch["cut-files.json"]), json.loads(english["cut-files.json"])
    assert here | {"notes": []} == there | {"notes": []}
    assert len(here["notes"]) == len(there["notes"])
    assert set(here["notes"]).isdisjoint(there["notes"])
    assert any("0,02 mm" in note for note in here["notes"])
