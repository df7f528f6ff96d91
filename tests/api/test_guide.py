"""The guide and its examples hold good."""

import json
import re
from pathlib import Path

DOCS = Path(__file__).parents[2] / "api_docs"


def example(name):
    return json.loads((DOCS / "examples" / name).read_text(encoding="utf-8"))


def test_the_examples_are_accepted(studio):
    """The project with its drawing is ready for a batch without a warning; series and material are kept."""
    project = studio.maker.post("/api/v1/projects", json=example("leek-mat.json"))
    assert project.status_code == 201, project.text
    drawing = (DOCS / "examples" / "leek.svg").read_bytes()
    assert studio.upload(project.json["id"], drawing, "leek.svg").status_code == 201
    check = studio.maker.get(f"/api/v1/projects/{project.json['id']}/check").json
    assert check == {"ready": True, "faults": [], "warnings": []}
    assert studio.maker.post("/api/v1/series", json=example("series.json")).status_code == 201
    assert studio.maker.post("/api/v1/materials", json=example("material.json")).status_code == 201


def test_every_address_in_the_guide_is_a_route(studio):
    """Each `$URL/…` of the shell examples leads to a route, with the method it is called by."""
    text = (DOCS / "guide.md").read_text(encoding="utf-8")
    calls = [line for line in text.splitlines() if line.startswith("curl")]
    assert len(calls) >= 15
    adapter = studio.app.url_map.bind("localhost")
    for call in calls:
        path = re.sub(r"\$[A-Z]+", "x", re.search(r"\$URL(/[^\s\"?]*)", call)[1])
        explicit = re.search(r"-X (\w+)", call)
        method = explicit[1] if explicit else "POST" if " -d " in call or " -F " in call else "GET"
        adapter.match(f"/api/v1{path}", method=method)


def test_every_file_the_guide_links_is_there():
    """Links of the guide lead somewhere."""
    text = (DOCS / "guide.md").read_text(encoding="utf-8")
    linked = re.findall(r"\]\(([^)]+)\)", text) + re.findall(r"@(examples/\S+\.\w+)", text)
    assert len(linked) >= 4
    for link in linked:
        assert (DOCS / link).exists(), link
