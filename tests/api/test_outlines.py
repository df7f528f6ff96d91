"""Outlines over HTTP, and the check that looks at them."""

import io

import pytest

from tests.api.conftest import LEAF


def test_an_upload_answers_the_shapes_and_their_sizes(studio):
    """201 with name, size and nodes: the drawing states 60 mm across; its curves end 20 mm high.

    A cubic with both inner points 20 mm away from the line of its ends bulges 3/4 of that, 15 mm, so the
    leaf is 30 mm high (Bernstein form at t = 1/2).
    """
    id_ = studio.maker.post("/api/v1/projects", json=studio.document()).json["id"]
    answer = studio.upload(id_)
    assert answer.status_code == 201
    [shape] = answer.json["shapes"]
    assert (shape["name"], shape["width"]["mm"], shape["nodes"]) == ("leaf", 60.0, 2)
    assert shape["height"]["mm"] == pytest.approx(30.0, abs=0.001)
    assert studio.assistant.get(answer.headers["Location"]).json == answer.json
    assert studio.assistant.get(f"/api/v1/projects/{id_}/outlines").json["outlines"] == [answer.json]


def test_the_same_name_again_takes_its_place(studio):
    """200 instead of 201, and there is still one file."""
    id_ = studio.add()
    again = studio.upload(id_, LEAF.replace(b"60mm", b"30mm").replace(b"40mm", b"20mm"))
    assert again.status_code == 200
    assert again.json["shapes"][0]["width"]["mm"] == 30.0
    assert len(studio.maker.get(f"/api/v1/projects/{id_}/outlines").json["outlines"]) == 1


def test_the_drawing_itself_is_never_given_out(studio):
    """What was uploaded comes back from no route of the outlines."""
    id_ = studio.maker.post("/api/v1/projects", json=studio.document()).json["id"]
    studio.upload(id_, LEAF.replace(b"<path", b"<desc>secret garden</desc><path"))
    for path in (f"/api/v1/projects/{id_}/outlines", f"/api/v1/projects/{id_}/outlines/leaf.svg"):
        answer = studio.maker.get(path)
        assert answer.mimetype == "application/json"
        assert "secret garden" not in answer.text


@pytest.mark.parametrize(
    "data",
    [
        b"", b"not xml", b"<svg", b'<html xmlns="http://www.w3.org/1999/xhtml"/>',
        b'<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"/>',
        b'<svg xmlns="http://www.w3.org/2000/svg"/>',
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_422_with_a_reason(studio, data):
    """Nothing of it is kept."""
    id_ = studio.maker.post("/api/v1/projects", json=studio.document()).json["id"]
    answer = studio.upload(id_, data)
    assert answer.status_code == 422
    assert answer.json["type"].endswith("/unreadable-outline")
    assert answer.json["errors"][0]["detail"]
    assert studio.maker.get(f"/api/v1/projects/{id_}/outlines").json["outlines"] == []


def test_a_file_over_the_limit_is_413(studio):
    """One byte more than 5 MB."""
    id_ = studio.add()
    large = LEAF + b"<!--" + b"x" * (5_000_001 - len(LEAF) - 7) + b"-->"
    form = (
        b'--edge\r\nContent-Disposition: form-data; name="file"; filename="leaf.svg"\r\n\r\n'
        + large + b"\r\n--edge--\r\n"
    )  # fmt: skip
    answer = studio.maker.post(
        f"/api/v1/projects/{id_}/outlines", data=form, content_type="multipart/form-data; boundary=edge"
    )
    assert (len(large), answer.status_code) == (5_000_001, 413)


@pytest.mark.parametrize("name", ["a#b.svg", "a\nb.svg", "x" * 201])
def test_a_name_that_cannot_be_referred_to_is_refused(studio, name):
    """`#` parts the file from the shape in a document."""
    id_ = studio.add()
    answer = studio.maker.post(
        f"/api/v1/projects/{id_}/outlines",
        data={"file": (io.BytesIO(LEAF), "leaf.svg"), "name": name},
        content_type="multipart/form-data",
    )
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/name")


def test_a_path_in_a_file_name_is_a_label(studio):
    """Only its last part is kept."""
    answer = studio.upload(studio.add(), LEAF, "../drawings/bean.svg")
    assert answer.json["name"] == "bean.svg"


def test_an_upload_that_is_no_form_says_so(studio):
    """415 for a bare body, 422 for a form without the file or with a field nobody knows."""
    path = f"/api/v1/projects/{studio.add()}/outlines"
    assert studio.maker.post(path, data=LEAF, content_type="image/svg+xml").status_code == 415
    bare = studio.maker.post(path, data={"name": "x.svg"}, content_type="multipart/form-data")
    assert (bare.status_code, bare.json["errors"][0]["pointer"]) == (422, "/file")
    odd = studio.maker.post(
        path, data={"file": (io.BytesIO(LEAF), "a.svg"), "colour": "red"}, content_type="multipart/form-data"
    )
    assert (odd.status_code, odd.json["errors"][0]["pointer"]) == (422, "/colour")


def test_a_deleted_outline_is_missed_by_the_check(studio):
    """The check points at the piece and says what to upload; with it, the project is ready."""
    id_ = studio.add()
    assert studio.assistant.get(f"/api/v1/projects/{id_}/check").json["ready"] is True
    path = f"/api/v1/projects/{id_}/outlines/leaf.svg"
    assert studio.maker.delete(path).status_code == 204
    assert studio.maker.delete(path).status_code == 404
    check = studio.assistant.get(f"/api/v1/projects/{id_}/check").json
    assert check["ready"] is False
    assert [fault["pointer"] for fault in check["faults"]] == ["/pieces/0/outline"]
    assert "leaf.svg" in check["faults"][0]["detail"]
