"""A project's jobs and what they wait for are those of the table in DEVELOPERS.md."""

import re
from itertools import product
from pathlib import Path

import pytest

from service.jobs.plan import KINDS, JobName, UnknownKind, plan_jobs

TABLE = Path(__file__).parents[2] / "DEVELOPERS.md"


def names(plan):
    return {(job.name.kind, job.name.track) for job in plan}


def waits(plan):
    return {(job.name.kind, job.name.track): {(n.kind, n.track) for n in job.waits_for} for job in plan}


def test_the_kinds_are_those_of_the_table():
    """DEVELOPERS.md, "Jobs of a project"."""
    rows = re.findall(r"^\| `([a-z ]+)` \| (project|track)", TABLE.read_text(), re.MULTILINE)
    assert {kind for kind, _ in rows} == set(KINDS)


def test_every_job_of_a_project_with_everything(read, document):
    hoop, hand = "hoop and cutter", "by hand"
    assert names(plan_jobs(read(document))) == {
        ("cutting", None), ("sewing", None), ("colourways", None), ("run sheet", None),
        ("stitches", None), ("cut files", None), ("templates", hand),
        ("handout", hoop), ("handout", hand), ("bundle", hoop), ("bundle", hand),
    }  # fmt: skip


def test_what_the_jobs_wait_for(read, document):
    found = waits(plan_jobs(read(document)))
    project = {("cutting", None), ("sewing", None)}
    hoop = project | {("stitches", None), ("cut files", None)}
    hand = project | {("templates", "by hand")}
    assert found["handout", "hoop and cutter"] == hoop
    assert found["bundle", "hoop and cutter"] == hoop | {("handout", "hoop and cutter")}
    assert found["handout", "by hand"] == hand
    assert found["bundle", "by hand"] == hand | {("handout", "by hand")}
    assert found["run sheet", None] == project
    for kind in ("cutting", "sewing", "colourways", "stitches", "cut files"):
        assert found[kind, None] == set()
    assert found["templates", "by hand"] == set()


def test_without_pieces_nothing_is_stitched_or_cut_by_machine(read, document):
    kinds = {job.name.kind for job in plan_jobs(read(document | {"pieces": []}))}
    assert kinds == set(KINDS) - {"stitches", "cut files"}


HAS = [[], ["hoop 100x100"], ["cutter 12x12"], ["hoop 100x100", "cutter 12x12"]]


@pytest.mark.parametrize(("tracks", "pieces"), list(product(product(HAS, repeat=2), ([], [{}]))))
def test_whatever_the_tracks_have_the_plan_holds_together(read, tracks, pieces):
    """Every job waits only for jobs of the plan that stand before it; each track has its one bundle."""
    document = {"tracks": [{"name": f"t{n}", "has": has} for n, has in enumerate(tracks)], "pieces": pieces}
    plan = plan_jobs(read(document))
    seen = set()
    for job in plan:
        assert set(job.waits_for) <= seen and job.name not in seen
        seen.add(job.name)
    assert [job.name.track for job in plan if job.name.kind == "bundle"] == ["t0", "t1"]
    for number, has in enumerate(tracks):
        uses_templates = JobName("templates", f"t{number}") in seen
        assert uses_templates == (not any("cutter" in tool for tool in has))


def test_a_track_that_draws_round_something_waits_for_its_templates(read, document):
    """Though it has a cutting machine: patches that no ruler cuts, or cloth trimmed in place without a hoop."""
    track = "hoop and cutter"
    found = waits(plan_jobs(read(document | {"traced": [track]})))
    assert found["templates", track] == {("stitches", None)}
    assert ("templates", track) in found["handout", track]
    assert ("templates", track) in found["bundle", track]


def test_asking_for_some_kinds_brings_what_they_wait_for(read, document):
    view = read(document)
    assert names(plan_jobs(view, {"sewing"})) == {("sewing", None)}
    assert names(plan_jobs(view, {"run sheet"})) == {("run sheet", None), ("cutting", None), ("sewing", None)}
    assert plan_jobs(view, KINDS) == plan_jobs(view)
    assert plan_jobs(view, ()) == []


def test_an_unknown_kind_is_answered_with_the_known_ones(read, document):
    with pytest.raises(UnknownKind, match=r"'cutting plan'.*cutting, sewing"):
        plan_jobs(read(document), {"cutting plan"})
