"""The shipped faces hold what a handout needs, with their licences beside them."""

from importlib.resources import files
from io import BytesIO

import pytest
from fontTools.ttLib import TTFont

from service.look.fonts import FACES, find_missing_characters, font_css, measure_text, read_font

LATIN = [face for face in FACES if "Extended" not in face.family]


@pytest.mark.parametrize("face", LATIN, ids=lambda face: face.file_name)
def test_every_latin_face_can_set_any_fraction(face):
    features = {
        record.FeatureTag
        for record in TTFont(BytesIO(read_font(face.file_name)))["GSUB"].table.FeatureList.FeatureRecord
    }
    assert {"frac", "numr", "dnom"} <= features


@pytest.mark.parametrize("face", LATIN, ids=lambda face: face.file_name)
def test_figures_stand_in_columns_without_asking(face):
    """All ten figures are as wide as each other (to a thousandth of an em), so cutting tables line up."""
    font = TTFont(BytesIO(read_font(face.file_name)))
    names = font.getBestCmap()
    widths = [font["hmtx"][names[ord(figure)]][0] for figure in "0123456789"]
    assert max(widths) - min(widths) <= 1


def test_the_faces_hold_the_signs_that_the_handouts_use():
    assert find_missing_characters("0123456789 /⁄ × – — − ’ “ ” … · • ° € £ ± äöüß éèêç ñ åøæ łřžš") == ""


def test_arrows_and_tick_boxes_are_missing_and_so_must_be_drawn():
    assert find_missing_characters("→☐✓") == "→☐✓"


def test_every_face_has_a_rule_that_names_no_other_place():
    css = font_css("/static/fonts/")
    assert css.count("@font-face") == len(FACES) == css.count("url('/static/fonts/")
    assert "http" not in css


def test_only_shipped_files_are_read():
    with pytest.raises(KeyError, match="no font of ours"):
        read_font("../palette.py")


@pytest.mark.parametrize("name", ["SourceSans3-OFL.txt", "SourceSerif4-OFL.txt"])
def test_the_licences_are_shipped(name):
    text = (files("service.look") / "fonts" / name).read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
    assert "Adobe" in text


def test_measured_width_grows_with_the_text_and_the_size():
    assert measure_text("88", 10) == pytest.approx(2 * measure_text("8", 10))
    assert measure_text("8", 20) == pytest.approx(2 * measure_text("8", 10))
    assert measure_text("wide", 10, weight=700) > measure_text("wide", 10)
