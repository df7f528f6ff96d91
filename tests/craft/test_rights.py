"""Who owns an outline is said of every one, and the same forms of its name are understood everywhere."""

import copy

import pytest

from service.craft.document import read_document
from service.craft.drawing import view_top
from service.craft.finish import Source
from service.craft.rights import find_unstated
from tests.handouts.conftest import DOCUMENT, OUTLINES

FORMS = ["can.svg", "can", "can.svg#can", "can#can"]


def read(covers, rights="viewer must own", outline="can.svg#can"):
    document = copy.deepcopy(DOCUMENT)
    document["sources"][1] |= {"covers": covers, "rights": rights}
    document["pieces"][2]["outline"] = outline
    return read_document(document)


@pytest.mark.parametrize("form", FORMS)
def test_a_file_or_a_shape_may_be_named_with_its_ending_or_without(form):
    project = read([form])
    can = project.pieces[2]
    assert not project.may_leave(can)
    # what is drawn agrees with what may leave
    assert [view.name for view in view_top(project, OUTLINES).pieces if view.bring_own] == [can.name]


def test_another_shape_of_the_same_file_is_not_covered():
    assert not Source("a neighbour", ("can.svg#rose",), "viewer must own").covers_outline("can.svg#spout")
    assert Source("a neighbour", ("can.svg#rose",), "viewer must own").covers_outline("can.svg#rose")


def test_an_outline_that_no_source_covers_is_named_once_with_its_place():
    project = read(["cabbage.svg"])
    (fault,) = find_unstated(project.pieces, project.sources)
    assert fault.pointer == "/pieces/2/outline" and '"can.svg"' in fault.detail
    assert '"viewer must own"' in fault.right


@pytest.mark.parametrize("form", FORMS)
def test_what_a_source_covers_in_any_form_is_stated(form):
    project = read([form], rights="own")
    assert not list(find_unstated(project.pieces, project.sources))
