"""The maker's own words through batch after batch of a document that changes, with steps that are really computed."""

from __future__ import annotations

from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

HALF = {
    "unit": "half-square triangle",
    "size": ["2", "2"],
    "fabrics": ["frost", "leaf"],
    "method": "two at a time",
}
PLAIN = {"unit": "patch", "size": ["2", "2"], "fabric": "leaf"}
STARRY = {"unit": "grid", "rows": [[HALF, PLAIN, HALF], [PLAIN, HALF, PLAIN]]}
FEWER = {"unit": "grid", "rows": [[HALF, PLAIN], [PLAIN, HALF]]}
NO_TRIANGLE = {"unit": "grid", "rows": [[PLAIN, PLAIN], [PLAIN, PLAIN]]}
FABRICS = {"frost": {"name": "frost"}, "leaf": {"name": "leek green"}}


def steps_path(project):
    return f"/api/v1/projects/{project}/steps?track=by hand"


def sew(studio, project, top):
    """The document with another top, sent in and sewn by the real recipe; what the studio then sees."""
    path = f"/api/v1/projects/{project}"
    tag = studio.maker.get(path).headers["ETag"]
    change = {"top": top, "fabrics": FABRICS, "pieces": [], "blocks": {}, "finish": {}, "colourways": []}
    answer = studio.maker.patch(path, json=change, headers={"If-Match": tag})
    assert answer.status_code == 200, answer.text
    raw = studio.document() | change
    files = {file.name: file.data for file in make_sewing_plan(JobInput("sewing", raw))}
    batch = studio.assistant.get(steps_path(project)).json["batch"]
    studio.finish(studio.job(studio.maker.get(f"/api/v1/batches/{batch}").json, "sewing"), files)
    return studio.assistant.get(steps_path(project)).json


def find(shown, ending):
    return next(step for step in shown["steps"] if step["id"].endswith(ending))


def test_words_stay_through_later_batches_and_are_flagged_where_the_step_changed(studio):
    """Three batches: written, changed under it, gone and listed apart, and back beside its step as it was written."""
    project = studio.add()
    first = sew(studio, project, STARRY)
    pair, trim = find(first, ".pair"), find(first, ".trim")
    own = {pair["id"]: "Pair them up by the window.", trim["id"]: "Trim, and have tea."}
    words = [{"id": step, "text": text} for step, text in own.items()]
    assert studio.assistant.put(steps_path(project), json={"steps": words}).status_code == 200
    second = sew(studio, project, FEWER)
    changed, same = find(second, ".pair"), find(second, ".trim")
    assert changed["text"] != pair["text"]
    assert changed["wording"] == {
        "text": words[0]["text"], "written_beside": pair["text"], "changed_since": True,
    }  # fmt: skip
    assert same["wording"] == {
        "text": words[1]["text"], "written_beside": trim["text"], "changed_since": False,
    }  # fmt: skip
    third = sew(studio, project, NO_TRIANGLE)
    assert {entry["id"]: entry["text"] for entry in third["left_over"]} == own
    assert not any(step["wording"] for step in third["steps"])
    fourth = sew(studio, project, STARRY)
    assert fourth["left_over"] == []
    assert [find(fourth, what)["wording"]["changed_since"] for what in (".pair", ".trim")] == [False, False]
    assert find(fourth, ".pair")["wording"]["text"] == words[0]["text"]
