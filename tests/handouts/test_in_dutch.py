"""The handout of a track whose viewers read Dutch: all of it in Dutch, and nothing else about it another."""

import copy
import io
import json
import re
from functools import cache
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from service.craft.outlines import read_svg, to_json
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.recipe import make_handout, make_run_sheet
from workers.outlines.cut_files import make_cut_files
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.stitches.recipe import make_stitches

MONTH = Path(__file__).parents[2] / "seed_data" / "2027-01-leek-row"
TRACKS = [
    {"name": "Hands", "has": [], "reading": "new to piecing and applique"},
    {"name": "Handen", "has": [], "reading": "nieuw in patchwork en applicatie", "language": "nl"},
    {"name": "Machines", "has": ["hoop 130x180", "cutter 12x12"], "language": "nl", "units": "metric"},
]

ENGLISH = re.compile(
    r"\b(?:the|and|with|from|each|that|this|these|which|their|its|it|for|at|on|to|you|your|are|not|before|after|where|"
    r"when|until|between|both|cut|sew|sewn|press|pressed|seam|seams|cloth|edge|edges|side|sides|piece|pieces|needle|"
    r"thread|square|squares|strips|left|right|upper|lower|middle|width|wide|turn|across|about|steps?)\b",
    re.IGNORECASE,
)
"""Frequent words of English that no Dutch word is written like (from memory)."""

DRAWN = re.compile(r'<(path|rect|circle|image)\b[^>]*?(?: fill="([^"]*)")?(?: stroke="([^"]*)")?')
"""What is drawn, with its colours. How many paths of one colour there are hangs on the room beside the words."""

FILES = re.compile(r"[\w*-]+\.(?:pdf|svg|dxf|dst|json|png)")
POINTS, COMMAS = re.compile(r"\d\.\d+ (?:mm|cm|m)\b"), re.compile(r"\d,\d+ (?:mm|cm|m)\b")


@cache
def load():
    document = json.loads((MONTH / "project.json").read_text()) | {"tracks": TRACKS}
    return document, {p.name: to_json(read_svg(p.read_bytes(), p.name)) for p in MONTH.glob("*.svg")}


@cache
def make():
    recipes = (make_cutting_plan, make_sewing_plan, make_stitches, make_cut_files)
    return {file.name: file.data for recipe in recipes for file in recipe(JobInput("any", *load()))}


@cache
def print_handout(track):
    return make_handout(JobInput("handout", *load(), make(), track=track))[0].data


@cache
def read_pages(track):
    """The words of all pages, those the maker wrote left out."""
    pages = pypdfium2.PdfDocument(print_handout(track))
    text = " ".join(page.get_textpage().get_text_bounded() for page in pages)
    text = FILES.sub("#", re.sub(r"\s+", " ", re.sub("[\x02\ufffe\u2010]", "-", text)))
    for own in sorted(own_words(load()[0]), key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(own)}(?!\w)", "#", text, flags=re.IGNORECASE)
    return text


def own_words(value):
    if isinstance(value, dict):
        return {text for key, inner in value.items() for text in {key, *own_words(inner)}}
    if isinstance(value, list):
        return {text for inner in value for text in own_words(inner)}
    return {value} if isinstance(value, str) and len(value) > 2 else set()


def read_steps(name):
    return json.loads(make()[f"steps-{name}.json"])["steps"]


@pytest.mark.parametrize("track", ["Handen", "Machines"])
def test_a_dutch_handout_says_that_it_is_dutch(track):
    """ISO 14289-1 (PDF/UA) asks for the natural language of the document in its catalogue; nl is Dutch in BCP 47."""
    with pikepdf.open(io.BytesIO(print_handout(track))) as pdf:
        assert str(pdf.Root.Lang) == "nl"


@pytest.mark.parametrize("track", ["Handen", "Machines"])
def test_words_broken_at_a_syllable_are_set_in_our_own_fonts(track):
    """The sign of hyphenation that printers put in by themselves (U+2010) is in none of them."""
    with pikepdf.open(io.BytesIO(print_handout(track))) as pdf:
        objects = [o for o in pdf.objects if isinstance(o, pikepdf.Dictionary)]
        fonts = {str(o.FontName) for o in objects if o.get("/Type") == "/FontDescriptor"}
    assert fonts and all("Batchbee" in name for name in fonts), fonts
    assert len(re.findall(r"[a-z]{4}-[a-z]{4}", read_pages(track))) > 5


@pytest.mark.parametrize("track", ["Handen", "Machines"])
def test_no_english_word_stands_in_a_dutch_handout_but_the_makers_own(track):
    text = read_pages(track)
    assert len(text) > 10_000
    assert [text[max(0, m.start() - 30) : m.end() + 30] for m in ENGLISH.finditer(text)] == []


@pytest.mark.parametrize("track", ["Handen", "Machines"])
def test_decimals_stand_behind_a_comma_in_dutch(track):
    """Taalunie, Taaladvies: in Dutch a comma parts whole and decimals (from memory)."""
    assert len(COMMAS.findall(read_pages(track))) > 20
    assert POINTS.findall(read_pages(track)) == []


def test_a_dutch_track_has_the_steps_of_the_english_one_with_the_same_pictures():
    english, dutch = read_steps("hands"), read_steps("handen")
    assert len(english) > 60
    assert [step["id"] for step in dutch] == [step["id"] for step in english]
    for one, other in zip(english, dutch, strict=True):
        assert one["text"] != other["text"]
        drawn = [set(DRAWN.findall((step["picture"] or {}).get("svg", ""))) for step in (one, other)]
        assert drawn[0] == drawn[1], one["id"]
        assert one["tools"] == other["tools"] and one["chapter"] == other["chapter"]


def test_viewers_of_another_language_change_nothing_for_the_others():
    """Steps and plans are the same to the byte where all tracks are English."""
    document, outlines = copy.deepcopy(load())
    for track in document["tracks"]:
        track.pop("language", None)
    alone = {
        file.name: file.data
        for recipe in (make_cutting_plan, make_sewing_plan)
        for file in recipe(JobInput("any", document, outlines))
    }
    same = ["cutting.json", "sewing.json", "steps-hands.json"]
    assert {name: make()[name] for name in same} == {name: alone[name] for name in same}


def test_what_is_pasted_under_a_dutch_video_is_dutch():
    """Chapter marks and supplies, where the project is Dutch."""
    document, outlines = load()
    document = document | {"language": "nl", "tracks": TRACKS[1:2]}
    made = {
        file.name: file.data
        for recipe in (make_cutting_plan, make_sewing_plan)
        for file in recipe(JobInput("any", document, outlines))
    }
    pasted = {f.name: f.data.decode() for f in make_run_sheet(JobInput("any", document, outlines, made))[1:]}
    assert pasted["chapter-marks.txt"].startswith("0:00 ") and "wat we maken" in pasted["chapter-marks.txt"]
    assert "Gereedschap\n- strijkijzer" in pasted["supplies.txt"]
