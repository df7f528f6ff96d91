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
    ("size", "panels"),
    [
        (("39 1/2", "39 1/2"), 0),
        (("39 5/8", "39 5/8"), 2),
        (("60", "3"), 0),
        (("41", "60"), 2),
        (("100", "120"), 3),
    ],
)
def test_a_patch_that_fits_its_cloth_in_no_way_is_pieced_and_its_seam_is_spoken_of(
    size: tuple[str, str], panels: int
) -> None:
    """39 1/2 finished is cut 40; 100 1/2 takes three of 34."""
    found = check(patch(*size))
    assert found.ready
    looks = [look for look in found.warnings if "panels" in look.detail]
    assert len(looks) == (panels > 0)
    for look in looks:
        assert look.pointer == "/top" and f"sewn of {panels} panels" in look.detail
        assert "wide where no seam shall show" in look.right


@pytest.mark.parametrize(
    ("cloth", "ready"),
    [
        ({"usable_width": "1 3/8"}, False),
        ({"usable_width": "1 1/2"}, True),
        ({"usable_width": "1/2"}, False),
        ({"usable_width": "1/8"}, False),
    ],
)
def test_cloth_that_seams_would_eat_up_is_refused_with_the_width_it_takes(
    cloth: dict[str, Any], ready: bool
) -> None:
    """Two allowances of 1/4 in and 1 in to be seen: 1 1/2 in."""
    top = {"unit": "patch", "size": ["8", "8"], "fabric": "frost"}
    raw = {"title": "Bed", "fabrics": {"frost": {"name": "frost white", **cloth}}, "top": top}
    found = check_readiness(read_document(raw), {})
    assert found.ready is ready
    if not ready:
        [fault] = found.faults
        assert fault.pointer == "/top" and "seams would take nearly all of it" in fault.detail
        assert "1 1/2 in of `usable_width` to join it, 8 1/2 in in one piece" in fault.right


def test_what_is_cut_up_or_cut_with_a_template_is_not_pieced() -> None:
    """A square of 50 7/8 in for triangles, and the box of a slanting patch, on 40 in."""
    halves = {"unit": "half-square triangle", "size": ["50", "50"], "fabrics": ["frost", "soil"]}
    faults = check(halves | {"method": "cut triangles"}).faults
    assert faults and all("50 7/8 in" in f.right and "cut up afterwards" in f.detail for f in faults)
    slant = {
        "unit": "polygons",
        "size": ["60", "60"],
        "patches": [
            {"points": [["0", "0"], ["50", "0"], ["45", "60"], ["0", "60"]], "fabric": "frost"},
            {"points": [["50", "0"], ["60", "0"], ["60", "60"], ["45", "60"]], "fabric": "soil"},
        ],
    }
    [fault] = check(slant).faults
    assert "template" in fault.detail and fault.pointer.startswith("/top")


def test_a_print_with_a_right_way_up_is_looked_at_as_it_stands() -> None:
    """50 in across and 30 down fits only on its side; turned a quarter in the top it lies so on the cloth."""
    cloths = {"frost": {"name": "frost white", "usable_width": "40", "directional": True}}
    wide = {"unit": "patch", "size": ["50", "30"], "fabric": "frost"}
    for top, said in ((wide, True), ({"unit": "turned", "turn": 90, "inside": wide}, False)):
        found = check_readiness(read_document({"title": "Bed", "fabrics": cloths, "top": top}), {})
        assert found.ready
        assert any("sewn of 2 panels" in look.detail for look in found.warnings) is said


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
