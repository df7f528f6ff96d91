"""What could not be cut is said before a batch is made, not when its cutting plan fails."""

from __future__ import annotations

from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.readiness import Readiness, check_readiness


def check(top: Any) -> Readiness:
    cloths = {"frost": {"name": "frost white", "usable_width": "40"}, "soil": {"name": "soil brown"}}
    return check_readiness(read_document({"title": "Bed", "fabrics": cloths, "top": top}), {})


def patch(width: str, height: str) -> dict[str, Any]:
    return {"unit": "patch", "size": [width, height], "fabric": "frost"}


@pytest.mark.parametrize(
    ("size", "fits"),
    [(("39 1/2", "39 1/2"), True), (("39 5/8", "39 5/8"), False), (("60", "3"), True), (("41", "60"), False)],
)
def test_a_patch_fits_its_cloth_one_way_or_the_other(size: tuple[str, str], fits: bool) -> None:
    """39 1/2 finished is cut 40; a long one lies along the roll."""
    found = check(patch(*size))
    assert found.ready is fits
    if not fits:
        [fault] = found.faults
        assert fault.pointer == "/top"
        assert 'does not fit on "frost white", which is 40 in wide' in fault.detail
        assert "wider cloth" in fault.right


def test_a_border_longer_than_the_cloth_is_joined() -> None:
    """Strips are sewn together of several; nothing is said of them."""
    border = {"width": "3", "fabric": "frost"}
    assert check({"unit": "bordered", "inside": patch("39", "60"), "borders": [border]}).ready


@pytest.mark.parametrize(("length", "said"), [("1", True), ("2 3/8", True), ("2 1/2", False), ("40", False)])
def test_a_strip_set_shorter_than_its_piece_is_planned_as_long_as_that(length: str, said: bool) -> None:
    """A piece of 2 in finished is cut 2 1/2 in."""
    strips = [{"width": "1", "fabric": cloth} for cloth in ("frost", "soil")]
    found = check({"unit": "strip set", "strips": strips, "cut_into": "2", "length": length})
    looks = [w for w in found.warnings if w.pointer == "/top/length"]
    assert bool(looks) is said
    assert all("is cut 2 1/2 in" in look.detail and look.right for look in looks)


def test_a_patch_too_small_to_measure_is_not_said_to_be_nothing() -> None:
    [look] = check(patch("1/1000", "1/100")).warnings
    assert "less than 1/64 in by less than 1/64 in finished" in look.detail
