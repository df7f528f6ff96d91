"""Drawings of ours are painted as the printer's own reader of SVG paints them, and other SVG is left to it."""

import re
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from PIL import ImageChops

from service.craft.drawing import Sheet
from service.craft.drawing.lettering import write_words
from service.craft.drawing.styles import CUT, FOLD, Stroke
from service.look.painting import NotOurs, Words, read_painting
from service.look.printing import ASSET_BASE, render_pdf

HOSTILE = '</text><script>alert("leek")</script> & שלום لفت 🥬'


def draw():
    """A drawing with everything that a sheet knows."""
    sheet = Sheet(80, 60, title="Leek bed")
    square = ((5, 5), (30, 5), (30, 30), (5, 30))
    sheet.path(
        "M5 5L30 5L30 30L5 30ZM12 12L22 12L22 22L12 22Z", fill="#a12d47", stroke=Stroke(0.35, round_ends=True)
    )
    sheet.polygon([(x + 30, y) for x, y in square], stroke=FOLD)
    sheet.path("M5 40C15 30 25 50 40 40", stroke=CUT)
    sheet.disc((60, 45), 8, fill="#2d6a3e", stroke=Stroke(1.0))
    sheet.open_part("waste")
    sheet.open_turned(30, (20, 50))
    sheet.box(15, 45, 10, 10, fill="#3c5368")
    sheet.close_turned()
    sheet.close_part()
    sheet.line((2, 58), (78, 58), CUT)
    return sheet


def print_drawing(svg):
    html = f'<html lang=en><title>Leeks</title><body style="margin:0"><img src="{ASSET_BASE}a.svg" alt="Leek bed">'
    css = "@page { size: 90mm 70mm; margin: 0 }"
    return render_pdf(html, lang="en", identifier="leeks", css=css, assets={"a.svg": svg.encode()})


def look(data):
    document = pypdfium2.PdfDocument(data)
    picture = document[0].render(scale=150 / 72).to_pil().convert("RGB")
    document.close()
    return picture


def count_unlike(one, other, *, by=100):
    """How many pixels differ by more than a share of the edge of a line."""
    unlike = ImageChops.difference(one, other).convert("L").point(lambda value: 255 if value > by else 0)
    return unlike.histogram()[255]


def as_other_svg(svg):
    """The same picture in words that ours never use, so that the printer reads it by itself."""
    return svg.replace(' role="img"', ' role="img" id="bed"').replace("<path d=", '<path id="p" d=')


def test_shapes_lie_where_another_reader_of_svg_puts_them():
    svg = draw().to_svg()
    with pytest.raises(NotOurs):
        read_painting(as_other_svg(svg).encode())
    ours, theirs = look(print_drawing(svg)), look(print_drawing(as_other_svg(svg)))
    assert len(ours.getcolors(100_000)) > 5
    assert count_unlike(ours, theirs) < 40  # of 220 000
    moved = look(print_drawing(svg.replace("M5 5L30 5", "M5 6L30 5")))
    assert count_unlike(ours, moved) > 40, "the control: one corner moved by a millimetre is seen"


def test_words_are_set_as_wide_as_each_letter_of_them():
    sheet = Sheet(80, 60, title="Leek bed")
    sheet.words((5, 20), [("Cut 3 ", 1.0, 0.0), ("7", 0.6, 0.27), ("/8 in", 1.0, 0.0)], 5.0, weight=600)
    svg = sheet.to_svg()
    boxes = []
    for data in (print_drawing(svg), print_drawing(svg.replace("<text ", '<text id="t" '))):
        document = pypdfium2.PdfDocument(data)
        words = document[0].get_textpage()
        assert "".join(words.get_text_range().split()) == "Cut37/8in"
        boxes.append(words.get_charbox(words.count_chars() - 1))
        document.close()
    assert boxes[0] == pytest.approx(boxes[1], abs=1.0)  # points: kerning moves them by less


def test_a_thin_space_before_a_fraction_is_a_space_for_readers():
    """Left out, "3 7/8" would be read out and copied as "37/8"."""
    sheet = Sheet(80, 60, title="Leek bed")
    write_words(sheet, (5, 20), "3 7/8", 5.0)
    with pikepdf.open(BytesIO(print_drawing(sheet.to_svg()))) as pdf:
        shown = [
            bytes(part)
            for line in pikepdf.parse_content_stream(pdf.pages[0], "TJ")
            for part in line.operands[0]
            if isinstance(part, pikepdf.String)
        ]
        codes = next(iter(pdf.pages[0].Resources.Font.values())).ToUnicode.read_bytes().decode()
    letters = {
        bytes.fromhex(code): chr(int(what, 16)) for code, what in re.findall(r"<(\w{4})> <(\w{4})>", codes)
    }
    assert "".join(letters[code] for code in shown) == "3 7⁄8"


def test_words_of_any_kind_are_painted_as_words():
    sheet = Sheet(80, 60, title=HOSTILE)
    sheet.words((5, 20), [(HOSTILE, 1.0, 0.0)], 3.0)
    painting = read_painting(sheet.to_svg().encode())
    assert [run.text for mark in painting.marks if isinstance(mark, Words) for run in mark.runs] == [HOSTILE]
    with pikepdf.open(BytesIO(print_drawing(sheet.to_svg()))) as pdf:
        assert "/JavaScript" not in str(pdf.Root.keys())


def test_a_painted_drawing_is_a_figure_with_its_words():
    with pikepdf.open(BytesIO(print_drawing(draw().to_svg()))) as pdf:
        figures = [
            item
            for item in pdf.objects
            if isinstance(item, pikepdf.Dictionary) and item.get("/S") == "/Figure"
        ]
        assert [str(figure.Alt) for figure in figures] == ["Leek bed"]


@pytest.mark.parametrize(
    ("ours", "other"),
    [
        ('fill-rule="evenodd"', 'fill-rule="nonzero"'),
        ("<path d=", '<path opacity="0.5" d='),
        ("<circle ", "<ellipse "),
        ("M5 40C", "M5 40q"),
        ("#a12d47", "red"),
        ("rotate(30 20 50)", "scale(2)"),
        ("80mm", "80px"),
        ("</svg>", "<image/></svg>"),
        ("</svg>", "<svg>"),
    ],
)
def test_a_drawing_that_is_more_than_ours_is_left_to_the_printer(ours, other):
    svg = draw().to_svg()
    assert ours in svg
    with pytest.raises(NotOurs):
        read_painting(svg.replace(ours, other).encode())
