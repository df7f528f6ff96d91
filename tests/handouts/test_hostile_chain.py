"""Hostile words in every field go through every job of a project, and come out as words."""

import io
import json
import zipfile

import pikepdf
import pytest
from lxml import etree

from service.craft.document import read_document
from service.jobs.plan import plan_jobs
from tests.handouts.conftest import DOCUMENT, OUTLINES
from tests.handouts.test_handout import iterate_boxes
from tests.handouts.test_hostile_words import (
    EMOJI,
    LIMIT,
    LONG_WORD,
    MARKUP,
    RIGHT_TO_LEFT,
    assert_whole,
    enrich,
    fill,
)
from workers.queue.recipes import TABLE, find_recipe
from workers.recipe import JobInput

HOSTILE = f"{MARKUP} {EMOJI[:12]} {RIGHT_TO_LEFT[:24]} {LONG_WORD}"
MATERIALS = [
    {"kind": "cloth", "name": HOSTILE, "colour": colour, "usable_width": "42", "length": "90", "quantity": 2}
    for colour in ("#eef1ee", "#5f8f4e", "#4a3a30")
]
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


def rename(value, names):
    """A JSON value with blocks and cloths called otherwise, wherever they are named."""
    if isinstance(value, dict):
        return {names.get(key, key): rename(inner, names) for key, inner in value.items()}
    if isinstance(value, list):
        return [rename(inner, names) for inner in value]
    return names.get(value, value) if isinstance(value, str) else value


def write_document():
    """A document with the words wherever words may stand."""
    document = enrich(json.loads(json.dumps(DOCUMENT)))
    fill(document, HOSTILE)
    document = rename(document, {"star": HOSTILE[:LIMIT], "leaf": f"leaf {HOSTILE}"[:LIMIT]})
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
            materials=MATERIALS,
        )
        files[job.name] = find_recipe(TABLE, job.name.kind)(given)
    return [file for some in files.values() for file in some]


@pytest.fixture(scope="module")
def printed(made):
    """Every PDF by its name: two handouts (Letter, and large on A4), their templates, the studio's sheets on Letter."""
    found = {file.name: file.data for file in made if file.name.endswith(".pdf")}
    kinds = ("handout", "templates", "run-sheet", "colourways")
    assert {kind for kind in kinds for name in found if name.startswith(kind)} == {*kinds}
    return found


def test_every_printed_page_is_whole(printed):
    for name, data in printed.items():
        if not name.startswith("templates"):  # true size; its pages have margins of their own
            assert_whole(data)


def test_nothing_on_a_page_of_templates_runs_off_it(printed):
    """Ten millimetres are more than any printer leaves white at the edge (from memory)."""
    for name, data in printed.items():
        for _, (left, bottom, right, top), (width, height) in iterate_boxes(data):
            if name.startswith("templates"):
                assert min(left, bottom, width - right, height - top) >= 28, name


def test_every_print_embeds_its_fonts_is_tagged_and_says_its_language_and_its_pictures(printed):
    for name, data in printed.items():
        with pikepdf.open(io.BytesIO(data)) as pdf:
            objects = [o for o in pdf.objects if isinstance(o, pikepdf.Dictionary)]
            assert str(pdf.Root.Lang) == "en" and bool(pdf.Root.MarkInfo.Marked), name
        fonts = [o for o in objects if o.get("/Type") == "/FontDescriptor"]
        figures = [o for o in objects if o.get("/S") == "/Figure"]
        assert fonts and all({"/FontFile", "/FontFile2", "/FontFile3"} & set(f.keys()) for f in fonts), name
        assert figures and all(str(figure.get("/Alt", "")).strip() for figure in figures), name


def test_texts_to_paste_hold_a_line_for_each_thing_and_the_words_as_they_were_written(made):
    texts = {file.name: file.data.decode() for file in made if file.name.endswith(".txt")}
    assert MARKUP in texts["supplies.txt"] and MARKUP in texts["chapter-marks.txt"]
    times = [line.split()[0] for line in texts["chapter-marks.txt"].splitlines() if line[:1].isdigit()]
    assert len(times) >= 4 and all(":" in time for time in times)


def test_the_manifest_of_every_bundle_is_json_and_names_what_is_in_it(made):
    bundles = [file for file in made if file.name.endswith(".zip")]
    assert len(bundles) == 2
    for file in bundles:
        with zipfile.ZipFile(io.BytesIO(file.data)) as archive:
            manifest = archive.read("manifest.json").decode()
            assert isinstance(json.loads(manifest), dict)
            assert [name for name in archive.namelist() if name not in manifest] == ["manifest.json"]


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
