"""The handout as it is printed: paper and size of print as the track says, whole, tagged, with its address."""

import re
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
import segno
import zxingcpp
from PIL import ImageFilter

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from tests.handouts.test_handout import MARGIN_POINTS, iterate_boxes, read_pages
from workers.handouts.recipe import make_handout
from workers.handouts.release_code import QUIET, draw_release_code

HOOP, HAND = "hoop and cutter", "by hand"
PAGE = "https://allotment.example/leek-row"
SIZES = {
    # ISO 216 and 8 1/2 by 11 in, in points; large print lies on its side
    ("A4", "usual"): (595.28, 841.89),
    ("A4", "large"): (841.89, 595.28),
    ("Letter", "usual"): (612, 792),
    ("Letter", "large"): (792, 612),
}
CAPITAL_EM = 0.66
BODY_POINTS = {"usual": 11.0, "large": 16.0}


@pytest.fixture(scope="module")
def printed():
    return {}


@pytest.fixture(params=list(SIZES), ids=" ".join)
def choice(request):
    return request.param


@pytest.fixture
def data(choice, printed, make_job, document):
    if choice not in printed:
        document["page"] = PAGE
        for track in document["tracks"]:
            track["paper"], track["print"] = choice
        document["sources"][0] |= {"credit": "the people of plot 14", "licence": "CC BY 4.0"}
        printed[choice] = make_handout(make_job("handout", HOOP, document=document))[0].data
    return printed[choice]


def test_every_page_has_the_size_the_track_asks_for(data, choice):
    with pikepdf.open(BytesIO(data)) as pdf:
        sizes = {tuple(round(float(side), 1) for side in page.mediabox[2:]) for page in pdf.pages}
    assert sizes == {tuple(round(side, 1) for side in SIZES[choice])}


def test_no_text_runs_off_its_page(data):
    for number, (left, bottom, right, top), (width, height) in iterate_boxes(data):
        assert left >= MARGIN_POINTS and bottom >= MARGIN_POINTS, f"page {number + 1}"
        assert right <= width - MARGIN_POINTS and top <= height - MARGIN_POINTS, f"page {number + 1}"


def test_all_fonts_are_embedded_and_the_language_is_said(data):
    with pikepdf.open(BytesIO(data)) as pdf:
        described = [
            o
            for o in pdf.objects
            if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
        ]
        assert described
        assert all({"/FontFile", "/FontFile2", "/FontFile3"} & set(font.keys()) for font in described)
        assert str(pdf.Root.Lang) == "en" and bool(pdf.Root.MarkInfo.Marked)


def test_every_picture_says_in_words_what_it_shows(data):
    with pikepdf.open(BytesIO(data)) as pdf:
        figures = [o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and o.get("/S") == "/Figure"]
        words = [str(figure.get("/Alt", "")) for figure in figures]
    assert len(words) > 8 and all(word.strip() for word in words)
    assert f"Code of the release page: {PAGE}" in words


def test_bookmarks_lead_to_the_chapters_and_pages_are_numbered(data):
    with pikepdf.open(BytesIO(data)) as pdf:
        titles, count = [str(item.title) for item in pdf.open_outline().root], len(pdf.pages)
    assert {"What you need", "Cutting tables", "Piecing the star", "Stitch files, hooping by hooping"} <= set(
        titles
    )
    assert all(f"{n} of {count}" in text for n, text in enumerate(read_pages(data), start=1))


def test_the_address_credits_and_licence_are_printed(data):
    text = " ".join("\n".join(read_pages(data)).split())
    assert "allotment.example/leek-row" in text
    assert "Credit: the people of plot 14. Licence: CC BY 4.0." in text


def test_body_text_is_as_large_as_the_track_asks_for(data, choice):
    """The size a letter is set at, read back from the page: 11 pt, and 16 pt in large print."""
    page = next(n for n, text in enumerate(read_pages(data)) if "For you if you have" in text)
    document = pypdfium2.PdfDocument(data)
    text = document[page].get_textpage()
    start = text.get_text_range().index("For you if you have")
    _, bottom, _, top = text.get_charbox(start)
    document.close()
    # the F is as high as capitals of Source Sans 3: 0.66 em
    assert top - bottom == pytest.approx(BODY_POINTS[choice[1]] * CAPITAL_EM, rel=0.02)


def test_the_code_shows_the_address_module_by_module():
    """Held against the squares that segno computes: as many dark ones, on the same grid, light all round."""
    svg = draw_release_code(PAGE)
    matrix = segno.make_qr(PAGE, error="m", boost_error=False).matrix
    module = 26.0 / (len(matrix) + 2 * QUIET)
    bars = re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ", svg)
    drawn = {
        (x - QUIET, round(float(top) / module) - QUIET)
        for left, top, right in bars
        for x in range(round(float(left) / module), round(float(right) / module))
    }
    assert drawn == {(x, y) for y, row in enumerate(matrix) for x, dark in enumerate(row) if dark}
    assert draw_release_code("") == ""


@pytest.mark.parametrize("way", ["150 dpi", "150 dpi in grey", "100 dpi in grey, faint and blurred"])
def test_an_independent_reader_finds_the_address_on_the_printed_cover(data, choice, way):
    """ISO/IEC 18004 as another library reads it from the page's pixels, in colour, in grey, and as a poor copy."""
    read = zxingcpp.read_barcodes(look_at(data, choice, way), formats=zxingcpp.BarcodeFormat.QRCode)
    assert [(code.text, code.valid) for code in read] == [(PAGE, True)]


def test_a_code_that_is_covered_in_part_is_not_read(data, choice):
    """The control: without one of its three corners no reader finds it."""
    cover = look_at(data, choice, "150 dpi in grey")
    [code] = zxingcpp.read_barcodes(cover)
    x, y = code.position.top_left.x, code.position.top_left.y
    cover.paste(255, (x - 4, y - 4, x + 40, y + 40))
    assert zxingcpp.read_barcodes(cover) == []


def look_at(data, choice, way):
    """The page of the cover with the code as pixels; in large print the cover goes over two pages."""
    document = pypdfium2.PdfDocument(data)
    page = document[1 if choice[1] == "large" else 0]
    seen = page.render(scale=int(way.split()[0]) / 72).to_pil().convert("L" if "grey" in way else "RGB")
    document.close()
    if "faint" not in way:
        return seen
    return seen.point([110 + value * 145 // 255 for value in range(256)]).filter(
        ImageFilter.GaussianBlur(0.8)
    )


NO_PAGES = [
    *("http://allotment.example", "https://a b.example", "javascript:x", 5),
    *("https://x.example/" + "a" * 200, "https://me@x.example/"),
]


@pytest.mark.parametrize("page", NO_PAGES)
def test_an_address_that_cannot_be_printed_is_a_fault_with_its_place(document, page):
    document["page"] = page
    with pytest.raises(DocumentFaults) as refusal:
        read_document(document)
    assert [fault.pointer for fault in refusal.value.faults] == ["/page"]


@pytest.mark.parametrize(("field", "value"), [("paper", "A5"), ("print", "tiny")])
def test_a_paper_or_print_there_is_not_is_a_fault_with_its_place(document, field, value):
    document["tracks"][0][field] = value
    with pytest.raises(DocumentFaults) as refusal:
        read_document(document)
    assert [fault.pointer for fault in refusal.value.faults] == [f"/tracks/0/{field}"]
