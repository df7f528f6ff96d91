"""Who cannot wait gets the best plan that is at hand, checked like any other."""

from __future__ import annotations

import json
from itertools import count, product

import pytest

from workers.cutting.recipe import make_cutting_plan
from workers.recipe import JobInput

SIDES = [(w, h) for w, h in product((9, 11, 13, 17, 23, 31), (7, 10, 19, 29))]


def top_of_many_sizes():
    """24 sizes of one cloth, in rows of one height each, filled up with another cloth."""
    rows = []
    for height in (7, 10, 19, 29):
        row = [
            {"unit": "patch", "size": [f"{w}/4", f"{height}/4"], "fabric": "leaf"}
            for w, h in SIDES
            if h == height
        ]
        rows.append([{"unit": "grid", "rows": [row]}])
    return {
        "title": "Bean Bed",
        "fabrics": {
            "leaf": {
                "usable_width": "41 1/8",
                "stash": [{"width": "11", "length": "17", "count": 2}, {"width": "8", "length": "30"}],
            },
            "soil": {"usable_width": "40", "sold_as": {"name": "fat quarter"}},
        },
        "cutting": {"stacked": True},
        "top": {
            "unit": "bordered",
            "inside": {"unit": "grid", "rows": [*rows, *rows[:2]]},
            "borders": [{"width": "2", "fabric": "soil"}],
        },
    }


def run_down(step: float):
    """A clock on which every look takes `step` seconds of 30."""
    looks = count()
    return lambda: 30 - step * next(looks)


@pytest.mark.parametrize("step", [0.01, 1.0, 50.0])
def test_a_plan_stands_however_little_time_there_is(step):
    """The recipe checks it; it is no longer than either rule and no shorter than its bound."""
    _, made = make_cutting_plan(JobInput("cutting", top_of_many_sizes(), left=run_down(step)))
    for cloth in json.loads(made.data)["fabrics"]:
        lengths = [cloth[name]["inches"] for name in ("lower_bound", "length", "per_size_rule", "fit_rule")]
        assert lengths[0] <= lengths[1] <= min(lengths[2:])
        assert cloth["proved"] == (lengths[0] == lengths[1])
