"""Templates and cut files of pieces with a turned edge, and of pieces that others lie on."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pypdfium2
import pytest

from service.craft.outlines.polygons import to_polygon
from workers.outlines.asked import read_pieces, read_project
from workers.outlines.cut_files import make_cut_files
from workers.outlines.template_drawing import draw_page
from workers.outlines.template_pages import PageSettings, arrange_pages
from workers.outlines.template_plan import Template, plan_templates
from workers.outlines.template_snips import find_snips
from workers.outlines.templates import make_templates
from workers.recipe import JobInput

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

EIGHTHS = 25.4 / 16
SVG = "{http://www.w3.org/2000/svg}"
ANGLE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="90mm"><path id="angle" d="M0 0h90v20h-60v70h-30z"/></svg>'
)


def plan(job: JobInput) -> list[Template]:
    return plan_templates(read_pieces(job, read_project(job)))


def test_a_turned_template_has_the_finished_shape_inside_and_3_16_in_round_it(job: Job, piece: Make) -> None:
    """The bed is 60 x 40 mm; 3/16 in (common practice, no source) on every side makes 69.5 x 49.5 mm."""
    (template,) = plan(job(piece("bed", "leek.svg#bed", edge="turned")))
    assert (template.outline.width_mm, template.outline.height_mm) == pytest.approx(
        (60 + 6 * EIGHTHS, 40 + 6 * EIGHTHS), abs=0.02
    )
    assert template.seam_line is not None
    assert template.seam_line.box_mm == pytest.approx(
        (3 * EIGHTHS, 3 * EIGHTHS, 60 + 3 * EIGHTHS, 40 + 3 * EIGHTHS), abs=0.02
    )
    assert "3/16 in beyond" in " ".join(template.words)


def test_a_raw_template_has_no_allowance(job: Job, piece: Make) -> None:
    (template,) = plan(job(piece("bed", "leek.svg#bed", edge="raw")))
    assert (template.outline.width_mm, template.outline.height_mm) == pytest.approx((60, 40))
    assert template.seam_line is None
    assert template.snips == ()


@pytest.mark.parametrize("edge", ["raw", "turned"])
@pytest.mark.parametrize("mirror", [False, True])
def test_a_template_is_the_mirror_image_of_the_piece_as_it_shows(
    job: Job, piece: Make, edge: str, mirror: bool
) -> None:
    """Both ways are drawn as the back of the cloth is seen: mirrored back, the shape is the piece's own."""
    asked = job(piece("stalk", "leek.svg#stalk", edge=edge, mirror=mirror))
    (template,) = plan(asked)
    (one,) = read_pieces(asked, read_project(asked))
    seen = to_polygon(template.seam_line or template.outline)
    xs = seen.bounds
    front = to_polygon(one.outline)
    flipped = [(xs[0] + xs[2] - x - xs[0], y - xs[1]) for x, y in seen.exterior.coords]
    assert type(seen)(flipped).symmetric_difference(front).area < 0.01 * front.area


def test_an_inner_corner_is_snipped_and_outer_ones_are_not(job: Job, piece: Make) -> None:
    """The angle has one inner corner of six."""
    asked = job(piece("angle", "angle.svg", edge="turned"), files={"angle.svg": ANGLE})
    (template,) = plan(asked)
    assert len(template.snips) == 1
    allowance = to_polygon(template.outline).difference(to_polygon(template.seam_line or template.outline))
    ((x0, y0), (x1, y1)) = template.snips[0]
    assert allowance.buffer(0.01).covers(type(allowance)([(x0, y0), (x1, y1), (x1, y1 + 1e-9)]))


def test_an_inner_curve_is_snipped_every_quarter_inch(job: Job, piece: Make) -> None:
    """The hole of the ring is 10 mm in radius: 62.8 mm round, and a snip every 6 mm makes ten."""
    asked = job(piece("ring", "leek.svg#ring", edge="turned"))
    (one,) = read_pieces(asked, read_project(asked))
    assert len(find_snips(one.outline, 4.76)) in (9, 10, 11)


def test_a_piece_under_another_is_extended_in_template_and_cut_file_alike(job: Job, piece: Make) -> None:
    """The bed, 60 x 40 mm at 6 in down, butts on another below it: 1/4 in more, 46.35 mm high."""
    pieces = [
        piece("upper bed", "leek.svg#bed", at=["6", "152.4 mm"]),
        piece("lower bed", "leek.svg#bed", fabric="soil", at=["6", "192.4 mm"], above=["upper bed"], scale=1),
    ]
    upper, lower = plan(job(*pieces))
    assert upper.outline.height_mm == pytest.approx(46.35, abs=0.02)
    assert lower.outline.height_mm == pytest.approx(40)
    assert upper.under
    files = make_cut_files(job(*pieces))
    report = json.loads(next(f.data for f in files if f.name == "cut-files.json"))
    sides = {f["fabric"]: f["longest_side_mm"] for f in report["files"]}
    boxes = {f["fabric"]: f["box_mm"] for f in report["files"]}
    left, top, right, bottom = boxes["leaf"]
    assert sorted((right - left, bottom - top)) == pytest.approx([46.35, 60], abs=0.02)
    assert sides["soil"] == pytest.approx(60)


def test_what_lies_under_another_piece_is_one_dotted_line(job: Job, piece: Make) -> None:
    """The disc's foot reaches on round under the bed: a dash begun anew at each chord would fill the dots."""
    pieces = [
        piece("disc", "leek.svg#ring", at=["6", "152.4 mm"]),
        piece("bed", "leek.svg#bed", fabric="soil", at=["6", "185 mm"], above=["disc"]),
    ]
    templates = plan(job(*pieces))
    assert templates[0].under
    settings = PageSettings()
    (page,) = arrange_pages(templates, settings)
    drawn = ElementTree.fromstring(draw_page(page, "page 1 of 1", "Leek", settings).to_svg())
    dotted = [
        path.get("d", "")
        for path in drawn.iter(f"{SVG}path")
        if path.get("stroke-dasharray", "").startswith("0 ")
    ]
    assert dotted
    assert all(line.count("M") == 1 for line in dotted)
    assert max(line.count("L") for line in dotted) > 10


def test_the_report_says_of_each_piece_what_is_cut_beyond_its_finished_shape(job: Job, piece: Make) -> None:
    """3/16 in is 4.76 mm, 1/4 in 6.35 mm: what the document says, or what is usual (common practice, no source)."""
    pieces = [
        piece("upper bed", "leek.svg#bed", at=["6", "152.4 mm"]),
        piece("lower bed", "leek.svg#bed", at=["6", "192.4 mm"], above=["upper bed"]),
        piece("fold", "leek.svg#bed", at=["14", "14"], edge="turned"),
    ]
    report = json.loads(next(f.data for f in make_cut_files(job(*pieces)) if f.name == "cut-files.json"))
    said = {one["name"]: one for file in report["files"] for one in file["pieces"]}
    assert {name: one["turning_mm"] for name, one in said.items()} == {
        "upper bed": 0,
        "lower bed": 0,
        "fold": pytest.approx(4.76, abs=0.01),
    }
    assert said["upper bed"]["reaches_under"] == [{"piece": "lower bed", "mm": pytest.approx(6.35, abs=0.03)}]
    assert said["lower bed"]["reaches_under"] == said["fold"]["reaches_under"] == []


def test_turned_pieces_lie_on_mats_without_web(job: Job, piece: Make) -> None:
    pieces = [piece("a", "leek.svg#bed", edge="turned"), piece("b", "leek.svg#bed")]
    names = {file.name for file in make_cut_files(job(*pieces))}
    assert {"cut-leaf-1.svg", "cut-leaf-turned-1.svg"} <= names


def test_with_a_cutting_machine_only_cards_are_printed(job: Job, piece: Make) -> None:
    pieces = [piece("a", "leek.svg#bed", edge="turned"), piece("b", "leek.svg#stalk")]
    (made,) = make_templates(job(*pieces, track="cutter"))
    document = pypdfium2.PdfDocument(io.BytesIO(made.data))
    text = " ".join(page.get_textpage().get_text_bounded() for page in document)
    assert "bed" in text
    assert "stalk" not in text


def test_a_cut_shape_that_is_even_is_the_same_both_ways_round(job: Job, piece: Make) -> None:
    """The lower bed reaches under the other at its foot and stays even from left to right."""
    pieces = [
        piece("upper bed", "leek.svg#bed", at=["6", "152.4 mm"], edge="turned"),
        piece("lower bed", "leek.svg#bed", fabric="soil", at=["6", "192.4 mm"], above=["upper bed"]),
    ]
    assert plan(job(*pieces))[0].words[0].startswith("The same both ways round.")
