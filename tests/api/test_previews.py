"""A project seen otherwise: drawn, or in another size."""

import pytest
from lxml import etree

from service.api.schemas.previews import STYLES
from service.craft.drawing.previews import STYLES as DRAWN


def test_the_drawing_is_an_svg_of_the_top_with_and_without_outlines(studio):
    """It is there before the outlines are, and shows the piece once they are."""
    id_ = studio.maker.post("/api/v1/projects", json=studio.document()).json["id"]
    bare = studio.maker.get(f"/api/v1/projects/{id_}/drawing")
    assert bare.mimetype == "image/svg+xml"
    assert "sandbox" in bare.headers["Content-Security-Policy"]
    studio.upload(id_)
    assert "leaf" in studio.maker.get(f"/api/v1/projects/{id_}/drawing").text
    assert "Laid on it" not in bare.text


@pytest.mark.parametrize("block", [None, "pair"])
@pytest.mark.parametrize("style", STYLES)
def test_every_style_draws_the_top_and_a_block(studio, style, block):
    """Each is an SVG that an XML reader takes, and no two are the same."""
    query = {"style": style} | ({"block": block} if block else {})
    answer = studio.maker.get(f"/api/v1/projects/{studio.add()}/drawing", query_string=query)
    assert (answer.status_code, answer.mimetype) == (200, "image/svg+xml")
    title = etree.fromstring(answer.data)[0].text
    assert title.startswith(block or "Rhubarb Mat")


def test_the_styles_differ(studio):
    assert tuple(DRAWN) == STYLES
    path = f"/api/v1/projects/{studio.add()}/drawing"
    drawn = {studio.maker.get(path, query_string={"style": style}).data for style in STYLES}
    assert len(drawn) == len(STYLES)


@pytest.mark.parametrize(
    ("query", "parameter", "right"),
    [({"style": "cubist"}, "style", "exploded"), ({"block": "pear"}, "block", '"pair"')],
)
def test_a_drawing_there_is_not_is_refused_in_words(studio, query, parameter, right):
    answer = studio.maker.get(f"/api/v1/projects/{studio.add()}/drawing", query_string=query)
    assert answer.status_code == 422
    [error] = answer.json["errors"]
    assert error["parameter"] == parameter and right in error["right"]


def scaled(studio, id_, body):
    return studio.maker.post(f"/api/v1/projects/{id_}/scaled", json=body)


@pytest.mark.parametrize(
    ("wish", "factor"),
    [({"width": "6"}, "2/3"), ({"width": 12}, "4/3"), ({"height": "9 in"}, "3/2"), ({"factor": "3/2"}, "3/2"),
     ({"factor": 0.5}, "1/2"), ({"width": "228.6 mm"}, "1")],
)  # fmt: skip
def test_a_project_is_answered_in_another_size(studio, wish, factor):
    """The usual top is 9 by 6 in; the document that is answered can be stored and has the size that is said."""
    answer = scaled(studio, studio.add(), wish)
    assert answer.status_code == 200, answer.text
    assert answer.json["factor"] == factor
    stored = studio.maker.post("/api/v1/projects", json=answer.json["document"])
    assert stored.status_code == 201
    again = scaled(studio, stored.json["id"], {"factor": 1}).json
    assert again["finished"] == answer.json["finished"]


def test_scaling_stores_nothing(studio):
    """The project stays what it is, tag and all; what is the maker's own in the document goes along."""
    id_ = studio.add()
    before = studio.maker.get(f"/api/v1/projects/{id_}")
    answer = scaled(studio, id_, {"factor": 2}).json
    after = studio.maker.get(f"/api/v1/projects/{id_}")
    assert (after.json, after.headers["ETag"]) == (before.json, before.headers["ETag"])
    assert len(studio.maker.get("/api/v1/projects").json["projects"]) == 1
    assert answer["document"]["notes_of_my_own"] == before.json["notes_of_my_own"]
    assert answer["document"]["pieces"][0]["scale"] == 2
    assert answer["document"]["pieces"][0]["at"] == ["9", "6"]
    assert "id" not in answer["document"]


def test_the_sizes_near_by_need_no_rounding(studio):
    """3 in triangles on eighths: every 24th; for 10 in wide (10/9) those below and above."""
    answer = scaled(studio, studio.add(), {"width": "10"}).json
    assert [a["factor"] for a in answer["alternatives"]] == ["13/12", "9/8"]
    assert [a["finished"]["width"]["text"] for a in answer["alternatives"]] == ["9 3/4 in", "10 1/8 in"]
    assert answer["finished"]["height"]["text"] == "6 43/64 in"


def test_a_top_as_wide_as_a_diagonal_says_that_it_comes_near(studio):
    top = {"unit": "square in a square", "inside": "pair", "fabric": "cream"}
    answer = scaled(studio, studio.add(top=top, pieces=[]), {"width": "6"}).json
    assert any("diagonal" in note for note in answer["notes"])
    assert abs(answer["finished"]["width"]["inches"] - 6) < 0.003


@pytest.mark.parametrize(
    ("wish", "pointer", "words"),
    [({}, "", "names no size"), ({"width": "6", "factor": 2}, "", '"width" and "factor"'),
     ({"width": "six"}, "/width", "is not a length"), ({"height": 0}, "/height", "zero"),
     ({"factor": "big"}, "/factor", '"factor" is "big"'), ({"factor": 0}, "/factor", '"factor" is 0'),
     ({"width": "1000"}, "/width", "111.1 times as large"), ({"widht": 3}, "/widht", "no field"),
     ({"width": "1.23456789"}, "/width", "too fine")],
)  # fmt: skip
def test_a_wish_that_cannot_be_is_refused_in_words(studio, wish, pointer, words):
    """422, with the place in the wish or in what would come out."""
    answer = scaled(studio, studio.add(), wish)
    assert answer.status_code == 422
    assert pointer in [error["pointer"] for error in answer.json["errors"]]
    assert words in answer.text.replace('\\"', '"')
    assert all(error["right"] for error in answer.json["errors"])


def test_what_would_come_out_faulty_says_that_it_is_about_that_size(studio):
    """A piece at 3/2 would be 120 times its outline; the pointer leads into the document."""
    [piece] = studio.document()["pieces"]
    answer = scaled(studio, studio.add(pieces=[piece | {"scale": 1.5}]), {"factor": 80})
    assert answer.status_code == 422
    [error] = answer.json["errors"]
    assert error["pointer"] == "/pieces/0/scale"
    assert error["detail"] == 'in the size wanted, "scale" is 120'


def test_what_is_not_there_cannot_be_scaled(studio):
    assert scaled(studio, "nowhere", {"factor": 2}).status_code == 404
