"""Seams that are set in are named before a batch is made; they can be sewn, so they are warnings."""

from __future__ import annotations

from typing import Any

from service.craft.document import read_document
from service.craft.faults import Fault
from service.craft.readiness import check_readiness
from tests.straight_blocks import block, document

STAR: dict[str, Any] = {
    "unit": "eight-pointed star",
    "size": ["6", "6"],
    "diamonds": ["leaf"],
    "background": "frost",
}
FIELD: dict[str, Any] = {
    "unit": "hexagons",
    "side": "1",
    "rows": [["leaf", "soil"], ["leaf"]],
    "edge": "frost",
}


def set_in(top: Any, **more: Any) -> list[Fault]:
    ready = check_readiness(read_document(document(top, **more)), {})
    assert ready.ready
    return [warning for warning in ready.warnings if "set in" in warning.detail]


def test_a_star_and_a_field_of_hexagons_are_named_where_they_stand() -> None:
    for unit, words in ((STAR, "eight seams"), (FIELD, "all of its seams")):
        (warning,) = set_in(
            {"unit": "bordered", "inside": unit, "borders": [{"width": "1", "fabric": "leaf"}]}
        )
        assert warning.pointer == "/top/inside"
        assert words in warning.detail
        assert "the steps say how; or" in warning.right


def test_several_stars_are_said_once_with_their_number() -> None:
    rows = [[STAR, STAR], [block("sawtooth star", 6), "star"]]
    (warning,) = set_in({"unit": "grid", "rows": rows}, blocks={"star": STAR})
    assert warning.pointer == "/top/rows/0/0"
    assert "(and in 2 more places)" in warning.detail


def test_a_block_of_straight_seams_is_not_named() -> None:
    assert set_in(block("lamp", 6)) == []
