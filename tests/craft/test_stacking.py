"""What lies above what, held against the standard library's topological sorter."""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter

from hypothesis import given
from hypothesis import strategies as st

from service.craft.stacking import find_circle, stack

names = st.sampled_from("abcdefgh")
graphs = st.dictionaries(names, st.lists(names, max_size=4), max_size=8)


def known(graph):
    return {name: [o for o in others if o in graph] for name, others in graph.items()}


@given(graphs)
def test_a_circle_is_found_exactly_where_the_standard_library_finds_one(graph):
    try:
        TopologicalSorter(known(graph)).prepare()
    except CycleError:
        circle = find_circle(graph)
        assert circle
        for name, over in zip(circle, circle[1:] + circle[:1], strict=True):
            assert over in graph[name]
    else:
        assert find_circle(graph) == []


@given(graphs)
def test_everything_lies_after_what_it_lies_on(graph):
    order = list(stack(graph))
    assert len(order) == len(set(order))
    for name in order:
        assert all(order.index(o) < order.index(name) for o in known(graph)[name])
    if not find_circle(graph):
        assert sorted(order) == sorted(graph)


@given(st.lists(names, unique=True))
def test_the_given_order_stands_where_nothing_speaks_against_it(order):
    assert list(stack({name: [] for name in order})) == order


def test_a_piece_above_itself_is_a_circle_of_one():
    assert find_circle({"leaf": ["leaf"], "root": []}) == ["leaf"]


def test_what_only_waits_for_a_circle_is_not_named_in_it():
    assert find_circle({"top": ["a"], "a": ["b"], "b": ["a"]}) == ["a", "b"]


def test_a_long_chain_takes_no_longer_than_its_length():
    """20 000 pieces, each above the next: a walk through all for each would be 400 million steps."""
    chain = {str(i): [str(i + 1)] for i in range(20_000)}
    assert list(stack(chain)) == [str(i) for i in reversed(range(20_000))]
    assert find_circle(chain | {"20000": ["0"]})[:2] == ["0", "1"]
