"""Files and releases over HTTP: what the public gets, and when."""

import hashlib
import io
import zipfile
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from service.storage.models import Beat
from tests.api.conftest import make_studio


def bundle_of(words):
    """A small bundle as a job makes one."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        made.writestr(zipfile.ZipInfo("manifest.json"), f'{{"project": "{words}"}}')
        made.writestr(zipfile.ZipInfo("handout-by-hand.pdf"), words)
    return out.getvalue()


def release(studio, on, **changes):
    """A project with everything made for its track by hand; its id and its bundle's bytes."""
    project = studio.add(release=on, **changes)
    batch = studio.submit(project)
    data = bundle_of(changes.get("title", "Rhubarb Mat"))
    studio.finish(studio.job(batch, "bundle", "by hand"), {"bundle-by-hand.zip": data})
    studio.finish(studio.job(batch, "cutting"), {"cutting.json": b'{"cuts": []}'})
    studio.finish(studio.job(batch, "run sheet"), {"run-sheet.pdf": b"%PDF run"}, public=False)
    return project, data


PATHS = ("/api/v1/releases/2027-01-20", "/api/v1/releases/2027-01-20/bundles/by-hand")


def test_before_its_day_a_release_is_as_if_it_did_not_exist(studio):
    """For the public 404 with the very words of a date without anything; the list is empty; HEAD and ranges too."""
    release(studio, "2027-01-20")
    assert studio.stranger.get("/api/v1/releases").json == {"releases": []}
    for path in PATHS:
        for send in ({}, {"method": "HEAD"}, {"headers": {"Range": "bytes=0-3"}}):
            secret = studio.stranger.open(path, **send)
            nothing = studio.stranger.open(path.replace("2027-01-20", "2027-01-19"), **send)
            assert secret.status_code == nothing.status_code == 404
            assert secret.data == nothing.data.replace(b"2027-01-19", b"2027-01-20")
            assert dict(secret.headers) == {
                **dict(nothing.headers),
                "Content-Length": secret.headers["Content-Length"],
            }
            assert secret.headers["Cache-Control"] == "no-store"
    for path in PATHS:
        for inside in (studio.maker, studio.assistant):
            answer = inside.get(path)
            assert answer.status_code == 200
            assert answer.headers["Cache-Control"].startswith("private")


def test_a_known_tag_does_not_betray_a_release(studio):
    """Who knows the checksum beforehand still gets 404, not 304."""
    _, data = release(studio, "2027-01-20")
    tag = f'"{hashlib.sha256(data).hexdigest()}"'
    assert studio.maker.get(PATHS[1], headers={"If-None-Match": tag}).status_code == 304
    assert studio.stranger.get(PATHS[1], headers={"If-None-Match": tag}).status_code == 404


def test_on_its_day_a_release_is_there_for_everybody(studio):
    """From the first second of the day on, with its bundle byte for byte."""
    project, data = release(studio, "2027-01-20")
    studio.clock.now = datetime(2027, 1, 19, 23, 59, 59, tzinfo=UTC)
    assert studio.stranger.get(PATHS[1]).status_code == 404
    studio.clock.move(1)
    bundle = studio.stranger.get(PATHS[1])
    assert (bundle.status_code, bundle.data) == (200, data)
    assert bundle.headers["ETag"] == f'"{hashlib.sha256(data).hexdigest()}"'
    assert "2027-01-20-by-hand.zip" in bundle.headers["Content-Disposition"]
    assert bundle.headers["Cache-Control"].startswith("public")
    shown = studio.stranger.get(PATHS[0]).json
    assert [p["id"] for p in shown["projects"]] == [project]
    tracks = {track["slug"]: track["ready"] for track in shown["tracks"]}
    assert tracks == {"hoop-and-cutter": False, "by-hand": True}
    assert studio.stranger.get("/api/v1/releases").json["releases"] == [shown]
    assert studio.stranger.get("/api/v1/releases/2027-01-20/bundles/by hand").data == data


@pytest.mark.parametrize(
    ("zone", "out_at"),
    [
        ("Pacific/Auckland", "2027-01-19T11:00:00+00:00"),
        ("America/New_York", "2027-01-20T05:00:00+00:00"),
        ("UTC", "2027-01-20T00:00:00+00:00"),
    ],
)
def test_a_day_begins_where_the_studio_is(settings, clock, zone, out_at):
    """Auckland is 13 hours ahead in January, New York 5 behind (IANA time zone database)."""
    studio = make_studio(replace(settings, timezone=zone), clock)
    release(studio, "2027-01-20")
    studio.clock.now = datetime.fromisoformat(out_at)
    assert studio.stranger.get(PATHS[1]).status_code == 200
    studio.clock.move(-1)
    assert studio.stranger.get(PATHS[1]).status_code == 404
    studio.wiring.database.close_idle()


def test_a_series_may_have_a_time_zone_of_its_own(studio):
    """It goes before the studio's."""
    series = studio.maker.post(
        "/api/v1/series", json={"title": "South", "timezone": "Pacific/Auckland"}
    ).json["id"]
    release(studio, "2027-01-20", series=series)
    studio.clock.now = datetime(2027, 1, 19, 11, 0, tzinfo=UTC)
    assert studio.stranger.get(PATHS[1]).status_code == 200


def test_a_kept_copy_never_outlives_the_embargo(studio):
    """The list may be kept a minute, and towards a release only until it comes."""
    release(studio, "2027-01-20")
    studio.clock.now = datetime(2027, 1, 19, 23, 0, tzinfo=UTC)
    assert studio.stranger.get("/api/v1/releases").headers["Cache-Control"] == "public, max-age=60"
    studio.clock.now = datetime(2027, 1, 19, 23, 59, 48, 500_000, tzinfo=UTC)
    assert studio.stranger.get("/api/v1/releases").headers["Cache-Control"] == "public, max-age=11"
    assert studio.maker.get("/api/v1/releases").headers["Cache-Control"] == "private, no-cache"


def test_public_files_of_a_released_project_are_for_everybody_and_no_others(studio):
    """cutting.json is; the run sheet never; nothing before the day; nothing once the date is taken back."""
    project, _ = release(studio, "2027-01-20")
    files = {
        a["name"]: a for a in studio.assistant.get(f"/api/v1/projects/{project}/artifacts").json["artifacts"]
    }
    cutting, sheet = (f"/api/v1/artifacts/{files[name]['id']}" for name in ("cutting.json", "run-sheet.pdf"))
    for path in (cutting, f"{cutting}/content", sheet, f"{sheet}/content"):
        assert studio.stranger.get(path).status_code == 404
        assert studio.assistant.get(path).status_code == 200
    studio.clock.now = datetime(2027, 1, 20, 8, 0, tzinfo=UTC)
    assert studio.stranger.get(f"{cutting}/content").data == b'{"cuts": []}'
    assert studio.stranger.get(cutting).json["sha256"] == files["cutting.json"]["sha256"]
    assert studio.stranger.get(f"{sheet}/content").status_code == 404
    tag = studio.maker.get(f"/api/v1/projects/{project}").headers["ETag"]
    studio.maker.patch(f"/api/v1/projects/{project}", json={"release": None}, headers={"If-Match": tag})
    assert studio.stranger.get(f"{cutting}/content").status_code == 404


def test_a_file_of_an_earlier_batch_is_nothing_for_the_public(studio):
    """What it holds may have been taken back since; the studio still has it."""
    project, _ = release(studio, "2027-01-04")
    old = studio.maker.get(f"/api/v1/projects/{project}/artifacts").json["artifacts"]
    [old] = [a["id"] for a in old if a["name"] == "cutting.json"]
    assert studio.stranger.get(f"/api/v1/artifacts/{old}/content").status_code == 200
    batch = studio.submit(project)
    studio.finish(studio.job(batch, "cutting"), {"cutting.json": b"{}"})
    assert studio.stranger.get(f"/api/v1/artifacts/{old}/content").status_code == 404
    assert studio.maker.get(f"/api/v1/artifacts/{old}/content").status_code == 200


def test_a_file_can_be_fetched_in_parts(studio):
    """RFC 9110 section 14: first, last, open and impossible ranges; If-Range; HEAD has the whole length."""
    project, _ = release(studio, "2027-01-20")
    [file] = [
        a for a in studio.maker.get(f"/api/v1/projects/{project}/artifacts").json["artifacts"]
        if a["name"] == "cutting.json"
    ]  # fmt: skip
    path, data = f"/api/v1/artifacts/{file['id']}/content", b'{"cuts": []}'
    part = studio.maker.get(path, headers={"Range": "bytes=2-5"})
    assert (part.status_code, part.data, part.headers["Content-Range"]) == (206, data[2:6], "bytes 2-5/12")
    assert studio.maker.get(path, headers={"Range": "bytes=-4"}).data == data[-4:]
    assert studio.maker.get(path, headers={"Range": "bytes=9-"}).data == data[9:]
    past = studio.maker.get(path, headers={"Range": "bytes=12-"})
    assert (past.status_code, past.headers["Content-Range"]) == (416, "bytes */12")
    tag = part.headers["ETag"]
    assert tag == f'"{file["sha256"]}"'
    assert studio.maker.get(path, headers={"Range": "bytes=0-1", "If-Range": tag}).status_code == 206
    assert studio.maker.get(path, headers={"Range": "bytes=0-1", "If-Range": '"old"'}).data == data
    head = studio.maker.open(path, method="HEAD", headers={"Range": "bytes=0-1"})
    assert (head.status_code, head.headers["Content-Length"], head.data) == (200, "12", b"")
    assert studio.maker.get(path, headers={"If-None-Match": tag}).status_code == 304


def test_a_file_is_never_opened_as_a_page_of_ours(studio):
    """Attachment with its name, nosniff, sandbox, kept by the studio's own browser alone."""
    project = studio.add()
    batch = studio.submit(project)
    studio.finish(studio.job(batch, "colourways"), {"colourways.svg": b"<svg/>"})
    [file] = studio.maker.get(f"/api/v1/projects/{project}/artifacts").json["artifacts"]
    headers = studio.maker.get(f"/api/v1/artifacts/{file['id']}/content").headers
    assert headers["Content-Disposition"] == "attachment; filename=colourways.svg"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Content-Security-Policy"].startswith("sandbox")
    assert headers["Cache-Control"] == "private, max-age=31536000, immutable"


def test_two_projects_on_one_day_come_in_folders_of_their_own(studio):
    """One zip with both, the same bytes each time; each alone with ?project=; both are listed."""
    first, one = release(studio, "2027-01-20", title="Peas & Beans")
    second, two = release(studio, "2027-01-20", title="Beans")
    joined = studio.maker.get(PATHS[1])
    names = zipfile.ZipFile(io.BytesIO(joined.data)).namelist()
    assert names == [
        "peas-beans/manifest.json", "peas-beans/handout-by-hand.pdf",
        "beans/manifest.json", "beans/handout-by-hand.pdf",
    ]  # fmt: skip
    studio.wiring.bundles.clear()
    assert studio.maker.get(PATHS[1]).data == joined.data
    assert studio.maker.get(f"{PATHS[1]}?project={second}").data == two
    assert studio.maker.get(f"{PATHS[1]}?project={first}").data == one
    [track] = [t for t in studio.maker.get(PATHS[0]).json["tracks"] if t["slug"] == "by-hand"]
    assert [b["title"] for b in track["bundles"]] == ["Peas & Beans", "Beans"]
    studio.clock.now = datetime(2027, 1, 21, tzinfo=UTC)
    assert studio.stranger.get(PATHS[1]).data == joined.data


def test_a_bundle_that_is_not_made_says_so_to_the_studio_alone(studio):
    """409 in words for the studio; 404 for the public, also on the day."""
    studio.add(release="2027-01-04")
    path = "/api/v1/releases/2027-01-04/bundles/by-hand"
    answer = studio.assistant.get(path)
    assert answer.status_code == 409
    assert "Rhubarb Mat" in answer.json["detail"]
    assert studio.stranger.get(path).status_code == 404


@pytest.mark.parametrize("on", ["2027-13-01", "20-01-2027", "today", "20270120", "2027-1-20"])
def test_a_bad_date_is_refused_in_words(studio, on):
    """422 and what would be right."""
    for path in (f"/api/v1/releases/{on}", f"/api/v1/releases/{on}/bundles/by-hand"):
        answer = studio.stranger.get(path)
        assert answer.status_code == 422
        assert "2027-01-20" in answer.json["errors"][0]["right"]


def test_an_unknown_track_lists_the_tracks_of_the_day(studio):
    """404 to who may know of the day; who may not is told the same as ever."""
    studio.add(release="2027-01-20")
    answer = studio.maker.get("/api/v1/releases/2027-01-20/bundles/loom")
    assert (answer.status_code, '"by hand"' in answer.json["errors"][0]["right"]) == (404, True)
    assert studio.stranger.get("/api/v1/releases/2027-01-20/bundles/loom").json["errors"] == []


def test_a_file_missing_from_the_store_is_said_so(studio):
    """500 in words, not a trace; and so is one that was cut short on the disk."""
    _, data = release(studio, "2027-01-20")
    place = studio.wiring.store.path(hashlib.sha256(data).hexdigest())
    place.write_bytes(data[:10])
    for _ in range(2):
        answer = studio.maker.get(PATHS[1])
        assert (answer.status_code, "Submit its project again" in answer.json["detail"]) == (500, True)
        place.unlink(missing_ok=True)


def test_readiness_of_the_service_follows_the_dispatcher(studio):
    """503 until a dispatcher was at work, and again when it has been silent."""
    assert studio.stranger.get("/readyz").status_code == 503
    with studio.wiring.database.writing() as session:
        session.add(Beat(name="dispatcher", at=studio.clock()))
    assert studio.stranger.get("/readyz").json == {"status": "ready"}
    studio.clock.move(16)
    assert studio.stranger.get("/readyz").status_code == 503
    assert studio.stranger.get("/healthz").status_code == 200
