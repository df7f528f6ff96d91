"""Whatever is sent, the answer is a project or a list of faults, and it comes soon."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults

from .conftest import faults_of, place, whole

VALUES: list[Any] = [
    None, True, False, 0, -1, 1, 3.5, -0.0, 1e308, -1e308, 10**400, float("inf"), float("nan"), "", " ",
    "bed", "frost", "3 1/2", "1/0",
    "x" * 30_000, "\ud800", "a\x00b", "𝟛", [], [[]], [None], ["bed"], ["frost", "frost"], [1, 2], [["bed"]], {},
    {"": None},
    {"unit": "patch"},
    {"unit": []}, {"unit": {"unit": "grid"}}, {"frost": None}, {"a/b~c": {}},
]  # fmt: skip


def pointers(raw: Any, pointer: str = "") -> Iterator[str]:
    """A pointer to every value in a document."""
    items = raw.items() if isinstance(raw, dict) else enumerate(raw) if isinstance(raw, list) else ()
    for key, value in items:
        yield f"{pointer}/{key}"
        yield from pointers(value, f"{pointer}/{key}")


def answer(raw: Any) -> None:
    """Reads it, walks a project through, writes faults as JSON; anything else that is raised fails the test."""
    try:
        project = read_document(raw)
    except DocumentFaults as found:
        assert found.faults
        for fault in found.faults:
            assert fault.detail
            json.dumps(fault.to_json(), ensure_ascii=False).encode()
            assert len(fault.detail) < 1000 and len(fault.right) < 5000
    else:
        assert isinstance(project, Project)
        for unit in project.top.walk():
            unit.needs(project.rules)


@pytest.mark.parametrize("pointer", list(pointers(whole())))
def test_every_json_value_in_every_field_gives_a_project_or_faults(pointer, garden):
    for value in VALUES:
        answer(place(garden, pointer, value))


@pytest.mark.parametrize("value", VALUES, ids=range(len(VALUES)))
def test_a_document_that_is_no_document_gives_faults(value):
    with pytest.raises(DocumentFaults):
        read_document(value)


@pytest.mark.parametrize("pointer", [p for p in pointers(whole()) if not p.rsplit("/", 1)[1].isdigit()])
def test_every_field_may_be_missing(pointer, garden):
    *steps, last = pointer.split("/")[1:]
    inside: Any = garden
    for step in steps:
        inside = inside[int(step)] if isinstance(inside, list) else inside[step]
    del inside[last]
    answer(garden)


json_values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=8)
    | st.sampled_from(["bed", "frost", "patch", "grid", "3"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["unit", "rows", "size", "fabric", "inside", "top", "fabrics", "x"]),
            inner,
            max_size=3,
        )
    ),
    max_leaves=12,
)
all_pointers = st.sampled_from(list(pointers(whole())))


@settings(deadline=None, max_examples=300, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.tuples(all_pointers, json_values), min_size=1, max_size=3))
def test_random_values_in_random_places(changes):
    raw = whole()
    for pointer, value in changes:
        try:
            raw = place(raw, pointer, value)
        except (KeyError, IndexError, TypeError, ValueError):
            continue  # an earlier change took the place away
    answer(raw)


@settings(deadline=None, max_examples=200)
@given(json_values)
def test_random_documents(raw):
    answer(raw)


PATCH = {"unit": "patch", "size": ["1", "1"], "fabric": "frost"}


def least(top: Any, blocks: dict[str, Any] | None = None) -> dict[str, Any]:
    return {"title": "x", "fabrics": {"frost": {}}, "blocks": blocks or {}, "top": top}


def nested(depth: int) -> Any:
    unit: Any = PATCH
    for _ in range(depth):
        unit = {"unit": "mirrored", "inside": unit}
    return unit


def test_units_may_lie_forty_deep_and_no_deeper():
    assert faults_of(least(nested(39))) == []
    assert "more than 40 deep" in faults_of(least(nested(40)))[0][1]
    assert "more than 40 deep" in faults_of(least(nested(400)))[0][1]


@pytest.mark.parametrize("backwards", [False, True])
def test_a_chain_of_blocks_is_as_deep_as_its_units(backwards):
    """Each block is read once; a thousand of them, each inside the next, are a thousand deep all the same."""
    blocks: dict[str, Any] = {"0": PATCH}
    for i in range(1, 1000):
        blocks[str(i)] = {"unit": "turned", "turn": 90, "inside": str(i - 1)}
    if backwards:
        blocks = dict(reversed(blocks.items()))
    assert any("deep" in detail for _, detail, _ in faults_of(least("999", blocks)))
    shallow = {name: blocks[name] for name in map(str, range(40))}
    assert faults_of(least("39", shallow)) == []


def test_blocks_that_double_and_double_are_refused_before_anything_walks_through():
    blocks: dict[str, Any] = {"0": PATCH}
    for i in range(1, 39):
        blocks[str(i)] = {"unit": "grid", "rows": [[str(i - 1), str(i - 1)]]}
    found = faults_of(least("38", blocks))
    assert "more than 20000 units" in found[0][1]


def test_a_block_inside_itself_by_way_of_thousands():
    blocks = {str(i): {"unit": "mirrored", "inside": str((i + 1) % 30)} for i in range(30)}
    assert any("inside itself" in detail for _, detail, _ in faults_of(least("0", blocks)))


def test_json_nested_as_deep_as_a_reader_takes_it_is_answered():
    for text in ('{"a":' * 900 + "1" + "}" * 900, "[" * 900 + "]" * 900):
        deep = json.loads(text)
        for pointer in (
            "/title",
            "/measure",
            "/top",
            "/pieces/0/turn",
            "/tracks/0/has/0",
            "/parts/0/covers/0",
            "/sources/0/covers/0",
            "/blocks/bed/rows/0/1/turn",
        ):
            answer(place(whole(), pointer, deep))


def test_thousands_of_fields_nobody_knows_are_let_be_quickly():
    raw = least(PATCH) | {f"titel{i}": i for i in range(50_000)}
    answer(raw)


def test_more_pieces_and_cloths_than_one_project_holds_are_refused():
    piece = {"outline": "a.svg", "fabric": "frost", "at": [1, 1]}
    raw = least(PATCH) | {"pieces": [piece | {"name": str(i)} for i in range(2001)]}
    assert [p for p, _, _ in faults_of(raw)] == ["/pieces"]
    raw = least(PATCH) | {"fabrics": {str(i): {} for i in range(501)} | {"frost": {}}}
    assert "/fabrics" in [p for p, _, _ in faults_of(raw)]


def test_two_thousand_pieces_each_above_the_last_are_read():
    pieces = [
        {
            "name": str(i),
            "outline": "a.svg",
            "fabric": "frost",
            "at": [1, 1],
            "above": [str(i - 1)] if i else [],
        }
        for i in range(2000)
    ]
    assert faults_of(least(PATCH) | {"pieces": pieces}) == []
