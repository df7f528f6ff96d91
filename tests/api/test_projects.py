"""Projects over HTTP."""

import json

import pytest


def test_a_stored_document_comes_back_exactly_as_sent(studio):
    """Every field, known or not, its order included, comes back; id, series, release, revision stand beside it."""
    sent = studio.document()
    made = studio.maker.post("/api/v1/projects", json=sent)
    assert made.status_code == 201
    assert made.headers["Location"] == f"/api/v1/projects/{made.json['id']}"
    again = studio.assistant.get(made.headers["Location"]).json
    beside = {"id", "series", "release", "revision", "updated"}
    assert list(again)[: len(sent)] == list(sent)
    assert json.dumps({k: v for k, v in again.items() if k not in beside}) == json.dumps(sent)


def test_what_was_answered_can_be_sent_back(studio):
    """A GET can be PUT as it is; the revision counts up and the tag changes."""
    id_ = studio.add()
    got = studio.maker.get(f"/api/v1/projects/{id_}")
    put = studio.maker.put(
        f"/api/v1/projects/{id_}", json=got.json, headers={"If-Match": got.headers["ETag"]}
    )
    assert put.status_code == 200
    assert put.json["revision"] == got.json["revision"] + 1
    assert put.headers["ETag"] != got.headers["ETag"]


def test_every_fault_is_in_one_answer(studio):
    """A document with five faults is refused with five pointers, those of the filing included."""
    raw = studio.document(series="no such", release="20 January")
    raw["fabrics"]["cream"]["colour"] = "pale"
    raw["blocks"]["pair"]["fabrics"] = ["cream", "rhubarb"]
    raw["tracks"][1]["has"] = ["a loom"]
    raw["pieces"][0]["at"] = ["four", "3"]
    answer = studio.maker.post("/api/v1/projects", json=raw)
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"
    pointers = {entry["pointer"] for entry in answer.json["errors"]}
    assert {
        "/fabrics/cream/colour", "/blocks/pair/fabrics/1", "/tracks/1/has/0", "/pieces/0/at/0", "/release",
    } <= pointers  # fmt: skip
    assert all(entry["right"] for entry in answer.json["errors"])
    assert studio.maker.get("/api/v1/projects").json["projects"] == []


def test_a_series_that_is_not_there_is_a_fault_of_the_document(studio):
    """422 at /series, and nothing is stored."""
    answer = studio.maker.post("/api/v1/projects", json=studio.document(series="nowhere"))
    assert answer.status_code == 422
    assert answer.json["errors"][0]["pointer"] == "/series"


@pytest.mark.parametrize(
    ("body", "words"),
    [
        (b'{"title": ', "Expecting value"),
        (b'{"title": "a", "title": "b"}', "given twice"),
        (b'{"top": NaN}', "NaN"),
        (b'{"top": 1e999}', "too large"),
        (b'{"title": "\\ud800"}', "surrogate"),
        (b'{"title": "a\\u0000b"}', "U+0000"),
        (b"\xff\xfe", "UTF-8"),
        (b"[" * 100_000, "nested"),
        (b"1" * 5000, "digits"),
    ],
)
def test_what_is_not_json_is_refused_and_says_where(studio, body, words):
    """400 with words for everything that another reader would read otherwise."""
    answer = studio.maker.post("/api/v1/projects", data=body, content_type="application/json")
    assert answer.status_code == 400
    assert words in answer.json["detail"]


def test_another_media_type_is_415(studio):
    """A form is not a document."""
    answer = studio.maker.post("/api/v1/projects", data={"title": "x"})
    assert answer.status_code == 415
    assert answer.headers["Accept"] == "application/json"


@pytest.mark.parametrize("body", [b"[]", b'"text"', b"7", b"null"])
def test_json_that_is_no_object_is_422(studio, body):
    """A list, a text, a number, null."""
    answer = studio.maker.post("/api/v1/projects", data=body, content_type="application/json")
    assert answer.status_code == 422


def test_a_body_over_the_limit_is_413(studio):
    """Refused before it is read."""
    answer = studio.maker.post("/api/v1/projects", data=b" " * 5_100_000, content_type="application/json")
    assert answer.status_code == 413


def test_a_merge_patch_changes_what_it_names(studio):
    """RFC 7396: null takes away, an object is merged, a list is replaced; the rest stays."""
    id_ = studio.add()
    got = studio.maker.get(f"/api/v1/projects/{id_}")
    patch = {"summary": None, "fabrics": {"cream": {"colour": "#ffffff"}}, "release": "2027-04-20"}
    done = studio.maker.patch(
        f"/api/v1/projects/{id_}", json=patch, headers={"If-Match": got.headers["ETag"]}
    )
    assert done.status_code == 200
    assert "summary" not in done.json
    assert done.json["fabrics"]["cream"] == {"name": "cream weave", "colour": "#ffffff", "usable_width": "42"}
    assert done.json["release"] == "2027-04-20"
    assert done.json["notes_of_my_own"] == got.json["notes_of_my_own"]


def test_changing_needs_the_present_tag(studio):
    """428 without If-Match, 412 with an old one, 304 for who has it, and nothing is changed meanwhile."""
    id_ = studio.add()
    path = f"/api/v1/projects/{id_}"
    tag = studio.maker.get(path).headers["ETag"]
    assert studio.maker.get(path, headers={"If-None-Match": tag}).status_code == 304
    assert studio.maker.put(path, json=studio.document()).status_code == 428
    assert studio.maker.delete(path).status_code == 428
    ok = studio.maker.patch(path, json={"summary": "one"}, headers={"If-Match": tag})
    assert ok.status_code == 200
    assert studio.maker.patch(path, json={"summary": "two"}, headers={"If-Match": tag}).status_code == 412
    assert studio.maker.get(path).json["summary"] == "one"


def test_a_body_for_another_project_is_refused(studio):
    """PUT with the id of another project is a slip."""
    id_ = studio.add()
    tag = studio.maker.get(f"/api/v1/projects/{id_}").headers["ETag"]
    answer = studio.maker.put(
        f"/api/v1/projects/{id_}", json=studio.document(id="other"), headers={"If-Match": tag}
    )
    assert answer.json["errors"][0]["pointer"] == "/id"


def test_pages_lead_through_everything_once(studio):
    """Following `next` and following `Link` both visit each project once, in order."""
    made = [
        studio.maker.post("/api/v1/projects", json=studio.document(title=f"M {n}")).json["id"]
        for n in range(5)
    ]
    seen, path = [], "/api/v1/projects?limit=2"
    while path:
        page = studio.maker.get(path)
        seen += [card["id"] for card in page.json["projects"]]
        link = page.headers.get("Link", "")
        assert bool(link) == (page.json["next"] is not None)
        path = link[1 : link.index(">")] if link else ""
    assert seen == sorted(made)


def test_a_bad_page_says_what_would_be_right(studio):
    """A limit that is none and a made-up cursor are refused with the name of the parameter."""
    answer = studio.maker.get("/api/v1/projects?limit=many&cursor=abc")
    assert answer.status_code == 422
    assert {entry["parameter"] for entry in answer.json["errors"]} == {"limit", "cursor"}


def test_projects_are_found_by_title_and_date(studio):
    """Only those that fit are listed."""
    studio.add(title="Peas")
    wanted = studio.add(title="Beans", release="2027-06-21")
    for query in ("title=Beans", "release=2027-06-21"):
        found = studio.maker.get(f"/api/v1/projects?{query}").json["projects"]
        assert [card["id"] for card in found] == [wanted]


def test_a_released_project_is_not_deleted(studio):
    """409 in words once its date has come; before, it goes, with its outlines."""
    id_ = studio.add(release="2027-01-04")
    path = f"/api/v1/projects/{id_}"
    tag = studio.maker.get(path).headers["ETag"]
    answer = studio.maker.delete(path, headers={"If-Match": tag})
    assert answer.status_code == 409
    assert "released on 2027-01-04" in answer.json["detail"]
    later = studio.maker.patch(path, json={"release": "2027-02-01"}, headers={"If-Match": tag})
    assert studio.maker.delete(path, headers={"If-Match": later.headers["ETag"]}).status_code == 204
    assert studio.maker.get(path).status_code == 404


def test_a_project_in_a_running_batch_is_not_deleted(studio):
    """409 names the batch; once it is canceled the project can go."""
    id_ = studio.add()
    batch = studio.submit(id_)
    tag = {"If-Match": studio.maker.get(f"/api/v1/projects/{id_}").headers["ETag"]}
    answer = studio.maker.delete(f"/api/v1/projects/{id_}", headers=tag)
    assert answer.status_code == 409
    assert batch["id"] in answer.json["detail"]
    studio.maker.post(f"/api/v1/batches/{batch['id']}/cancel")
    assert studio.maker.delete(f"/api/v1/projects/{id_}", headers=tag).status_code == 204


def test_the_tracks_of_a_project_are_listed(studio):
    """With their slugs, as they stand in file names."""
    tracks = studio.maker.get(f"/api/v1/projects/{studio.add()}/tracks").json["tracks"]
    assert [(t["slug"], t["has"]) for t in tracks] == [
        ("hoop-and-cutter", ["hoop 130x180", "cutter 12x12"]),
        ("by-hand", []),
    ]
