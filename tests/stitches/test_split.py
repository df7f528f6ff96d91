"""A piece too large for its sewing field, sewn in parts: whole cloth, two files, one covered edge."""

import json
from dataclasses import replace

import numpy as np
import pytest
import shapely

from service.craft.document import read_document
from service.craft.outlines.split_parts import LAP_MM
from tests.stitches.conftest import SETTINGS, make_piece
from tests.stitches.independent_reader import read
from tests.stitches.shapes import circle, leek, letter_e, ring, square, star
from tests.stitches.test_mutations import without
from tests.stitches.test_recipe import document, outline
from workers.recipe import CannotMake, JobInput
from workers.stitches.across_parts import check_across, to_field, to_top
from workers.stitches.check import check_hooping
from workers.stitches.hooping import plan_hoopings
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import FINISH, PLACEMENT, TACK_DOWN, DetailLine, SplitPart
from workers.stitches.reading import read_stitch_file
from workers.stitches.recipe import make_stitches
from workers.stitches.record import Move, encode_moves, format_header
from workers.stitches.settings import Field
from workers.stitches.splitting import part_of
from workers.stitches.stretches import clip_detail, list_runs
from workers.stitches.writing import check_together, write_hooping

FIELD = Field(130, 180)
OUTLINES = {
    "leek.svg": outline("leek.svg", 2 * leek()),
    "ring.svg": outline("ring.svg", *(3.2 * part for part in ring())),
    "star.svg": outline("star.svg", 3 * star()),
    "e.svg": outline("e.svg", 5 * letter_e()),
    "bed.svg": outline("bed.svg", square(150)),
    "bean.svg": outline("bean.svg", circle(12, 90)),
}
DOWN, ACROSS = {"from": ["0", "-1"], "to": ["0.2", "1"]}, {"from": ["-1", "0.3"], "to": ["1", "0"]}
LINES = {"leek": ACROSS, "ring": DOWN, "star": ACROSS, "e": ACROSS}


def make(name, split, *others, tracks=("hoop 130x180",), **more):
    piece = {"name": name, "outline": f"{name}.svg", "fabric": "frost", "at": ["15", "15"], **more}
    pieces = [{**piece, **({"split": split} if split else {})}, *others]
    made = make_stitches(JobInput("stitches", document(*pieces, tracks=tracks), OUTLINES))
    return {file.name: file.data for file in made}


def reports(files):
    return [json.loads(data) for name, data in files.items() if name.endswith(".json")]


def halves(**more):
    """A square of 150 mm in two halves of 75 mm."""
    piece = make_piece("bed", (square(150.0),), **more)
    regions = [np.array(shapely.box(x, -60, x + 135, 210).exterior.coords)[:-1] for x in (-60, 75)]
    parts = [SplitPart(n, 2, f"part {n}", region) for n, region in enumerate(regions, start=1)]
    sewn = [sew_piece(part_of(piece, part), SETTINGS) for part in parts]
    return [write_hooping(hooping, SETTINGS) for hooping in plan_hoopings(sewn, FIELD, SETTINGS)]


@pytest.mark.parametrize("name", LINES)
@pytest.mark.parametrize("edge", ["satin", "zigzag", "blanket", "raw", "triple run"])
def test_each_part_is_a_file_that_passes_its_check_and_the_parts_cover_the_edge_together(name, edge):
    """Whatever the edge, also where the split crosses it four times (the ring)."""
    found = reports(make(name, LINES[name], edge=edge))
    assert [r["parts"][name]["part"] for r in found] == [1, 2]
    assert all(r["released"] for r in found), [c for r in found for c in r["checks"] if not c["ok"]]
    together = [c for r in found for c in r["checks"] if "together" in c["name"]]
    assert len(together) == 2 and all(c["value"] >= 0.995 for c in together)


def test_without_a_line_the_piece_is_refused_and_with_one_that_leaves_too_much_the_part_is():
    """150 mm and the edge on both sides do not fit a field of 130 by 180 mm, whose room is 124 by 174."""
    with pytest.raises(CannotMake) as whole:
        make("e", None)
    assert whole.value.pointer == "/pieces/0" and "split it along a line" in whole.value.right
    with pytest.raises(CannotMake) as part:
        make("e", {"from": ["-1", "3.3"], "to": ["1", "3.3"]}, tracks=("hoop 100x140",))
    assert part.value.pointer == "/pieces/0/split" and "upper part" in part.value.detail


def test_a_line_that_misses_the_piece_is_refused_at_the_line():
    """The check of the document says so before; a batch never passes over it."""
    with pytest.raises(CannotMake) as refused:
        make("e", {"from": ["9", "-1"], "to": ["9", "1"]})
    assert refused.value.pointer == "/pieces/0/split"


def test_a_field_that_takes_the_whole_piece_sews_it_whole():
    """The line serves the field that is too small, and only that; a track without a hoop has no file at all."""
    files = make("leek", ACROSS, tracks=("hoop 130x180", "hoop 200x300", ""))
    by_field = {tuple(r["field_mm"]): r["parts"] for r in reports(files)}
    assert by_field[(200, 300)] == {} and by_field[(130, 180)]["leek"]["of"] == 2
    assert sum(name.endswith(".dst") for name in files) == 3


def needle(data):
    """Every needle point of a file by an independent reader, millimetres, y down."""
    sewn = read(data)
    return np.array([(x / 10, -y / 10) for kind, _, _, x, y in sewn.events if kind == "stitch"])


def test_no_stitch_runs_along_the_split_and_each_file_stops_at_its_lap():
    """The cloth is whole: between the two edges of the bed nothing is sewn. Read by an independent reader."""
    for written in halves():
        points = to_top(written.checked.hooping, needle(written.data))
        across = np.abs(points[:, 0] - 75.0)
        inner = (points[:, 1] > 10) & (points[:, 1] < 140)
        assert across[inner].min() > 60
        side = (
            points[:, 0] < 75 if written.checked.hooping.sewn[0].piece.part.number == 1 else points[:, 0] > 75
        )
        assert across[~side].max() <= LAP_MM + 0.3


def test_the_second_file_goes_on_where_the_first_ends_and_both_lie_over_each_other():
    """Both finishes reach the lap beyond the line: 4 mm of the edge lie under both."""
    ends = []
    for written in halves():
        part = written.checked.hooping.sewn[0].piece.part
        x = to_top(written.checked.hooping, written.checked.segments("bed", FINISH))[..., 0]
        ends.append(x.max() - 75.0 if part.number == 1 else 75.0 - x.min())
    assert ends == pytest.approx([LAP_MM, LAP_MM], abs=0.3)


def test_placement_and_tack_down_meet_at_the_line_so_that_the_next_hooping_can_be_matched():
    """The placement line of the second part begins on the edge that the first one sewed."""
    for kind in (PLACEMENT, TACK_DOWN):
        ends = []
        for written in halves():
            x = to_top(written.checked.hooping, written.checked.segments("bed", kind))[..., 0]
            ends += [x.max(), x.min()]
        assert ends[0] == pytest.approx(75, abs=0.8) and ends[3] == pytest.approx(75, abs=0.8)


def shortened(written, by):
    """A file whose finish of the first stretch ends so many stitches earlier."""
    checked = written.checked
    number = next(n for n, one in enumerate(checked.hooping.passes) if one.kind == FINISH)
    _, last = checked.ranges[number]
    kinds, places, ranges = without(checked, last - 4 - by, last - 4)
    steps = np.diff(np.vstack([np.zeros((1, 2), dtype=np.int64), places]), axis=0)
    moves = Move(kinds, steps)
    reading = read_stitch_file(format_header(moves, "changed") + encode_moves(moves))
    return replace(checked, reading=reading, ranges=ranges)


def test_a_finish_that_ends_before_the_split_is_found_in_its_own_file_and_in_both_together():
    """The first file gives up its lap, then more than both laps: at first the other still hides it."""
    one, other = halves()
    for gone_mm, alone, together in ((0.4, True, True), (2.0, False, True), (6.0, False, False)):
        changed = shortened(one, round(gone_mm / 0.2))
        own = {c.name: c.ok for c in check_hooping(changed)}
        assert own["the finish covers the raw edge, also 0.5 mm out of place"] is alone, gone_mm
        across = check_across(changed, [other.checked])
        assert across[0].ok is together, gone_mm


def test_a_part_that_is_not_sewn_at_all_is_found_in_the_file_of_the_other():
    """Half of the edge is bare, and the report says where."""
    one, _ = halves()
    found = check_across(one.checked, [])[0]
    assert not found.ok and found.value < 0.6 and found.where


def test_where_the_parts_meet_thread_does_not_heap_up():
    """Both finishes, both underlays and the ties of both together stay under what one file may hold."""
    for written in check_together(halves()):
        heap = next(c for c in written.checks if "heap up" in c.name and "parts" in c.name)
        assert heap.ok and 0.2 < heap.value < 1.0


def test_hoopings_that_come_apart_by_a_millimetre_still_cover_the_edge_and_by_five_do_not():
    """Two laps of 2 mm, less the half millimetre that the piece may lie out of place."""
    one, other = halves()
    for apart_mm, covered in ((1.0, True), (5.0, False)):
        x, y = other.checked.hooping.centre_mm
        moved = replace(other.checked, hooping=replace(other.checked.hooping, centre_mm=(x + apart_mm, y)))
        assert check_across(one.checked, [moved])[0].ok is covered


def test_places_go_to_the_top_and_back_also_turned():
    """By hand: a quarter turn clockwise in the field takes right on the top to down in the field."""
    hooping = halves()[0].checked.hooping
    for turned in (False, True):
        one = replace(hooping, turned=turned, centre_mm=(10.0, 20.0))
        assert to_field(one, np.array([15.0, 20.0])).tolist() == ([0.0, 5.0] if turned else [5.0, 0.0])
        points = np.array([[3.0, 4.0], [-1.0, 7.5]])
        assert to_top(one, to_field(one, points)) == pytest.approx(points)


def test_the_lower_part_waits_for_what_it_lies_on_and_what_lies_on_it_waits_for_its_part_alone():
    """A bean on the upper half of the bed is sewn with that half; no third hooping is made for it."""
    bean = {"name": "bean", "outline": "bean.svg", "fabric": "frost", "at": ["15", "13"], "above": ["bed"]}
    found = reports(make("bed", {"from": ["-1", "0"], "to": ["1", "0"]}, bean))
    assert [r["pieces"] for r in found] == [["bed", "bean"], ["bed"]]
    assert all(r["released"] for r in found)


def test_the_parts_of_a_motif_placed_twice_are_sewn_with_the_same_two_files():
    """Turned by a quarter in the second place: four hoopings, two files."""
    again = {
        "name": "leek 2",
        "outline": "leek.svg",
        "fabric": "frost",
        "at": ["28", "28"],
        "turn": 90,
        "split": ACROSS,
    }
    found = reports(make("leek", ACROSS, {**again, "split": ACROSS}))
    assert [r["same_as"] and r["same_as"]["hooping"] for r in found].count(None) == 2
    assert {r["same_as"]["top_turned_degrees"] for r in found if r["same_as"]} <= {0.0, 90.0, 180.0, 270.0}


def test_sheets_and_stops_say_which_part_and_how_it_meets_the_other():
    """In the colour order, at the stops and in the report's notes."""
    files = make("leek", ACROSS)
    sheet = " ".join(files["stitch-130x180-2-colours.svg"].decode().split())
    first, second = reports(files)
    assert "leek, lower part" in sheet
    assert "fold what reaches beyond the split" in first["at_stops"][0]["do"]
    assert "loose rest" in second["at_stops"][0]["do"]
    assert any("hoop this middle on its marks" in note for note in second["notes"])
    assert first["notes"] != second["notes"]


def test_details_are_sewn_in_the_part_they_lie_in():
    """A line through both halves is sewn in two with a lap, an area in two that meet, one in one half once."""
    left, right = (
        SplitPart(n, 2, "", np.array(shapely.box(*box).exterior.coords)[:-1])
        for n, box in ((1, (-60, -60, 75, 210)), (2, (75, -60, 210, 210)))
    )
    line = DetailLine("running", (np.array([[20.0, 50.0], [130.0, 50.0]]),), closed=False)
    lengths = [np.ptp(clip_detail(line, part)[0].paths[0][:, 0]) for part in (left, right)]
    assert sum(lengths) == pytest.approx(110 + LAP_MM)
    area = DetailLine("fill", (np.array([[60.0, 40], [90, 40], [90, 60], [60, 60]]),), closed=True)
    areas = [shapely.Polygon(clip_detail(area, part)[0].paths[0]).area for part in (left, right)]
    assert areas == pytest.approx([300, 300])
    alone = DetailLine("running", (np.array([[20.0, 50.0], [50.0, 50.0]]),), closed=False)
    assert [len(clip_detail(alone, part)) for part in (left, right)] == [1, 0]


def test_details_across_the_split_pass_the_check():
    """A satin line and a fill across the line of the split, in the files of both parts."""
    details = [
        {"sew": "satin line", "points": [["0", "-1"], ["0", "2"]]},
        {
            "sew": "fill",
            "points": [["-0.4", "0"], ["-0.2", "0"], ["-0.2", "1"], ["-0.4", "1"]],
            "closed": True,
        },
    ]
    found = reports(make("leek", ACROSS, details=details))
    assert all(r["released"] for r in found), [c for r in found for c in r["checks"] if not c["ok"]]
    assert all(any(p["kind"] == "detail" for p in r["passes"]) for r in found)


def test_runs_of_a_ring_go_on_over_its_end():
    """A ring has no first entry."""
    assert [run.tolist() for run in list_runs(np.array([True, False, True, True]))] == [[2, 3, 0]]
    assert [run.tolist() for run in list_runs(np.zeros(3, dtype=bool))] == []


def test_the_document_is_read_with_its_line():
    """The reader and the stitches mean the same field."""
    piece = {"name": "leek", "outline": "leek.svg", "split": ACROSS}
    assert len(read_document(document(piece)).pieces[0].split) == 1
