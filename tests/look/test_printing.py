"""PDFs use only what is shipped, are tagged, and come out the same twice."""

import subprocess
import sys
from io import BytesIO

import pikepdf
import pytest

from service.look.printing import PrintError, render_pdf

PAGE = (
    "<!doctype html><html lang=en><head><title>Leek row</title></head>"
    "<body style=\"font-family:'Batchbee Sans'\">"
    '<h1>Leek row</h1><svg width="30mm" height="10mm" viewBox="0 0 30 10"><title>A leek</title>'
    '<rect width="20" height="5"/></svg>{}</body></html>'
)


def render(extra="", **options):
    return render_pdf(PAGE.format(extra), lang="en", identifier="leek", **options)


def test_two_runs_are_equal_to_the_byte():
    assert render() == render()


def test_another_process_makes_the_same_bytes():
    code = (
        "import sys; from service.look.printing import render_pdf; "
        f"sys.stdout.buffer.write(render_pdf({PAGE.format('')!r}, lang='en', identifier='leek'))"
    )
    made = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert made.stdout == render()


def test_the_pdf_is_tagged_and_names_its_language_and_title():
    with pikepdf.open(BytesIO(render())) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.MarkInfo.Marked)
        assert "/StructTreeRoot" in pdf.Root
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        assert str(pdf.docinfo["/Title"]) == "Leek row"
        assert "/CreationDate" not in pdf.docinfo


def test_a_drawing_carries_its_title_as_alternative_text():
    with pikepdf.open(BytesIO(render())) as pdf:
        alternatives = [
            str(item.Alt) for item in pdf.objects if isinstance(item, pikepdf.Dictionary) and "/Alt" in item
        ]
    assert alternatives == ["A leek"]


def test_true_size_pages_ask_not_to_be_scaled():
    with pikepdf.open(BytesIO(render(true_size=True))) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
    with pikepdf.open(BytesIO(render())) as pdf:
        assert "/PrintScaling" not in pdf.Root.ViewerPreferences


def test_every_font_is_embedded_and_ours():
    with pikepdf.open(BytesIO(render())) as pdf:
        fonts = [
            item
            for item in pdf.objects
            if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor"
        ]
        assert fonts
        assert all("Batchbee" in str(font.FontName) for font in fonts)
        assert all("/FontFile2" in font or "/FontFile3" in font for font in fonts)


@pytest.mark.parametrize(
    "address",
    [
        "http://127.0.0.1:9/leek.png",
        "file:///etc/hostname",
        "data:image/png;base64,AAAA",
        "shipped:fonts/../palette.py",
    ],
)
def test_nothing_is_fetched_from_anywhere(address):
    with pytest.raises(PrintError) as refusal:
        render(f'<img src="{address}" alt="x">')
    assert refusal.value.addresses == (address,)


def test_pictures_handed_over_are_printed():
    square = b'<rect width="9" height="9"/>'
    picture = b'<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm">%s</svg>' % square
    plain = render()
    assert len(render('<img src="shipped:assets/a.svg" alt="a square">', assets={"a.svg": picture})) > len(
        plain
    )
