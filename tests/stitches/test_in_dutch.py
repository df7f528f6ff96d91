"""Stitch files of viewers who read Dutch: the same stitches, and the stops said in every language of the tracks."""

from __future__ import annotations

import json
import re
from typing import Any

from tests.stitches.test_recipe import BEAN, LEEK, OUTLINES, document
from workers.recipe import JobInput
from workers.stitches.recipe import make_stitches

LAY = "leg de stof van leek over de lijn"
NAME = "stitch-130x180-1"


def make(languages: tuple[str, ...], of_document: str = "en") -> dict[str, bytes]:
    """The files of two pieces, for tracks with one sewing field that read these languages."""
    raw: dict[str, Any] = document(
        LEEK, BEAN | {"at": ["12", "10"]}, tracks=("hoop 130x180",) * len(languages)
    )
    for track, language in zip(raw["tracks"], languages, strict=True):
        track["language"] = language
    job = JobInput("stitches", raw | {"language": of_document}, OUTLINES)
    return {made.name: made.data for made in make_stitches(job)}


def test_the_needle_goes_the_same_way_whatever_the_language() -> None:
    """A stitch file holds no words for readers, so a machine gets the same bytes."""
    english, dutch = make(("en",)), make(("nl",), "nl")
    assert dutch[f"{NAME}.dst"] == english[f"{NAME}.dst"]
    assert dutch[f"{NAME}.png"] == english[f"{NAME}.png"]


def test_a_report_says_its_stops_in_the_language_of_the_document_alone_where_all_read_that() -> None:
    """Nothing is said twice that nobody reads."""
    english, dutch = (json.loads(make((tag,), tag)[f"{NAME}.json"]) for tag in ("en", "nl"))
    assert {key for stop in english["at_stops"] for key in stop} == {"record", "do"}
    assert {key for stop in dutch["at_stops"] for key in stop} == {"record", "do"}
    assert dutch["at_stops"][0]["do"] == LAY
    assert [stop["record"] for stop in dutch["at_stops"]] == [stop["record"] for stop in english["at_stops"]]


def test_a_report_that_tracks_of_two_languages_share_says_its_stops_in_both() -> None:
    """The file is sewn by both, so each finds its own words beside the document's."""
    stops = json.loads(make(("en", "nl"))[f"{NAME}.json"])["at_stops"]
    assert stops[0] == {
        "record": stops[0]["record"],
        "do": "lay the cloth of the leek over the line",
        "do_in": {"nl": LAY},
    }
    assert all(stop["do_in"].keys() == {"nl"} for stop in stops)


def test_the_colour_sheet_of_a_dutch_document_is_dutch() -> None:
    """Read off the drawing, no English word is left but the names that the maker gave."""
    sheet = make(("nl",), "nl")[f"{NAME}-colours.svg"].decode()
    words = " ".join(re.findall(r">([^<]+)<", sheet))
    assert "Kleurvolgorde van inspanning 130x180-1" in words
    assert "3,5 mm" in words
    assert not re.search(r"\b(the|and|with|thread|stitch|needle|piece|cloth|edge)\b", words)


def test_tracks_of_another_language_have_a_colour_sheet_of_their_own() -> None:
    """It stands beside the document's, and holds what a Dutch document's own sheet holds."""
    made, dutch = make(("en", "nl")), make(("nl",), "nl")
    assert made[f"{NAME}-colours-nl.svg"] == dutch[f"{NAME}-colours.svg"]
    assert made[f"{NAME}-colours.svg"] == make(("en",))[f"{NAME}-colours.svg"]
    assert f"{NAME}-colours-nl.svg" not in make(("en",))
