"""Photographs of cloth in the colourway sheet: at true scale, turned as they are cut, repeated and never mirrored."""

import io
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from service.craft.cloth_lie import lay_cloths
from service.craft.document import read_document
from service.craft.drawing import view_top
from service.craft.swatches import Swatch
from workers.handouts.cloth_pictures import DOTS_A_MM, photograph_top, turn_grey
from workers.handouts.colourways import view_colourways
from workers.handouts.recipe import make_colourways
from workers.recipe import JobInput, SwatchPicture

INCH = 25.4
SCALE = 12.7
"""Millimetres on paper to an inch: half size."""

DARK, LIGHT = (20, 30, 60), (240, 235, 220)


def picture(pixels, mm_per_pixel, name="stripes"):
    """A photograph as it is kept."""
    out = io.BytesIO()
    Image.fromarray(pixels.astype(np.uint8)).save(out, "JPEG", quality=98, subsampling=0)
    height, width = pixels.shape[:2]
    return SwatchPicture(Swatch(name, "0" * 64, width, height, mm_per_pixel, "#808080"), out.getvalue())


def stripes(width_mm=200, height_mm=200, period_mm=20.0, mm=0.25):
    """Level stripes, the upper half of each period dark; a red edge on the left: it tells right from left."""
    rows = np.arange(int(height_mm / mm)) * mm % period_mm < period_mm / 2
    pixels = np.where(rows[:, None, None], DARK, LIGHT) * np.ones((1, int(width_mm / mm), 1), int)
    pixels[:, : int(4 / mm)] = (220, 20, 20)
    return picture(pixels, mm)


def patch(width, height, fabric="cloth"):
    return {"unit": "patch", "size": [width, height], "fabric": fabric}


def photographed(top, swatch, *, directional=True):
    """The ground of a top as pixels, and millimetres on the cloth of one."""
    raw = {"title": "Bed", "fabrics": {"cloth": {"directional": directional}, "plain": {"colour": "#2d6a3e"}}}
    project = read_document(raw | {"top": top})
    lies = lay_cloths(project.top, project.fabrics, project.rules)
    made = photograph_top(view_top(project, {}), lies, {"cloth": swatch}, SCALE)
    return np.asarray(Image.open(io.BytesIO(made.ground)).convert("RGB")).astype(
        int
    ), INCH / SCALE / DOTS_A_MM


def measure_period(line, mm):
    """Millimetres from one beginning of a dark stripe to the next, on the whole, along a line of pixels."""
    dark = line.sum(axis=1) < 400
    begins = np.flatnonzero(~dark[:-1] & dark[1:])
    assert len(begins) > 2
    return (begins[-1] - begins[0]) / (len(begins) - 1) * mm


@pytest.mark.parametrize("period", [7.0, 20.0, 33.0])
def test_a_stripe_of_the_cloth_is_as_wide_on_the_top(period):
    """Known: stripes of so many millimetres on the cloth; measured: the same on the top, by its own size."""
    pixels, mm = photographed(patch("6", "6"), stripes(period_mm=period))
    assert pixels.shape[1] * mm == pytest.approx(6 * INCH, abs=mm)
    assert measure_period(pixels[:, pixels.shape[1] // 2], mm) == pytest.approx(period, rel=0.01)


@pytest.mark.parametrize("mm", [0.05, 0.25, 1.0])
def test_the_scale_is_true_however_fine_the_photograph_is(mm):
    pixels, on_top = photographed(patch("4", "4"), stripes(120, 120, 20.0, mm))
    assert measure_period(pixels[:, pixels.shape[1] // 2], on_top) == pytest.approx(20, rel=0.015)


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_turned_patch_turns_its_stripes(turn):
    """Level on the cloth, they stand upright on the top after a quarter of a turn."""
    pixels, mm = photographed({"unit": "turned", "turn": turn, "inside": patch("6", "6")}, stripes())
    middle = pixels.shape[0] // 2
    line = pixels[:, middle] if turn == 180 else pixels[middle]
    assert measure_period(line, mm) == pytest.approx(20, rel=0.01)


def test_on_point_the_stripes_run_slantwise():
    """Along a level line they are wider by the root of 2."""
    top = {"unit": "on point", "rows": [[patch("6", "6")]], "side": "plain", "corner": "plain"}
    pixels, mm = photographed(top, stripes())
    across = pixels[pixels.shape[0] // 2, pixels.shape[1] // 4 : -pixels.shape[1] // 4]
    assert measure_period(across, mm) == pytest.approx(20 * 2**0.5, rel=0.03)


def test_a_patch_that_the_photograph_holds_is_cut_out_whole():
    """Wherever it is cut, no edge of the photograph (red, at its left) runs through the patches but at their own."""
    top = {"unit": "grid", "rows": [[patch("2", "2")] * 6] * 4}
    pixels, mm = photographed(top, stripes(60, 60))
    red = (pixels[..., 0] > 150) & (pixels[..., 1] < 110)
    side = 2 * INCH / mm
    columns = np.flatnonzero(red.sum(axis=0) > side / 2) % side
    assert all(column < 4 / mm + 2 or column > side - 2 for column in columns)


def test_a_larger_patch_repeats_the_photograph_and_never_mirrors_it():
    """Every 50 mm its red left edge comes again, so wide as it is: mirrored, two would meet at every second edge."""
    pixels, mm = photographed(patch("12", "2"), stripes(50, 60))
    red = (pixels[pixels.shape[0] // 2, :, 0] > 150) & (pixels[pixels.shape[0] // 2, :, 1] < 110)
    begins = np.flatnonzero(~red[:-1] & red[1:])
    assert np.diff(begins) * mm == pytest.approx(np.full(len(begins) - 1, 50.0), abs=2 * mm)
    widths = [run for run in np.diff(np.flatnonzero(np.diff(red))) if run * mm < 20]
    assert np.array(widths) * mm == pytest.approx(np.full(len(widths), 4.0), abs=2.5 * mm)


def test_what_has_no_photograph_keeps_its_colour_where_it_lies():
    top = {"unit": "grid", "rows": [[patch("4", "4"), patch("4", "4", "plain")]]}
    pixels, _ = photographed(top, stripes())
    assert np.abs(pixels[:, -40:-5].mean(axis=(0, 1)) - (0x2D, 0x6A, 0x3E)).max() < 3


def test_greys_have_the_lightness_of_the_colours():
    """CIE L*: leaf green #2d6a3e has 40, the grey of that lightness is #5e5e5e (CIE 15; IEC 61966-2-1)."""
    out = io.BytesIO()
    Image.new("RGB", (32, 32), "#2d6a3e").save(out, "JPEG", quality=100)
    grey = Image.open(io.BytesIO(turn_grey(out.getvalue())))
    assert grey.mode == "L" and abs(grey.getpixel((9, 9)) - 0x5E) <= 2


DUSK = {"name": "dusk", "fabrics": {"leaf": {"colour": "#39405a"}, "frost": {"swatch": "other"}}}


def sheet(document, **changes):
    pictures = {"stripes": stripes(), "other": replace_name(stripes(period_mm=8.0), "other")}
    return make_colourways(JobInput("colourways", document, changes.pop("outlines"), swatches=pictures))


def replace_name(swatch, name):
    return replace(swatch, swatch=replace(swatch.swatch, name=name))


@pytest.fixture
def photographed_document(document):
    document["fabrics"]["frost"]["swatch"] = "stripes"
    document["fabrics"]["leaf"]["swatch"] = "other"
    document["colourways"] = [DUSK, {"name": "noon", "fabrics": {"soil": {"colour": "#997755"}}}]
    return document


def test_each_colourway_shows_the_photographs_it_names(photographed_document, make_job):
    """Another colour is another cloth, without the design's photograph; what is not named keeps it."""
    job = make_job("colourways", document=photographed_document)
    project = read_document(photographed_document)
    top = view_top(project, job.outlines)
    pictures = {"stripes": stripes(), "other": replace_name(stripes(), "other")}
    views = view_colourways(project, top, pictures)
    shown = [{key for key, cloth in view.top.cloths.items() if cloth.sample} for view in views]
    assert shown == [{"frost", "leaf"}, {"frost"}, {"frost", "leaf"}]
    assert len({view.top.ground for view in views}) == 3
    plain = view_colourways(project, top, {})
    assert [(view.close, view.merging) for view in plain] == [(view.close, view.merging) for view in views]


def test_the_sheet_is_small_says_what_it_shows_and_is_the_same_every_time(photographed_document, make_job):
    outlines = make_job("colourways").outlines
    first, second = (sheet(photographed_document, outlines=outlines) for _ in range(2))
    assert [file.data for file in first] == [file.data for file in second]
    assert [file.public for file in first] == [False, False]
    svg, pdf = (file.data for file in first)
    assert len(pdf) < 3_000_000 and svg.count(b"data:image/jpeg;base64,") >= 3
    document = pypdfium2.PdfDocument(pdf)
    words = " ".join(document[len(document) - 1].get_textpage().get_text_range().split())
    pictures = [o for page in document for o in page.get_objects() if o.type == 3]
    assert "shown by it, at the scale of the drawing" in words
    assert len(pictures) >= 6
    document.close()
