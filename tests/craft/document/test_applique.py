"""How far pieces are cut beyond their finished shape, and edges that are turned, as a document says it."""

from fractions import Fraction

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults

TOP = {"unit": "patch", "size": ["9", "9"], "fabric": "leaf"}
FABRICS = {"leaf": {}, "fleece": {"cut": "trim in place"}}


def bed(**more):
    return {"title": "Bed", "fabrics": FABRICS, "top": TOP, **more}


def pod(**more):
    return {"name": "pod", "outline": "pod.svg", "fabric": "leaf", "at": [3, 3], "edge": "turned", **more}


def test_the_usual_underlap_and_turning_stand_where_the_document_says_nothing():
    """Common practice, no source: 1/4 in and 3/16 in."""
    usual = read_document(bed()).applique
    assert (usual.underlap, usual.turning) == (Fraction(1, 4), Fraction(3, 16))


def test_both_are_read_in_any_measure_and_no_underlap_may_be_asked_for():
    read = read_document(bed(applique={"underlap": 0, "turning": "5 mm"})).applique
    assert (read.underlap, read.turning) == (0, Fraction(25, 127))


@pytest.mark.parametrize(
    ("applique", "pointers"),
    [
        ({"underlap": "2", "turning": "3"}, ["/applique/underlap", "/applique/turning"]),
        ({"turning": "1/32"}, ["/applique/turning"]),
        ({"turning": "wide"}, ["/applique/turning"]),
        ("1/4", ["/applique"]),
    ],
)
def test_every_fault_in_it_is_found_where_it_stands(applique, pointers):
    with pytest.raises(DocumentFaults) as found:
        read_document(bed(applique=applique))
    assert [fault.pointer for fault in found.value.faults] == pointers


def test_a_piece_may_have_a_turned_edge_and_is_then_not_fused():
    project = read_document(bed(pieces=[pod()]))
    assert project.pieces[0].turned_under
    assert not project.is_fused(project.pieces[0])


def test_cloth_that_is_trimmed_in_place_has_nothing_to_turn():
    with pytest.raises(DocumentFaults) as found:
        read_document(bed(pieces=[pod(fabric="fleece")]))
    assert [fault.pointer for fault in found.value.faults] == ["/pieces/0/edge"]


def test_with_a_cutting_machine_a_card_is_still_drawn_for_a_turned_edge():
    tracks = [{"name": "cutter", "has": ["cutter 12x12"]}]
    turned, raw = (read_document(bed(pieces=[pod(edge=e)], tracks=tracks)) for e in ("turned", "raw"))
    assert turned.needs_templates(turned.tracks[0])
    assert not raw.needs_templates(raw.tracks[0])
