"""The recipes of this room: handouts, run sheet, colourway sheet, bundles."""

from __future__ import annotations

from workers.handouts.bundle import pack_bundle
from workers.handouts.colourways import draw_colourways, print_colourways, view_colourways
from workers.handouts.handout import print_handout
from workers.handouts.inputs import Inputs
from workers.handouts.run_sheet import print_run_sheet
from workers.recipe import JobInput, MadeFile

PDF, SVG, ZIP = "application/pdf", "image/svg+xml", "application/zip"


def make_handout(job: JobInput) -> list[MadeFile]:
    """`handout-<track>.pdf` of the job's track; `CannotMake` where the document or a plan cannot be read."""
    inputs = Inputs(job)
    job.progress(0.1, f"Setting the handout for {inputs.track.name}")
    data = print_handout(inputs)
    job.progress(1.0, "The handout is printed")
    return [MadeFile(f"handout-{inputs.track.slug}.pdf", PDF, data, "handout")]


def make_run_sheet(job: JobInput) -> list[MadeFile]:
    """`run-sheet.pdf`, for the studio alone: it may show outlines that viewers must own."""
    job.progress(0.1, "Setting the run sheet")
    data = print_run_sheet(Inputs(job))
    job.progress(1.0, "The run sheet is printed")
    return [MadeFile("run-sheet.pdf", PDF, data, "run sheet", public=False)]


def make_colourways(job: JobInput) -> list[MadeFile]:
    """`colourways.svg` and `colourways.pdf`, for the studio alone."""
    inputs = Inputs(job)
    job.progress(0.1, "Drawing the colourways")
    views = view_colourways(inputs.project, inputs.top)
    drawing = draw_colourways(views, inputs.project.title).encode()
    job.progress(0.5, "Setting the colourway sheet")
    data = print_colourways(inputs, views)
    job.progress(1.0, "The colourway sheet is printed")
    return [
        MadeFile("colourways.svg", SVG, drawing, "colourway sheet", public=False),
        MadeFile("colourways.pdf", PDF, data, "colourway sheet", public=False),
    ]


def make_bundle(job: JobInput) -> list[MadeFile]:
    """`bundle-<track>.zip` of the job's track; `CannotMake` where a piece has no file that may leave."""
    inputs = Inputs(job)
    job.progress(0.1, f"Packing the bundle for {inputs.track.name}")
    data = pack_bundle(inputs)
    job.progress(1.0, "The bundle is packed")
    return [MadeFile(f"bundle-{inputs.track.slug}.zip", ZIP, data, "bundle")]
