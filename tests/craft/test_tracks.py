"""What a track has, and its name in file names."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.accuracy import Accuracy
from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.tracks import LONGEST_SLUG, Track, parse_equipment, slug


@pytest.mark.parametrize(
    ("text", "kind", "width", "height"),
    [
        ("hoop 130x180", "hoop", "130", "180"),
        ("hoop 13 x 18 cm", "hoop", "130", "180"),
        ("HOOP 130×180 MM", "hoop", "130", "180"),
        ("hoop 5x7", "hoop", "127", "177.8"),
        ("hoop 5x7 in", "hoop", "127", "177.8"),
        ("cutter 12x12", "cutter", "304.8", "304.8"),
        ("cutter 12x24 in", "cutter", "304.8", "609.6"),
        ("cutter 305x610", "cutter", "305", "610"),
        (" hoop  100.5x100 mm ", "hoop", "100.5", "100"),
    ],
)
def test_hoops_and_mats_are_read_in_millimetres_or_inches(text, kind, width, height):
    """1 in = 25.4 mm (1959); without a unit up to 40 means inches, no hoop being 40 mm wide."""
    found = parse_equipment(text)
    assert (found.kind, found.width_mm, found.height_mm) == (kind, Fraction(width), Fraction(height))


@pytest.mark.parametrize(
    "text",
    [
        "", "hoop", "hoop 130", "130x180", "hoop 130x", "hoop 130x180x2", "loom 130x180", "hoop -5x7", "hoop 1/2x7",
        "hoop 5x7 ft", "hoop 5x7\nhoop 5x7", "hoop 9" + "9" * 5000 + "x1",
    ],
)  # fmt: skip
def test_what_is_no_equipment_is_refused_with_an_example(text):
    with pytest.raises(ValueError, match=r"write \"hoop 130x180\""):
        parse_equipment(text)


def test_a_field_without_extent_and_one_as_long_as_a_room_are_refused():
    with pytest.raises(ValueError, match="longer than nothing"):
        parse_equipment("hoop 0x180")
    with pytest.raises(ValueError, match="5 m"):
        parse_equipment("cutter 300x600 in")


def test_the_largest_hoop_and_mat_serve():
    track = Track(
        "both", tuple(map(parse_equipment, ["hoop 100x100", "hoop 130x180", "cutter 12x12", "hoop 90x250"]))
    )
    assert track.hoop is not None and track.hoop.label == "130x180"
    assert track.cutter is not None and track.cutter.label == "305x305"
    assert Track("by hand", ()).hoop is None and Track("by hand", ()).cutter is None


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Hoop & cutter", "hoop-cutter"),
        ("a_-_b", "a-b"),
        ("../../etc", "etc"),
        ("Grünkohl", "grünkohl"),
        ("---", "unnamed"),
        ("畑", "畑"),
    ],
)
def test_names_become_file_names(name, expected):
    assert slug(name) == expected


@given(st.text(max_size=300))
def test_a_slug_is_a_safe_file_name_and_its_own_slug(name):
    found = slug(name)
    assert found and len(found) <= LONGEST_SLUG
    assert not set(found) & set("/\\.\0 _\"'<>:|?*\n")
    assert "--" not in found and found.strip("-") == found


def _tracks(*tracks: dict[str, Any], **document: Any) -> tuple[Track, ...]:
    top = {"unit": "patch", "size": ["3", "3"], "fabric": "soil"}
    fabrics = {"soil": {"name": "soil", "colour": "#5b4636"}}
    return read_document(
        {"title": "Bed", "fabrics": fabrics, "top": top, "tracks": list(tracks), **document}
    ).tracks


def test_somebody_new_to_piecing_works_half_as_exactly() -> None:
    """The factor is our own estimate, no source; others work as the document says."""
    new, used = _tracks(
        {"name": "new", "reading": "new to piecing"}, {"name": "used"}, accuracy={"seam": "1/32"}
    )
    assert used.accuracy == Accuracy(seam=Fraction(1, 32))
    assert new.accuracy == Accuracy(Fraction(1, 16), Fraction(1, 64), Fraction(1, 128))


def test_a_track_may_say_how_exactly_its_viewers_work() -> None:
    """What it leaves out is what holds for its reading."""
    own = {"seam": "1/20", "beyond_points": "1/8"}
    (track,) = _tracks({"name": "own", "reading": "new to piecing", "accuracy": own})
    assert track.accuracy == Accuracy(Fraction(1, 20), Fraction(1, 64), Fraction(1, 128), Fraction(1, 8))


def test_what_is_wrong_in_the_accuracy_of_a_track_is_named_by_its_place() -> None:
    with pytest.raises(DocumentFaults) as refused:
        _tracks({"name": "own", "accuracy": {"seam": "2", "cut": "much", "beyond_points": "1"}})
    assert {fault.pointer for fault in refused.value.faults} == {
        f"/tracks/0/accuracy/{key}" for key in ("seam", "cut", "beyond_points")
    }
