"""Several people at once: each in a thread of their own, against one database."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from threading import Barrier

from service.storage.models import Batch

PEOPLE = 6


def all_at_once(studio, ask):
    """What each of several clients is answered when all ask in the same moment."""
    start = Barrier(PEOPLE)

    def one(_number):
        client = studio.client(studio.maker.key)
        start.wait()
        return ask(client)

    with ThreadPoolExecutor(PEOPLE) as pool:
        return list(pool.map(one, range(PEOPLE)))


def count_batches(studio):
    with studio.wiring.database.reading() as session:
        return session.query(Batch).count()


def test_one_key_makes_one_batch_however_often_it_is_sent(studio):
    """All get the same answer; one batch is there."""
    project = studio.add()
    send = {"json": {"projects": [project]}, "headers": {"Idempotency-Key": "once"}}
    answers = all_at_once(studio, lambda client: client.post("/api/v1/batches", **send))
    assert {a.status_code for a in answers} == {202}
    assert len({a.json["id"] for a in answers}) == 1
    assert count_batches(studio) == 1


def test_of_several_changes_to_one_state_one_wins(studio):
    """The others are told 412, and the revision has counted one change."""
    project = studio.add()
    path = f"/api/v1/projects/{project}"
    tag = {"If-Match": studio.maker.get(path).headers["ETag"]}
    answers = all_at_once(studio, lambda client: client.patch(path, json={"summary": "mine"}, headers=tag))
    assert sorted(a.status_code for a in answers) == [200] + [412] * (PEOPLE - 1)
    assert studio.maker.get(path).json["revision"] == 2


def test_steps_asked_for_by_many_are_begun_once(studio):
    """One small batch, not one for each who asks."""
    project = studio.add()
    path = f"/api/v1/projects/{project}/steps?track=by%20hand"
    answers = all_at_once(studio, lambda client: client.get(path))
    assert {a.status_code for a in answers} == {202}
    assert len({a.json["batch"] for a in answers}) == 1
    assert count_batches(studio) == 1


def test_one_name_sent_by_many_is_one_file(studio):
    """One 201 and replacements; one outline file is there."""
    project = studio.maker.post("/api/v1/projects", json=studio.document()).json["id"]

    def send(client):
        return replace(studio, maker=client).upload(project)

    answers = all_at_once(studio, send)
    assert sorted(a.status_code for a in answers) == [200] * (PEOPLE - 1) + [201]
    assert len(studio.maker.get(f"/api/v1/projects/{project}/outlines").json["outlines"]) == 1
