"""Where the middle of a hooping is marked, held against the files: every placement line comes to lie on its outline."""

import json
from fractions import Fraction

import numpy as np
import pytest
import shapely

from service.craft.document import read_document
from service.craft.outlines import find_outline, flatten, place
from tests.stitches.independent_reader import read
from tests.stitches.test_recipe import BEAN, LEEK, OUTLINES, document
from workers.recipe import JobInput
from workers.stitches.marks import Ruler
from workers.stitches.recipe import make_stitches

PLACES = [
    [{**LEEK}],
    [{**LEEK, "turn": 90}],
    [{**LEEK, "turn": 37, "at": ["9 1/3", "11 2/7"]}],
    [{**BEAN, "name": "one", "at": ["5", "5"]}, {**BEAN, "name": "two", "at": ["7 3/7", "6 1/5"]}],
]


def make_files(raw):
    return {m.name: m.data for m in make_stitches(JobInput("stitches", raw, OUTLINES))}


def outlines_on_top(raw):
    placed = {p.name: place(p, find_outline(OUTLINES, p.outline)) for p in read_document(raw).pieces}
    return {
        name: shapely.MultiLineString([np.vstack([r, r[:1]]) for r in map(flatten, outline.rings)])
        for name, outline in placed.items()
    }


def sewn_places(data, first, last):
    """Needle points of records first to last in millimetres, y down, by the reader that shares no code with ours."""
    places = np.array([(x, -y) for _, _, _, x, y in read(data).events]) / 10
    return places[first : last + 1]


def on_top(points, turned, centre):
    """Points of the field where the middle of the field is `centre` and the top lies turned clockwise in the hoop."""
    angle = np.radians(-turned)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    return points @ turn.T + np.array(centre)


def off_the_outline(report, data, piece, outline, turned, centre):
    (line,) = [p for p in report["passes"] if p["kind"] == "placement" and p["piece"] == piece]
    points = on_top(sewn_places(data, line["from"], line["to"]), turned, centre)[5:-5]  # without the ties
    return float(shapely.distance(outline, shapely.points(points)).max())


@pytest.mark.parametrize("pieces", PLACES)
@pytest.mark.parametrize("measure", ["in", "cm"])
def test_sewn_from_its_marked_middle_each_placement_line_lies_on_its_outline(pieces, measure):
    """0.15 mm: needle points are whole tenths on both axes, and running stitches leave a curve by 0.1."""
    raw = document(*pieces) | {"measure": measure}
    files, outlines = make_files(raw), outlines_on_top(raw)
    for name in [n for n in files if n.endswith(".json")]:
        report = json.loads(files[name])
        data = files[name.replace(".json", ".dst")]
        for piece in report["pieces"]:
            turned = 90 if report["turned"] else 0
            off = off_the_outline(report, data, piece, outlines[piece], turned, report["centre_mm"])
            assert off < 0.15, (name, piece)


@pytest.mark.parametrize("pieces", PLACES)
@pytest.mark.parametrize(("measure", "step"), [("in", Fraction(254, 160)), ("cm", Fraction(1))])
def test_the_middle_lies_on_a_mark_of_the_ruler_that_measures_it_from_the_cut_edges(pieces, measure, step):
    """A sixteenth of an inch or a millimetre: so the words of the handout say it exactly, within 0.05 mm."""
    raw = document(*pieces) | {"measure": measure}
    allowance = float(read_document(raw).seam_allowance * Fraction(254, 10))
    reports = [json.loads(data) for name, data in make_files(raw).items() if name.endswith(".json")]
    for report in reports:
        for place_mm in report["centre_mm"]:
            marks = (place_mm + allowance) / float(step)
            assert abs(marks - round(marks)) * float(step) < 0.05


@pytest.mark.parametrize("turn", [0, 30, 90, 215])
def test_one_file_sews_a_motif_again_where_the_report_says_with_the_top_turned_as_it_says(turn):
    again = {**LEEK, "name": "again", "at": ["30", "29 1/3"], "turn": turn}
    raw = document({**LEEK, "turn": 10}, again)
    files, outlines = make_files(raw), outlines_on_top(raw)
    first, second = (json.loads(files[f"stitch-130x180-{n}.json"]) for n in (1, 2))
    (said,), same = first["also_sews"], second["same_as"]
    assert (said["hooping"], said["pieces"]) == ("130x180-2", ["again"])
    assert said["centre_mm"] == same["centre_mm"]
    assert any(note.startswith("sew this file 2 times") and "again" in note for note in first["notes"])
    data = files["stitch-130x180-1.dst"]
    off = off_the_outline(
        first, data, "leek", outlines["again"], same["top_turned_degrees"], same["centre_mm"]
    )
    assert off < 0.15


def test_marks_are_counted_from_the_cut_edge():
    """6.35 mm of allowance: 10 mm of the finished top are 16.35 from the edge, the nearest sixteenth 15.875."""
    found = Ruler(1.5875, 6.35).nearest(np.array([10.0, 0.0]))
    assert found == pytest.approx([9.525, 0.0])
