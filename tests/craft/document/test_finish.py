"""How a top is finished, as a document says it: what may be left out, and what goes together."""

from __future__ import annotations

from copy import deepcopy
from fractions import Fraction

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.scaling import scale_document

BED = {
    "title": "Leek bed",
    "fabrics": {"leaf": {"directional": True}, "soil": {}},
    "top": {"unit": "patch", "size": ["30", "20"], "fabric": "soil"},
}


def finish(**parts):
    return read_document(deepcopy(BED) | {"finish": parts}).finish


def test_a_binding_is_straight_double_joined_on_the_diagonal_and_twelve_inches_longer_unless_it_says_otherwise():
    binding = finish(binding={"fabric": "soil"}).binding
    assert (binding.cut, binding.fold, binding.join, binding.extra) == ("straight", "double", "diagonal", 12)
    assert (binding.strip, binding.finished) == (Fraction(9, 4), None)
    assert binding.allowance(Fraction(1, 4)) == Fraction(1, 4)


def test_a_single_fold_is_sewn_on_a_quarter_of_its_strip_from_the_edge():
    binding = finish(binding={"fabric": "soil", "fold": "single"}).binding
    assert (binding.strip, binding.allowance(Fraction(1, 4))) == (2, Fraction(1, 2))


def test_a_sleeve_is_four_inches_deep_unless_it_says_otherwise():
    assert finish(sleeve={"fabric": "soil"}).sleeve.depth == 4
    assert finish(sleeve={"fabric": "soil", "depth": "3"}).sleeve.depth == 3
    assert finish().sleeve is None


def test_a_quilt_too_narrow_for_a_sleeve_is_told_so():
    narrow = BED | {"top": {"unit": "patch", "size": ["5", "20"], "fabric": "soil"}}
    with pytest.raises(DocumentFaults) as found:
        read_document(narrow | {"finish": {"sleeve": {"fabric": "soil"}}})
    [fault] = found.value.faults
    assert (fault.pointer, fault.right) == ("/finish/sleeve", "a top at least 6 in wide, or no sleeve")


def test_a_print_with_a_direction_is_not_laid_on_its_side():
    with pytest.raises(DocumentFaults) as found:
        finish(backing={"fabric": "leaf", "seams": "across the width"})
    [fault] = found.value.faults
    assert fault.pointer == "/finish/backing/seams" and "along the length" in fault.right
    assert finish(backing={"fabric": "soil", "seams": "across the width"}).backing.seams == "across the width"


def test_cloth_with_a_pile_is_not_laid_on_its_side_either():
    fluffy = BED | {"fabrics": {"leaf": {"napped": True}, "soil": {}}}
    with pytest.raises(DocumentFaults) as found:
        read_document(fluffy | {"finish": {"backing": {"fabric": "leaf", "seams": "across the width"}}})
    [fault] = found.value.faults
    assert 'the pile of "leaf" has a direction' in fault.detail


def test_what_finishes_a_top_keeps_its_lengths_when_the_top_is_scaled():
    parts = {
        "binding": {"fabric": "soil", "finished": "3/8", "extra": "10"},
        "sleeve": {"fabric": "soil", "depth": "4"},
    }
    scaled = scale_document(deepcopy(BED) | {"finish": deepcopy(parts)}, Fraction(2))
    assert scaled.document["finish"] == parts
    assert scaled.document["top"]["size"] == ["60", "40"]
    assert "the depth of a sleeve" in scaled.notes[0]
