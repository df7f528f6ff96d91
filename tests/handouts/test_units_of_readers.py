"""Viewers read in inches, in metric, or in both: the words change and nothing else does."""

import copy
import json
import re
from fractions import Fraction
from functools import cache
from pathlib import Path

import pypdfium2
import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.measure import parse_length
from service.craft.outlines import read_svg, to_json
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.recipe import make_handout
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

MONTH = Path(__file__).parents[2] / "seed_data" / "2027-01-leek-row"
READS = ["as written", "inch", "metric", "both"]

NUMBER, DECIMAL = r"\d+ \d+/\d+|\d+/\d+|\d+", r"\d+(?:\.\d)?"
INCHES = re.compile(rf"(?<![\d/.-])(?:({NUMBER}) (?:by|×) )?({NUMBER}) (in)\b(?! a hundred)")
METRIC = re.compile(rf"(?<![\d/.-])(?:({DECIMAL}) (?:by|×) )?({DECIMAL}) (mm|cm)\b")
"""A length, or two of which the unit is said once."""


@cache
def load():
    document = json.loads((MONTH / "project.json").read_text())
    by_hand = next(track for track in document["tracks"] if track["name"] == "by hand")
    document["tracks"] = [{**by_hand, "name": units, "units": units} for units in READS]
    return document, {p.name: to_json(read_svg(p.read_bytes(), p.name)) for p in MONTH.glob("*.svg")}


@cache
def make():
    document, outlines = load()
    job = JobInput("any", document, outlines)
    return {file.name: file.data for recipe in (make_cutting_plan, make_sewing_plan) for file in recipe(job)}


def read(name):
    return json.loads(make()[name])


def words(value):
    """Every text in an answer but drawings and what is not said of this measure alone, in order."""
    if isinstance(value, dict):
        return [text for key in sorted(value) if key not in ("svg", "track") for text in words(value[key])]
    if isinstance(value, list):
        return [text for entry in value for text in words(entry)]
    return [re.sub(r"-(inch|metric)\.pdf", ".pdf", value)] if isinstance(value, str) else []


def lengths(pattern, text):
    """Every length in a text, each with its unit."""
    return [f"{side} {unit}" for one, other, unit in pattern.findall(text) for side in (one, other) if side]


@pytest.mark.parametrize(
    "pair", [("steps-inch.json", "steps-metric.json"), ("cutting-inch.json", "cutting-metric.json")]
)
def test_metric_words_say_the_lengths_of_the_inch_words_and_the_same_besides(pair):
    """Each length of the one is the other's within half of what its last figure stands for. 1 in = 25.4 mm exactly:
    the international yard and pound agreement of 1959.
    """
    compared = 0
    for inch, metric in zip(*(words(read(name)) for name in pair), strict=True):
        assert INCHES.sub("#", inch) == METRIC.sub("#", metric)
        for one, other in zip(lengths(INCHES, inch), lengths(METRIC, metric), strict=True):
            figure = Fraction(1, 20) * (10 if other.endswith("cm") else 1) + Fraction(254, 1280)
            assert abs(parse_length(one, "in") - parse_length(other, "in")) * Fraction(127, 5) <= figure, (
                metric
            )
            compared += 1
    assert compared > 40


def test_who_reads_as_the_document_is_written_gets_it_as_before():
    """Other readers of the same project change no byte of it."""
    document, outlines = copy.deepcopy(load())
    for track in document["tracks"]:
        del track["units"]
    job = JobInput("any", document, outlines)
    alone = {file.name: file.data for recipe in (make_cutting_plan, make_sewing_plan) for file in recipe(job)}
    same = ["cutting.json", "sewing.json", "steps-as-written.json"]
    assert {name: make()[name] for name in same} == {name: alone[name] for name in same}
    assert not {"cutting-metric.json", "sewing-metric.json"} & set(alone)


def test_both_says_each_length_twice():
    """Every length in the steps has the other measure behind it in brackets."""
    text = " ".join(words(read("steps-both.json")))
    said = len(INCHES.findall(text))
    assert said > 40
    assert len(re.findall(r" in \([\d. by×]+ (?:mm|cm)\)", text)) == said


def test_steps_keep_their_names_whoever_reads():
    """The maker's own wording and tips find their step again."""
    assert (
        len({tuple(s["id"] for s in read(f"steps-{r.replace(' ', '-')}.json")["steps"]) for r in READS}) == 1
    )


@pytest.mark.parametrize("reads", ["inch", "metric"])
def test_a_handout_prints_one_measure_alone(reads):
    """Not a length of the other measure on any page."""
    document, outlines = load()
    made = make_handout(JobInput("handout", document, outlines, make(), track=reads))
    pages = pypdfium2.PdfDocument(made[0].data)
    text = re.sub(r"\s+", " ", " ".join(page.get_textpage().get_text_bounded() for page in pages))
    own, other = (INCHES, METRIC) if reads == "inch" else (METRIC, INCHES)
    assert len(own.findall(text)) > 100
    assert [found.group() for found in other.finditer(text)] == []


def test_units_nobody_knows_are_refused_where_they_stand():
    """The fault names the place and what would be right."""
    document = copy.deepcopy(load()[0])
    document["tracks"][1]["units"], document["units"] = "ells", 3
    with pytest.raises(DocumentFaults) as refused:
        read_document(document)
    assert [fault.pointer for fault in refused.value.faults] == ["/units", "/tracks/1/units"]
    assert all("inch" in fault.right for fault in refused.value.faults)
