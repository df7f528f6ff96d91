"""Two depths of reading: who has done a chapter before reads the same steps in short, with every caution."""

import json
from pathlib import Path

import pytest

from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

MONTHS = sorted(Path("seed_data").glob("*/project.json"))
NEW, DONE, UNSAID = "new to everything", "who has done it before", ""
KEPT = ("id", "chapter", "stage", "size", "if_not", "caution", "tools", "files", "pieces", "picture")
ALIKE = {"seam": "1/64", "cut": "1/128", "habit": "1/256"}
"""However they read, so that the sizes agree."""

SAID = ("text", "why", "terms")


def tell(path, reading):
    """The steps of every track of a month, for viewers of whom `reading` is said."""
    raw = json.loads(path.read_text())
    raw["tracks"] = [{**track, "reading": reading, "accuracy": ALIKE} for track in raw["tracks"]]
    files = make_sewing_plan(JobInput("sewing", raw))
    return {file.name: json.loads(file.data)["steps"] for file in files if file.name.startswith("steps-")}


def count_words(steps):
    """The words of the steps, with those that explain terms."""
    texts = [text for step in steps for text in (step["text"], step["why"])]
    return len(" ".join(texts + [entry["explanation"] for step in steps for entry in step["terms"]]).split())


@pytest.fixture(scope="module", params=MONTHS, ids=[path.parent.name for path in MONTHS])
def depths(request):
    return {reading: tell(request.param, reading) for reading in (NEW, DONE, UNSAID)}


def test_both_depths_are_the_same_steps_with_the_same_checks_cautions_and_drawings(depths):
    for track, steps in depths[NEW].items():
        short = depths[DONE][track]
        assert [[step[key] for key in KEPT] for step in steps] == [
            [step[key] for key in KEPT] for step in short
        ]


def test_who_has_done_it_before_reads_less_and_no_explanations(depths):
    for track, steps in depths[NEW].items():
        short = depths[DONE][track]
        assert count_words(short) < 0.8 * count_words(steps), track
        assert [step["id"] for step in short if step["terms"]] == []
        assert any(step["terms"] for step in steps)
        assert all(long["text"].startswith(brief["text"]) for long, brief in zip(steps, short, strict=True))


def test_a_reason_stays_where_something_can_hurt_or_a_figure_was_worked_out(depths):
    for track, steps in depths[NEW].items():
        pairs = list(zip(steps, depths[DONE][track], strict=True))
        careful = [pair for pair in pairs if "rotary" in pair[0]["caution"].lower() and pair[0]["why"]]
        figures = [pair for pair in pairs if any(letter.isdigit() for letter in pair[0]["why"])]
        assert careful and figures
        assert [long["id"] for long, brief in careful + figures if brief["why"] != long["why"]] == []
        assert any(long["why"] and not brief["why"] for long, brief in pairs)


def test_where_nothing_is_said_of_the_viewers_everything_is_explained(depths):
    for track, steps in depths[NEW].items():
        unsaid = depths[UNSAID][track]
        assert [[step[key] for key in SAID] for step in steps] == [
            [step[key] for key in SAID] for step in unsaid
        ]


def test_a_chapter_that_viewers_are_new_to_explains_words_an_earlier_chapter_used(depths):
    """New to applique: a word of cutting is used before, where it is known, and explained where it is not."""
    path = MONTHS[0]
    for steps in tell(path, "new to applique").values():
        explained = {entry["term"]: step["chapter"] for step in steps for entry in step["terms"]}
        assert set(explained.values()) == {"applique"}
    for steps in tell(path, "new to piecing").values():
        assert {s["chapter"] for s in steps if s["terms"]} == {"cutting", "piecing", "finishing"}
