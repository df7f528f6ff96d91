"""Whether a step is one action with a picture of it: in every kind of unit, and in the demo series on every track.

Held by structure, not by a list of bad sentences: what a step takes to hand is used at one station, what can hurt in it
belongs to one tool, and no sentence or clause begins with an action of another kind than the first one.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.sewing.steps.stations import STATION_OF

Sewn = Callable[..., SimpleNamespace]
Steps = list[dict[str, Any]]

ACTIONS = {
    "sew": ("sew", "join", "quilt"),
    "press": ("press", "iron", "fuse"),
    "cut": ("cut", "trim"),
    "draw": ("draw", "trace", "mark"),
    "fold": ("fold", "crease"),
    "lay": ("lay",),
    "peel": ("peel",),
    "print": ("print",),
}
"""Kinds of action by the words they begin with."""

KIND_OF = {word: kind for kind, words in ACTIONS.items() for word in words}
CLAUSE = re.compile(rf"(?:^|[.;:] +|, +|\band +|\bthen +)({'|'.join(KIND_OF)})\b", re.IGNORECASE)

MONTHS = sorted(Path("seed_data").glob("*/project.json"))

WHOLE_ROUNDS = re.compile(r"in the same way as")
"""A step that names a round taught before stands for its steps."""


def tell_in_short(raw: dict[str, Any]) -> dict[str, Any]:
    """The document for viewers who have done it all before."""
    tracks = raw.get("tracks") or [{"name": "by hand", "has": []}]
    return {**raw, "tracks": [{**track, "reading": "who has done it before"} for track in tracks]}


def list_kinds(text: str) -> set[str]:
    """The kinds of action that a text orders."""
    return {KIND_OF[word.lower()] for word in CLAUSE.findall(text)}


def find_double(steps: Steps) -> list[str]:
    """Ids of steps that hold more than one action."""
    once = [step for step in steps if not WHOLE_ROUNDS.search(step["text"])]
    stations = {step["id"]: {STATION_OF[t] for t in step["tools"] if t in STATION_OF} for step in once}
    return [
        step["id"]
        for step in once
        if len(stations[step["id"]]) > 1 or len(list_kinds(step["text"].partition("  ")[0])) > 1
    ]


def check_pictures(steps: Steps) -> None:
    """Every step has a drawing that stands alone, with words for who cannot see it."""
    for step in steps:
        picture = step["picture"]
        assert len(picture["alt"]) > 10, step["id"]
        assert picture["svg"].startswith("<svg") and "<path" in picture["svg"], step["id"]
        assert 'role="img"' in picture["svg"]


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("Press the seam, and sew on.", {"press", "sew"}),
        ("Trim each unit to size.", {"cut"}),
        ("Press these two open, then sew the others.", {"press", "sew"}),
        ("Sew both strips on.", {"sew"}),
    ],
)
def test_a_second_action_is_found(text: str, kinds: set[str]) -> None:
    """The check itself can fail."""
    assert list_kinds(text) == kinds


def test_every_step_of_every_unit_is_one_action_with_its_picture(any_top: dict[str, Any], sewn: Sewn) -> None:
    """For somebody who is told nothing more than the step: who is new to it hears how, in further sentences."""
    (steps,) = sewn(tell_in_short(any_top)).steps.values()
    assert find_double(steps) == []
    check_pictures(steps)


@pytest.mark.parametrize("path", MONTHS, ids=[path.parent.name for path in MONTHS])
def test_every_step_of_the_series_is_one_action_with_its_picture(path: Path) -> None:
    """On every track, cutting, applique and finishing as well."""
    for file in make_sewing_plan(JobInput("sewing", tell_in_short(json.loads(path.read_text())))):
        if file.name.startswith("steps-"):
            steps = json.loads(file.data)["steps"]
            assert find_double(steps) == []
            check_pictures(steps)
