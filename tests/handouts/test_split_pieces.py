"""A piece sewn in several hoopings: the handout names its parts, draws its split, and no part may be missing."""

import pytest

from tests.stitches.test_recipe import document
from tests.stitches.test_split import ACROSS, OUTLINES
from workers.completeness import read_made
from workers.completeness.ways import find_unmade
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.handout import plan_handout
from workers.handouts.hoopings import check_hoopings, list_hoopings
from workers.handouts.inputs import Inputs
from workers.handouts.split_pieces import find_splits
from workers.outlines.asked import read_pieces, read_project
from workers.outlines.template_plan import plan_templates
from workers.outlines.templates import make_templates
from workers.recipe import CannotMake, JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.stitches.recipe import make_stitches


@pytest.fixture(scope="module")
def made():
    """The document of a leek runner and every file the handout is made from."""
    leek = {"name": "leek", "outline": "leek.svg", "fabric": "frost", "at": ["15", "15"], "split": ACROSS}
    sources = [{"name": "mine", "covers": ["leek.svg"], "rights": "own"}]
    raw = document(leek, sources=sources)
    files = {}
    for recipe in (make_cutting_plan, make_sewing_plan, make_stitches, make_templates):
        job = JobInput("any", raw, OUTLINES, track="track 0")
        files |= {file.name: file.data for file in recipe(job)}
    return raw, files


def read(made, *without):
    raw, files = made
    kept = {name: data for name, data in files.items() if not name.startswith(without)} if without else files
    return Inputs(JobInput("handout", raw, OUTLINES, inputs=kept, track="track 0", release="2027-01-20"))


def test_each_hooping_is_named_by_its_part_and_the_files_too(made):
    """In the section of the stitch files and in the list of files."""
    inputs = read(made)
    hoopings = list_hoopings(inputs, inputs.track)
    assert [h.titles for h in hoopings] == [("leek, upper part",), ("leek, lower part",)]
    fields = plan_handout(inputs).fields
    words = [note.what for note in fields["files"] if any(name.endswith(".dst") for name in note.names)]
    assert words == ["stitch file for leek, upper part", "stitch file for leek, lower part"]


def test_the_drawing_of_places_has_the_line_of_the_split(made):
    """From edge to edge of the stalk: 24 mm wide, and the line falls 0.3 in on one in of way."""
    inputs = read(made)
    [(start, end)] = find_splits(inputs, [h.parts for h in list_hoopings(inputs, inputs.track)])
    assert start[0] < end[0] and end[0] - start[0] == pytest.approx(24, abs=1.0)
    drawn = str(plan_handout(inputs).fields["placement"])
    assert "stroke-dasharray" in drawn


def test_without_one_of_its_parts_a_piece_has_no_stitch_file(made):
    """Neither for the bundle nor for the list of what is complete."""
    inputs = read(made, "stitch-130x180-2")
    with pytest.raises(CannotMake) as refused:
        check_hoopings(inputs, inputs.track, list_hoopings(inputs, inputs.track))
    assert refused.value.pointer == "/pieces/0"
    files = inputs.job.inputs
    found = list(find_unmade(read_made(inputs.project, inputs.track, OUTLINES, files, files)))
    assert ["part 2 is in no released stitch file" in finding.detail for finding in found] == [True]


def test_with_all_of_its_parts_the_piece_is_complete(made):
    """Every part has its passes and what comes with its file."""
    inputs = read(made)
    check_hoopings(inputs, inputs.track, list_hoopings(inputs, inputs.track))
    files = inputs.job.inputs
    assert not list(find_unmade(read_made(inputs.project, inputs.track, OUTLINES, files, files)))


def test_cloth_and_template_know_one_piece(made):
    """It is cut whole: one template, for one piece of cloth."""
    raw, _ = made
    job = JobInput("templates", raw, OUTLINES, track="track 0")
    project = read_project(job)
    assert [template.count for template in plan_templates(read_pieces(job, project))] == [1]
