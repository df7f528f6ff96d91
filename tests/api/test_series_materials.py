"""Series and materials over HTTP."""

import pytest


def test_a_series_is_kept_changed_and_deleted(studio):
    """Create, read, replace, patch, delete, each with its tag; the assistant reads it."""
    made = studio.maker.post("/api/v1/series", json={"title": "A year in the allotment", "rule": "the 20th"})
    assert made.status_code == 201
    path = made.headers["Location"]
    assert studio.assistant.get(path).json["rule"] == "the 20th"
    put = studio.maker.put(
        path, json={"title": "An allotment year"}, headers={"If-Match": made.headers["ETag"]}
    )
    assert (put.json["title"], put.json["rule"], put.json["revision"]) == ("An allotment year", "", 2)
    patch = studio.maker.patch(
        path, json={"notes": "ask about cloth"}, headers={"If-Match": put.headers["ETag"]}
    )
    assert (patch.json["notes"], patch.json["title"]) == ("ask about cloth", "An allotment year")
    assert studio.maker.get("/api/v1/series").json["series"] == [patch.json]
    assert studio.maker.delete(path, headers={"If-Match": patch.headers["ETag"]}).status_code == 204
    assert studio.maker.get(path).status_code == 404


def test_a_series_with_projects_is_not_deleted(studio):
    """409 says how many there are; and they are listed under it."""
    series = studio.maker.post("/api/v1/series", json={"title": "Year"})
    id_ = series.json["id"]
    project = studio.add(series=id_)
    listed = studio.assistant.get(f"/api/v1/series/{id_}/projects").json["projects"]
    assert [card["id"] for card in listed] == [project]
    answer = studio.maker.delete(f"/api/v1/series/{id_}", headers={"If-Match": series.headers["ETag"]})
    assert (answer.status_code, "1 project" in answer.json["detail"]) == (409, True)
    assert studio.maker.get("/api/v1/series/none/projects").status_code == 404


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({}, "/title"),
        ({"title": "  "}, "/title"),
        ({"title": "x", "timezone": "Mars/Base"}, "/timezone"),
        ({"title": "x", "ruel": "the 20th"}, "/ruel"),
        ({"title": 5}, "/title"),
    ],
)
def test_a_faulty_series_says_where(studio, body, pointer):
    """One fault, one pointer; a misspelt field is answered with the right one."""
    answer = studio.maker.post("/api/v1/series", json=body)
    assert answer.status_code == 422
    assert [entry["pointer"] for entry in answer.json["errors"]] == [pointer]
    if pointer == "/ruel":
        assert "rule" in answer.json["errors"][0]["right"]


def test_a_patch_is_checked_as_a_whole(studio):
    """Taking the title away by null leaves a series without one: refused, and nothing is changed."""
    made = studio.maker.post("/api/v1/series", json={"title": "Year"})
    answer = studio.maker.patch(
        made.headers["Location"], json={"title": None}, headers={"If-Match": made.headers["ETag"]}
    )
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/title")


def test_materials_are_kept_by_both_and_deleted_by_the_maker(studio):
    """The assistant enters cloth and changes it; lengths come back as they were written."""
    body = {
        "name": "leek green",
        "kind": "cloth",
        "colour": "#5f8f4e",
        "usable_width": "42 1/2",
        "quantity": 2,
    }
    made = studio.assistant.post("/api/v1/materials", json=body)
    assert made.status_code == 201
    path = made.headers["Location"]
    assert {name: made.json[name] for name in body} == body
    changed = studio.assistant.patch(path, json={"quantity": 1}, headers={"If-Match": made.headers["ETag"]})
    assert (changed.json["quantity"], changed.json["usable_width"]) == (1, "42 1/2")
    put = studio.maker.put(
        path, json={"name": "string", "kind": "notion"}, headers={"If-Match": changed.headers["ETag"]}
    )
    assert (put.json["colour"], studio.maker.get(path).json) == (None, put.json)
    assert len(studio.maker.get("/api/v1/materials").json["materials"]) == 1
    assert studio.assistant.delete(path, headers={"If-Match": put.headers["ETag"]}).status_code == 403
    assert studio.maker.delete(path, headers={"If-Match": put.headers["ETag"]}).status_code == 204


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("kind", "gadget"),
        ("colour", "green"),
        ("usable_width", "wide"),
        ("usable_width", "0"),
        ("quantity", 1.5),
    ],
)
def test_a_faulty_material_says_where_and_what_would_be_right(studio, field, value):
    """Each wrong field has its pointer and its right."""
    body = {"name": "x", "kind": "cloth", field: value}
    answer = studio.maker.post("/api/v1/materials", json=body)
    assert answer.status_code == 422
    assert answer.json["errors"][0]["pointer"] == f"/{field}"
    assert answer.json["errors"][0]["right"]
