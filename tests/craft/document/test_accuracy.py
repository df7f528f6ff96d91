"""How exactly and how fast a project is sewn, as a document says it."""

from fractions import Fraction

import pytest

from service.craft.accuracy import USUAL
from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.pace import USUAL_PACE
from service.craft.scaling import scale_document

TOP = {"unit": "patch", "size": ["3", "3"], "fabric": "leaf"}


def bed(**more):
    return {"title": "Bed", "fabrics": {"leaf": {}}, "top": TOP, **more}


def test_a_document_may_leave_it_all_out():
    project = read_document(bed())
    assert (project.accuracy, project.pace) == (USUAL, USUAL_PACE)
    assert project.fabrics["leaf"].thickness == Fraction(1, 4) / Fraction("25.4")


def test_every_field_is_read_as_a_length_or_as_seconds():
    given = {"seam": "1/32", "cut": 0, "habit": "0.2 mm", "beyond_points": "3/16", "thread": "0.2 mm"}
    project = read_document(bed(accuracy=given, pace={"cut": 20, "beginner": "1.5"}))
    fifth = Fraction(1, 127)
    accuracy = project.accuracy
    assert (accuracy.seam, accuracy.cut, accuracy.habit) == (Fraction(1, 32), 0, fifth)
    assert (accuracy.beyond_points, accuracy.thread) == (Fraction(3, 16), fifth)
    assert (project.pace.cut, project.pace.press, project.pace.beginner) == (20, 25, Fraction(3, 2))
    assert read_document(bed(fabrics={"leaf": {"thickness": "1 mm"}})).fabrics["leaf"].thickness == 5 * fifth


def test_points_keep_their_allowance_less_what_can_be_seen_unless_the_document_says_otherwise():
    """Two threads of a cloth with 60 to the inch; our own estimate."""
    assert USUAL.least_beyond(Fraction(1, 4)) == Fraction(7, 32)
    assert read_document(bed(accuracy={"beyond_points": "1/8"})).accuracy.least_beyond(
        Fraction(1, 4)
    ) == Fraction(1, 8)


def test_every_fault_is_found_at_once_where_it_stands():
    accuracy = {"seam": "1/2", "cut": -1, "habbit": "1/64", "beyond_points": "3/8", "thread": "thin"}
    pace = {"cut": "soon", "beginner": "1/2", "sewng": 3}
    fabrics = {"leaf": {"thickness": "1"}}
    with pytest.raises(DocumentFaults) as found:
        read_document(bed(accuracy=accuracy, pace=pace, fabrics=fabrics))
    assert {fault.pointer for fault in found.value.faults} == {
        *(
            "/accuracy/seam",
            "/accuracy/cut",
            "/accuracy/habbit",
            "/accuracy/beyond_points",
            "/accuracy/thread",
        ),
        *("/pace/cut", "/pace/beginner", "/pace/sewng", "/fabrics/leaf/thickness"),
    }
    assert all(fault.right for fault in found.value.faults)


@pytest.mark.parametrize("section", ["accuracy", "pace"])
def test_a_section_that_is_no_object_is_a_fault(section):
    with pytest.raises(DocumentFaults) as found:
        read_document(bed(**{section: "1/64"}))
    assert [fault.pointer for fault in found.value.faults] == [f"/{section}"]


def test_errors_and_thickness_do_not_grow_with_the_top():
    raw = bed(accuracy={"seam": "1/32"}, fabrics={"leaf": {"thickness": "0.5 mm"}}, pace={"cut": 10})
    scaled = scale_document(raw, Fraction(2)).document
    assert scaled["top"]["size"] != TOP["size"]
    assert all(scaled[section] == raw[section] for section in ("accuracy", "fabrics", "pace"))
