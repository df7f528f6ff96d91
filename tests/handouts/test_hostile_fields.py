"""Every text of a document, found by walking it: refused with its place, or free, short, and filled in by the tests
that print hostile words.
"""

import json
import re

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from tests.handouts.conftest import DOCUMENT
from tests.handouts.test_hostile_chain import write_document
from tests.handouts.test_hostile_words import LONG_WORD, MARKUP, RIGHT_TO_LEFT, enrich

FREE = {
    *("/title", "/summary"),
    *("/fabrics/*/name", "/fabrics/*/sold_as/name"),
    *("/pieces/*/name", "/pieces/*/thread/name", "/pieces/*/details/*/thread/name"),
    *("/colourways/*/name", "/colourways/*/fabrics/*/name"),
    *("/tracks/*/name", "/tracks/*/reading", "/parts/*/title"),
    *("/sources/*/name", "/sources/*/credit", "/sources/*/licence"),
}
"""Where any words may stand."""

NAMED_ELSEWHERE = {
    *("/fabrics/*/swatch", "/colourways/*/fabrics/*/swatch"),
    *("/pieces/*/outline", "/pieces/*/details/*/outline", "/sources/*/covers/*"),
}
"""Names of drawings and photographs, sent beside the document: the check names one that is not there."""

LONG = {"/summary", "/tracks/*/reading"}
"""What may be as long as a page."""


def walk(value, pointer=""):
    """Every text in a JSON value with its place."""
    if isinstance(value, str):
        yield pointer, value
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in inside:
        yield from walk(inner, f"{pointer}/{key}")


def generalise(pointer):
    """The place with a star for each entry of a list, and for each cloth and block."""
    named = re.sub(r"(/fabrics|/blocks)/[^/]+", r"\1/*", pointer)
    return re.sub(r"/\d+(?=/|$)", "/*", named)


def put(document, pointer, words):
    *path, last = [int(key) if key.isdigit() else key for key in pointer.split("/")[1:]]
    for key in path:
        document = document[key]
    document[last] = words


def find_faults(document):
    try:
        read_document(document)
    except DocumentFaults as refusal:
        return refusal.faults
    return []


@pytest.fixture(scope="module")
def places():
    """One place of each kind in a document that has every field with words, and the document."""
    document = enrich(json.loads(json.dumps(DOCUMENT)))
    document["fabrics"]["soil"]["swatch"] = "soil.jpg"
    document["colourways"][0]["fabrics"]["frost"]["swatch"] = "dusk.jpg"
    document["pieces"][1]["details"].append({"sew": "running", "outline": "leek.svg#rib"})
    assert find_faults(document) == []
    return document, {generalise(pointer): pointer for pointer, _ in walk(document)}


@pytest.mark.parametrize("words", [MARKUP, LONG_WORD[:100], RIGHT_TO_LEFT], ids=["markup", "long", "rtl"])
def test_each_text_is_free_or_a_fault_at_its_place(places, words):
    document, kinds = places
    taken = set()
    for kind, pointer in kinds.items():
        changed = json.loads(json.dumps(document))
        put(changed, pointer, words)
        faults = find_faults(changed)
        if not faults:
            taken.add(kind)
        elif kind not in FREE:  # a piece's name is spoken of by others, and so is a cloth's
            near = pointer.rsplit("/", 1)[0]
            assert any(fault.pointer.startswith((pointer, near)) for fault in faults), kind
            assert all(len(fault.detail + fault.right) < 1000 for fault in faults), kind
    assert taken - {"/pieces/*/name"} == (FREE | NAMED_ELSEWHERE) - {"/pieces/*/name"}


def test_each_free_text_of_10_000_characters_is_a_fault_at_its_place_but_for_those_that_fill_a_page(places):
    document, kinds = places
    for kind in FREE | NAMED_ELSEWHERE - {"/sources/*/covers/*"}:
        changed = json.loads(json.dumps(document))
        put(changed, kinds[kind], "bean " * 2000)
        pointers = [fault.pointer for fault in find_faults(changed)]
        assert (kinds[kind] in pointers) is (kind not in LONG), kind


def test_every_free_text_is_filled_where_every_job_is_made_of_hostile_words():
    texts = list(walk(write_document()))
    assert {generalise(pointer) for pointer, text in texts if MARKUP[:20] in text} >= FREE
    assert {generalise(pointer) for pointer, text in texts if MARKUP[:20] not in text} & FREE == set()
