"""The studio's day over real HTTP: a maker, an assistant, a stranger, a real server and a real worker."""

import hashlib
import io
import json
import signal
import stat
import subprocess
import sys
import time
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
import pytest

from service.processes import die_with_parent
from service.settings import Settings
from tests.api.conftest import DOCUMENT, LEAF
from tests.servers import free_port

pytestmark = [pytest.mark.slow, pytest.mark.timeout(280)]

SECONDS_TO_START = 60
SECONDS_TO_MAKE = 180
OPEN = ("held", "pending", "processing")
# Two days off, so that no midnight in between turns the future into the past.
PAST = (datetime.now(UTC) - timedelta(days=2)).date().isoformat()
FUTURE = (datetime.now(UTC) + timedelta(days=2)).date().isoformat()


@dataclass
class Day:
    """What happened, for the tests to look at."""

    url: str
    data: Path
    maker: httpx.Client
    assistant: httpx.Client
    stranger: httpx.Client
    projects: dict[str, str] = field(default_factory=dict)
    failed: dict[str, Any] = field(default_factory=dict)
    retried: httpx.Response | None = None
    ended: list[dict[str, Any]] = field(default_factory=list)


def client(url: str, key: str = "") -> httpx.Client:
    headers = {"Authorization": f"Bearer {key}"} if key else {}
    return httpx.Client(base_url=url, headers=headers, timeout=60)


def start_service(data: Path) -> tuple[subprocess.Popen, str]:
    """`batchbee serve` in a folder of its own, on a free port, with the moody recipe."""
    port = free_port()
    environ = Settings.for_folder(data).for_children()
    environ |= {"BATCHBEE_RECIPES": "tests.flow.moody_recipes:TABLE", "BATCHBEE_LEASE_SECONDS": "10"}
    command = [sys.executable, "-m", "service.cli", "serve", "--data", str(data), "--port", str(port)]
    data.mkdir(parents=True)
    with (data / "serve.log").open("wb") as out:
        process = subprocess.Popen(command, env=environ, stdout=out, stderr=out, preexec_fn=die_with_parent)
    url = f"http://127.0.0.1:{port}"
    deadline = time.monotonic() + SECONDS_TO_START
    while time.monotonic() < deadline:
        try:
            if httpx.get(f"{url}/readyz").status_code == 200:
                return process, url
        except httpx.HTTPError:
            pass
        assert process.poll() is None, (data / "serve.log").read_text()
        time.sleep(0.2)
    raise AssertionError((data / "serve.log").read_text())


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Day]:
    """One day, lived once: set up, submit, fail, retry, all made."""
    folder = tmp_path_factory.mktemp("day")
    process, url = start_service(folder / "data")
    try:
        key = (folder / "data" / "maker.token").read_text().strip()
        with client(url, key) as maker, client(url) as stranger:
            secret = maker.post("/api/v1/tokens", json={"name": "assistant", "role": "assistant"}).json()[
                "secret"
            ]
            with client(url, secret) as assistant:
                found = Day(url, folder / "data", maker, assistant, stranger)
                live(found, folder / "charged")
                yield found
    finally:
        process.send_signal(signal.SIGTERM)
        process.wait(60)


def live(day: Day, charged: Path) -> None:
    """The maker submits two months; one job fails; the assistant mends it and sees everything through."""
    series = day.maker.post("/api/v1/series", json={"title": "A year in the allotment"}).json()["id"]
    for on, title in ((PAST, "Rhubarb Mat"), (FUTURE, "Bean Mat")):
        document = {**DOCUMENT, "title": title, "series": series, "release": on}
        if on == PAST:
            document["mended_by"] = str(charged)
        project = day.maker.post("/api/v1/projects", json=document).json()["id"]
        sent = day.maker.post(f"/api/v1/projects/{project}/outlines", files={"file": ("leaf.svg", LEAF)})
        assert sent.status_code == 201, sent.text
        day.projects[on] = project
    batches = []
    for on in (PAST, FUTURE):
        submitted = day.maker.post("/api/v1/batches", json={"series": series, "release": on})
        assert submitted.status_code == 202, submitted.text
        batches.append(submitted.headers["Location"])
    first = poll(day.assistant, batches[0])
    failed = [job for job in first["jobs"] if job["state"] == "aborted"]
    assert [job["kind"] for job in failed] == ["run sheet"], [(job["kind"], job["message"]) for job in failed]
    day.failed = failed[0]
    charged.touch()
    day.retried = day.assistant.post(day.failed["links"]["retry"])
    day.ended = [poll(day.assistant, batch) for batch in batches]


def poll(who: httpx.Client, batch: str) -> dict[str, Any]:
    """Ask as often as the service says until nothing more happens by itself."""
    deadline = time.monotonic() + SECONDS_TO_MAKE
    while time.monotonic() < deadline:
        answer = who.get(batch)
        if "Retry-After" not in answer.headers:
            assert answer.json()["state"] not in OPEN
            return answer.json()
        time.sleep(min(1.0, float(answer.headers["Retry-After"])))
    raise AssertionError(who.get(batch).text)


def test_the_first_start_left_a_key_for_the_maker_alone(day):
    """In the data folder, for its owner's eyes."""
    assert stat.S_IMODE((day.data / "maker.token").stat().st_mode) == 0o600


def test_the_assistant_saw_why_a_job_failed_and_retried_it(day):
    """The reason, the place, what would be right; then the whole batch was completed."""
    assert day.failed["kind"] == "run sheet"
    assert day.failed["problem"] == {
        "detail": "the camera is not charged", "pointer": "/mended_by", "right": "charge it, then retry",
    }  # fmt: skip
    assert day.retried is not None
    assert day.retried.status_code == 202
    assert [batch["state"] for batch in day.ended] == ["completed", "completed"]


def test_everything_was_made_for_both_dates(day):
    """Each job once, and a file for every kind that the project needs."""
    for on, batch in zip((PAST, FUTURE), day.ended, strict=True):
        assert {job["state"] for job in batch["jobs"]} == {"completed"}
        names = {a["name"] for a in artifacts(day.maker, day.projects[on])}
        assert {
            "cutting.json", "sewing.json", "colourways.pdf", "run-sheet.pdf", "templates-by-hand.pdf",
            "handout-by-hand.pdf", "handout-hoop-and-cutter.pdf", "bundle-by-hand.zip",
            "bundle-hoop-and-cutter.zip", "stitch-130x180-1.dst", "steps-by-hand.json",
        } <= names  # fmt: skip


def artifacts(who, project):
    return who.get(f"/api/v1/projects/{project}/artifacts").json()["artifacts"]


@pytest.mark.parametrize("on", [PAST, FUTURE])
def test_maker_and_assistant_download_everything_of_a_date(day, on):
    """The same bytes for both, each with the sum that was told; the bundle's manifest agrees with its files."""
    for artifact in artifacts(day.assistant, day.projects[on]):
        data = {
            who.get(f"/api/v1/artifacts/{artifact['id']}/content").content
            for who in (day.maker, day.assistant)
        }
        assert [hashlib.sha256(d).hexdigest() for d in data] == [artifact["sha256"]]
    release = day.assistant.get(f"/api/v1/releases/{on}").json()
    assert len(release["tracks"]) == 2
    for track in release["tracks"]:
        assert track["ready"]
        bundle = day.assistant.get(track["href"])
        assert bundle.status_code == 200
        with zipfile.ZipFile(io.BytesIO(bundle.content)) as whole:
            manifest = json.loads(whole.read("manifest.json"))
            for entry in manifest["files"]:
                assert hashlib.sha256(whole.read(entry["name"])).hexdigest() == entry["sha256"]
            assert set(whole.namelist()) == {"manifest.json", *(entry["name"] for entry in manifest["files"])}
        assert (manifest["release"], manifest["track"]) == (on, track["name"])


def test_a_stranger_gets_what_is_out_and_nothing_else(day):
    """The past date with its bundles; of the future one not a word, and no file by its id."""
    listed = day.stranger.get("/api/v1/releases").json()["releases"]
    assert [release["date"] for release in listed] == [PAST]
    for track in listed[0]["tracks"]:
        assert day.stranger.get(track["href"]).content == day.maker.get(track["href"]).content
    assert day.stranger.get(f"/api/v1/releases/{FUTURE}").status_code == 404
    assert day.stranger.get(f"/api/v1/releases/{FUTURE}/bundles/by-hand").status_code == 404
    for artifact in artifacts(day.maker, day.projects[FUTURE]):
        assert day.stranger.get(f"/api/v1/artifacts/{artifact['id']}/content").status_code == 404
    seen = {
        a["name"] for a in artifacts(day.maker, day.projects[PAST])
        if day.stranger.get(f"/api/v1/artifacts/{a['id']}/content").status_code == 200
    }  # fmt: skip
    assert {"cutting.json", "handout-by-hand.pdf"} <= seen
    assert not seen & {"run-sheet.pdf", "colourways.pdf"}
    for path in ("/api/v1/projects", "/api/v1/batches", f"/api/v1/projects/{day.projects[PAST]}"):
        assert day.stranger.get(path).status_code == 401


def test_a_download_can_be_taken_up_in_the_middle(day):
    """Two ranges of a bundle put together are the bundle; a tag that is still good answers 304."""
    path = f"/api/v1/releases/{PAST}/bundles/by-hand"
    whole = day.stranger.get(path)
    middle = len(whole.content) // 2
    first = day.stranger.get(path, headers={"Range": f"bytes=0-{middle - 1}"})
    rest = day.stranger.get(path, headers={"Range": f"bytes={middle}-", "If-Range": whole.headers["ETag"]})
    assert (first.status_code, rest.status_code) == (206, 206)
    assert first.content + rest.content == whole.content
    assert day.stranger.get(path, headers={"If-None-Match": whole.headers["ETag"]}).status_code == 304


def test_the_stream_tells_the_whole_story(day):
    """From submission over the failure and the retry to the end, numbered without a gap."""
    with day.assistant.stream("GET", day.ended[0]["links"]["events"]) as stream:
        assert stream.headers["Content-Type"].startswith("text/event-stream")
        lines = [line for line in stream.iter_lines() if line]
    numbers = [int(line.removeprefix("id: ")) for line in lines if line.startswith("id: ")]
    kinds = [line.removeprefix("event: ") for line in lines if line.startswith("event: ")]
    assert numbers == list(range(1, len(numbers) + 1))
    assert kinds[0] == "submitted"
    assert "retry" in kinds


def test_the_assistant_words_a_step_and_the_computed_text_stays_beside_it(day):
    """By her own key; the steps come from the batch that was made."""
    path = f"/api/v1/projects/{day.projects[FUTURE]}/steps"
    steps = day.assistant.get(path, params={"track": "by hand"})
    assert steps.status_code == 200
    first = steps.json()["steps"][0]
    own = {"steps": [{"id": first["id"], "text": "Put the kettle on first."}]}
    kept = day.assistant.put(path, params={"track": "by hand"}, json=own).json()["steps"][0]
    assert (kept["text"], kept["wording"]["text"]) == (first["text"], "Put the kettle on first.")
    assert steps.json()["computed_from"]["batch"] == day.ended[1]["id"]


def test_steps_of_a_project_that_was_never_submitted_are_computed_when_asked_for(day):
    """A small job of its own, by the real worker, within the waiting or soon after."""
    document = {**DOCUMENT, "title": "Pea Mat"}
    project = day.maker.post("/api/v1/projects", json=document).json()["id"]
    day.maker.post(f"/api/v1/projects/{project}/outlines", files={"file": ("leaf.svg", LEAF)})
    deadline = time.monotonic() + SECONDS_TO_MAKE
    while time.monotonic() < deadline:
        answer = day.assistant.get(f"/api/v1/projects/{project}/steps", params={"track": "by hand"})
        if answer.status_code != 202:
            break
        assert answer.headers["Retry-After"]
    assert answer.status_code == 200
    assert answer.json()["steps"]
    of_project = [
        b for b in day.assistant.get("/api/v1/batches").json()["batches"] if b["projects"] == [project]
    ]  # fmt: skip
    assert len(of_project) == 1
