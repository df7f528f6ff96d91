"""The strips of a border come out of one joined strip where that takes fewer strips than joining each for itself."""

from __future__ import annotations

from service.craft.cutting_choices import ACROSS, ALONG

from .conftest import document, patch

SIX_AND_A_HALF = {"text": "6 1/2 in", "inches": 6.5, "mm": 165.1}


def border_cuts(plan, width, height, usable="40", more=None, **border):
    raw = document(
        {
            "unit": "bordered",
            "inside": patch(width, height, "frost"),
            "borders": [{"width": "6", "fabric": "leaf"} | border],
        },
        **(more or {}),
    )
    raw["fabrics"]["leaf"]["usable_width"] = usable
    raw["fabrics"]["frost"]["usable_width"] = "108"
    made = plan(raw)
    [leaf] = [f for f in made["fabrics"] if f["fabric"] == "leaf"]
    return [c for c in made["cuts"] if c["fabric"] == "leaf"], leaf


def test_the_cut_says_what_the_long_strip_is_cut_into(plan):
    [cut], _ = border_cuts(plan, "70", "86", cut=ACROSS)
    assert cut["then"] == "join 9 end to end with straight seams, then cut 2 of 86 1/2 in and 2 of 82 1/2 in"
    assert (cut["width"]["text"], cut["height"]["text"], cut["makes"], cut["wanted"]) == (
        "40 in",
        "6 1/2 in",
        4,
        4,
    )
    assert cut["join"] == {
        "seams": "straight",
        "pieces": 9,
        "joined": {"text": "356 in", "inches": 356.0, "mm": 9042.4},
        "laid": "end to end",
        "gives": [
            {
                "width": {"text": "86 1/2 in", "inches": 86.5, "mm": 2197.1},
                "height": SIX_AND_A_HALF,
                "makes": 2,
            },
            {
                "width": {"text": "82 1/2 in", "inches": 82.5, "mm": 2095.5},
                "height": SIX_AND_A_HALF,
                "makes": 2,
            },
        ],
    }


def test_a_diagonal_join_takes_more_and_may_take_a_strip_more(plan):
    """9 x 40 - 8 x 6 1/2 = 308 < 338; ten strips, 400 - 58 1/2 = 341 1/2 (crayonboxquiltstudio.com 2012/04)."""
    cuts, _ = border_cuts(plan, "70", "86", cut=ACROSS, more={"cutting": {"join": "diagonal"}})
    assert sum(cut["count"] for cut in cuts) == 10


def test_strips_that_fit_in_the_cloth_are_not_joined_for_nothing(plan):
    """34 1/2 and 39 1/2 in from 40 in cloth: four strips, none joined."""
    cuts, _ = border_cuts(plan, "27", "34")
    assert all(cut["join"] is None for cut in cuts) and sum(cut["count"] for cut in cuts) == 4


def test_where_no_strip_is_saved_each_is_joined_for_itself(plan):
    """38 1/2 and 70 1/2 in from 40 in cloth take six strips either way: the short ones then stay whole."""
    cuts, _ = border_cuts(plan, "26", "70")
    assert sorted(cut["then"] for cut in cuts) == ["", "join 2 end to end with straight seams"]


def test_strips_asked_for_along_the_length_are_never_put_together(plan):
    cuts, _ = border_cuts(plan, "70", "86", cut=ALONG)
    assert [cut["join"] for cut in cuts] == [None, None]


def test_strips_of_sets_that_share_one_joined_strip_are_still_sewn_into_sets(plan):
    """Two strips of 60 in 40 in cloth take four, joined they take ceil(119 1/2 / 39 1/2) = 4; nine take 14 for 18.

    24 pieces of 2 1/2 come of 60 in: 200 of them of nine strips. Arithmetic, no source.
    """
    strips = [{"width": "2", "fabric": cloth} for cloth in ("frost", "leaf")]
    unit = {"unit": "strip set", "strips": strips, "cut_into": "2", "length": "60"}
    cuts = plan(document({"unit": "grid", "rows": [[unit] * 200]}))["cuts"]
    assert [cut["count"] for cut in cuts] == [14, 14]
    for cut in cuts:
        assert cut["then"].startswith(
            "join 14 end to end with straight seams, then cut 9 of 60 in; sew into strip sets"
        )
        [given] = cut["join"]["gives"]
        assert (given["width"]["text"], given["makes"]) == ("60 in", 9 * 24)
