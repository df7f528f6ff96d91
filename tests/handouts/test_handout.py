"""A handout holds everything its track needs, nothing runs off a page, and two runs are equal."""

import ctypes
import json
from io import BytesIO

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from service.craft.drawing import Sheet
from workers.handouts.handout import plan_handout
from workers.handouts.inputs import Inputs
from workers.handouts.pages import lift_drawings
from workers.handouts.recipe import make_colourways, make_handout, make_run_sheet
from workers.recipe import CannotMake
from workers.sewing.steps.terms import EXPLANATIONS

HOOP, HAND = "hoop and cutter", "by hand"
MARGIN_POINTS = 8 * 72 / 25.4
"""No text comes nearer to the edge of the paper than 8 mm: home printers leave about 5 mm bare."""


@pytest.fixture(scope="module")
def printed():
    return {}


def print_once(printed, make_job, track):
    if track not in printed:
        made, _materials = make_handout(make_job("handout", track))
        printed[track] = made
    return printed[track]


def read_pages(data):
    document = pypdfium2.PdfDocument(data)
    texts = [page.get_textpage().get_text_range().replace("\r\n", "\n") for page in document]
    document.close()
    return texts


def iterate_boxes(data):
    """Every visible character's page number, box and page size in points."""
    document = pypdfium2.PdfDocument(data)
    for number, page in enumerate(document):
        text = page.get_textpage()
        for index in range(text.count_chars()):
            if chr(pdfium.FPDFText_GetUnicode(text.raw, index)).isspace():
                continue
            box = [ctypes.c_double() for _ in range(4)]
            pdfium.FPDFText_GetCharBox(text.raw, index, *box)
            left, right, bottom, top = (value.value for value in box)
            yield number, (left, bottom, right, top), page.get_size()
    document.close()


@pytest.mark.parametrize("track", [HOOP, HAND])
def test_the_handout_is_one_public_a4_pdf_named_after_its_track(printed, make_job, track):
    made = print_once(printed, make_job, track)
    assert made.name == f"handout-{track.replace(' ', '-')}.pdf"
    assert (made.kind, made.media_type, made.public) == ("handout", "application/pdf", True)
    document = pypdfium2.PdfDocument(made.data)
    # A4 is 210 x 297 mm (ISO 216), at 72 points an inch
    assert {tuple(round(side) for side in page.get_size()) for page in document} == {(595, 842)}
    document.close()


@pytest.mark.parametrize("track", [HOOP, HAND])
def test_no_text_runs_off_its_page(printed, make_job, track):
    for number, (left, bottom, right, top), (width, height) in iterate_boxes(
        print_once(printed, make_job, track).data
    ):
        assert left >= MARGIN_POINTS and bottom >= MARGIN_POINTS, f"page {number + 1}"
        assert right <= width - MARGIN_POINTS and top <= height - MARGIN_POINTS, f"page {number + 1}"


def test_every_cut_stands_in_the_tables_with_both_measures(printed, make_job):
    text = " ".join("\n".join(read_pages(print_once(printed, make_job, HAND).data)).split())
    assert "3 7/8 × 3 7/8 in" in text and "98.4 × 98.4 mm" in text
    assert "38 3/4 × 2 1/2 in" in text and "98.4 × 6.3 cm" in text
    assert "cut twice on the diagonal" in text and "side triangles" in text


@pytest.mark.parametrize("track", [HOOP, HAND])
def test_every_step_of_the_track_is_there_in_order_with_its_reason(printed, make_job, files, track):
    text = " ".join("\n".join(read_pages(print_once(printed, make_job, track).data)).split())
    steps = json.loads(files[f"steps-{track.replace(' ', '-')}.json"])["steps"]
    places = [text.index(step["text"]) for step in steps]
    assert places == sorted(places)
    assert all(step["why"] in text for step in steps)


def test_sizes_are_printed_with_what_is_still_fine(printed, make_job):
    text = "\n".join(read_pages(print_once(printed, make_job, HAND).data))
    assert "9 1/2 in square" in text
    assert "Fine from 9 3/8 in to 9 5/8 in." in text


def test_each_track_names_its_own_files_and_not_the_others(printed, make_job):
    hoop, hand = (" ".join(read_pages(print_once(printed, make_job, track).data)) for track in (HOOP, HAND))
    for name in ("stitch-130x180-1.dst", "cut-leaf-1.svg", "cut-leaf-1.dxf"):
        assert name in hoop and name not in hand
    assert "templates-by-hand.pdf" in hand and "templates-" not in hoop


def test_threads_stand_in_order_with_what_to_do_at_each_stop(printed, make_job):
    text = "\n".join(read_pages(print_once(printed, make_job, HOOP).data))
    assert text.index("milk") < text.index("moss")
    assert "18.4 m" in text
    assert "Lay the cloth over the line" in text


def test_what_viewers_must_own_is_named_and_never_drawn(printed, make_job):
    made = print_once(printed, make_job, HAND)
    text = " ".join("\n".join(read_pages(made.data)).split())
    assert "Bring your own" in text and "watering can" in text and "A neighbour's drawing" in text
    # the can's outline is the only thing in this project with the coordinates that follow from it; its picture is a box
    with pikepdf.open(BytesIO(made.data)) as pdf:
        words = [
            str(item.Alt) for item in pdf.objects if isinstance(item, pikepdf.Dictionary) and "/Alt" in item
        ]
    assert any("Leek Row" in alternative for alternative in words)


def test_the_makers_own_wording_takes_the_place_of_the_computed_text(make_job):
    job = make_job("handout", HAND, wording={HAND: {"hst-draw": "Draw the line my way, with chalk."}})
    text = " ".join("\n".join(read_pages(make_handout(job)[0].data)).split())
    assert "Draw the line my way, with chalk." in text
    assert "draw one diagonal" not in text


def test_terms_that_are_used_are_explained_and_others_are_not(printed, make_job):
    """In the list at the end, in the words in which the steps explain them, for chapters that readers are new to."""
    pages = (read_pages(print_once(printed, make_job, track).data) for track in (HOOP, HAND))
    hoop, hand = (" ".join("\n".join(track).rpartition("Words used here")[2].split()) for track in pages)
    meaning = {term: words for term, (_looks, words) in EXPLANATIONS.items()}
    assert f"bias {meaning['bias']}" in hoop
    assert meaning["template"] in hand
    assert meaning["sashing"] not in hoop + hand
    assert meaning["placement line"] not in hoop, "new to piecing, and done applique before"
    assert meaning["bias"] not in hand, "new to applique, and pieced before"


@pytest.mark.parametrize(
    ("reading", "said"), [("", True), ("new to everything", True), ("who has done it before", False)]
)
def test_words_are_explained_to_whom_they_are_new_or_of_whom_nothing_is_said(
    make_job, document, reading, said
):
    document["tracks"] = [{**track, "reading": reading} for track in document["tracks"]]
    fields = plan_handout(Inputs(make_job("handout", HOOP))).fields
    terms = dict(fields["terms"])
    assert ({"placement line", "bias", "cut size", "sewing field"} <= set(terms)) is said
    assert bool(terms) is said
    assert ("Words used here" in [entry.title for entry in fields["contents"]]) is said
    assert (
        "In short, because done before: cutting, piecing, applique, finishing." in fields["for_whom"]
    ) is not said


def test_the_handout_can_be_read_aloud_and_leafed_through(printed, make_job):
    with pikepdf.open(BytesIO(print_once(printed, make_job, HOOP).data)) as pdf:
        assert bool(pdf.Root.MarkInfo.Marked)
        assert str(pdf.Root.Lang) == "en"
        titles = [str(item.title) for item in pdf.open_outline().root]
    assert titles[:3] == ["Leek Row", "What you need", "Cutting tables"]
    assert "Piecing the star" in titles


def test_pages_are_numbered_out_of_how_many(printed, make_job):
    pages = read_pages(print_once(printed, make_job, HAND).data)
    for number, text in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in text


@pytest.mark.parametrize("make", [make_run_sheet, make_colourways])
def test_two_runs_of_the_studios_sheets_are_equal_to_the_byte(make, make_job):
    one, other = ([(m.name, m.data) for m in make(make_job("x"))] for _ in range(2))
    assert one == other


def test_two_runs_of_a_handout_are_equal_to_the_byte(printed, make_job):
    assert make_handout(make_job("handout", HOOP))[0].data == print_once(printed, make_job, HOOP).data


def test_words_from_the_document_cannot_become_markup(make_job, document):
    document["title"] = "Leek <b>&</b> {{ 7 * 7 }} row"
    document["summary"] = '<img src="http://127.0.0.1:9/x.png">'
    made = make_handout(make_job("handout", HAND, document=document))[0]
    text = read_pages(made.data)[0]
    assert "Leek <b>&</b> {{ 7 * 7 }} row" in " ".join(text.split())
    assert "127.0.0.1" in text


def test_very_long_names_still_stay_on_their_pages(make_job, document):
    document["title"] = "Rhubarb" * 12
    document["fabrics"]["frost"]["name"] = "f" * 120
    document["tracks"][1]["reading"] = "new to " + "everything" * 20
    document["sources"][0]["name"] = "d" * 150
    made = make_handout(make_job("handout", HAND, document=document))[0]
    for number, (left, _, right, _), (width, _) in iterate_boxes(made.data):
        assert left >= MARGIN_POINTS and right <= width - MARGIN_POINTS, f"page {number + 1}"


def test_a_metric_project_is_printed_in_millimetres_first(make_job, document, files):
    cutting = json.loads(files["cutting.json"])
    for cut in cutting["cuts"]:
        for side in ("width", "height"):
            cut[side] = {"text": "89 mm", "inches": 3.503937, "mm": 89.0}
    document["measure"] = "mm"
    document["seam_allowance"] = "6.35 mm"
    document = json.loads(json.dumps(document).replace('"3", "3"', '"3 in", "3 in"'))
    for cloth in document["fabrics"].values():
        cloth["usable_width"] += " in"
    for piece in document["pieces"]:
        piece["at"] = [f"{side} in" for side in piece["at"]]
    document["blocks"]["star"]["rows"][1][1]["corners"]["size"] = "1 1/2 in"
    document["top"]["borders"][0]["width"] = "2 in"
    document["finish"] = {}
    job = make_job(
        "handout", HAND, document=document, inputs={**files, "cutting.json": json.dumps(cutting).encode()}
    )
    text = "\n".join(read_pages(make_handout(job)[0].data))
    assert "89 × 89 mm\nabout 3 1/2 × 3 1/2 in" in text


@pytest.mark.parametrize("name", ["cutting.json", "sewing.json", "steps-by-hand.json"])
def test_a_missing_or_broken_plan_is_named(make_job, files, name):
    for broken, words in ((None, "is not there"), (b"[]", "cannot be read"), (b"\xff", "cannot be read")):
        given = {key: data for key, data in files.items() if key != name}
        if broken is not None:
            given[name] = broken
        with pytest.raises(CannotMake, match=words) as refusal:
            make_handout(make_job("handout", HAND, inputs=given))
        assert name in refusal.value.detail


def test_an_unknown_track_is_answered_with_those_there_are(make_job):
    with pytest.raises(CannotMake, match="no track is called") as refusal:
        make_handout(make_job("handout", "by moonlight"))
    assert refusal.value.right == "one of hoop and cutter, by hand"


def test_a_missing_outline_is_named_with_where_the_piece_stands(make_job):
    with pytest.raises(CannotMake, match=r"leek\.svg"):
        make_handout(make_job("handout", HAND, outlines={}))


def test_a_project_without_pieces_or_steps_is_still_printed(make_job, document, files):
    document["pieces"], document["sources"], document["finish"] = [], [], {}
    empty = {**files, "steps-by-hand.json": b'{"steps": []}', "sewing.json": b"{}", "cutting.json": b"{}"}
    made = make_handout(make_job("handout", HAND, document=document, inputs=empty, outlines={}))[0]
    assert "No outlines of others are used." in "\n".join(read_pages(made.data))


def test_a_line_is_broken_only_where_it_is_full(make_job):
    """A text that just fills its line before a length once left its first word alone on the line."""
    words = (
        "Peel the paper off the first leek leaves and lay the piece in its place. The middle of the piece lies "
        "7 15/16 in from the left cut edge of the top and 6 15/16 in from the upper one."
    )
    job = make_job("handout", HAND, wording={HAND: {"trace": words}})
    lines = [line for page in read_pages(make_handout(job)[0].data) for line in page.split("\n")]
    (first,) = [line for line in lines if line.startswith("Peel")]
    assert first.startswith("Peel the paper off the first leek leaves and lay the piece in its place.")


def test_places_agree_with_the_steps_to_a_sixteenth(make_job, document):
    """7 11/16 in finished and a quarter of allowance are 7 15/16 in from the cut edge, in the table as in the step."""
    document["pieces"][0]["at"] = ["7 11/16", "5 1/16"]
    text = "\n".join(read_pages(make_handout(make_job("handout", HAND, document=document))[0].data))
    assert "7 15/16 in" in text and "5 5/16 in" in text
    assert "from its cut edges" in text


def test_a_step_names_the_files_of_its_own_pieces(make_job, files):
    """A name that is part of another, or of a cloth's, draws in no file."""
    steps = json.loads(files["steps-hoop-and-cutter.json"])
    steps["steps"][-1] |= {
        "text": "Sew the leaf blade on leek green.",
        "files": ["stitch-130x180-*", "cut-leaf-*"],
    }
    steps["steps"][-1]["pieces"] = ["leaf blade"]
    given = {**files, "steps-hoop-and-cutter.json": json.dumps(steps).encode()}
    text = " ".join(
        "\n".join(read_pages(make_handout(make_job("handout", HOOP, inputs=given))[0].data)).split()
    )
    after = text[text.index("Sew the leaf blade on leek green.") :]
    assert (
        after.removeprefix("Sew the leaf blade on leek green.")
        .strip()
        .startswith("Files: stitch-130x180-2.dst, cut-leaf-1.svg, cut-leaf-1.dxf")
    )


def test_file_names_are_never_broken(printed, make_job):
    """In the table of cut files, too, each name stands on one line."""
    lines = [
        line for page in read_pages(print_once(printed, make_job, HOOP).data) for line in page.split("\n")
    ]
    for name in ("cut-leaf-1.svg", "cut-leaf-1.dxf", "stitch-130x180-1.dst"):
        assert any(name in line for line in lines)


def test_the_middle_of_a_hooping_is_given_from_the_cut_edges(make_job, files):
    """100 mm and 50 mm from the finished corner, and 6.35 mm of allowance: 4 3/16 in and 2 3/16 in."""
    made = json.loads(files["stitch-130x180-1.json"]) | {"centre_mm": [100.0, 50.0]}
    given = {**files, "stitch-130x180-1.json": json.dumps(made).encode()}
    text = " ".join(
        "\n".join(read_pages(make_handout(make_job("handout", HOOP, inputs=given))[0].data)).split()
    )
    assert (
        "The middle of the hooping: 4 3/16 in from the left cut edge of the top and 2 3/16 in from the upper one."
        in text
    )


def test_terms_of_a_step_are_explained_below_it(make_job, files):
    steps = json.loads(files["steps-by-hand.json"])
    steps["steps"][0]["terms"] = [{"term": "press", "explanation": "To set the iron down and lift it again."}]
    given = {**files, "steps-by-hand.json": json.dumps(steps).encode()}
    text = "\n".join(read_pages(make_handout(make_job("handout", HAND, inputs=given))[0].data))
    assert "Press: To set the iron down and lift it again." in text


def test_steps_under_one_heading_stand_under_it_and_name_a_file_once(make_job, files):
    steps = json.loads(files["steps-hoop-and-cutter.json"])
    for step in steps["steps"][-3:]:
        step |= {"heading": "The first leek", "files": ["stitch-130x180-1.dst"]}
    given = {**files, "steps-hoop-and-cutter.json": json.dumps(steps).encode()}
    text = "\n".join(read_pages(make_handout(make_job("handout", HOOP, inputs=given))[0].data))
    assert text.count("The first leek") == 1
    assert text.count("File: stitch-130x180-1.dst") == 1


def test_drawings_are_lifted_out_of_the_page_once_each():
    """Equal drawings are one picture; words in quotes of either kind stay words."""
    one = Sheet(10, 10, title='a "leek" & more').to_svg()
    html, drawings = lift_drawings(f"<p>{one}</p><p>{one}</p>")
    assert len(drawings) == 1
    assert html.count("<img ") == 2 and "<svg" not in html


def test_a_makers_tips_stand_before_and_after_their_step_on_their_tracks_alone(make_job):
    """In the order of the page: the tip before, the step, the tips after it, those of every track first."""
    tips = [
        {"track": HAND, "step": "hst-draw", "place": "after", "text": "Chalk brushes off by hand."},
        {"track": "", "step": "hst-draw", "place": "after", "text": "Chalk is for everybody."},
        {"track": HAND, "step": "hst-draw", "place": "before", "text": "Find a soft brush."},
        {"track": HOOP, "step": "hst-draw", "place": "before", "text": "Only with a hoop."},
        {"track": "", "step": "long-gone", "place": "before", "text": "Nobody sees this."},
    ]
    pages = pypdfium2.PdfDocument(make_handout(make_job("handout", HAND, tips=tips))[0].data)
    text = " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())
    pages.close()
    order = [
        "Find a soft brush.",
        "Lay a frost square",
        "Chalk is for everybody.",
        "Chalk brushes off by hand.",
    ]
    places = [text.index("Find a soft brush.")]
    for words in order[1:]:
        places.append(text.index(words, places[-1]))
    assert places == sorted(places)
    assert "Only with a hoop" not in text
    assert "Nobody sees this" not in text
