"""Whatever the studio does in whatever order: a stranger sees what is out, and never anything else.

A model beside the service knows of each project its date and the newest bytes of its bundle. The studio's
zone is Kiritimati, fourteen hours ahead of UTC all year (IANA time zone database), so the model reckons the
day by adding fourteen hours.
"""

import tempfile
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, invariant, rule

from service.settings import Settings
from tests.api.conftest import make_studio
from tests.conftest import StillClock

AHEAD = timedelta(hours=14)
DAYS = st.integers(-3, 6)


class Embargo(RuleBasedStateMachine):
    """The studio at work, and a stranger who tries every address after each of its moves."""

    projects = Bundle("projects")

    def __init__(self):
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        own = Settings.for_folder(Path(self.folder.name))
        self.studio = make_studio(replace(own, timezone="Pacific/Kiritimati"), StillClock())
        self.dates, self.bundles, self.files = {}, {}, {}
        self.count = 0

    def teardown(self):
        self.studio.wiring.database.close_idle()
        self.folder.cleanup()

    def day(self, days):
        return (
            None if days == 6 else ((self.studio.clock() + AHEAD).date() + timedelta(days=days)).isoformat()
        )

    @rule(target=projects, days=DAYS)
    def add(self, days):
        self.count += 1
        project = self.studio.add(
            title=f"Mat {self.count}", release=self.day(days), tracks=[{"name": "by hand"}]
        )
        self.dates[project] = self.day(days)
        return project

    @rule(project=projects, days=DAYS)
    def move_date(self, project, days):
        path = f"/api/v1/projects/{project}"
        tag = {"If-Match": self.studio.maker.get(path).headers["ETag"]}
        done = self.studio.maker.patch(path, json={"release": self.day(days)}, headers=tag)
        assert done.status_code == 200
        self.dates[project] = self.day(days)

    @rule(project=projects, public=st.booleans())
    def make(self, project, public):
        self.count += 1
        batch = self.studio.submit(project)
        data = f"PK {project} {self.count}".encode()
        self.studio.finish(self.studio.job(batch, "bundle"), {"bundle-by-hand.zip": data}, public=public)
        [made] = self.studio.maker.get(f"/api/v1/projects/{project}/artifacts").json["artifacts"]
        self.bundles[project] = (data, public)
        self.files[made["id"]] = (project, data, public)

    @rule(hours=st.integers(1, 40))
    def wait(self, hours):
        self.studio.clock.move(hours * 3600)

    def is_out(self, project):
        on, today = self.dates[project], (self.studio.clock() + AHEAD).date().isoformat()
        return on is not None and on <= today

    @invariant()
    def the_list_holds_what_is_out(self):
        listed = self.studio.stranger.get("/api/v1/releases").json["releases"]
        shown = {p["id"]: release["date"] for release in listed for p in release["projects"]}
        assert shown == {p: on for p, on in self.dates.items() if self.is_out(p)}

    @invariant()
    def each_bundle_is_there_when_it_is_out_and_public(self):
        for project, on in self.dates.items():
            if on is None:
                continue
            path = f"/api/v1/releases/{on}/bundles/by-hand?project={project}"
            data, public = self.bundles.get(project, (b"", False))
            answer = self.studio.stranger.get(path)
            if self.is_out(project) and public:
                assert (answer.status_code, answer.data) == (200, data)
            else:
                assert answer.status_code == 404

    @invariant()
    def each_file_is_there_when_it_is_the_newest_out_and_public(self):
        for id_, (project, data, public) in self.files.items():
            answer = self.studio.stranger.get(f"/api/v1/artifacts/{id_}/content")
            newest = self.bundles[project][0] == data
            assert (answer.status_code == 200) == (newest and public and self.is_out(project)), project
            assert self.studio.assistant.get(f"/api/v1/artifacts/{id_}/content").data == data


Embargo.TestCase.settings = settings(
    max_examples=12,
    stateful_step_count=15,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
)
TestEmbargo = Embargo.TestCase
