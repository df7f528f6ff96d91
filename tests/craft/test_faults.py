"""What a fault says."""

from __future__ import annotations

import pytest

from service.craft.faults import DocumentFaults, Fault, escape_token, show, suggest
from service.craft.plain_text import find_unprintable


@pytest.mark.parametrize(
    ("token", "escaped"), [("a/b", "a~1b"), ("m~n", "m~0n"), ("", ""), ("~1", "~01"), ("c%d", "c%d")]
)
def test_pointer_tokens_are_escaped(token, escaped):
    """Examples of RFC 6901, section 5 and 3."""
    assert escape_token(token) == escaped


def test_the_nearest_word_is_suggested_or_all_of_them():
    assert suggest("frots", ["frost", "leaf"]) == 'did you mean "frost"?'
    assert suggest("zzz", ["frost", "leaf"]) == "one of: frost, leaf"
    assert suggest("zzz", []) == "none is defined yet"


def test_a_suggestion_stays_short_however_many_and_long_the_words():
    words = [f"{i}" * 90 for i in range(10_000)]
    assert len(suggest("x" * 1_000_000, words)) < 2000


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ("leek", '"leek"'), (3, "3"), (3.5, "3.5"), (True, "true"), (None, "nothing"), ([1], "a list"),
        ({}, "an object"),
        (object, "something else"),
    ],
)  # fmt: skip
def test_values_are_shown_in_words(value, shown):
    assert show(value) == shown


def test_numbers_too_long_to_write_are_named_so():
    assert show(10**5000) == show(-(10**5000)) == "a number beyond measure"


def test_long_text_and_deep_lists_are_shown_short():
    deep: list = []
    for _ in range(50_000):
        deep = [deep]
    assert show(deep) == "a list"
    assert len(show("x" * 10_000)) < 90


def test_all_faults_stand_in_the_message():
    faults = DocumentFaults([Fault("/a", "wrong"), Fault("", "missing", "there")])
    assert str(faults) == "/a: wrong; /: missing"
    assert faults.faults[1].to_json() == {"pointer": "", "detail": "missing", "right": "there"}


def test_text_that_cannot_be_stored_is_found_where_it_stands():
    raw = {"a/b": ["fine\n", "x\x00"], "c": {"d": "\ud800"}, "ok": 3}
    assert sorted(f.pointer for f in find_unprintable(raw)) == ["/a~1b/1", "/c/d"]
    assert [f.pointer for f in find_unprintable({"fabrics": {"\udfff": {}}})] == ["/fabrics"]


def test_depth_does_not_matter_for_finding_it():
    deep: list = ["\x01"]
    for _ in range(50_000):
        deep = [deep]
    assert len(list(find_unprintable(deep))) == 1
