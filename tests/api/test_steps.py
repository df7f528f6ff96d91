"""The steps of a track over HTTP."""

import json


def steps_path(project, track="by hand"):
    return f"/api/v1/projects/{project}/steps?track={track}"


def test_steps_that_are_not_computed_are_begun_once(studio):
    """202 with Retry-After twice, and one small batch of the sewing alone, ahead of everything."""
    project = studio.add()
    for _ in range(2):
        answer = studio.assistant.get(steps_path(project))
        assert answer.status_code == 202
        assert answer.headers["Retry-After"]
    [batch] = studio.maker.get("/api/v1/batches").json["batches"]
    assert answer.json["batch"] == batch["id"]
    jobs = studio.maker.get(f"/api/v1/batches/{batch['id']}").json["jobs"]
    assert [job["kind"] for job in jobs] == ["sewing"]


def computed(studio, project, steps_file):
    batch = studio.assistant.get(steps_path(project)).json["batch"]
    jobs = studio.maker.get(f"/api/v1/batches/{batch}").json
    files = {"steps-by-hand.json": steps_file, "steps-hoop-and-cutter.json": steps_file}
    studio.finish(studio.job(jobs, "sewing"), files)
    return batch


def test_computed_steps_are_shown_with_all_their_fields(studio, steps_file):
    """As they were made, with an empty place for the maker's words, by name or by slug."""
    project = studio.add()
    batch = computed(studio, project, steps_file)
    answer = studio.assistant.get(steps_path(project)).json
    assert answer["computed_from"] == {"batch": batch, "revision": 1}
    made = json.loads(steps_file)["steps"]
    assert answer["steps"] == [{**step, "wording": None} for step in made]
    assert studio.assistant.get(steps_path(project, "by-hand")).json == answer


def test_own_words_stand_beside_and_outlast_a_change(studio, steps_file):
    """Kept through a new revision; flagged where the computed text has changed; given up by null."""
    project = studio.add()
    computed(studio, project, steps_file)
    own = {
        "steps": [
            {"id": "cut-1", "text": "Snip six squares, love."},
            {"id": "sew-1", "text": "Sew the pairs."},
        ]
    }
    put = studio.assistant.put(steps_path(project), json=own)
    assert put.status_code == 200
    first, second = put.json["steps"]
    assert first["wording"] == {
        "text": "Snip six squares, love.", "written_beside": "Cut six squares.", "changed_since": False,
    }  # fmt: skip
    assert second["wording"] is None  # the computed text itself is no wording of one's own
    tag = studio.maker.get(f"/api/v1/projects/{project}").headers["ETag"]
    studio.maker.patch(f"/api/v1/projects/{project}", json={"summary": "s"}, headers={"If-Match": tag})
    changed = json.loads(steps_file)
    changed["steps"][0]["text"] = "Cut eight squares."
    changed["steps"][1]["id"] = "sew-2"
    computed(studio, project, json.dumps(changed).encode())
    now = studio.assistant.get(steps_path(project)).json
    assert now["steps"][0]["wording"]["text"] == "Snip six squares, love."
    assert now["steps"][0]["wording"]["changed_since"] is True
    gone = studio.assistant.put(steps_path(project), json={"steps": [{"id": "cut-1", "text": None}]}).json
    assert gone["steps"][0]["wording"] is None


def test_words_whose_step_is_gone_are_not_lost(studio, steps_file):
    """They are listed apart, and can be taken away."""
    project = studio.add()
    computed(studio, project, steps_file)
    studio.maker.put(steps_path(project), json={"steps": [{"id": "sew-1", "text": "Mine."}]})
    tag = studio.maker.get(f"/api/v1/projects/{project}").headers["ETag"]
    studio.maker.patch(f"/api/v1/projects/{project}", json={"summary": "s"}, headers={"If-Match": tag})
    fewer = json.loads(steps_file)
    fewer["steps"].pop()
    computed(studio, project, json.dumps(fewer).encode())
    left = studio.maker.get(steps_path(project)).json["left_over"]
    assert left == [{"id": "sew-1", "text": "Mine.", "written_beside": "Sew the pairs."}]
    done = studio.maker.put(steps_path(project), json={"steps": [{"id": "sew-1", "text": None}]})
    assert done.json["left_over"] == []


def test_words_for_a_step_there_is_not_are_refused_whole(studio, steps_file):
    """422 with each place, and none of the others is kept."""
    project = studio.add()
    computed(studio, project, steps_file)
    body = {"steps": [{"id": "cut-1", "text": "Mine."}, {"id": "knit-1", "text": "Purl."}]}
    answer = studio.maker.put(steps_path(project), json=body)
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/steps/1/id")
    assert "cut-1" in answer.json["errors"][0]["right"]
    assert studio.maker.get(steps_path(project)).json["steps"][0]["wording"] is None


def test_a_missing_or_unknown_track_lists_the_tracks(studio):
    """422 without one, 404 for one there is not."""
    project = studio.add()
    missing = studio.assistant.get(f"/api/v1/projects/{project}/steps")
    unknown = studio.assistant.get(steps_path(project, "loom"))
    assert (missing.status_code, unknown.status_code) == (422, 404)
    for answer in (missing, unknown):
        assert "hoop and cutter" in answer.json["errors"][0]["right"]
    assert studio.maker.get("/api/v1/batches").json["batches"] == []


def test_words_before_the_steps_are_computed_are_refused(studio):
    """409: there is nothing to stand beside yet."""
    project = studio.add()
    answer = studio.maker.put(steps_path(project), json={"steps": []})
    assert (answer.status_code, answer.json["type"]) == (409, "/api/v1/problems/not-made-yet")


def test_steps_that_cannot_be_computed_say_why(studio):
    """409 with the reason of the failed job and its id, not a wait without end."""
    project = studio.add()
    batch = studio.assistant.get(steps_path(project)).json["batch"]
    job = studio.job(studio.maker.get(f"/api/v1/batches/{batch}").json, "sewing")
    studio.break_job(job)
    answer = studio.assistant.get(steps_path(project))
    assert answer.status_code == 409
    assert "the bean pod is too long" in answer.json["detail"]
    assert job in answer.json["detail"]
    assert answer.json["errors"][0]["pointer"] == "/pieces/0"


def test_the_sewing_of_a_whole_batch_is_used_too(studio, steps_file):
    """No second computing where a batch of the present state has made the steps."""
    project = studio.add()
    batch = studio.submit(project)
    studio.finish(studio.job(batch, "sewing"), {"steps-by-hand.json": steps_file})
    answer = studio.assistant.get(steps_path(project))
    assert answer.status_code == 200
    assert answer.json["computed_from"]["batch"] == batch["id"]
