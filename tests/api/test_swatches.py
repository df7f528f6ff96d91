"""Photographs of cloth over HTTP: what is taken, what is kept of it, and what is not."""

import io
import json
from dataclasses import replace

import pytest
from PIL import Image, ImageCms

from service.api.wiring import NAME
from service.storage.models import Snapshot

PLACE = b"52.5200 N 13.4050 E"


def photograph(width=400, height=300, *, kind="JPEG", orientation=None, place=False, **more):
    """Red in the top left quarter, leek green else; with the camera's words where asked for."""
    picture = Image.new("RGB", (width, height), "#5f8f4e")
    picture.paste("#c03040", (0, 0, width // 2, height // 2))
    exif = Image.Exif()
    if orientation:
        exif[0x0112] = orientation
    if place:
        exif[0x010E] = PLACE.decode()
        exif.get_ifd(0x8825)[1] = "N"
    out = io.BytesIO()
    picture.save(out, kind, exif=exif.tobytes(), quality=95, **more)
    return out.getvalue()


def send(studio, project, data=None, name="leaf.jpg", client=None, **fields):
    fields = {"width": "100 mm"} | fields
    return (client or studio.maker).post(
        f"/api/v1/projects/{project}/swatches",
        data={
            "file": (io.BytesIO(photograph() if data is None else data), name),
            **{k: v for k, v in fields.items() if v is not None},
        },
        content_type="multipart/form-data",
    )


@pytest.fixture
def project(studio):
    return studio.add()


def show(studio, answer):
    """The picture as it is kept."""
    return Image.open(io.BytesIO(studio.maker.get(answer.json["picture"]).data)).convert("RGB")


def near(pixel, colour):
    wanted = tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return all(abs(one - other) < 12 for one, other in zip(pixel, wanted, strict=True))


def test_a_photograph_is_taken_with_its_scale_and_told_of(studio, project):
    """201 and where it is; the size of the cloth, the median colour; the same name again is 200."""
    answer = send(studio, project)
    assert answer.status_code == 201
    assert answer.headers["Location"] == f"/api/v1/projects/{project}/swatches/leaf.jpg"
    told = answer.json
    assert (told["width"]["mm"], told["height"]["mm"]) == (100, 75)
    assert near(Image.new("RGB", (1, 1), told["colour"]).getpixel((0, 0)), "#5f8f4e")
    assert studio.assistant.get(f"/api/v1/projects/{project}/swatches").json == {"swatches": [told]}
    assert studio.assistant.get(answer.headers["Location"]).json == told
    assert send(studio, project, width="8 in").status_code == 200
    assert studio.maker.get(answer.headers["Location"]).json["width"]["inches"] == pytest.approx(8, abs=0.01)


def test_two_marks_and_their_distance_give_the_scale(studio, project):
    """300 pixels apart and 150 mm: half a millimetre a pixel, by Pythagoras also on the slant (3, 4, 5)."""
    for marks in ("[[50, 10], [350, 10]]", "[[0, 0], [180, 240]]"):
        told = send(studio, project, width=None, known_length="150 mm", between=marks).json
        assert (told["width"]["mm"], told["height"]["mm"]) == (200, 150)


@pytest.mark.parametrize(
    ("up", "corner"), [("top", (20, 20)), ("right", (20, -20)), ("bottom", (-20, -20)), ("left", (-20, 20))]
)
def test_the_side_that_is_up_is_turned_to_the_top(studio, project, up, corner):
    """The red corner of the top left goes where it goes when the picture is turned by hand."""
    answer = send(studio, project, up=up)
    kept = show(studio, answer)
    assert kept.size == ((400, 300) if up in ("top", "bottom") else (300, 400))
    x, y = (place % side for place, side in zip(corner, kept.size, strict=True))
    assert near(kept.getpixel((x, y)), "#c03040")


@pytest.mark.parametrize(
    ("orientation", "corner"),
    [(1, (20, 20)), (2, (-20, 20)), (3, (-20, -20)), (4, (20, -20)),
     (5, (20, 20)), (6, (-20, 20)), (7, (-20, -20)), (8, (20, -20))],
)  # fmt: skip
def test_the_orientation_of_the_camera_is_honoured(studio, project, orientation, corner):
    """EXIF (CIPA DC-008), tag 274: where row 0 and column 0 of what is stored are seen."""
    kept = show(studio, send(studio, project, photograph(orientation=orientation)))
    assert kept.size == ((400, 300) if orientation < 5 else (300, 400))
    x, y = (place % side for place, side in zip(corner, kept.size, strict=True))
    assert near(kept.getpixel((x, y)), "#c03040")


def test_marks_and_part_are_meant_in_the_upright_picture(studio, project):
    """A photograph stored on its side: 300 pixels wide as it is seen; a part of it, then turned by the print."""
    data = photograph(orientation=6)
    answer = send(studio, project, data, width="150 mm", part="[[0, 0], [150, 400]]", up="bottom")
    assert (answer.json["width"]["mm"], answer.json["height"]["mm"]) == (75, 200)
    told = send(studio, project, data, part="[[0, 350], [100, 400]]").json
    assert told["errors"][0]["pointer"] == "/part"


def test_nothing_of_the_camera_is_kept(studio, project):
    """Neither place nor day nor profile: not in the picture, not in the database, nowhere in the store."""
    data = photograph(place=True, comment=b"Plot 14")
    assert PLACE in data and b"Plot 14" in data
    kept = studio.maker.get(send(studio, project, data).json["picture"]).data
    assert not Image.open(io.BytesIO(kept)).getexif() and b"Exif" not in kept
    studio.wiring.database.close_idle()
    for file in studio.wiring.settings.data.rglob("*"):
        if file.is_file():
            assert PLACE not in file.read_bytes() and b"Plot 14" not in file.read_bytes()


def test_the_colours_of_another_profile_become_srgb(studio, project):
    """A grey of L* 50 in a CIELAB picture's profile: the profile is used and left behind (sRGB #777777)."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    told = send(studio, project, photograph(icc_profile=profile)).json
    assert near(Image.new("RGB", (1, 1), told["colour"]).getpixel((0, 0)), "#5f8f4e")
    kept = studio.maker.get(told["picture"]).data
    assert "icc_profile" not in Image.open(io.BytesIO(kept)).info


@pytest.mark.parametrize("mode", ["RGBA", "L", "P", "1", "CMYK"])
def test_pictures_of_every_kind_become_plain_ones(studio, project, mode):
    """With see-through parts on white, grey, of few colours, black and white, for the press."""
    out = io.BytesIO()
    Image.new(mode, (200, 100), 0).save(out, "JPEG" if mode == "CMYK" else "PNG")
    answer = send(studio, project, out.getvalue())
    assert answer.status_code == 201
    white = mode in ("RGBA", "CMYK")
    assert near(show(studio, answer).getpixel((50, 50)), "#ffffff" if white else "#000000")


def test_a_large_photograph_is_made_smaller_and_its_scale_stays(studio, project):
    answer = send(studio, project, photograph(4000, 3000))
    told = answer.json
    assert (told["width_px"], told["height_px"]) == (1600, 1200)
    assert (told["width"]["mm"], told["height"]["mm"]) == (100, 75)
    assert len(studio.maker.get(told["picture"]).data) < 300_000


WRONG = [
    ({"width": None}, [""]),
    ({"width": "100 mm", "known_length": "10 mm", "between": "[[0,0],[100,0]]"}, ["/width"]),
    ({"width": None, "known_length": "10 mm"}, ["/between"]),
    ({"width": None, "between": "[[0,0],[100,0]]"}, ["/known_length"]),
    ({"width": None, "known_length": "1 in", "between": "[[0,0],[3,0]]"}, ["/between"]),
    ({"width": None, "known_length": "1 in", "between": "[[0,0],[900,0]]"}, ["/between"]),
    ({"width": "wide"}, ["/width"]),
    ({"width": "0"}, ["/width"]),
    ({"width": "2 mm"}, ["/width"]),
    ({"width": "90 yd"}, ["/width"]),
    ({"part": "[[0, 0], [10, 10]]"}, ["/part"]),
    ({"part": "here"}, ["/part"]),
    ({"up": "north", "part": "[[0, 0], [500, 100]]"}, ["/up", "/part"]),
    ({"colour": "red"}, ["/colour"]),
]


@pytest.mark.parametrize(("fields", "pointers"), WRONG, ids=str)
def test_what_cannot_be_used_is_named_all_at_once(studio, project, fields, pointers):
    """422, the field and what would be right; nothing is kept."""
    answer = send(studio, project, **fields)
    assert answer.status_code == 422
    assert sorted(one["pointer"] for one in answer.json["errors"]) == sorted(pointers)
    assert all(one["right"] for one in answer.json["errors"])
    assert studio.maker.get(f"/api/v1/projects/{project}/swatches").json == {"swatches": []}


def bomb():
    out = io.BytesIO()
    Image.new("1", (30_000, 30_000)).save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize(
    "data",
    [b"", b"leek", b"<svg xmlns='http://www.w3.org/2000/svg'/>", photograph()[:900], photograph(kind="GIF"),
     b"\xff\xd8\xff" + b"\0" * 500, bomb(), photograph(20, 20)],
    ids=["empty", "text", "svg", "cut short", "another kind", "nonsense", "bomb", "tiny"],
)  # fmt: skip
def test_a_file_that_is_no_photograph_is_refused(studio, project, data):
    """422 with the pointer of the file, never a fault of ours."""
    answer = send(studio, project, data)
    assert answer.status_code == 422
    assert [one["pointer"] for one in answer.json["errors"]] == ["/file"]


def test_a_file_that_is_too_large_or_no_form_is_refused(studio, project):
    small = replace(studio.wiring, settings=replace(studio.wiring.settings, picture_limit_bytes=1000))
    studio.app.extensions[NAME] = small
    assert send(studio, project).status_code == 413
    assert send(studio, project, b"\xff\xd8\xff" + b"\0" * 90_000).status_code == 413
    answer = studio.maker.post(f"/api/v1/projects/{project}/swatches", json={})
    assert answer.status_code == 415
    assert send(studio, "0" * 36).status_code == 404


@pytest.mark.parametrize("name", ["../leaf", "a#b", "a\\b", "..", "\x00"])
def test_a_name_is_a_label_and_never_a_path(studio, project, name):
    assert send(studio, project, name="leaf.jpg").status_code == 201
    answer = studio.maker.post(
        f"/api/v1/projects/{project}/swatches",
        data={"file": (io.BytesIO(photograph()), "leaf.jpg"), "name": name, "width": "100 mm"},
        content_type="multipart/form-data",
    )
    assert answer.status_code == 422 and answer.json["errors"][0]["pointer"] == "/name"


def test_a_picture_is_the_studios_alone_and_no_page_of_ours(studio, project):
    """401 without a key; nosniff and a sandbox; the assistant looks and does not change."""
    answer = send(studio, project)
    where, picture = answer.headers["Location"], answer.json["picture"]
    assert {studio.stranger.get(path).status_code for path in (where, picture)} == {401}
    assert send(studio, project, client=studio.assistant).status_code == 403
    assert studio.assistant.delete(where).status_code == 403
    headers = studio.assistant.get(picture).headers
    assert (headers["Content-Type"], headers["X-Content-Type-Options"]) == ("image/jpeg", "nosniff")
    assert headers["Content-Security-Policy"].startswith("sandbox")
    assert studio.maker.delete(where).status_code == 204
    assert [studio.maker.open(where, method=m).status_code for m in ("GET", "DELETE")] == [404, 404]
    assert studio.maker.get(picture).status_code == 404


def test_the_check_names_a_photograph_that_is_not_there(studio):
    """A warning with its place, for the design and for colourways; gone once it is uploaded; no reason to refuse."""
    fabrics = studio.document()["fabrics"]
    fabrics["stalk"]["swatch"] = "leaf.jpg"
    dusk = {"name": "dusk", "fabrics": {"cream": {"swatch": "lief.jpg"}, "stalk": {"colour": "#39405a"}}}
    project = studio.add(fabrics=fabrics, colourways=[dusk])

    def look():
        found = studio.maker.get(f"/api/v1/projects/{project}/check").json
        assert found["faults"] == []
        return {w["pointer"]: w["right"] for w in found["warnings"] if "photograph" in w["detail"]}

    assert set(look()) == {"/fabrics/stalk/swatch", "/colourways/0/fabrics/cream/swatch"}
    send(studio, project)
    assert look() == {"/colourways/0/fabrics/cream/swatch": 'did you mean "leaf.jpg"?'}


def test_a_batch_keeps_the_photographs_and_the_colours_they_gave(studio):
    """A cloth without a colour has its photograph's in what is computed; the document itself stays as it was sent."""
    fabrics = studio.document()["fabrics"]
    fabrics["stalk"] = {"name": "rhubarb red", "swatch": "leaf.jpg"}
    fabrics["cream"]["swatch"] = "leaf.jpg"
    project = studio.add(fabrics=fabrics)
    told = send(studio, project).json
    studio.submit(project)
    with studio.wiring.database.reading() as session:
        [snapshot] = session.query(Snapshot).all()
        document, kept = snapshot.document, snapshot.swatches
    assert document["fabrics"]["stalk"]["colour"] == told["colour"]
    assert document["fabrics"]["cream"]["colour"] == "#f3ead2"
    assert kept["leaf.jpg"]["sha256"] == told["sha256"]
    assert "colour" not in studio.maker.get(f"/api/v1/projects/{project}").json["fabrics"]["stalk"]
    assert json.dumps(kept)
