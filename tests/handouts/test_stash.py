"""What the run sheet says of the stash, and that no handout says it."""

from __future__ import annotations

import json

import pypdfium2
import pytest

from service.craft.document import read_document
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.recipe import make_handout, make_run_sheet
from workers.handouts.stash import plan_stash_sheets
from workers.recipe import JobInput

FAT_QUARTER = {"name": "fat quarter", "price": "4.20"}


@pytest.fixture
def bed():
    """The stash sheets of a bed of squares, 4 1/2 in when cut, of a cloth with more said about it."""

    def make(rows, columns, **cloth):
        patch = {"unit": "patch", "size": ["4", "4"], "fabric": "leaf"}
        raw = {
            "title": "Leek bed",
            "fabrics": {"leaf": {"name": "leek green", "usable_width": "40", **cloth}},
            "top": {"unit": "grid", "rows": [[patch] * columns] * rows},
        }
        _, made = make_cutting_plan(JobInput("cutting", raw))
        return plan_stash_sheets(read_document(raw), json.loads(made.data))

    return make


def test_a_cloth_without_stash_has_no_sheet(bed):
    assert bed(4, 5) == []


def test_what_is_cut_at_home_and_what_is_still_bought_are_said_and_drawn(bed):
    """18 by 21 in twice gives 32 of 40 squares of 4 1/2 in; the last strip is bought, 9 in in place of 27 in.

    That is a quarter and three quarters of a yard.
    """
    [sheet] = bed(4, 10, stash=[{"width": "18", "length": "21", "count": 2}])
    assert sheet.still_to_buy == "1/4 yd in place of 3/4 yd; 4 1/2 in of it are cut"
    first, rest = sheet.cuts
    assert first.title.startswith("2 pieces of 18 × 21 in at home, each: strips")
    assert rest.title == "The rest from the roll"
    assert all("<svg" in drawing for cut in sheet.cuts for drawing in cut.strips)
    assert sheet.sold == ""


def test_a_stash_that_is_enough_leaves_nothing_to_buy(bed):
    [sheet] = bed(2, 4, stash=[{"width": "18", "length": "21", "count": 2}])
    assert (sheet.still_to_buy, len(sheet.cuts)) == ("nothing", 1)
    assert "1 of 18 × 21 in (not cut into)" in sheet.left


def test_pieces_as_they_are_sold_are_counted(bed):
    """16 squares of 4 1/2 in from a fat quarter of 21 by 18 in, one of them at home: of 34 two more are bought."""
    [sheet] = bed(2, 17, stash=[{"width": "21", "length": "18"}], sold_as=FAT_QUARTER)
    assert sheet.sold == "3 × fat quarter (21 × 18 in)"
    assert sheet.still_to_buy == "2 × fat quarter"
    assert sum("bought" in cut.title for cut in sheet.cuts) >= 1


def test_what_no_piece_sold_holds_is_said_to_need_the_roll(bed):
    patch = {"unit": "patch", "size": ["30", "4"], "fabric": "leaf"}
    raw = {"title": "Row", "fabrics": {"leaf": {"sold_as": FAT_QUARTER}}, "top": patch}
    _, made = make_cutting_plan(JobInput("cutting", raw))
    [sheet] = plan_stash_sheets(read_document(raw), json.loads(made.data))
    assert sheet.sold == "0 × fat quarter (21 × 18 in), and the roll for 1 of the cuts, which are larger"


def read_text(data):
    document = pypdfium2.PdfDocument(data)
    text = "\n".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return text


def test_the_run_sheet_speaks_of_the_stash_and_the_handout_does_not(make_job, files):
    cutting = json.loads(files["cutting.json"])
    frost = cutting["fabrics"][0]
    side = {"text": "18 in", "inches": 18.0, "mm": 457.2}
    piece = {"stash": 0, "copy": 0, "turned": False, "strips": frost["strips"]}
    frost["stash"] = [{"width": side, "length": side, "count": 1}]
    frost["from_stash"] = {"enough": True, "pieces": [piece], "still_to_buy": None, "left": []}
    inputs = {**files, "cutting-studio.json": json.dumps(cutting).encode()}
    sheet, *_ = make_run_sheet(make_job("run sheet", inputs=inputs))
    assert "A piece of 18 in square at home" in read_text(sheet.data)
    handout, _ = make_handout(make_job("handout", inputs=inputs, track="by hand"))
    assert "at home" not in read_text(handout.data)
