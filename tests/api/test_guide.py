"""The guide and its examples hold good."""

import json
import re
from pathlib import Path

from api_docs.make_shopping_example import make_example, write_example
from service.api.schemas.shopping import ShoppingSchema

SEED = Path(__file__).parents[2] / "seed_data"
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


def shape(value):
    """The names in a JSON value, without its figures; of a list, those of its first entry."""
    if isinstance(value, dict):
        return {name: shape(inner) for name, inner in value.items()}
    return [shape(inner) for inner in value[:1]] if isinstance(value, list) else type(value) in (int, float)


def test_the_shopping_example_is_a_list_as_it_is_made_today():
    """It has the fields of a list made now from the demo series, fits the schema, and its figures add up."""
    kept = example("shopping.json")
    assert ShoppingSchema().validate(kept) == {}
    assert shape(kept) == shape(json.loads(write_example(make_example(SEED, seconds=0.5))))
    [cloth] = kept["cloths"]
    buys = {way: cloth[way]["buy"]["inches"] for way in ("one_kit", "apart", "by_project", "at_once")}
    assert buys["apart"] == kept["kits"] * buys["one_kit"]
    assert cloth["saved"]["in_all"]["buy"]["inches"] == buys["apart"] - buys["at_once"]
    assert cloth["apart"]["cost"] == buys["apart"] * 12 / 36


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
