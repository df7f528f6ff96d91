"""Lines and areas on a piece, from the document to the checked file."""

import json
from itertools import pairwise

import numpy as np
import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from tests.stitches.shapes import circle, leaf
from tests.stitches.test_recipe import OUTLINES, document, outline
from workers.recipe import CannotMake, JobInput
from workers.stitches.lines_along import sew_satin_line, sew_thrice
from workers.stitches.recipe import make_stitches
from workers.stitches.settings import USUAL

RED = {"name": "rhubarb", "colour": "#a12d47"}


def with_eye():
    """A leaf, and in the same drawing a disc 20 mm right of its middle."""
    file = outline("leaf.svg", leaf(80, 30))
    eye = outline("leaf.svg", circle(5, 60) + np.array([20, 0]))["shapes"][0]
    return {**file, "shapes": [*file["shapes"], {**eye, "name": "eye"}]}


def make_leaf(*details, **more):
    piece = {"name": "leaf", "outline": "leaf.svg#shape", "details": list(details), **more}
    job = JobInput("stitches", document(piece), {**OUTLINES, "leaf.svg": with_eye()})
    return json.loads(make_stitches(job)[-1].data)


ALL_KINDS = (
    {"sew": "satin line", "width": "2 mm", "points": [["-34 mm", "0"], ["0", "2 mm"], ["12 mm", "0"]]},
    {"sew": "running", "points": [["-20 mm", "0"], ["-12 mm", "-7 mm"]]},
    {"sew": "triple run", "closed": True, "points": [["-3 mm", "5 mm"], ["3 mm", "5 mm"], ["0", "9 mm"]]},
    {"sew": "fill", "outline": "leaf.svg#eye", "angle": 30},
)


def test_every_kind_of_detail_is_sewn_after_the_edge_and_the_file_passes_its_check():
    report = make_leaf(*ALL_KINDS)
    assert report["released"], [c for c in report["checks"] if not c["ok"]]
    assert [p["kind"] for p in report["passes"]][-5:] == ["finish", *["detail"] * 4]


def test_a_detail_lies_to_its_piece_as_it_is_drawn_also_turned_and_scaled():
    report = make_leaf({"sew": "fill", "outline": "leaf.svg#eye"}, turn=90, scale="1/2")
    assert report["released"]


def test_details_in_another_thread_cost_one_change_however_they_are_mixed():
    _, second, third, fourth = ALL_KINDS
    report = make_leaf({**third, "thread": RED}, second, {**fourth, "thread": RED})
    assert report["thread_changes"] == 1
    assert [c["name"] for c in report["colours"]] == ["white", "rhubarb"]


def test_a_detail_that_leaves_its_piece_is_refused_with_its_pointer():
    with pytest.raises(CannotMake, match="reaches beyond") as refused:
        make_leaf({"sew": "running", "points": [["0", "0"], ["60 mm", "0"]]})
    assert refused.value.pointer == "/pieces/0/details/0" and refused.value.right


def test_a_detail_that_names_a_shape_that_is_not_there_is_refused_with_its_pointer():
    with pytest.raises(CannotMake, match="no shape named") as refused:
        make_leaf({"sew": "fill", "outline": "leaf.svg#vein"})
    assert refused.value.pointer == "/pieces/0/details/0/outline"


def test_an_outline_that_viewers_must_own_keeps_the_file_in_the_studio_though_it_is_only_a_detail():
    piece = {
        "name": "leaf",
        "outline": "leaf.svg#shape",
        "details": [{"sew": "running", "outline": "eye.svg"}],
    }
    sources = [{"name": "bought", "covers": ["eye.svg"], "rights": "viewer must own"}]
    drawn = with_eye()
    outlines = {"leaf.svg": drawn, "eye.svg": {**drawn, "name": "eye.svg", "shapes": drawn["shapes"][1:]}}
    made = make_stitches(JobInput("stitches", document(piece, sources=sources), outlines))
    assert [m.public for m in made] == [False] * 5


@pytest.mark.parametrize(
    ("detail", "pointer"),
    [
        ({"sew": "running"}, ""),
        ({"sew": "running", "outline": "a.svg", "points": [["0", "0"], ["1", "0"]]}, ""),
        ({"sew": "cross", "outline": "a.svg"}, "/sew"),
        ({"sew": "fill", "points": [["0", "0"], ["1", "0"], ["1", "1"]]}, ""),
        ({"sew": "running", "points": [["0", "0"], ["1"]]}, "/points/1"),
        ({"sew": "satin line", "outline": "a.svg", "width": "20 mm"}, "/width"),
        ({"sew": "running", "points": [["0", "x"], ["1", "0"]]}, "/points/0/1"),
    ],
)
def test_a_faulty_detail_is_named_by_its_place(detail, pointer):
    with pytest.raises(DocumentFaults) as refused:
        read_document(document({"name": "bean", "outline": "bean.svg", "details": [detail]}))
    (fault,) = refused.value.faults
    assert fault.pointer == "/pieces/0/details/0" + pointer and fault.right


def test_a_satin_line_too_narrow_for_the_needle_becomes_a_triple_run():
    """Below 1.0 mm a column is not safe (A. Bruce, Stitching guidelines for digitizing)."""
    path = np.array([[0.0, 0.0], [20.0, 0.0]])
    narrow = sew_satin_line(path, USUAL, closed=False, width_mm=0.9)
    assert np.abs(narrow[:, 1]).max() == 0
    assert np.abs(np.diff(narrow[:, 0])).sum() == pytest.approx(60)
    assert len(sew_satin_line(path, USUAL, closed=False, width_mm=1.0)) > 80


def test_a_triple_run_goes_over_every_stitch_three_times():
    points = np.array([[0.0, 0.0], [2.0, 0.0], [4.0, 0.0], [4.0, 2.0]])
    sewn = sew_thrice(points)
    pairs = {tuple(sorted([tuple(a), tuple(b)])) for a, b in pairwise(sewn)}
    assert len(pairs) == 3 and len(sewn) == 10
