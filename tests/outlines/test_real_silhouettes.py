"""Silhouettes that nobody drew for this, out of packages for other purposes, from picture or glyph to cut files.

Sources: see silhouettes.py. Cut files and templates hold every shape, or a note names it.
"""

from __future__ import annotations

import json

import pytest
from skimage.measure import label

from service.craft.outlines import OutlineFile, to_json
from tests.outlines.conftest import a_piece
from tests.outlines.icons_to_cut import cut_all
from tests.outlines.silhouettes import SAMPLES, blobs, draw, ink_of, trace, write
from workers.outlines.asked import read_pieces, read_project
from workers.outlines.template_plan import plan_templates
from workers.outlines.templates import make_templates
from workers.recipe import JobInput


def test_a_horse_keeps_its_area_and_its_legs():
    """One shape, its area the sample's within half of one in a hundred, all its stairs in at most 90 nodes."""
    data = (SAMPLES / "horse.png").read_bytes()
    [horse] = trace(data, "horse.png", 50).shapes
    pixel = 25.4 / 50
    assert horse.area_mm2 == pytest.approx(ink_of(data).sum() * pixel**2, rel=0.005)
    assert sum(len(ring.segments) for ring in horse.rings) <= 90


def test_of_a_picture_of_many_shapes_none_is_lost_without_a_word():
    """Sixty blobs: their areas together are the picture's ink, and what is too small is counted in a note."""
    ink = blobs()
    file = trace(draw(ink), "sample.png", 50)
    share = sum(shape.area_mm2 for shape in file.shapes) / (ink.sum() * (25.4 / 50) ** 2)
    components = label(ink).max()
    specks = sum(int(note.split(" ")[0]) for note in file.notes if "speck" in note)
    assert len(file.shapes) + specks == components
    assert share == pytest.approx(1, abs=0.005)


def test_all_of_them_reach_the_cut_files_and_the_templates():
    """Every shape is cut once, in SVG and DXF, and has a template of its own; few needed to be put right."""
    files = [
        trace((SAMPLES / "horse.png").read_bytes(), "horse.png", 50),
        trace(draw(blobs()), "blobs.png", 60),
        write("aegkRS&8"),
    ]
    wanted = [f"{file.name} {shape.name}" for file in files for shape in file.shapes]
    assert len(wanted) >= 14
    assert sorted(cut_all(files, 10)) == sorted(wanted)
    assert sum("put right" in " ".join(file.notes) for file in files) <= 1
    templates = json.dumps(template_names(files))
    assert all(name.replace(" ", "-") in templates for name in wanted)


def template_names(files: list[OutlineFile]) -> list[str]:
    """The pieces that the templates' plan names, one for each shape."""
    shapes = [(file, shape) for file in files for shape in file.shapes]
    pieces = [
        a_piece(f"{file.name}-{shape.name}", f"{file.name}#{shape.name}", at=[str(12 + 16 * n), "12"])
        for n, (file, shape) in enumerate(shapes)
    ]
    document = {
        "title": "Silhouettes",
        "fabrics": {"leaf": {"name": "leek green", "usable_width": "42"}},
        "top": {"unit": "patch", "size": [str(24 + 16 * len(shapes)), "24"], "fabric": "leaf"},
        "pieces": pieces,
        "tracks": [{"name": "by hand", "has": []}],
    }
    job = JobInput(
        kind="", document=document, outlines={file.name: to_json(file) for file in files}, track="by hand"
    )
    assert make_templates(job)[0].data.startswith(b"%PDF")
    return [str(template) for template in plan_templates(read_pieces(job, read_project(job)))]
