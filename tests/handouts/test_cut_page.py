"""The page of a handout about cut files: mats, how full, how long, how thin; as the report says."""

import json

import pypdfium2
import pytest

from workers.handouts.recipe import make_handout

HOOP = "hoop and cutter"


def print_with(make_job, files, **figures):
    """The words of a handout whose one mat has these figures, in one line."""
    report = json.loads(files["cut-files.json"])
    report["files"][0].update(figures)
    made, _materials = make_handout(
        make_job("handout", HOOP, inputs={**files, "cut-files.json": json.dumps(report).encode()})
    )
    document = pypdfium2.PdfDocument(made.data)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return " ".join(text.split())


def test_the_figures_of_a_mat_are_printed_beside_it(make_job, files):
    text = print_with(make_job, files, used_share=0.544, longest_side_mm=280.4, thinnest_mm=4.5)
    assert "305 × 305 mm any way 54 % of the mat, longest side 280 mm, thinnest part 4.5 mm" in text
    assert "Mats to cut: 1." in text
    assert "Not on the mat, because their cloth is trimmed in place: leek." in text


@pytest.mark.parametrize(("thinnest", "said"), [(9.5, True), (10.0, False)])
def test_a_part_is_called_thin_only_below_what_the_report_measures(make_job, files, thinnest, said):
    """The report says 10 mm for that or more."""
    text = print_with(make_job, files, used_share=0.2, longest_side_mm=100.0, thinnest_mm=thinnest)
    assert ("thinnest part" in text) is said
