"""The same API on PostgreSQL: what reads and writes rows is run once through there too."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from tests.api.conftest import make_studio


@pytest.fixture
def shared_studio(settings, clock, new_postgres_url):
    made = make_studio(replace(settings, database_url=new_postgres_url()), clock)
    yield made
    made.wiring.database.close_idle()


def test_a_project_goes_all_the_way_on_postgresql(shared_studio, steps_file):
    """Stored unchanged, changed under its tag, submitted once by key, worded, released, and deleted."""
    studio = shared_studio
    series = studio.maker.post("/api/v1/series", json={"title": "Year"}).json["id"]
    project = studio.add(series=series, release="2027-01-20")
    path = f"/api/v1/projects/{project}"
    got = studio.maker.get(path)
    assert list(got.json)[:3] == ["title", "summary", "measure"]
    assert got.json["notes_of_my_own"] == studio.document()["notes_of_my_own"]
    patch = studio.maker.patch(path, json={"summary": "½"}, headers={"If-Match": got.headers["ETag"]})
    assert patch.json["summary"] == "½"
    assert studio.maker.delete(path, headers={"If-Match": got.headers["ETag"]}).status_code == 412

    send = {"json": {"series": series, "release": "2027-01-20"}, "headers": {"Idempotency-Key": "k"}}
    batch = studio.assistant.post("/api/v1/batches", **send).json
    assert studio.assistant.post("/api/v1/batches", **send).json == batch
    studio.finish(studio.job(batch, "sewing"), {"steps-by-hand.json": steps_file})
    studio.finish(studio.job(batch, "bundle", "by hand"), {"bundle-by-hand.zip": b"PK"})
    own = {"steps": [{"id": "cut-1", "text": "Mine."}]}
    words = studio.assistant.put(f"{path}/steps?track=by-hand", json=own)
    assert words.json["steps"][0]["wording"]["text"] == "Mine."

    bundle = "/api/v1/releases/2027-01-20/bundles/by-hand"
    assert studio.stranger.get(bundle).status_code == 404
    studio.clock.now = datetime(2027, 1, 20, tzinfo=UTC)
    assert studio.stranger.get(bundle).data == b"PK"
    events = studio.assistant.get(
        f"/api/v1/batches/{batch['id']}/events", headers={"Accept": "application/json"}
    )
    assert events.json["events"][0]["type"] == "submitted"
    studio.assistant.post(f"/api/v1/batches/{batch['id']}/cancel")
    assert studio.maker.delete(path, headers={"If-Match": patch.headers["ETag"]}).status_code == 409
    studio.clock.now = datetime(2027, 1, 19, tzinfo=UTC)
    assert studio.maker.delete(path, headers={"If-Match": patch.headers["ETag"]}).status_code == 204
