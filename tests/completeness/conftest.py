"""Three months of the demo series, made by the real recipes; of the handouts only what they list, unprinted."""

import json
from functools import lru_cache
from pathlib import Path

import pytest

from service.craft.audience import writing_for
from service.craft.document import read_document
from service.craft.outlines import read_svg, to_json
from workers.completeness import read_made
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.bundle import list_bundle_files
from workers.handouts.handout import plan_handout
from workers.handouts.inputs import Inputs
from workers.handouts.materials import write_materials
from workers.outlines.cut_files import make_cut_files
from workers.outlines.templates import make_templates
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.stitches.recipe import make_stitches

SEED = Path(__file__).parents[2] / "seed_data"
MONTHS = ["2027-01-leek-row", "2027-02-seed-tray", "2027-03-rhubarb-cushion"]
IN_DUTCH = " in Dutch"
TRACKS = ["hoop and cutter", "hoop", "cutter", "by hand"]


@lru_cache
def load(month):
    """A month's document and outlines, as they are submitted; its viewers read Dutch where the month says so."""
    folder = SEED / month.removesuffix(IN_DUTCH)
    outlines = {p.name: to_json(read_svg(p.read_bytes(), p.name)) for p in sorted(folder.glob("*.svg"))}
    document = json.loads((folder / "project.json").read_text())
    return document | ({"language": "nl"} if month.endswith(IN_DUTCH) else {}), outlines


@lru_cache
def make_shared(month):
    """The files that a month's tracks share, by name; stitch files and cut files among them."""
    document, outlines = load(month)
    made = {}
    for recipe in (make_cutting_plan, make_sewing_plan, make_stitches, make_cut_files):
        job = JobInput(kind="any", document=document, outlines=outlines)
        made |= {file.name: file.data for file in recipe(job)}
    return made


@lru_cache
def make_files(month, track):
    """Everything a track's bundle is packed from; the handout itself stands for itself."""
    document, outlines = load(month)
    project = read_document(document)
    files = dict(make_shared(month))
    if project.needs_templates(project.track(track)):
        job = JobInput(kind="templates", document=document, outlines=outlines, track=track)
        files |= {file.name: file.data for file in make_templates(job)}
    inputs = read_inputs(month, track, files)
    with writing_for(project.audience_of(inputs.track)):
        materials = write_materials(inputs.track, plan_handout(inputs).fields)
    files[f"materials-{inputs.track.slug}.json"] = materials
    files[f"handout-{inputs.track.slug}.pdf"] = b"%PDF-handout"
    return files


def read_inputs(month, track, files, document=None):
    given, outlines = load(month)
    return Inputs(
        JobInput(
            kind="bundle",
            document=document or given,
            outlines=outlines,
            inputs=files,
            track=track,
            release="2027-01-20",
        )
    )


def look_at(month, track, files, *, document=None, bundled=None):
    """What the checks look at."""
    inputs = read_inputs(month, track, files, document)
    names = list_bundle_files(inputs, inputs.track) if bundled is None else bundled
    return read_made(inputs.project, inputs.track, inputs.job.outlines, files, names)


@pytest.fixture(params=MONTHS)
def month(request):
    return request.param


@pytest.fixture(params=TRACKS)
def track(request):
    return request.param
