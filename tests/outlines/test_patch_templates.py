"""Templates of patches: on every track, at true size, seam and cut line, counted; and pieces drawn in place."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from itertools import pairwise
from math import cos, hypot, radians, sin, tan
from typing import Any

import pypdfium2
import pytest

from service.craft.document import read_document
from tests.straight_blocks import block, document
from workers.outlines.patch_plan import plan_patch_templates
from workers.outlines.template_plan import Template
from workers.outlines.templates import make_templates
from workers.recipe import CannotMake, JobInput

TRACKS = [
    {"name": "by hand", "has": []},
    {"name": "cutter", "has": ["cutter 12x12"]},
    {"name": "hoop and cutter", "has": ["hoop 130x180", "cutter 12x12"]},
]
DIAMOND = block("diamond in a rectangle", 6)


def plan(top: Any, **more: Any) -> dict[str, Template]:
    return {t.letter: t for t in plan_patch_templates(read_document(document(top, **more)))}


def text_of(job: JobInput) -> str:
    pages = pypdfium2.PdfDocument(io.BytesIO(make_templates(job)[0].data))
    return re.sub(r"\s+", " ", " ".join(page.get_textpage().get_text_bounded() for page in pages))


def test_the_cut_line_lies_an_allowance_round_the_seam_line_at_true_size() -> None:
    """The diamond 6 by 3 in finished: its seam line is 152.4 by 76.2 mm, the cut line 1/4 in outside it."""
    made = plan(DIAMOND)["A"]
    assert made.seam_line is not None
    assert (made.seam_line.width_mm, made.seam_line.height_mm) == pytest.approx((152.4, 76.2))
    left, top, right, bottom = made.seam_line.box_mm
    assert (left, top) == pytest.approx((made.outline.width_mm - right, made.outline.height_mm - bottom))
    # up and down the corners are blunt: the offset edges meet 1/4 in / cos(slope) above them
    assert top == pytest.approx(6.35 / (2 / 5**0.5), abs=1e-6)


def test_cloths_are_counted_for_both_sides_of_a_template() -> None:
    made = plan(DIAMOND)
    assert made["A"].cloth_words == "1 from leek green"
    assert made["B"].cloth_words == "2 from frost white, 2 from frost white (turned over)"
    assert any("face down" in words for words in made["B"].words)
    assert any("both ways round" in words for words in made["A"].words)


def test_the_grain_points_up_in_the_block_and_a_print_is_laid_as_it_lies() -> None:
    assert all(template.grain == (0.0, -1.0) for template in plan(DIAMOND).values())
    cloths = document(DIAMOND)["fabrics"]
    printed = plan(DIAMOND, fabrics=cloths | {"leaf": cloths["leaf"] | {"directional": True}})
    assert any("print upright" in words for words in printed["A"].words)
    assert not any("print upright" in words for words in printed["B"].words)


@pytest.mark.parametrize("track", [track["name"] for track in TRACKS])
def test_every_track_gets_the_templates_of_patches(track: str) -> None:
    said = text_of(JobInput("templates", document(DIAMOND, tracks=TRACKS), track=track))
    assert "Template A" in said
    assert "Cut 2 from frost white, 2 from frost white (turned over)" in said
    assert "Cut on the solid line; the dashed one is the seam" in said


def test_a_block_too_large_for_any_pile_of_sheets_is_refused() -> None:
    with pytest.raises(CannotMake, match="sheets"):
        make_templates(JobInput("templates", document(block("kites", 400), tracks=TRACKS), track="by hand"))


def test_a_cutter_track_without_a_hoop_gets_the_pieces_drawn_in_place_alone(
    job: Callable[..., JobInput], piece: Callable[..., dict[str, Any]]
) -> None:
    """With a hoop the machine sews their line; without a cutter everything is drawn."""
    pieces = [piece("fluff", "leek.svg#stalk", fabric="fleece"), piece("bed", "leek.svg#bed")]
    said = {t["name"]: text_of(job(*pieces, track=t["name"])) for t in TRACKS}
    assert "stalk" in said["by hand"] and "bed: cut" in said["by hand"]
    assert "stalk" in said["cutter"] and "bed: cut" not in said["cutter"]
    assert "stalk" not in said["hoop and cutter"]


def test_which_tracks_need_templates(
    job: Callable[..., JobInput], piece: Callable[..., dict[str, Any]]
) -> None:
    """Drawn by hand: pieces without a cutter, patches that no ruler cuts, cloth trimmed in place without a hoop."""
    fluff, bed = piece("fluff", "leek.svg#stalk", fabric="fleece"), piece("bed", "leek.svg#bed")

    def asked(raw: Any) -> list[str]:
        project = read_document(raw)
        return [track.name for track in project.tracks if project.needs_templates(track)]

    assert asked(job(bed).document) == ["by hand"]
    assert asked(job(bed, fluff).document) == ["by hand", "cutter"]
    assert asked(document(DIAMOND, tracks=TRACKS)) == ["by hand", "cutter", "hoop and cutter"]
    assert asked(document(block("shoofly", 6), tracks=TRACKS)) == []


def test_a_piece_in_place_that_viewers_must_own_needs_no_template(
    job: Callable[..., JobInput], piece: Callable[..., dict[str, Any]]
) -> None:
    """Its step names no file either."""
    owned = {"name": "a bought sheet", "covers": ["leek.svg"], "rights": "viewer must own"}
    raw = job(piece("fluff", "leek.svg#stalk", fabric="fleece"), sources=(owned,)).document
    project = read_document(raw)
    assert [t.name for t in project.tracks if project.needs_templates(t)] == ["by hand"]


RING = {
    "unit": "fan blade ring",
    "size": ["14", "14"],
    "fabric": "frost",
    "fabrics": ["leaf", "soil"],
    "reach": "6",
    "hole": "1 1/2",
    "centre": {"fabric": "leaf", "size": "3 1/2"},
}
FOLDED = {
    "pointed": "The wide end is folded in half and sewn across.",
    "flat": "At the wide end it is a fold.",
    "round": "The rounded end is turned under there, over a card.",
}


@pytest.mark.parametrize(("tips", "folded"), FOLDED.items())
def test_a_blade_and_a_disc_are_drawn_at_true_size(tips: str, folded: str) -> None:
    """20 blades: 18 degrees between the long sides; from the narrow cut edge to the wide one reach - hole · cos 9° and
    two allowances, a flat end at reach · cos 9°. The disc is as wide as it is finished and two allowances."""
    made = plan(RING | {"tips": tips})
    half, blade, disc = radians(9), made["A"], made["B"]
    end = 6 * cos(half) if tips == "flat" else 6
    assert blade.outline.height_mm == pytest.approx(25.4 * (end - 1.5 * cos(half) + 0.5), abs=1e-6)
    assert blade.seam_line is not None and disc.seam_line is not None
    assert blade.seam_line.height_mm == pytest.approx(25.4 * (end - 1.5 * cos(half)), abs=1e-6)
    widest = (
        2
        * 6
        * (tan(half) if tips == "pointed" else sin(half) if tips == "flat" else sin(half) / (1 + sin(half)))
    )
    assert blade.seam_line.width_mm == pytest.approx(25.4 * widest, abs=0.01)
    assert (disc.outline.width_mm, disc.seam_line.width_mm) == pytest.approx((4 * 25.4, 3.5 * 25.4))
    assert folded in blade.words[0]
    assert "over a card" in disc.words[0]
    assert "along the blade" in blade.words[2]
    assert blade.cloth_words == "10 from leek green, 10 from soil brown dot"


@pytest.mark.parametrize("tips", FOLDED)
def test_the_edges_of_round_shapes_lie_a_hair_from_the_true_curve(tips: str) -> None:
    """Chords are nowhere 1/50 mm off a circle of 4 in: a printed line is thicker."""
    made = plan(RING | {"tips": tips})["B"]
    x, y = made.outline.width_mm / 2, made.outline.height_mm / 2
    ring = [made.outline.rings[0].start, *(segment.end for segment in made.outline.rings[0].segments)]
    middles = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in pairwise(ring)]
    assert all(50.8 - 0.02 < hypot(a - x, b - y) < 50.8 + 1e-6 for a, b in middles)


@pytest.mark.parametrize("track", [track["name"] for track in TRACKS])
def test_every_track_gets_the_templates_of_a_ring(track: str) -> None:
    said = text_of(JobInput("templates", document(RING, tracks=TRACKS), track=track))
    assert "Template A" in said and "Template B" in said
    assert "Cut 10 from leek green, 10 from soil brown dot" in said
