"""The colours keep the contrast that the look asks for, reckoned as the published formulas say."""

import pytest

from service.look.palette import (
    DARK,
    LIGHT,
    PRINT,
    TEXT_COLOURS,
    TEXT_CONTRAST,
    TEXT_ON_BANDS,
    compute_contrast,
    compute_lightness,
    mix,
    parse_colour,
)


@pytest.mark.parametrize("ground", [LIGHT, DARK, PRINT], ids=["light", "dark", "print"])
@pytest.mark.parametrize("name", TEXT_COLOURS)
def test_text_colours_keep_their_contrast_on_paper_and_on_bands(ground, name):
    # the limit: WCAG 2.2, success criterion 1.4.3 (AA, text)
    assert compute_contrast(ground[name], ground["paper"]) >= TEXT_CONTRAST
    assert name not in TEXT_ON_BANDS or compute_contrast(ground[name], ground["mist"]) >= TEXT_CONTRAST


def test_the_dark_screen_has_the_same_names():
    assert DARK.keys() == LIGHT.keys() == PRINT.keys()


def test_contrast_agrees_with_the_well_known_greys_at_the_limit():
    # on white, #767676 is the lightest grey that passes 4.5 : 1 and #777777 fails (published; from memory)
    assert compute_contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert compute_contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)
    assert compute_contrast("#ffffff", "#000000") == pytest.approx(21)


@pytest.mark.parametrize(
    ("colour", "lightness"),
    # L* of the sRGB primaries and of middle grey, D65 (published in every colour handbook; from memory)
    [("#ff0000", 53.24), ("#00ff00", 87.73), ("#0000ff", 32.30), ("#777777", 50.03)],
)
def test_lightness_agrees_with_published_values(colour, lightness):
    assert compute_lightness(colour) == pytest.approx(lightness, abs=0.01)


def test_mixing_runs_from_one_colour_to_the_other():
    assert mix("#102030", "#ffffff", 0) == "#102030"
    assert mix("#102030", "#ffffff", 1) == "#ffffff"


@pytest.mark.parametrize("bad", ["red", "#fff", "#12345g", "", "#1234567", "#123456\n"])
def test_what_is_no_colour_is_refused_with_an_example(bad):
    with pytest.raises(ValueError, match="#2d6a3e"):
        parse_colour(bad)
