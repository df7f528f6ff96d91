"""A printed handout read by another library as a screen reader does: tags, headings, tables, pictures, bookmarks.

What is asked for: ISO 14289-1 (PDF/UA-1), from memory: 7.2 text, 7.3 graphics, 7.4 headings, 7.5 tables, 7.18 links.
"""

from collections.abc import Iterator
from io import BytesIO
from itertools import pairwise

import pikepdf
import pytest

from workers.handouts.recipe import make_handout, make_run_sheet


@pytest.fixture(scope="module")
def kept():
    return {}


@pytest.fixture(params=["hoop and cutter", "by hand", "run sheet"])
def pdf(request, kept, make_job):
    if request.param not in kept:
        job = make_job("run sheet") if request.param == "run sheet" else make_job("handout", request.param)
        kept[request.param] = (make_run_sheet if request.param == "run sheet" else make_handout)(job)[0].data
    with pikepdf.open(BytesIO(kept[request.param])) as opened:
        yield opened


def walk(node) -> Iterator[tuple[str, pikepdf.Dictionary]]:
    """Every element of structure with its kind, in reading order."""
    if isinstance(node, pikepdf.Array):
        for inside in node:
            yield from walk(inside)
    elif isinstance(node, pikepdf.Dictionary):
        if "/S" in node:
            yield str(node.S)[1:], node
        if "/K" in node:
            yield from walk(node.K)


def read_tags(pdf):
    return list(walk(pdf.Root.StructTreeRoot.K))


def test_headings_begin_with_one_and_leave_no_step_out(pdf):
    levels = [int(kind[1]) for kind, _ in read_tags(pdf) if kind[0] == "H" and kind[1:].isdigit()]
    assert levels[0] == 1 and levels.count(1) == 1
    assert [pair for pair in pairwise(levels) if pair[1] > pair[0] + 1] == []


def test_every_table_has_headers_and_its_cells_name_them(pdf):
    tables = [list(walk(node.K)) for kind, node in read_tags(pdf) if kind == "Table"]
    assert tables
    for inside in tables:
        assert "TH" in {kind for kind, _ in inside}
        cells = [node for kind, node in inside if kind == "TD"]
        assert any("/A" in cell and "/Headers" in cell.A for cell in cells)


def test_every_picture_says_in_words_what_it_shows(pdf):
    words = [str(node.get("/Alt", "")) for kind, node in read_tags(pdf) if kind == "Figure"]
    assert words
    assert [text for text in words if len(text.strip()) < 3] == []


def test_language_title_and_bookmarks_are_there(pdf):
    assert str(pdf.Root.Lang) == "en"
    assert bool(pdf.Root.MarkInfo.Marked) and bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
    assert "Leek Row" in str(pdf.docinfo["/Title"])
    with pdf.open_outline() as outline:
        titles = [str(item.title) for item in outline.root]
    headings = [kind for kind, _ in read_tags(pdf) if kind in ("H1", "H2")]
    assert len(titles) == len(headings) > 2


def test_every_link_stands_in_the_structure(pdf):
    links = [a for page in pdf.pages for a in page.get("/Annots", []) if a.Subtype == "/Link"]
    assert all("/StructParent" in link and "/Contents" in link for link in links)


def test_all_that_is_painted_belongs_to_something_or_is_ornament(pdf):
    """No operator that paints stands outside of marked content."""
    painting = {"f", "f*", "B", "B*", "S", "TJ", "Tj", "Do", "sh"}
    for page in pdf.pages:
        depth = 0
        for line in pikepdf.parse_content_stream(page):
            operator = str(line.operator)
            depth += operator in ("BDC", "BMC")
            depth -= operator == "EMC"
            assert depth or operator not in painting, operator
