"""The run sheet and the colourway sheet: what the studio alone gets."""

import json
import re
from dataclasses import replace

import pypdfium2
import pytest
from lxml import etree

from service.craft.document import read_document
from service.craft.drawing import view_top
from tests.completeness.conftest import MONTHS, load, make_shared
from tests.handouts.test_handout import MARGIN_POINTS, iterate_boxes
from workers.handouts.colourways import find_neighbours, view_colourways
from workers.handouts.inputs import Inputs
from workers.handouts.on_the_table import count_patches, reckon_minutes
from workers.handouts.recipe import make_colourways, make_run_sheet
from workers.handouts.run_sheet import format_marks, group_takes, plan_parts
from workers.handouts.step_outs import list_step_outs, measure_extra_cloth
from workers.handouts.take_lines import MakersTip, list_lines, merge_steps
from workers.recipe import JobInput

SVG = "{http://www.w3.org/2000/svg}"


def read_text(data):
    document = pypdfium2.PdfDocument(data)
    text = "\n".join(page.get_textpage().get_text_range().replace("\r\n", "\n") for page in document)
    document.close()
    return text


def test_neither_sheet_is_public(make_job):
    made = [*make_run_sheet(make_job("run sheet")), *make_colourways(make_job("colourways"))]
    assert [(m.name, m.kind, m.public) for m in made] == [
        ("run-sheet.pdf", "run sheet", False),
        ("chapter-marks.txt", "chapter marks", False),
        ("supplies.txt", "supplies", False),
        ("colourways.svg", "colourway sheet", False),
        ("colourways.pdf", "colourway sheet", False),
    ]


def test_every_step_of_every_track_is_taken_exactly_once(make_job, files):
    texts = [
        text
        for part in plan_parts(Inputs(make_job("run sheet")))
        for take in part.takes
        for text in [line.text for line in take.lines]
    ]
    lists = [json.loads(files[f"steps-{name}.json"])["steps"] for name in ("hoop-and-cutter", "by-hand")]
    assert sorted(texts) == sorted({step["id"]: step["text"] for steps in lists for step in steps}.values())


def test_a_step_said_differently_to_another_track_is_kept_in_both_wordings(make_job, files):
    hand = json.loads(files["steps-by-hand.json"])
    hand["steps"][1]["text"] = "Lay the squares together and draw a line with chalk."
    job = make_job("run sheet", inputs={**files, "steps-by-hand.json": json.dumps(hand).encode()})
    tracks = {step["text"]: names for step, names in merge_steps(Inputs(job)) if step["id"] == "hst-draw"}
    assert sorted(tracks.values()) == [("by hand",), ("hoop and cutter",)]


def test_each_tracks_steps_keep_their_order_among_the_others(make_job, files):
    merged = [step["id"] for step, _ in merge_steps(Inputs(make_job("run sheet")))]
    for name in ("hoop-and-cutter", "by-hand"):
        own = [step["id"] for step in json.loads(files[f"steps-{name}.json"])["steps"]]
        assert [identity for identity in merged if identity in own] == own


def test_steps_for_one_track_say_so(make_job):
    takes = [take for part in plan_parts(Inputs(make_job("run sheet"))) for take in part.takes]
    lines = {line.text: line.tracks for take in takes for line in take.lines}
    assert lines["Turn the edge under and sew it down by hand."] == ("by hand",)
    assert lines["Cut on the line. Press towards the green."] == ()


def test_a_take_for_one_track_alone_says_so_once(make_job):
    takes = [take for part in plan_parts(Inputs(make_job("run sheet"))) for take in part.takes]
    assert {take.only_for for take in takes if take.chapter == "piecing"} == {()}
    text = read_text(make_run_sheet(make_job("run sheet"))[0].data)
    assert "(by hand) Turn the edge under" in text or "Only for the track: by hand" in text


def test_a_chapter_without_stages_is_filmed_piece_by_piece():
    steps = [
        ({"chapter": "applique", "text": text}, ())
        for text in ("Hoop it.", "Lay the leek.", "Trim.", "Lay the leek leaf.", "Lay the leek again.")
    ]
    assert [(piece, len(inside)) for _, _, piece, inside in group_takes(steps, ["leek", "leek leaf"])] == [
        ("", 1),
        ("leek", 2),
        ("leek leaf", 1),
        ("leek", 1),
    ]


def test_stages_that_others_build_on_are_sewn_ahead_and_the_last_is_not(make_job):
    (piecing, applique) = plan_parts(Inputs(make_job("run sheet")))
    assert [out.title for out in piecing.step_outs] == [
        "Leaf squares",
        "Pots with four corners",
        "Star blocks",
    ]
    assert applique.step_outs == ()


def test_a_step_out_costs_what_one_more_of_its_unit_is_cut_from(make_job):
    """One star by hand: two pairs of 3 7/8 in squares, four plain squares, a pot with four corners."""
    inputs = Inputs(make_job("run sheet"))
    star = next(out for out in list_step_outs(inputs.project, inputs.sewing, {"star"}))
    assert sorted((cut.fabric, float(cut.width), cut.count) for cut in star.cuts) == [
        ("frost", 3.5, 4),
        ("frost", 3.875, 2),
        ("leaf", 3.875, 2),
        ("night", 2.0, 4),
        ("pot", 3.5, 1),
    ]
    # 2 x 3.875² in² across 42 in is 0.715 in, rounded up to eighths
    assert measure_extra_cloth(inputs.project, [star])["leaf"].main == "3/4 in"


def test_chapter_marks_begin_at_nought_and_never_go_back(make_job):
    for part in plan_parts(Inputs(make_job("run sheet"))):
        times = [line.split(" ")[0] for line in part.marks.splitlines()]
        seconds = [sum(int(n) * 60**k for k, n in enumerate(reversed(time.split(":")))) for time in times]
        assert seconds[0] == 0
        assert seconds == sorted(set(seconds))
        assert len(times) == len(part.takes) + 1


def test_the_run_sheet_says_what_is_not_ours_to_show(make_job):
    text = read_text(make_run_sheet(make_job("run sheet"))[0].data)
    assert "Not ours to show in close-up or to pass on: watering can." in text
    assert "0:00 Piecing the star: what we make" in text


def test_colourways_begin_with_the_top_as_designed(make_job):
    svg, pdf = make_colourways(make_job("colourways"))
    words = ["".join(node.itertext()) for node in etree.fromstring(svg.data).iter(f"{SVG}text")]
    names = [word for word in words if word in ("As designed", "dusk", "high summer")]
    assert names == ["As designed", "dusk", "high summer"]
    document = pypdfium2.PdfDocument(pdf.data)
    assert len(document) == 3
    document.close()


def test_a_colourway_changes_the_colours_it_names_and_no_others(make_job):
    svg = make_colourways(make_job("colourways"))[0].data.decode()
    fills = re.findall(r'fill="(#[0-9a-f]{6})"', svg)
    assert {"#eef1ee", "#39405a", "#fff1c9", "#8a6f9e", "#c0392b"} <= set(fills)
    words = ["".join(node.itertext()) for node in etree.fromstring(svg.encode()).iter(f"{SVG}text")]
    assert words.count("B  heather") == 1 and words.count("B  soil brown dot") == 2


def test_neighbours_close_in_value_are_named_with_their_lightness(document, make_job):
    project, job = read_document(document), make_job("colourways")
    designed, dusk, _ = view_colourways(project, view_top(project, job.outlines))
    assert any("night sky" in pair and "soil brown dot" in pair for pair in designed.close)
    assert not any("frost" in pair for pair in designed.close)
    assert any("frost" in pair and "night sky" in pair for pair in dusk.close)


def test_patches_that_only_touch_at_a_corner_are_no_neighbours(document, make_job):
    project = read_document(document)
    top = view_top(project, make_job("x").outlines)
    corners = [((0, 0), (1, 0), (1, 1), (0, 1)), ((1, 1), (2, 1), (2, 2), (1, 2))]
    patches = tuple(
        replace(top.patches[0], points=points, cloth=key) for points, key in zip(corners, "ab", strict=True)
    )
    assert list(find_neighbours(replace(top, patches=patches))) == []
    beside = replace(patches[1], points=((1, 0), (2, 0), (2, 1), (1, 1)))
    assert list(find_neighbours(replace(top, patches=(patches[0], beside)))) == [("a", "b")]


@pytest.mark.parametrize("patches", [(), None])
def test_a_top_of_one_cloth_or_none_has_no_neighbours(document, make_job, patches):
    top = view_top(read_document(document), make_job("x").outlines)
    assert list(find_neighbours(replace(top, patches=top.patches[:1] if patches is None else patches))) == []


def test_pieces_sewn_in_one_way_are_filmed_once_and_all_named():
    """One in the picture, the others off camera; up to two are filmed one by one."""
    leaves = [
        ({"id": f"applique.piece.{n}.sew", "text": f"Sew leaf {n}.", "pieces": [f"leaf {n}"]}, ("hoop",))
        for n in range(1, 5)
    ]
    lines = [line.text for line in list_lines(leaves, 2)]
    assert lines == ["Sew leaf 1.", "Sew 3 more off camera, each in its place: leaf 2, leaf 3, leaf 4."]
    assert [line.text for line in list_lines(leaves[:2], 2)] == ["Sew leaf 1.", "Sew leaf 2."]
    assert {line.tracks for line in list_lines(leaves, 2)} == {("hoop",)}


def test_takes_follow_the_headings_of_steps():
    steps = [
        ({"chapter": "applique", "heading": name, "text": text}, ())
        for name, text in (("Into the hoop", "Hoop it."), ("Leaf", "Sew the leaf."), ("Leaf", "Trim."))
    ]
    assert [(about, len(inside)) for *_, about, inside in group_takes(steps, ["leaf"])] == [
        ("into the hoop", 1),
        ("leaf", 2),
    ]


def test_chapter_marks_come_as_text_each_part_from_nought_and_later_marks_later(make_job):
    marks = make_run_sheet(make_job("run sheet"))[1].data.decode()
    parts = marks.strip().split("\n\n")
    assert len(parts) == 2
    for part in parts:
        times = [line.split(" ", 1)[0].split(":") for line in part.split("\n")]
        seconds = [int(minutes) * 60 + int(rest) for minutes, rest in times]
        assert seconds[0] == 0 and seconds == sorted(set(seconds))


def test_supplies_come_as_text_and_say_which_track_needs_what(make_job):
    supplies = make_run_sheet(make_job("run sheet"))[2].data.decode()
    lines = supplies.split("\n")
    assert lines[0] == "Supplies: Leek Row"
    assert "- leek green: 4 in (10.2 cm)" in lines
    assert "- rotary cutter" in lines
    assert "- curved scissors (for: hoop and cutter)" in lines
    assert "- the outline of the watering can" in lines


def test_neighbours_that_merge_without_red_or_green_are_named(make_job, document):
    """A red and an olive of about one lightness: far apart by hue, close without it."""
    document["colourways"] = [
        {"name": "autumn", "fabrics": {"frost": {"colour": "#b5653d"}, "leaf": {"colour": "#7d7a2f"}}}
    ]
    inputs = Inputs(make_job("colourways", document=document))
    plain, autumn = view_colourways(inputs.project, inputs.top)
    assert any("frost" in pair and "leek green" in pair and "deuteranopia" in pair for pair in autumn.merging)
    assert not any("frost" in pair and "leek green" in pair for pair in plain.merging)


TIPS = [
    {"track": "", "step": "hst-draw", "place": "before", "text": "I chalk an arrow on every square."},
    {"track": "by hand", "step": "hst-draw", "place": "after", "text": "A blunt pencil drags the cloth."},
    {
        "track": "hoop and cutter",
        "step": "hoop-2",
        "place": "after",
        "text": "Keep the snips on a ribbon <b>.",
    },
    {"track": "by hand", "step": "gone", "place": "after", "text": "This step went."},
]


def test_the_makers_tips_stand_with_their_steps_and_say_whose_track_they_are_for(make_job):
    """A tip on one track of a step that several share says which; one on all of them, or on a step of one, does not."""
    takes = [t for part in plan_parts(Inputs(make_job("run sheet", tips=TIPS))) for t in part.takes]
    lines = [line for take in takes for line in take.lines]
    [(before, after)] = [(line.before, line.after) for line in lines if line.before]
    assert [(tip.text, tip.tracks) for tip in before] == [("I chalk an arrow on every square.", ())]
    assert [(tip.text, tip.tracks) for tip in after] == [("A blunt pencil drags the cloth.", ("by hand",))]
    assert sum(len(line.before) + len(line.after) for line in lines) == 3


def test_a_tip_is_printed_as_hers_and_as_text(make_job):
    text = " ".join(read_text(make_run_sheet(make_job("run sheet", tips=TIPS))[0].data).split())
    assert "Maker's tip: I chalk an arrow on every square." in text.replace("’", "'")
    assert "Maker's tip (by hand): A blunt pencil drags the cloth." in text.replace("’", "'")
    assert "Keep the snips on a ribbon <b>." in text
    assert "This step went" not in text


def test_tips_on_pieces_that_are_sewn_off_camera_are_not_lost():
    tip = MakersTip("Slow down at the stem.", "after", ("hoop",))
    leaves = [
        (
            {
                "id": f"applique.piece.{n}.sew",
                "text": f"Sew leaf {n}.",
                "pieces": [f"leaf {n}"],
                "tips": (tip,) if n == 3 else (),
            },
            ("hoop",),
        )
        for n in range(1, 5)
    ]
    *_, rest = list_lines(leaves, 2)
    assert "off camera" in rest.text
    assert [one.text for one in rest.after] == ["Slow down at the stem."]


def test_a_step_out_takes_its_share_of_each_stage_it_is_made_of():
    """24 units in 78 minutes are 3 1/4 each; a row of two with 15 minutes for three is 5 and two units: 11 1/2."""
    unit = {"id": "unit", "count": 24, "minutes": {"practised": 78}, "parts": [{"stage": ""}]}
    row = {
        "id": "row",
        "count": 3,
        "minutes": {"practised": 15},
        "parts": [{"stage": ""}, {"stage": "unit"}, {"stage": "unit"}],
    }
    stages = {"unit": unit, "row": row}
    assert (reckon_minutes(unit, stages), reckon_minutes(row, stages)) == (3.25, 11.5)
    assert reckon_minutes({"id": "old"}, stages) == 0


def test_the_time_of_what_is_sewn_ahead_is_printed(make_job, files):
    sewing = json.loads(files["sewing.json"])
    for stage in sewing["stages"]:
        stage["minutes"] = {"practised": 30 * stage["count"], "beginner": 60 * stage["count"]}
    inputs = {**files, "sewing.json": json.dumps(sewing).encode()}
    (piecing, _) = plan_parts(Inputs(make_job("run sheet", inputs=inputs)))
    assert [out.time for out in piecing.step_outs] == ["about 30 minutes"] * 3
    text = " ".join(read_text(make_run_sheet(make_job("run sheet", inputs=inputs))[0].data).split())
    assert "Time for what is sewn ahead: about 90 minutes in all" in text


def test_the_table_holds_fresh_patches_by_letter_and_files(make_job):
    """The patches that a stage sees for the first time; what its parts brought along is no fresh patch."""
    takes = [t for part in plan_parts(Inputs(make_job("run sheet"))) for t in part.takes]
    ready = {take.title: take.ready for take in takes}
    assert "patches of A frost tone-on-tone and C leek green" in ready["Leaf squares"]
    assert any("stitch-130x180-1.dst" in names for names in ready.values())
    unit = {"id": "u", "patches": [{"fabric": "frost"}, {"fabric": "leaf"}]}
    row = {
        "parts": [{"stage": "u"}, {"stage": ""}],
        "patches": [{"fabric": f} for f in ("frost", "leaf", "frost")],
    }
    assert +count_patches(row, {"u": unit}) == {"frost": 1}


def test_no_two_chapter_marks_of_a_video_are_the_same_words():
    """Takes of one title are for other tracks: the marks say which."""
    for month in MONTHS:
        document, outlines = load(month)
        for part in plan_parts(Inputs(JobInput("run sheet", document, outlines, make_shared(month)))):
            words = [line.split(" ", 1)[1] for line in format_marks(part.title, part.takes).splitlines()]
            assert len(set(words)) == len(words), month


def test_every_step_out_of_the_months_says_what_is_cut_for_it():
    """Sashing, border strips and whole rows too: a strip of the seed tray is four cornerstones and three sashes."""
    found = {}
    for month in MONTHS:
        project = read_document(load(month)[0])
        sewing = json.loads(make_shared(month)["sewing.json"])
        for out in list_step_outs(project, sewing, {stage["id"] for stage in sewing["stages"]}):
            assert out.words and out.minutes > 0, out.title
            found[out.title] = out.words
    [sashing] = [w for t, w in found.items() if t.startswith("Sashing with cornerstones")]
    assert sashing == (
        "D · young shoot green: 4 of 1 1/2 in square",
        "C · slate check: 3 of 6 1/2 × 1 1/2 in",
    )


@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_the_studios_sheets_are_printed_on_its_first_tracks_paper_and_nothing_runs_off(
    make_job, document, paper, size
):
    """ISO 216 and 8 1/2 by 11 in, in points; in the usual print, whatever the track's own is."""
    document["tracks"][0] |= {"paper": paper, "print": "large"}
    for make, kind, place in ((make_run_sheet, "run sheet", 0), (make_colourways, "colourways", 1)):
        data = make(make_job(kind, document=document, tips=TIPS))[place].data
        for _, (left, bottom, right, top), (width, height) in iterate_boxes(data):
            assert (round(width), round(height)) == size
            assert left >= MARGIN_POINTS and bottom >= MARGIN_POINTS
            assert right <= width - MARGIN_POINTS and top <= height - MARGIN_POINTS
