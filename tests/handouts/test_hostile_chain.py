"""Hostile words in every field go through every job of a project, and come out as words."""

import io
import json
import zipfile

import pytest
from lxml import etree

from service.craft.document import read_document
from service.jobs.plan import plan_jobs
from tests.handouts.conftest import DOCUMENT, OUTLINES
from tests.handouts.test_hostile_words import EMOJI, LONG_WORD, MARKUP, RIGHT_TO_LEFT, assert_whole, fill
from workers.queue.recipes import TABLE, find_recipe
from workers.recipe import JobInput

HOSTILE = f"{MARKUP} {EMOJI[:12]} {RIGHT_TO_LEFT[:24]} {LONG_WORD}"
DRAWN = {
    "svg",
    "g",
    "path",
    "circle",
    "text",
    "tspan",
    "title",
    "desc",
    "rect",
    "line",
    "polyline",
    "style",
    "defs",
}


def write_document():
    """A document with the words wherever words may stand."""
    document = json.loads(json.dumps(DOCUMENT))
    fill(document, HOSTILE)
    document["pieces"] = document["pieces"][:2]
    document["sources"] = [{**document["sources"][0], "covers": ["leek.svg"], "rights": "own"}]
    for piece in document["pieces"]:
        piece["thread"]["name"] = HOSTILE[:100]
    document["tracks"] = [
        {
            "name": f"a {HOSTILE[:90]}",
            "has": ["hoop 130x180", "cutter 12x12"],
            "reading": HOSTILE,
            "paper": "Letter",
        },
        {"name": f"b {HOSTILE[:90]}", "has": [], "reading": HOSTILE, "print": "large"},
    ]
    return document


@pytest.fixture(scope="module")
def made():
    """Every file of every job, with tips before and after the first step of each track."""
    document = write_document()
    project = read_document(document)
    tips = [
        {"track": "", "step": "cutting.prepare", "place": place, "text": HOSTILE}
        for place in ("before", "after")
    ]
    files = {}
    for job in plan_jobs(project):
        given = JobInput(
            job.name.kind,
            document,
            OUTLINES,
            {file.name: file.data for name in job.waits_for for file in files[name]},
            job.name.track,
            "2027-01-20",
            wording={track.name: {"cutting.straighten": HOSTILE} for track in project.tracks},
            tips=tips,
        )
        files[job.name] = find_recipe(TABLE, job.name.kind)(given)
    return [file for some in files.values() for file in some]


def test_every_printed_page_is_whole(made):
    printed = [file for file in made if file.name.endswith(".pdf")]
    assert len(printed) >= 5
    for file in printed:
        if not file.name.startswith("templates"):  # true size; its pages have margins of their own
            assert_whole(file.data)


def test_every_drawing_and_cut_file_is_well_formed_and_holds_shapes_and_words_alone(made):
    drawn = [file for file in made if file.name.endswith(".svg")]
    assert len(drawn) >= 4
    for file in drawn:
        tags = {
            etree.QName(n).localname for n in etree.fromstring(file.data).iter() if isinstance(n.tag, str)
        }
        assert tags <= DRAWN, file.name


def test_every_name_of_a_file_stays_in_its_folder(made):
    """No slash, no dot at the front, and short enough for any disk; in the bundles as well."""
    names = [file.name for file in made]
    for file in made:
        if file.name.endswith(".zip"):
            with zipfile.ZipFile(io.BytesIO(file.data)) as archive:
                assert archive.testzip() is None
                names += archive.namelist()
    assert [n for n in names if "/" in n or "\\" in n or n.startswith(".") or len(n.encode()) > 255] == []


def test_cut_files_for_machines_hold_no_line_that_the_words_made(made):
    """DXF is read line by line: a line break in a name would be a command."""
    for file in made:
        if file.name.endswith(".dxf"):
            lines = file.data.decode().splitlines()
            assert len(lines) % 2 == 0 and all(code.strip().lstrip("-").isdigit() for code in lines[::2])
