"""How wide fusible web is sold, as a document says it."""

from fractions import Fraction

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults

TOP = {"unit": "patch", "size": ["3", "3"], "fabric": "leaf"}


def bed(**more):
    return {"title": "Bed", "fabrics": {"leaf": {}}, "top": TOP, **more}


def test_web_is_17_in_wide_unless_the_document_says_otherwise():
    assert read_document(bed()).web_width == 17
    assert read_document(bed(fusible={"width": "45 cm"})).web_width == Fraction(2250, 127)


@pytest.mark.parametrize(
    ("fusible", "pointer"),
    [({"width": "1"}, "/fusible/width"), ({"widht": "3"}, "/fusible/widht"), ("17", "/fusible")],
)
def test_a_fault_in_it_is_found_where_it_stands(fusible, pointer):
    with pytest.raises(DocumentFaults) as found:
        read_document(bed(fusible=fusible))
    assert [fault.pointer for fault in found.value.faults] == [pointer]
