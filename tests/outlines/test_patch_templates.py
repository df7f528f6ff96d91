"""Templates of patches: on every track, at true size, seam and cut line, counted; and pieces drawn in place."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
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
    assert made["A"].cut_words == "Cut 1 from leek green"
    assert made["B"].cut_words == "Cut 2 from frost white, 2 from frost white (turned over)"
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
    """Drawn by hand: everything without a cutter, patches that no ruler cuts, cloth trimmed in place without a hoop."""
    fluff, bed = piece("fluff", "leek.svg#stalk", fabric="fleece"), piece("bed", "leek.svg#bed")

    def asked(raw: Any) -> list[str]:
        project = read_document(raw)
        return [track.name for track in project.tracks if project.needs_templates(track)]

    assert asked(job(bed).document) == ["by hand"]
    assert asked(job(bed, fluff).document) == ["by hand", "cutter"]
    assert asked(document(DIAMOND, tracks=TRACKS)) == ["by hand", "cutter", "hoop and cutter"]
    assert asked(document(block("shoofly", 6), tracks=TRACKS)) == ["by hand"]


def test_a_piece_in_place_that_viewers_must_own_needs_no_template(
    job: Callable[..., JobInput], piece: Callable[..., dict[str, Any]]
) -> None:
    """Its step names no file either."""
    owned = {"name": "a bought sheet", "covers": ["leek.svg"], "rights": "viewer must own"}
    raw = job(piece("fluff", "leek.svg#stalk", fabric="fleece"), sources=(owned,)).document
    project = read_document(raw)
    assert [t.name for t in project.tracks if project.needs_templates(t)] == ["by hand"]
