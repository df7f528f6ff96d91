"""What makes the trade raise an eyebrow is named with its place and its cloth, and stops nothing."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.readiness import check_readiness
from service.craft.warnings import find_warnings

PRINT, PLAIN = "dill", "frost"


def patch(width: str, height: str, fabric: str = PRINT) -> dict[str, Any]:
    return {"unit": "patch", "size": [width, height], "fabric": fabric}


def looks(top: Any, **more: Any) -> list[tuple[str, str]]:
    fabrics = {PRINT: {"name": "dill sprigs", "directional": True}, PLAIN: {"name": "frost"}}
    project = read_document({"title": "Dill bed", "fabrics": fabrics, "top": top} | more)
    return [(w.pointer, w.detail) for w in find_warnings(project)]


@pytest.mark.parametrize(
    ("measure", "side", "warned"),
    [("in", "3/8", True), ("in", "1/2", False), ("cm", "1.2", True), ("cm", "1.3", False)],
)
def test_patches_below_half_an_inch_are_named(measure, side, warned):
    """1/2 in or 1.3 cm: common practice, no source."""
    found = looks(patch("3", side, PLAIN), measure=measure)
    assert [pointer for pointer, _ in found] == (["/top"] if warned else [])
    assert all("frost" in detail and "finished" in detail for _, detail in found)


def test_a_small_corner_and_a_narrow_border_are_named_where_they_stand():
    inside = {
        "unit": "corner squares",
        "size": ["4", "4"],
        "fabric": PLAIN,
        "corners": {"size": "3/8", "fabric": PLAIN},
    }
    top = {"unit": "bordered", "inside": inside, "borders": [{"width": "1/4", "fabric": PLAIN}]}
    assert [pointer for pointer, _ in looks(top)] == ["/top/borders/0", "/top/borders/0", "/top/inside"]


def test_the_same_thing_in_many_places_is_said_once_with_their_number():
    small = patch("1/4", "1/4", PLAIN)
    found = looks({"unit": "grid", "rows": [[small] * 5]})
    assert found == [
        ("/top/rows/0/0", 'a patch of "frost" is 1/4 in by 1/4 in finished (and in 4 more places)')
    ]


def test_a_block_used_often_is_looked_at_once():
    top = {"unit": "grid", "rows": [["bit", "bit", "bit"]]}
    found = looks(top, blocks={"bit": patch("1/4", "1/4", PLAIN)})
    assert found == [("/blocks/bit", 'a patch of "frost" is 1/4 in by 1/4 in finished')]


@pytest.mark.parametrize(("width", "warned"), [("3", False), ("3 1/8", True)])
def test_sashing_is_planned_up_to_a_quarter_of_the_block(width, warned):
    """12 -> 3: quilting.about.com sashing (J. Wickell)."""
    block = patch("12", "12", PLAIN)
    top = {"unit": "grid", "rows": [[block, block]], "sashing": {"width": width, "fabric": PLAIN}}
    assert [pointer for pointer, _ in looks(top)] == (["/top/sashing/width"] if warned else [])


@pytest.mark.parametrize(("leg", "warned"), [("1", True), ("1 1/8", False)])
def test_a_corner_too_small_for_a_spare_unit_is_named(leg, warned):
    """Four allowances come off before anything is left."""
    corners = {"size": leg, "fabric": PLAIN}
    top = {"unit": "corner squares", "size": ["6", "6"], "fabric": PLAIN, "corners": corners}
    found = looks(top | {"spare_triangles": True})
    assert [pointer for pointer, _ in found] == (["/top/spare_triangles"] if warned else [])
    assert looks(top) == []


def turned(inside: Any, turn: int = 90) -> dict[str, Any]:
    return {"unit": "turned", "inside": inside, "turn": turn}


def mirrored(inside: Any) -> dict[str, Any]:
    return {"unit": "mirrored", "inside": inside}


def cornered(inside: Any) -> dict[str, Any]:
    return {"unit": "square in a square", "inside": inside, "fabric": PLAIN}


SQUARE = patch("4", "4")


class TestDirectionalCloth:
    """A print has an upper side; which layouts turn it is geometry."""

    @pytest.mark.parametrize(
        ("top", "where", "words"),
        [
            (turned(SQUARE), "/top", "on its side"),
            (turned(SQUARE, 180), "/top", "on its head"),
            (turned(SQUARE, 270), "/top", "on its side"),
            (turned(turned(SQUARE)), "/top/inside", "on its head"),
            (turned(turned(SQUARE), 270), None, ""),
            (turned(mirrored(turned(SQUARE))), None, ""),
            (mirrored(SQUARE), None, ""),
            (mirrored(turned(SQUARE)), "/top/inside", "on its side"),
            (cornered(SQUARE), "/top", "slantwise"),
            (cornered(cornered(SQUARE)), "/top/inside", "on its side"),
            (cornered(mirrored(cornered(SQUARE))), None, ""),
            (
                {"unit": "on point", "rows": [[SQUARE]], "side": PLAIN, "corner": PLAIN},
                "/top",
                "slantwise",
            ),
            (
                {"unit": "on point", "rows": [[patch("4", "4", PLAIN)]], "side": PLAIN, "corner": PRINT},
                "/top",
                "different directions",
            ),
            (
                {"unit": "bordered", "inside": SQUARE, "borders": [{"width": "2", "fabric": PRINT}]},
                "/top",
                "across the other",
            ),
            (
                {
                    "unit": "bordered",
                    "inside": SQUARE,
                    "borders": [{"width": "2", "fabric": PRINT, "cut": "along the length"}],
                },
                "/top",
                "runs along each strip",
            ),
            (
                {
                    "unit": "grid",
                    "rows": [[patch("4", "4", PLAIN)] * 2],
                    "sashing": {"width": "1", "fabric": PRINT, "cut": "across the width"},
                },
                "/top",
                "runs across each strip",
            ),
            (
                {"unit": "half-square triangle", "size": ["3", "3"], "fabrics": [PLAIN, PRINT]},
                "/top",
                "different directions",
            ),
            (
                {
                    "unit": "flying geese",
                    "size": ["4", "2"],
                    "goose": PLAIN,
                    "sky": PRINT,
                    "method": "corner squares",
                },
                "/top",
                "flipped over",
            ),
            (
                {"unit": "square in a square", "size": ["4", "4"], "inside": PRINT, "fabric": PLAIN},
                "/top",
                "slantwise",
            ),
            (
                {
                    "unit": "square in a square",
                    "size": ["4", "4"],
                    "inside": PRINT,
                    "fabric": PLAIN,
                    "method": "corner squares",
                },
                None,
                "",
            ),
            (SQUARE, None, ""),
        ],
    )
    def test_a_print_that_does_not_stand_upright_is_named_with_what_turns_it(self, top, where, words):
        found = looks(top)
        assert [pointer for pointer, _ in found] == ([where] if where else [])
        assert all(words in detail and '"dill sprigs"' in detail for _, detail in found)

    @pytest.mark.parametrize("way", [turned, cornered])
    def test_a_cloth_without_direction_is_not_named(self, way):
        assert looks(way(patch("4", "4", PLAIN))) == []


class TestNappedCloth:
    """A pile shines otherwise when it lies another way: what turns a print turns a pile."""

    @staticmethod
    def looks(top, **cloth):
        raw = {
            "title": "Moss",
            "fabrics": {PRINT: {"name": "moss", "napped": True} | cloth, PLAIN: {}},
            "top": top,
        }
        return find_warnings(read_document(raw))

    @pytest.mark.parametrize(("turn", "words"), [(90, "on its side"), (180, "on its head")])
    def test_a_patch_that_lies_sideways_or_head_down_is_named_with_its_pile(self, turn, words):
        [look] = self.looks(turned(SQUARE, turn))
        assert look.pointer == "/top" and 'the pile of "moss" comes' in look.detail and words in look.detail
        assert "the pile running down" in look.right

    def test_an_upright_patch_is_not_named(self):
        assert self.looks(SQUARE) == ()

    def test_a_cloth_with_print_and_pile_is_named_once_by_its_print(self):
        [look] = self.looks(turned(SQUARE), directional=True)
        assert "the print of" in look.detail


def test_warnings_stand_in_the_check_and_do_not_stop_a_batch():
    fabrics = {PLAIN: {}}
    raw = {"title": "Seeds", "fabrics": fabrics, "top": patch("3", "1/4", PLAIN)}
    readiness = check_readiness(read_document(raw), {})
    assert readiness.ready
    assert [(w["pointer"], bool(w["right"])) for w in readiness.to_json()["warnings"]] == [("/top", True)]


def test_an_odd_size_is_written_in_trade_fractions():
    found = looks(patch("3", str(Fraction(1, 3)), PLAIN))
    assert found == [("/top", 'a patch of "frost" is 3 in by 21/64 in finished')]


def test_the_print_of_diamonds_goes_round_the_star_with_them():
    star = {"unit": "eight-pointed star", "size": ["9", "9"], "diamonds": [PRINT, PLAIN], "background": PLAIN}
    [(pointer, detail)] = looks(star)
    assert pointer == "/top"
    assert "dill sprigs" in detail and "round the middle of the star" in detail


@pytest.mark.parametrize(
    ("allowance", "warned"), [("1", True), ("1 1/8", True), ("1 1/4", False), (None, False)]
)
def test_a_mitre_with_too_little_for_its_seam_allowances_is_named(allowance, warned):
    """2s(1 + sqrt 2) = 1.207 in for a 1/4 in seam, up to 1/8: geometry. Published from 1 in on."""
    border = {"width": "3", "fabric": PLAIN, "corners": "mitred"}
    border |= {"mitre_allowance": allowance} if allowance else {}
    found = looks({"unit": "bordered", "inside": patch("10", "12", PLAIN), "borders": [border]})
    assert [pointer for pointer, _ in found] == (["/top/borders/0/mitre_allowance"] if warned else [])


def ring(**more: Any) -> dict[str, Any]:
    whole = {"unit": "fan blade ring", "size": ["14", "14"], "fabric": PLAIN, "fabrics": [PLAIN, "leaf"]}
    return whole | {"reach": "6", "hole": "2", "centre": {"fabric": PLAIN, "size": "4"}} | more


CLOTHS = {
    PRINT: {"name": "dill sprigs", "directional": True},
    PLAIN: {"name": "frost"},
    "leaf": {"name": "leaf"},
}


def test_blades_that_end_too_narrow_are_named_once_for_each_cloth():
    """2 · 1 1/2 · sin 9° is 0.469 in, which a ruler shows as 7/16; 2 · 1 5/8 · sin 9° is 0.508 in."""
    narrow = looks(ring(hole="1 1/2"), fabrics=CLOTHS)
    assert [pointer for pointer, _ in narrow] == ["/top", "/top"]
    assert all("7/16 in wide finished at their narrow ends" in detail for _, detail in narrow)
    assert looks(ring(hole="1 5/8"), fabrics=CLOTHS) == []


def test_two_blades_alike_beside_each_other_are_named_where_the_cloths_do_not_come_out_even():
    """21 blades of two cloths in turn: the last and the first; all of one cloth is meant so."""
    [(pointer, detail)] = looks(ring(blades=21), fabrics=CLOTHS)
    assert pointer == "/top"
    assert detail == 'blades 21 and 1 of the ring lie side by side and are both "frost"'
    assert looks(ring(blades=21, fabrics=[PLAIN]), fabrics=CLOTHS) == []


def test_the_print_of_blades_turns_round_the_ring():
    """However it is cut: the background and the centre stay upright."""
    found = looks(ring(fabric=PRINT, fabrics=[PRINT, "leaf"]), fabrics=CLOTHS)
    assert found == [
        (
            "/top",
            'the blades of "dill sprigs" lie in all directions round the middle of the ring, its print too',
        )
    ]
