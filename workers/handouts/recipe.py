"""The recipes of this room: handouts, run sheet, colourway sheet, bundles."""

from __future__ import annotations

from workers.handouts.bundle import pack_bundle
from workers.handouts.colourway_notes import note_cloths
from workers.handouts.colourways import draw_colourways, print_colourways, view_colourways
from workers.handouts.handout import plan_handout, print_handout
from workers.handouts.inputs import Inputs
from workers.handouts.materials import write_materials
from workers.handouts.run_sheet import print_run_sheet
from workers.in_their_words import in_their_words
from workers.recipe import JobInput, MadeFile

PDF, SVG, ZIP, JSON = "application/pdf", "image/svg+xml", "application/zip", "application/json"
TEXT = "text/plain"


@in_their_words
def make_handout(job: JobInput) -> list[MadeFile]:
    """`handout-<track>.pdf` of the job's track and what it lists to have, as `materials-<track>.json` and for the
    studio; `CannotMake` where the document or a plan cannot be read.
    """
    inputs = Inputs(job)
    job.progress(0.1, f"Setting the handout for {inputs.track.name}")
    handout = plan_handout(inputs)
    data = print_handout(handout)
    job.progress(1.0, "The handout is printed")
    slug, materials = inputs.track.slug, write_materials(inputs.track, handout.fields)
    return [
        MadeFile(f"handout-{slug}.pdf", PDF, data, "handout"),
        MadeFile(f"materials-{slug}.json", JSON, materials, "materials", public=False),
    ]


@in_their_words
def make_run_sheet(job: JobInput) -> list[MadeFile]:
    """`run-sheet.pdf`, for the studio alone: it may show outlines that viewers must own. Its chapter marks and the
    supplies also as text, to paste under a video.
    """
    job.progress(0.1, "Setting the run sheet")
    sheet = print_run_sheet(Inputs(job))
    job.progress(1.0, "The run sheet is printed")
    return [
        MadeFile("run-sheet.pdf", PDF, sheet.page, "run sheet", public=False),
        MadeFile("chapter-marks.txt", TEXT, sheet.marks.encode(), "chapter marks", public=False),
        MadeFile("supplies.txt", TEXT, sheet.supplies.encode(), "supplies", public=False),
    ]


@in_their_words
def make_colourways(job: JobInput) -> list[MadeFile]:
    """`colourways.svg` and `colourways.pdf`, for the studio alone."""
    inputs = Inputs(job)
    job.progress(0.1, "Drawing the colourways")
    views = view_colourways(inputs.project, inputs.top, job.swatches)
    drawing = draw_colourways(views, inputs.project.title).encode()
    job.progress(0.3, "Working out what each colourway takes")
    notes = note_cloths(inputs, [dict(view.top.cloths) for view in views])
    job.progress(0.6, "Setting the colourway sheet")
    data = print_colourways(inputs, views, notes)
    job.progress(1.0, "The colourway sheet is printed")
    return [
        MadeFile("colourways.svg", SVG, drawing, "colourway sheet", public=False),
        MadeFile("colourways.pdf", PDF, data, "colourway sheet", public=False),
    ]


def make_bundle(job: JobInput) -> list[MadeFile]:
    """`bundle-<track>.zip` of the job's track; `CannotMake` names everything that is missing on the track."""
    inputs = Inputs(job)
    job.progress(0.1, f"Packing the bundle for {inputs.track.name}")
    data = pack_bundle(inputs)
    job.progress(1.0, "The bundle is packed")
    return [MadeFile(f"bundle-{inputs.track.slug}.zip", ZIP, data, "bundle")]
