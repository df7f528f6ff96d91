"""Counting shared blocks once gives what walking through the whole top gives."""

from __future__ import annotations

from collections import Counter

from service.craft.document import read_document
from service.craft.units.counting import count_units

from .conftest import document, patch


def test_times_agree_with_a_walk_through_every_unit(runner):
    top = read_document(runner).top
    walked = Counter(u.pointer for u in top.walk())
    counted = Counter()
    for use in count_units(top):
        counted[use.unit.pointer] += use.times
    assert counted == walked


def test_blocks_in_blocks_multiply():
    blocks = {"bed": {"unit": "grid", "rows": [[patch("1", "1", "leaf")] * 3] * 3}}
    for name, inside in (("plot", "bed"), ("garden", "plot")):
        blocks[name] = {"unit": "grid", "rows": [[inside] * 4] * 4}
    top = read_document(document("garden", blocks=blocks)).top
    patches = [u for u in count_units(top) if u.unit.kind == "patch"]
    assert sum(u.times for u in patches) == 9 * 16 * 16
    assert {u.block for u in patches} == {"bed"}


def test_a_quarter_turn_lays_a_unit_on_its_side_and_two_set_it_up_again():
    leaf = patch("2", "1", "leaf")
    turned = {"unit": "turned", "turn": 90, "inside": leaf}
    twice = {"unit": "turned", "turn": 270, "inside": turned}
    half = {"unit": "turned", "turn": 180, "inside": leaf}
    sideways = [
        [u.sideways for u in count_units(read_document(document(top)).top) if u.unit.kind == "patch"]
        for top in (leaf, turned, twice, half)
    ]
    assert sideways == [[False], [True], [False], [False]]
