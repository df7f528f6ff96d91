"""A maker's tips: kept through later batches, flagged where their step changed or went, of one track or of all."""

import json

import pytest
from sqlalchemy import select

from service.storage.models import Snapshot

STEPS = [
    {"id": "cut-1", "text": "Cut six squares."},
    {"id": "sew-1", "text": "Sew the pairs."},
]


@pytest.fixture
def steps_file():
    return json.dumps({"track": "by hand", "steps": STEPS}).encode()


def steps_path(project, track="by hand"):
    return f"/api/v1/projects/{project}/steps?track={track}"


def computed(studio, project, steps_file):
    """The steps of both tracks, made as a sewing job would."""
    batch = studio.assistant.get(steps_path(project)).json["batch"]
    jobs = studio.maker.get(f"/api/v1/batches/{batch}").json
    files = {"steps-by-hand.json": steps_file, "steps-hoop-and-cutter.json": steps_file}
    studio.finish(studio.job(jobs, "sewing"), files)


def again(studio, project, steps_file, change):
    """The project after an edit, with its steps computed anew."""
    tag = studio.maker.get(f"/api/v1/projects/{project}").headers["ETag"]
    studio.maker.patch(f"/api/v1/projects/{project}", json={"summary": "s"}, headers={"If-Match": tag})
    made = json.loads(steps_file)
    change(made["steps"])
    computed(studio, project, json.dumps(made).encode())
    return studio.assistant.get(steps_path(project)).json["tips"]


def test_a_tip_is_kept_and_flagged_where_its_step_changed_or_went(studio, steps_file):
    """First as written, then changed under it, then gone, then taken away by null though its step is gone."""
    project = studio.add()
    computed(studio, project, steps_file)
    tip = {"step": "cut-1", "place": "before", "text": "Sharpen the blade."}
    put = studio.assistant.put(steps_path(project), json={"tips": [tip]})
    assert put.status_code == 200, put.text
    kept = {**tip, "every_track": False, "written_beside": "Cut six squares."}
    assert put.json["tips"] == [{**kept, "changed_since": False, "gone": False}]
    changed = again(studio, project, steps_file, lambda steps: steps[0].update(text="Cut eight squares."))
    assert changed == [{**kept, "changed_since": True, "gone": False}]
    gone = again(studio, project, steps_file, lambda steps: steps.pop(0))
    assert gone == [{**kept, "changed_since": False, "gone": True}]
    away = studio.assistant.put(steps_path(project), json={"tips": [{**tip, "text": None}]})
    assert away.json["tips"] == []


def test_a_tip_for_every_track_is_seen_in_all_and_one_for_a_track_in_that_alone(studio, steps_file):
    project = studio.add()
    computed(studio, project, steps_file)
    tips = [
        {"step": "cut-1", "text": "For everybody.", "every_track": True},
        {"step": "cut-1", "text": "By hand."},
    ]
    studio.maker.put(steps_path(project), json={"tips": tips})
    seen = {
        track: [tip["text"] for tip in studio.maker.get(steps_path(project, track)).json["tips"]]
        for track in ("by-hand", "hoop-and-cutter")
    }
    assert seen == {"by-hand": ["For everybody.", "By hand."], "hoop-and-cutter": ["For everybody."]}


def test_a_tip_for_a_step_there_is_not_is_refused_with_everything_sent_beside_it(studio, steps_file):
    """422 with its place; the own words in the same request are not kept either."""
    project = studio.add()
    computed(studio, project, steps_file)
    body = {"steps": [{"id": "cut-1", "text": "Mine."}], "tips": [{"step": "knit-1", "text": "Purl."}]}
    answer = studio.maker.put(steps_path(project), json=body)
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/tips/0/step")
    kept = studio.maker.get(steps_path(project)).json
    assert (kept["steps"][0]["wording"], kept["tips"]) == (None, [])


def test_tips_reach_the_next_batch(studio, steps_file):
    """The snapshot that the handout is made from has them."""
    project = studio.add()
    computed(studio, project, steps_file)
    studio.maker.put(steps_path(project), json={"tips": [{"step": "cut-1", "text": "Mind the cat."}]})
    batch = studio.submit(project)
    with studio.wiring.database.reading() as session:
        kept = session.scalar(select(Snapshot.tips).where(Snapshot.batch_id == batch["id"]))
    assert kept == [{"track": "by hand", "step": "cut-1", "place": "after", "text": "Mind the cat."}]
