"""A studio to test: an application with a clock that stands still, a maker, an assistant and a stranger."""

import copy
import io
import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Any

import pytest
from flask import Flask

from service.api.wiring import NAME, Wiring
from service.app import create_app
from service.settings import Settings
from service.storage import batches
from service.storage.batches import StoredFile
from service.storage.models import Job, JobState, Role
from service.studio.keys import add_token, make_secret
from tests.api.contract import Contract, JudgedClient

LEAF = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">'
    b'<path id="leaf" d="M0 20 C10 0 50 0 60 20 C50 40 10 40 0 20 Z"/></svg>'
)

DOCUMENT: dict[str, Any] = {
    "title": "Rhubarb Mat",
    "summary": "A place mat for April.",
    "measure": "in",
    "seam_allowance": "1/4",
    "fabrics": {
        "cream": {"name": "cream weave", "colour": "#f3ead2", "usable_width": "42"},
        "stalk": {"name": "rhubarb red", "colour": "#b23a48", "usable_width": 42},
    },
    "blocks": {
        "pair": {"unit": "half-square triangle", "size": ["3", "3"], "fabrics": ["cream", "stalk"]},
    },
    "top": {"unit": "grid", "rows": [["pair", "pair", "pair"], ["pair", "pair", "pair"]]},
    "pieces": [
        {"name": "leaf", "outline": "leaf.svg#leaf", "fabric": "stalk", "at": ["4 1/2", "3"], "edge": "satin"}
    ],
    "tracks": [
        {"name": "hoop and cutter", "has": ["hoop 130x180", "cutter 12x12"], "reading": "new to piecing"},
        {"name": "by hand", "has": []},
    ],
    "sources": [{"name": "own drawing", "covers": ["leaf.svg"], "rights": "own"}],
    "notes_of_my_own": {"kept": [1, 2.5, "½", None, True]},
}


@dataclass
class Studio:
    """Everything a test needs at hand."""

    app: Flask
    clock: Any
    wiring: Wiring
    maker: JudgedClient
    assistant: JudgedClient
    stranger: JudgedClient

    def document(self, **changes: Any) -> dict[str, Any]:
        """A fresh copy of the usual document, with some fields changed (None takes one away)."""
        made = {**copy.deepcopy(DOCUMENT), **changes}
        return {name: value for name, value in made.items() if value is not None}

    def add(self, **changes: Any) -> str:
        """Store the usual document with its outline; the project's id."""
        answer = self.maker.post("/api/v1/projects", json=self.document(**changes))
        assert answer.status_code == 201, answer.text
        self.upload(answer.json["id"])
        return answer.json["id"]

    def upload(self, project: str, data: bytes = LEAF, name: str = "leaf.svg") -> Any:
        """Upload an outline file."""
        return self.maker.post(
            f"/api/v1/projects/{project}/outlines",
            data={"file": (io.BytesIO(data), name)},
            content_type="multipart/form-data",
        )

    def submit(self, *projects: str, **more: Any) -> dict[str, Any]:
        """Submit a batch; its first answer."""
        answer = self.maker.post("/api/v1/batches", json={"projects": list(projects), **more})
        assert answer.status_code == 202, answer.text
        return answer.json

    def job(self, batch: dict[str, Any], kind: str, track: str | None = None) -> str:
        """The id of one job of a batch."""
        found = [j["id"] for j in batch["jobs"] if j["kind"] == kind and track in (None, j["track"])]
        return found[0]

    def finish(self, job_id: str, files: dict[str, bytes], *, public: bool = True) -> None:
        """Do what a worker does for a job: claim it, store files, complete it. What it waits for is freed first."""
        database, moment = self.wiring.database, self.clock.move(1)
        with database.writing() as session:
            job = session.get_one(Job, job_id)
            if job.state == JobState.HELD:
                job.state, job.waits_for = JobState.PENDING, 0
        stored = []
        for name, data in files.items():
            kept = self.wiring.store.put(data)
            media = {"pdf": "application/pdf", "zip": "application/zip", "json": "application/json"}
            kind = "bundle" if name.endswith(".zip") else "plan"
            suffix = name.rsplit(".", 1)[-1]
            stored.append(
                StoredFile(name, kind, media.get(suffix, "image/svg+xml"), kept.sha256, kept.size, public)
            )
        with database.writing() as session:
            batches.claim(session, job_id, owner="w" * 36, now=moment, lease=timedelta(seconds=30), cap=3)
            batches.complete(
                session, job_id, owner="w" * 36, files=stored, input_key="0" * 64, now=self.clock.move(1)
            )

    def break_job(self, job_id: str) -> None:
        """Let a job fail for good."""
        with self.wiring.database.writing() as session:
            batches.claim(
                session, job_id, owner="w" * 36, now=self.clock.move(1), lease=timedelta(seconds=30), cap=3
            )
            batches.refuse(
                session, job_id, owner="w" * 36, detail="the bean pod is too long", pointer="/pieces/0",
                right="shorten it", now=self.clock.move(1),
            )  # fmt: skip

    def client(self, key: str = "") -> JudgedClient:
        """A client with a key of its own."""
        client = self.app.test_client()
        assert isinstance(client, JudgedClient)
        client.key, client.contract = key, self.maker.contract
        return client


def make_studio(settings: Settings, clock: Any) -> Studio:
    """A studio in which a maker and an assistant have keys."""
    app = create_app(settings, clock=clock)
    app.test_client_class = JudgedClient
    wiring: Wiring = app.extensions[NAME]
    wiring = replace(wiring, sleep=lambda seconds: None)
    app.extensions[NAME] = wiring
    keys = {}
    with wiring.database.writing() as session:
        for role in Role:
            keys[role] = make_secret()
            add_token(session, name=role.value, role=role, secret=keys[role], now=clock())
    contract = Contract(app)
    clients = []
    for key in (keys[Role.MAKER], keys[Role.ASSISTANT], ""):
        client = app.test_client()
        client.key, client.contract = key, contract
        clients.append(client)
    return Studio(app, clock, wiring, *clients)


@pytest.fixture
def studio(settings: Settings, clock: Any) -> Iterator[Studio]:
    """A studio in the test's own folder."""
    made = make_studio(settings, clock)
    yield made
    made.wiring.database.close_idle()


@pytest.fixture
def steps_file() -> bytes:
    """A steps file as the sewing job makes it, with one more field than is promised."""
    steps = [
        {"id": "cut-1", "part": "Piecing", "chapter": "cutting", "stage": "", "text": "Cut six squares.",
         "why": "", "size": None, "caution": "", "tools": [], "files": []},
        {"id": "sew-1", "part": "Piecing", "chapter": "piecing", "stage": "pair", "text": "Sew the pairs.",
         "why": "", "size": None, "caution": "", "tools": [], "files": [], "minutes": 12},
    ]  # fmt: skip
    return json.dumps({"track": "by hand", "steps": steps}).encode()
