"""A printed 3 7/8 reads 3 7/8, as glyphs and as text, and never 37/8."""

import ctypes

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from service.look.fonts import SANS, SERIF
from service.look.fractions import FRACTION_CSS, Length, mark_fractions, split_lengths
from service.look.printing import render_pdf


def print_characters(html_text, family=SANS):
    """Every character of the printed page with its box in points: (character, left, bottom, right, top)."""
    page_html = (
        f"<!doctype html><html lang=en><head><title>t</title></head><body><p>{html_text}</p></body></html>"
    )
    css = f"body {{ font: 14pt {family}; }} {FRACTION_CSS}"
    document = pypdfium2.PdfDocument(render_pdf(page_html, lang="en", identifier="t", css=css))
    page = document[0].get_textpage()
    boxes = []
    for index in range(page.count_chars()):
        box = [ctypes.c_double() for _ in range(4)]
        pdfium.FPDFText_GetCharBox(page.raw, index, *box)
        left, right, bottom, top = (value.value for value in box)
        boxes.append((chr(pdfium.FPDFText_GetUnicode(page.raw, index)), left, bottom, right, top))
    text = page.get_text_range()
    document.close()
    return text, boxes


@pytest.mark.parametrize("family", [SANS, SERIF], ids=["sans", "serif"])
@pytest.mark.parametrize("length", ["3 7/8", "12 11/16", "5 13/32"])
def test_a_printed_length_reads_as_written_and_looks_like_it(length, family):
    text, boxes = print_characters(mark_fractions(length), family)
    assert text == length
    whole, fraction = length.split(" ")
    top, bottom = fraction.split("/")
    figures = boxes[: len(whole)]
    numerator = boxes[len(whole) + 1 : len(whole) + 1 + len(top)]
    denominator = boxes[-len(bottom) :]
    height = figures[0][4] - figures[0][2]
    for _, _, low, _, high in numerator + denominator:
        assert high - low < 0.75 * height  # small figures, not a second full-size number
    assert numerator[0][2] > figures[0][2] + 0.25 * height  # raised
    assert denominator[0][4] < figures[0][4] - 0.25 * height  # on the base line
    assert numerator[0][1] - figures[-1][3] > 0.05 * 14  # a gap between 3 and 7: 3 7/8 is not 37/8


def test_without_the_mark_the_figures_would_be_full_size():
    """The check above can fail: an unmarked fraction prints its figures as tall as the whole number."""
    _, boxes = print_characters("3 7/8")
    heights = {character: top - bottom for character, _, bottom, _, top in boxes}
    assert heights["7"] > 0.9 * heights["3"]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("", []),
        ("no number", ["no number"]),
        ("3½", [Length("3", "1", "2", "")]),
        ("⅞ in", [Length("", "7", "8", "in")]),
        ("3-1/2 in", [Length("3", "1", "2", "in")]),
        ("89 mm", [Length("89", "", "", "mm")]),
        ("8 squares", ["8 squares"]),
        ("1/2.", [Length("", "1", "2", ""), "."]),
        ("2027/01/20", ["2027/01/20"]),
        ("7/0", ["7/0"]),
        ("1/1000", ["1/1000"]),
    ],
)
def test_lengths_are_found_in_running_text_and_nothing_else_is(text, parts):
    assert list(split_lengths(text)) == parts


def test_everything_else_is_escaped():
    assert mark_fractions("<b>&") == "&lt;b&gt;&amp;"
