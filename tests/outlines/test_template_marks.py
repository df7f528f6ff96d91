"""Marks on templates lie on the lines drawn on the top: places worked out by hand, and by laying the template."""

import json

import numpy as np

from tests.stitches.shapes import leaf, rectangle
from tests.stitches.test_recipe import document, outline
from workers.outlines.asked import read_pieces, read_project, read_track
from workers.outlines.template_marks import read_crossings
from workers.outlines.template_plan import plan_templates
from workers.recipe import JobInput
from workers.stitches.recipe import make_stitches

OUTLINES = {
    "bed.svg": outline("bed.svg", rectangle(60, 20)),
    "leaf.svg": outline("leaf.svg", leaf(60, 20)),
    "long.svg": outline("long.svg", rectangle(40, 240)),
}
INCH = 25.4


def piece(name, file="bed", **more):
    return {"name": name, "outline": f"{file}.svg", "at": ["10", "10"], "fabric": "fleece", **more}


def plan(*pieces, reports=None, sources=(), has="hoop 130x180"):
    """The templates of the first track, beside reports of hoopings by their number."""
    inputs = {
        f"stitch-130x180-{n}.json": json.dumps(report).encode()
        for n, report in enumerate(reports or (), start=1)
    }
    raw = document(*pieces, tracks=(has,), sources=sources)
    job = JobInput("templates", raw, OUTLINES, inputs=inputs, track="track 0")
    project = read_project(job)
    asked = read_pieces(job, project)
    kept = [one.piece.name for one in asked if not one.public]
    crossings = read_crossings(job, read_track(job, project), kept)
    return plan_templates(asked, project.applique, project.measure, crossings)


def lie_at(found, places):
    """Whether points or lines lie at these places."""
    return np.allclose(np.array(found), np.array(places, dtype=float), atol=1e-6)


def report(*names, centre=(10 * INCH, 10 * INCH), **more):
    return {"pieces": list(names), "centre_mm": list(centre), **more}


def test_without_a_hoop_the_marks_lead_to_the_middle_and_the_tip_points_up():
    """A bed of 60 x 20 mm: up at (30, 0), right at (60, 10), down, left, each 5 mm long."""
    (template,) = plan(piece("bed"), has="")
    assert lie_at(
        template.marks[:4],
        [((30, 0), (30, 5)), ((60, 10), (55, 10)), ((30, 20), (30, 15)), ((0, 10), (5, 10))],
    )
    assert all(lie_at(mark[0], (30, 0)) for mark in template.marks[4:]) and len(template.marks) == 6
    assert "that the steps place; the tip points up on the top." in " ".join(template.words)


def test_a_turned_piece_has_its_tip_where_up_is_once_it_is_turned():
    """Turned a quarter clockwise, what was left on the piece points up; fleece is drawn from its front."""
    (template,) = plan(piece("bed", turn=90), has="")
    assert lie_at(template.marks[0], ((0, 10), (5, 10)))


def test_seen_from_the_back_the_marks_are_mirrored_with_the_shape():
    """Frost is fused: its template is drawn from the back, so up of a piece turned a quarter is on the right."""
    (template,) = plan(piece("bed", fabric="frost", turn=90), has="")
    assert lie_at(template.marks[0], ((60, 10), (55, 10)))


def test_pieces_at_several_angles_share_marks_without_a_tip():
    """Which way is up differs; the middle does not."""
    (template,) = plan(piece("one"), piece("two", at=["20", "10"], turn=30), has="")
    assert len(template.marks) == 4 and "points up" not in " ".join(template.words)


def test_the_marks_of_a_hooped_piece_lie_on_the_crossing_lines_of_its_hooping():
    """Its middle 5 mm right of and 4 mm above that of the bed: up at (35, 0), right at (60, 6)."""
    (template,) = plan(piece("bed"), reports=[report("bed", centre=(10 * INCH + 5, 10 * INCH - 4))])
    assert lie_at(template.marks[:2], [((35, 0), (35, 5)), ((60, 6), (55, 6))])
    assert "hooping H1" in " ".join(template.words)


def test_hoopings_are_named_as_in_the_handout_where_those_of_owned_pieces_have_no_name():
    """The second of the reports is the first that leaves the studio."""
    sources = [{"name": "bought", "covers": ["leaf.svg"], "rights": "viewer must own"}]
    pieces = [piece("leaf", "leaf", at=["20", "10"]), piece("bed")]
    (template,) = plan(*pieces, reports=[report("leaf"), report("bed")], sources=sources)
    assert "hooping H1" in " ".join(template.words)


def test_a_hooping_whose_middle_lies_beside_the_piece_leaves_the_marks_of_the_piece():
    """Several pieces in one hooping: its crossing lines do not meet on either."""
    (template,) = plan(piece("bed"), reports=[report("bed", "other", centre=(10 * INCH + 5, 10 * INCH - 40))])
    assert lie_at(template.marks[0], ((30, 0), (30, 5))) and "that the steps place" in " ".join(
        template.words
    )


def test_laid_on_the_top_the_marks_of_a_real_motif_point_at_the_middles_that_its_files_report():
    """Two leaves sewn with one file, one turned by 45 degrees: the marks hold for both."""
    pieces = [piece("one", "leaf", at=["6", "6"]), piece("two", "leaf", at=["30", "6"], turn=45)]
    raw = document(*pieces)
    files = {
        f.name: f.data for f in make_stitches(JobInput("stitches", raw, OUTLINES)) if f.name.endswith(".json")
    }
    told = [json.loads(data) for data in files.values()]
    (template,) = plan(*pieces, reports=told)
    assert "H1 or H2" in " ".join(template.words)
    job = JobInput("templates", raw, OUTLINES, track="track 0")
    for asked, one in zip(read_pieces(job, read_project(job)), told, strict=True):
        same = one["same_as"] or one
        turn = np.radians(float(asked.piece.turn))
        rotate = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
        middle = np.array([30.0, 10.0])
        at = np.array([float(side) * INCH for side in asked.piece.at])
        ends = [rotate @ (np.array(mark[0]) - middle) + at for mark in template.marks[:4]]
        up_down, left_right = np.stack([ends[0], ends[2]]), np.stack([ends[3], ends[1]])
        for line in (up_down, left_right):
            way = (line[1] - line[0]) / np.linalg.norm(line[1] - line[0])
            off = np.array(same["centre_mm"]) - line[0]
            assert abs(way[0] * off[1] - way[1] * off[0]) < 0.6


def test_a_split_piece_shows_where_its_hoopings_part_and_is_cut_in_one():
    """A line through the middle of 40 x 240 mm: from edge to edge."""
    long = piece("long", "long", split={"from": ["-1", "0"], "to": ["1", "0"]})
    parts = {"long": {"part": 1, "of": 2, "name": "upper part"}}
    reports = [report("long", parts=parts), report("long", parts={"long": {**parts["long"], "part": 2}})]
    (template,) = plan(long, reports=reports)
    [(start, end)] = template.split
    assert lie_at(sorted([start, end]), [(0, 120), (40, 120)])
    assert "cut it in one piece" in " ".join(template.words) and template.count == 1
