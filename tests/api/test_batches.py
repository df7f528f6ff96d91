"""Batches, jobs and events over HTTP."""

import json

import pytest

from tests.api.conftest import LEAF


def test_a_submission_is_answered_at_once_and_can_be_followed(studio):
    """202 with Location and Retry-After; the jobs are there, none begun, and the assistant sees the same."""
    project = studio.add()
    answer = studio.assistant.post("/api/v1/batches", json={"projects": [project]})
    assert answer.status_code == 202
    assert answer.headers["Retry-After"]
    batch = studio.maker.get(answer.headers["Location"])
    assert batch.json["state"] == "pending"
    assert batch.json["fraction_done"] == 0
    assert batch.headers["Retry-After"]
    assert {job["kind"] for job in batch.json["jobs"]} >= {"cutting", "sewing", "handout", "bundle"}
    held = [job for job in batch.json["jobs"] if job["state"] == "held"]
    assert held[0]["reasons"] == ["waits-for-jobs"]
    assert sum(batch.json["counts"].values()) == len(batch.json["jobs"])


def test_a_series_is_submitted_by_release_date(studio):
    """Every project of that date, and no other."""
    series = studio.maker.post("/api/v1/series", json={"title": "Year"}).json["id"]
    wanted = {studio.add(series=series, release="2027-02-22", title=t) for t in ("Peas", "Beans")}
    studio.add(series=series, release="2027-03-22")
    answer = studio.maker.post("/api/v1/batches", json={"series": series, "release": "2027-02-22"})
    assert set(answer.json["projects"]) == wanted
    assert (answer.json["series"], answer.json["release"]) == (series, "2027-02-22")


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ({}, '"projects"'),
        ({"projects": []}, "between 1 and 100"),
        ({"projects": ["nowhere"]}, "no project with the id nowhere"),
        ({"series": "nowhere", "release": "2027-01-20"}, "no series with the id nowhere"),
        ({"series": "x"}, "go together"),
        ({"projects": ["x"], "release": "2027-01-20"}, '"projects"'),
        ({"projects": ["x"], "kinds": ["jam"]}, "no such kind"),
        ({"series": "x", "release": "20.1.2027"}, "is not a date"),
    ],
)
def test_a_submission_that_means_nothing_says_why(studio, body, words):
    """422 with words, and no batch is there afterwards."""
    answer = studio.maker.post("/api/v1/batches", json=body)
    assert answer.status_code == 422
    assert any(words in entry["detail"] for entry in answer.json["errors"]), answer.json
    assert studio.maker.get("/api/v1/batches").json["batches"] == []


def test_a_date_without_projects_lists_the_dates_there_are(studio):
    """So that a slip of the pen is seen."""
    series = studio.maker.post("/api/v1/series", json={"title": "Year"}).json["id"]
    studio.add(series=series, release="2027-02-22")
    answer = studio.maker.post("/api/v1/batches", json={"series": series, "release": "2027-02-21"})
    assert answer.status_code == 422
    assert "2027-02-22" in answer.json["errors"][0]["right"]


def test_a_project_that_is_not_ready_is_refused_as_the_check_says(studio):
    """The same list as `check`, with the project's id; every project's faults in one answer."""
    ready = studio.add()
    bare = [studio.maker.post("/api/v1/projects", json=studio.document(title=t)).json["id"] for t in "AB"]
    answer = studio.maker.post("/api/v1/batches", json={"projects": [ready, *bare]})
    assert answer.status_code == 422
    assert [entry["project"] for entry in answer.json["errors"]] == bare
    check = studio.maker.get(f"/api/v1/projects/{bare[0]}/check").json["faults"]
    assert [{**fault, "project": bare[0]} for fault in check] == answer.json["errors"][:1]


def test_the_same_request_with_the_same_key_is_answered_the_same(studio):
    """Also later, when the batch has moved on and the project is no longer ready; there is one batch."""
    project = studio.add()
    key = {"Idempotency-Key": "january"}
    first = studio.maker.post("/api/v1/batches", json={"projects": [project]}, headers=key)
    studio.finish(studio.job(first.json, "cutting"), {"cutting.json": b"{}"})
    studio.maker.delete(f"/api/v1/projects/{project}/outlines/leaf.svg")
    second = studio.maker.post("/api/v1/batches", json={"projects": [project]}, headers=key)
    assert second.status_code == 202
    assert second.json == first.json
    assert second.headers["Location"] == first.headers["Location"]
    assert len(studio.maker.get("/api/v1/batches").json["batches"]) == 1


def test_a_key_with_another_request_is_refused_and_keys_are_each_callers_own(studio):
    """422 for the same caller; another caller may use the same text."""
    one, two = studio.add(), studio.add(title="Beans")
    key = {"Idempotency-Key": "january"}
    studio.maker.post("/api/v1/batches", json={"projects": [one]}, headers=key)
    again = studio.maker.post("/api/v1/batches", json={"projects": [two]}, headers=key)
    assert (again.status_code, again.json["type"]) == (422, "/api/v1/problems/key-reused")
    other = studio.assistant.post("/api/v1/batches", json={"projects": [two]}, headers=key)
    assert other.status_code == 202
    long = studio.maker.post(
        "/api/v1/batches", json={"projects": [two]}, headers={"Idempotency-Key": "x" * 256}
    )
    assert long.status_code == 400


def test_a_refused_submission_does_not_use_up_its_key(studio):
    """Once the project is mended, the same request with the same key goes through."""
    project = studio.maker.post("/api/v1/projects", json=studio.document()).json["id"]
    send = {"json": {"projects": [project]}, "headers": {"Idempotency-Key": "k"}}
    assert studio.maker.post("/api/v1/batches", **send).status_code == 422
    studio.upload(project)
    assert studio.maker.post("/api/v1/batches", **send).status_code == 202


def test_batches_are_listed_newest_first(studio):
    """With their state in one word."""
    project = studio.add()
    made = []
    for _ in range(3):
        made.append(studio.submit(project)["id"])
        studio.clock.move(1)
    listed = studio.assistant.get("/api/v1/batches?limit=2").json
    assert [card["id"] for card in listed["batches"]] == made[:0:-1]
    rest = studio.assistant.get(f"/api/v1/batches?limit=2&cursor={listed['next']}").json
    assert [card["id"] for card in rest["batches"]] == made[:1]


def test_a_canceled_batch_does_nothing_more(studio):
    """Everything that waited is canceled, and the answer is final: no Retry-After."""
    batch = studio.submit(studio.add())
    answer = studio.assistant.post(f"/api/v1/batches/{batch['id']}/cancel")
    assert answer.status_code == 202
    assert answer.json["state"] == "canceled"
    assert "Retry-After" not in answer.headers
    assert studio.maker.post("/api/v1/batches/nowhere/cancel").status_code == 404


def test_a_failed_job_says_why_and_is_retried(studio):
    """The assistant sees the reason and where, retries it, and what stopped because of it is held again."""
    batch = studio.submit(studio.add())
    job = studio.job(batch, "cutting")
    refused = studio.assistant.post(f"/api/v1/jobs/{job}/retry")
    assert (refused.status_code, "pending" in refused.json["detail"]) == (409, True)
    studio.break_job(job)
    shown = studio.assistant.get(f"/api/v1/jobs/{job}").json
    assert (shown["state"], shown["problem"]["pointer"], shown["problem"]["right"]) == (
        "aborted", "/pieces/0", "shorten it",
    )  # fmt: skip
    whole = studio.assistant.get(f"/api/v1/batches/{batch['id']}").json
    stopped = [j["id"] for j in whole["jobs"] if j["state"] == "stopped"]
    assert stopped
    assert (
        "job it waits for"
        in studio.assistant.post(f"/api/v1/jobs/{stopped[0]}/retry").json["errors"][0]["right"]
    )
    again = studio.assistant.post(shown["links"]["retry"])
    assert (again.status_code, again.json["state"]) == (202, "pending")
    assert again.headers["Retry-After"]
    whole = studio.assistant.get(f"/api/v1/batches/{batch['id']}").json
    assert whole["counts"]["stopped"] == 0
    assert studio.assistant.get("/api/v1/jobs/none").status_code == 404


def test_what_happened_can_be_read_as_a_list(studio):
    """In the order in which it happened, from any number on."""
    batch = studio.submit(studio.add())
    studio.break_job(studio.job(batch, "cutting"))
    path = f"/api/v1/batches/{batch['id']}/events"
    plain = {"Accept": "application/json"}
    all_of_it = studio.assistant.get(path, headers=plain).json
    numbers = [event["id"] for event in all_of_it["events"]]
    assert numbers == list(range(1, len(numbers) + 1))
    assert all_of_it["events"][0]["type"] == "submitted"
    later = studio.assistant.get(f"{path}?after=2", headers=plain).json
    assert later["events"] == all_of_it["events"][2:]
    assert later["last"] == all_of_it["last"]
    assert studio.assistant.get("/api/v1/batches/none/events", headers=plain).status_code == 404


def parse_stream(text):
    """The events in a text/event-stream, by the rules of the HTML standard, section 9.2.6."""
    found = []
    for block in text.split("\n\n"):
        fields = dict(line.split(": ", 1) for line in block.split("\n") if line and not line.startswith(":"))
        if "data" in fields:
            found.append((int(fields["id"]), fields["event"], json.loads(fields["data"])))
    return found


def test_a_stream_of_an_ended_batch_tells_all_and_closes(studio):
    """Each event has its number; Last-Event-ID goes on after it."""
    batch = studio.submit(studio.add())
    studio.maker.post(f"/api/v1/batches/{batch['id']}/cancel")
    path = f"/api/v1/batches/{batch['id']}/events"
    stream = studio.assistant.get(path)
    assert stream.mimetype == "text/event-stream"
    events = parse_stream(stream.text)
    listed = studio.assistant.get(path, headers={"Accept": "application/json"}).json["events"]
    assert [data for _, _, data in events] == listed
    rest = parse_stream(studio.assistant.get(path, headers={"Last-Event-ID": str(events[1][0])}).text)
    assert rest == events[2:]
    assert studio.assistant.get(path, headers={"Last-Event-ID": "two"}).status_code == 400


def test_a_stream_of_a_silent_batch_pings_and_closes_in_the_end(studio):
    """After five minutes, with a comment every fifteen seconds; its place is free again."""
    batch = studio.submit(studio.add())
    text = studio.assistant.get(f"/api/v1/batches/{batch['id']}/events").text
    assert text.count(": still here\n\n") == 20
    assert studio.wiring.streams.enter()


def test_there_are_only_so_many_followers(studio):
    """Half of the threads stay free: the next follower is sent to polling with 503 and Retry-After."""
    batch = studio.submit(studio.add())
    while studio.wiring.streams.enter():
        pass
    answer = studio.assistant.get(f"/api/v1/batches/{batch['id']}/events")
    assert (answer.status_code, answer.headers["Retry-After"]) == (503, "5")
    studio.wiring.streams.leave()
    open_stream = studio.assistant.get(f"/api/v1/batches/{batch['id']}/events", buffered=False)
    assert not studio.wiring.streams.enter()
    open_stream.close()
    assert studio.wiring.streams.enter()


def test_a_batch_keeps_what_it_was_given(studio):
    """A change of the project after submission does not reach it: the snapshot has the old revision."""
    project = studio.add()
    studio.submit(project)
    studio.upload(project, LEAF.replace(b"60mm", b"50mm"))
    tag = studio.maker.get(f"/api/v1/projects/{project}").headers["ETag"]
    assert (
        studio.maker.patch(
            f"/api/v1/projects/{project}", json={"summary": "new"}, headers={"If-Match": tag}
        ).status_code
        == 200
    )
