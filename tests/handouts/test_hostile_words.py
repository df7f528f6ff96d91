"""Whatever stands in a field is printed as text and stays on its page, or is a fault that states the limit."""

import json

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from tests.handouts.test_handout import MARGIN_POINTS, iterate_boxes, read_pages
from workers.handouts.recipe import make_colourways, make_handout, make_run_sheet

HAND = "by hand"
LONG_WORD, MARKUP = (
    "rhubarb" * 28,
    '</p><script>alert(1)</script><img src="http://127.0.0.1:9/x"><svg onload="x">{{ 7*7 }}',
)
RIGHT_TO_LEFT, EMOJI = "שלום גינה \u202eمرحبا بالحديقة\u2067 " * 6, "🌱🥕🧵👩🏽‍🌾✂️" * 12
HOSTILE = {"markup": MARKUP, "one long word": LONG_WORD, "right to left": RIGHT_TO_LEFT, "emoji": EMOJI}
LIMIT = 200


def enrich(document):
    """The document with every field that holds words, and with details sewn on a piece."""
    document["fabrics"]["pot"]["sold_as"] = {"name": "a remnant", "width": "42", "length": "40"}
    document["colourways"][0]["fabrics"]["frost"] |= {"name": "dusk blue"}
    line = {"sew": "running", "points": [["0", "-1/2"], ["0", "1/2"]], "thread": {"name": "straw"}}
    document["pieces"][1]["details"] = [line]
    document["sources"][0] |= {"credit": "the people of plot 14", "licence": "CC BY 4.0"}
    document["tracks"][0] |= {"paper": "Letter", "print": "usual"}
    return document


def fill(document, words):
    """The words in every field of the document that is words, each cut to what its limit allows."""
    name = words[:LIMIT]
    document["title"], document["summary"] = name, (words * 400)[:10_000]
    for cloth in document["fabrics"].values():
        cloth["name"] = name
        if "sold_as" in cloth:
            cloth["sold_as"]["name"] = name
    for i, piece in enumerate(document["pieces"]):
        piece["name"], piece["above"] = f"{i}{words}"[:LIMIT], []
        piece["thread"] = {"name": name, "colour": "#ffffff"}
        for detail in piece.get("details", ()):
            detail["thread"] = {"name": name, "colour": "#c9a24a"}
    document["tracks"] = [{"name": HAND, "has": [], "reading": (words * 400)[:10_000]}]
    for i, part in enumerate(document["parts"]):
        part["title"] = f"{i}{words}"[:LIMIT]
    for source in document["sources"]:
        source |= {"name": name, "credit": (words * 9)[:500], "licence": (words * 9)[:500]}
    for colourway in document["colourways"]:
        colourway["name"] = name
        for change in colourway["fabrics"].values():
            change["name"] = name


def fill_steps(files, document, words):
    steps = json.loads(files["steps-by-hand.json"])
    for step in steps["steps"]:
        part = 0 if step["chapter"] in ("cutting", "piecing") else 1
        step |= {"part": document["parts"][part]["title"], "text": words, "why": words, "caution": words}
        step |= {"tools": [words[:LIMIT]], "heading": "" if step["stage"] else words}
    steps["steps"][0]["text"] = (words * 400)[:10_000]
    return {**files, "steps-by-hand.json": json.dumps(steps).encode()}


def assert_whole(data):
    for number, (left, bottom, right, top), (width, height) in iterate_boxes(data):
        assert left >= MARGIN_POINTS - 1 and right <= width - MARGIN_POINTS + 1, f"page {number + 1}"
        assert bottom >= MARGIN_POINTS - 1 and top <= height - MARGIN_POINTS + 1, f"page {number + 1}"


@pytest.fixture(params=list(HOSTILE))
def words(request):
    return HOSTILE[request.param]


@pytest.fixture
def job(words, make_job, document, files):
    fill(document, words)
    given = fill_steps(files, document, words)

    def make(kind, track=None):
        return make_job(kind, track, document=document, inputs=given)

    return make


def test_a_handout_full_of_such_words_stays_on_its_pages(job):
    assert_whole(make_handout(job("handout", HAND))[0].data)


def test_the_studios_sheets_full_of_such_words_stay_on_their_pages(job):
    assert_whole(make_run_sheet(job("run sheet"))[0].data)
    assert_whole(make_colourways(job("colourways"))[1].data)


def test_markup_is_printed_as_it_was_written(make_job, document, files):
    fill(document, MARKUP)
    given = fill_steps(files, document, MARKUP)
    data = make_handout(make_job("handout", HAND, document=document, inputs=given))[0].data
    text = "".join("".join(read_pages(data)).split())
    assert text.count("".join(MARKUP.split())) > 20


def test_a_drawing_full_of_markup_stays_well_formed(make_job, document, files):
    from lxml import etree

    fill(document, MARKUP)
    drawing = make_colourways(make_job("colourways", document=document))[0].data
    tags = {
        etree.QName(node).localname for node in etree.fromstring(drawing).iter() if isinstance(node.tag, str)
    }
    assert not tags & {"script", "img", "image", "foreignObject"}


@pytest.mark.parametrize(
    ("pointer", "spoil"),
    [
        ("/title", lambda d: d.update(title="x" * 10_000)),
        ("/summary", lambda d: d.update(summary="x" * 20_001)),
        ("/fabrics/frost/name", lambda d: d["fabrics"]["frost"].update(name="x" * 10_000)),
        ("/pieces/0/name", lambda d: d["pieces"][0].update(name="x" * 10_000)),
        ("/tracks/0/name", lambda d: d["tracks"][0].update(name="x" * 10_000)),
        ("/parts/0/title", lambda d: d["parts"][0].update(title="x" * 10_000)),
        ("/colourways/0/name", lambda d: d["colourways"][0].update(name="x" * 10_000)),
        ("/sources/0/name", lambda d: d["sources"][0].update(name="x" * 10_000)),
        ("/sources/0/credit", lambda d: d["sources"][0].update(credit="x" * 10_000)),
        ("/sources/0/licence", lambda d: d["sources"][0].update(licence="x" * 10_000)),
    ],
)
def test_words_beyond_a_limit_are_a_fault_that_states_it(document, pointer, spoil):
    spoil(document)
    with pytest.raises(DocumentFaults) as refusal:
        read_document(document)
    (fault,) = [fault for fault in refusal.value.faults if fault.pointer == pointer]
    assert any(character.isdigit() for character in fault.detail + fault.right)
    assert len(fault.detail) < 500
