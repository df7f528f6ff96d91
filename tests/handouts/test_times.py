"""How long it takes, and what to look at where a size does not come out, as handouts and run sheet say it."""

import json

import pytest

from service.craft.tracks import Track
from workers.handouts.handout import plan_handout, print_handout
from workers.handouts.inputs import Inputs
from workers.handouts.run_sheet import plan_parts
from workers.handouts.steps import group_steps
from workers.handouts.times import say_sewing, say_time

from .conftest import HAND_TRACK
from .test_handout import read_pages

MINUTES = {"minutes": {"total": {"practised": 104, "beginner": 208}}}


@pytest.mark.parametrize(
    ("reading", "said"),
    [
        ("new to piecing", "about 3 1/2 hours for somebody new to it"),
        ("new to applique", "about 2 hours for somebody practised"),
        ("", "about 2 hours for somebody practised"),
    ],
)
def test_the_time_is_that_of_the_tracks_viewers(reading, said):
    assert said in say_time(MINUTES, Track("by hand", (), reading))


def test_a_plan_without_minutes_says_no_time():
    assert say_time({}, Track("by hand", ())) == ""
    assert (say_sewing({}), say_sewing({"minutes": {"practised": 3, "beginner": 6}})) == ("", "")


def test_the_cover_says_how_long_it_takes(make_job, files):
    """Whatever the plan says: it is only put into words here."""
    plan = json.loads(files["sewing.json"]) | MINUTES
    job = make_job("handout", HAND_TRACK, inputs={**files, "sewing.json": json.dumps(plan).encode()})
    cover = " ".join(read_pages(print_handout(plan_handout(Inputs(job))))[0].split())
    assert say_time(MINUTES, Inputs(job).track).partition(" hours")[0].replace(" 1/2", "") in cover.replace(
        " ½", ""
    )


def test_a_take_says_how_long_all_its_copies_take(make_job, files):
    plan = json.loads(files["sewing.json"])
    for stage in plan["stages"]:
        stage["minutes"] = {"practised": 44, "beginner": 88}
    job = make_job("run sheet", inputs={**files, "sewing.json": json.dumps(plan).encode()})
    takes = [take for part in plan_parts(Inputs(job)) for take in part.takes]
    assert {take.sewing for take in takes if take.size} == {"about 50 minutes"}
    assert {take.sewing for take in takes if not take.picture} == {""}


def test_what_to_look_at_stands_below_the_size(make_job, document):
    project = Inputs(make_job("run sheet")).project
    step = {"id": "a", "chapter": "piecing", "text": "Press.", "if_not": "Smaller? Look at the allowance."}
    (part,) = group_steps([step], project, {"stages": []}, {})
    assert part.chapters[0].stages[0].steps[0].if_not == step["if_not"]
