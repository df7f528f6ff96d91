"""A track with a cutting machine whose blocks need templates: they are named in its handout and packed with it."""

import io
import json
import zipfile

import pypdfium2
import pytest

from tests.straight_blocks import block, document
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.recipe import make_bundle, make_handout
from workers.outlines.templates import make_templates
from workers.recipe import CannotMake, JobInput
from workers.sewing.recipe import make_sewing_plan

TRACKS = [{"name": "cutter", "has": ["cutter 12x12"]}]
DOCUMENT = document("b", blocks={"b": block("kites", 8)}, tracks=TRACKS)


def make(recipe, inputs):
    return {file.name: file.data for file in recipe(JobInput("", DOCUMENT, inputs=inputs, track="cutter"))}


@pytest.fixture(scope="module")
def plans():
    return make(make_cutting_plan, {}) | make(make_sewing_plan, {})


@pytest.fixture(scope="module")
def files(plans):
    made = plans | make(make_templates, {})
    return made | make(make_handout, made)


def test_the_bundle_holds_the_templates(files):
    (bundle,) = make(make_bundle, files).values()
    names = zipfile.ZipFile(io.BytesIO(bundle)).namelist()
    assert set(names) == {"manifest.json", "handout-cutter.pdf", "templates-cutter.pdf"}


def test_without_its_templates_there_is_no_bundle(files):
    with pytest.raises(CannotMake, match="templates-cutter"):
        make(make_bundle, {name: data for name, data in files.items() if not name.startswith("templates")})


def test_the_handout_names_the_file_and_each_template_in_its_table(files):
    pages = pypdfium2.PdfDocument(files["handout-cutter.pdf"])
    text = " ".join(" ".join(page.get_textpage().get_text_bounded().split()) for page in pages)
    for words in ("templates-cutter.pdf", "cut with template A", "cut with template B, turned over"):
        assert words in text


def test_the_cutting_plan_says_polygon_and_which_template(plans):
    cuts = json.loads(plans["cutting.json"])["cuts"]
    assert {(cut["shape"], cut["template"]) for cut in cuts} == {
        ("polygon", "A"),
        ("polygon", "B"),
        ("polygon", "B reversed"),
    }
