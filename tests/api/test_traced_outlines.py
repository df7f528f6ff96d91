"""Pictures of shapes over HTTP: traced at once in a process of their own, kept like drawings."""

import io
import json
import struct
import zlib

import pikepdf
import pytest
import shapely
from lxml import etree
from shapely.geometry import Polygon

from tests.outlines.tracing.drawn import Flaws, encode, leaf, paint, star

SMALL = (80.0, 60.0)


@pytest.fixture(scope="module")
def sheet():
    """A leaf 50 mm long, its long axis level, scanned at 300 dots an inch."""
    return encode(paint([leaf(40, 30)], dpi=300, size=SMALL))


def send(studio, project, data, name="leaf.png", **fields):
    return studio.maker.post(
        f"/api/v1/projects/{project}/outlines",
        data={"file": (io.BytesIO(data), name), **fields},
        content_type="multipart/form-data",
    )


def test_a_scan_is_answered_with_its_shapes_in_true_size(studio, sheet):
    """A leaf drawn 50 mm long and 17.55 mm wide (two arcs of 40 mm) comes back so, to a twentieth of a mm."""
    answer = send(studio, studio.add(), sheet, dpi="300")
    assert answer.status_code == 201, answer.text
    [shape] = answer.json["shapes"]
    assert shape["name"] == "middle"
    assert shape["width"]["mm"] == pytest.approx(50, abs=0.05)
    assert shape["height"]["mm"] == pytest.approx(17.55, abs=0.05)
    assert shape["nodes"] <= 8


def test_a_known_length_gives_the_scale(studio, sheet):
    """The leaf's tips lie 590.55 pixels apart; called 100 mm, it is twice as long as it was drawn."""
    tips = [[177.2, 354.3], [767.7, 354.3]]
    answer = send(studio, studio.add(), sheet, known_length="100 mm", between=json.dumps(tips))
    assert answer.json["shapes"][0]["width"]["mm"] == pytest.approx(100, abs=0.2)


def test_without_a_scale_the_three_ways_are_named(studio, sheet):
    """422: nothing is guessed from the file."""
    answer = send(studio, studio.add(), sheet)
    assert answer.status_code == 422
    right = answer.json["errors"][0]["right"]
    assert all(way in right for way in ("dpi", "known_length", "between", "calibration sheet"))


@pytest.mark.parametrize(
    ("fields", "pointers"),
    [
        ({"dpi": "fine"}, ["/dpi"]),
        ({"dpi": "nan"}, ["/dpi"]),
        ({"dpi": "3"}, ["/dpi"]),
        ({"dpi": "300", "known_length": "100 mm"}, ["/dpi", "/between"]),
        ({"known_length": "long", "between": "here"}, ["/known_length", "/between"]),
        ({"known_length": "100 mm", "between": "[[1, 1], [2, 2]]"}, ["/between"]),
        ({"known_length": "100 mm", "between": "[[1, 1], [9000, 2]]"}, ["/between"]),
        ({"dpi": "300", "page": "1"}, ["/page"]),
        ({"dpi": "300", "page": "first"}, ["/page"]),
    ],
)
def test_every_field_that_cannot_be_used_is_named(studio, sheet, fields, pointers):
    """With a pointer to it, all at once, and nothing is kept."""
    id_ = studio.maker.post("/api/v1/projects", json=studio.document()).json["id"]
    answer = send(studio, id_, sheet, **fields)
    assert answer.status_code == 422
    assert [error["pointer"] for error in answer.json["errors"]] == pointers
    assert all(error["right"] for error in answer.json["errors"])
    assert studio.maker.get(f"/api/v1/projects/{id_}/outlines").json["outlines"] == []


def test_a_drawing_takes_no_scale(studio):
    """An SVG states its size itself."""
    answer = send(studio, studio.add(), b'<svg xmlns="http://www.w3.org/2000/svg"/>', "a.svg", dpi="300")
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/dpi")


@pytest.mark.parametrize(
    ("data", "kind"), [(b"GIF89a\1\0\1\0", "a GIF picture"), (b"II*\0\10\0\0\0", "a TIFF picture")]
)
def test_a_picture_of_a_kind_that_is_not_traced_is_named(studio, data, kind):
    """With what would be right, whatever else was sent: its scale is not what is wrong with it."""
    answer = send(studio, studio.add(), data, "leaf.gif", dpi="300")
    assert answer.status_code == 422
    assert kind in answer.json["detail"]
    [error] = answer.json["errors"]
    assert (error["pointer"], "PNG, JPEG or PDF" in error["right"]) == ("/file", True)


def test_a_piece_is_cut_from_a_traced_shape(studio, sheet):
    """A project whose piece names a traced shape is ready for a batch."""
    piece = {
        "name": "leaf",
        "outline": "scan.png#middle",
        "fabric": "stalk",
        "at": ["4 1/2", "3"],
        "edge": "raw",
    }
    document = studio.document(
        pieces=[piece], sources=[{"name": "own", "covers": ["scan.png"], "rights": "own"}]
    )
    id_ = studio.maker.post("/api/v1/projects", json=document).json["id"]
    assert not studio.maker.get(f"/api/v1/projects/{id_}/check").json["ready"]
    assert send(studio, id_, sheet, "scan.png", dpi="300").status_code == 201
    check = studio.maker.get(f"/api/v1/projects/{id_}/check").json
    assert check["ready"], check


def test_a_shape_is_renamed_and_pieces_that_ask_for_the_old_name_are_told(studio, sheet):
    """Everywhere at once: in the answer, in the file, and in the check until the document follows."""
    piece = {
        "name": "leaf",
        "outline": "scan.png#middle",
        "fabric": "stalk",
        "at": ["4 1/2", "3"],
        "edge": "raw",
    }
    source = {"name": "own", "covers": ["scan.png"], "rights": "own"}
    document = studio.document(pieces=[piece], sources=[source])
    id_ = studio.maker.post("/api/v1/projects", json=document).json["id"]
    send(studio, id_, sheet, "scan.png", dpi="300")
    where = f"/api/v1/projects/{id_}/outlines/scan.png"
    answer = studio.maker.patch(f"{where}/shapes/middle", json={"name": "leek leaf"})
    assert answer.status_code == 200, answer.text
    assert [shape["name"] for shape in answer.json["shapes"]] == ["leek-leaf"]
    [asking] = answer.json["asking"]
    assert asking["pointer"] == "/pieces/0/outline"
    assert "scan.png#leek-leaf" in asking["right"]
    assert studio.assistant.get(where).json["shapes"][0]["name"] == "leek-leaf"
    [left] = studio.maker.get(f"/api/v1/projects/{id_}/check").json["faults"]
    assert 'no shape named "middle"' in left["detail"]
    assert "scan.png#leek-leaf" in left["right"]


def test_the_overlay_and_the_notes_say_the_new_name(studio):
    """Two shapes, one renamed twice: each label stands where it stood, and what was noted of the slip is still its."""
    shapes = [star(20, 30, 10, 5), shapely.box(60, 10, 61, 50)]
    id_ = studio.add()
    send(studio, id_, encode(paint(shapes, dpi=300, size=SMALL)), "two.png", dpi="300")
    where = f"/api/v1/projects/{id_}/outlines/two.png"
    before = studio.assistant.get(where + "/overlay").text
    for old, new in (("right", "stalk & co"), ("stalk-&-co", "stalk<")):
        assert studio.maker.patch(f"{where}/shapes/{old}", json={"name": new}).status_code == 200
    after = studio.assistant.get(where + "/overlay").text
    labels = [text.text for text in etree.fromstring(after).iter("{*}text")]
    assert labels == ["left", "stalk<"]
    assert after == before.replace(">right<", ">stalk&lt;<")
    [note] = studio.assistant.get(where).json["notes"]
    assert note.startswith("stalk<: thinner than 1.5 mm")


def test_a_name_that_is_taken_or_none_is_refused(studio):
    """409 for another shape's name, 422 for one that no piece could say, 404 for a shape that is not there."""
    shapes = [star(20, 30, 10, 5), star(60, 30, 10, 5)]
    id_ = studio.add()
    send(studio, id_, encode(paint(shapes, dpi=150, size=SMALL)), "two.png", dpi="150")
    where = f"/api/v1/projects/{id_}/outlines/two.png/shapes/"
    assert studio.maker.patch(where + "left", json={"name": "right"}).status_code == 409
    assert studio.maker.patch(where + "left", json={"name": "a#b"}).status_code == 422
    assert studio.maker.patch(where + "left", json={"name": " "}).status_code == 422
    missing = studio.maker.patch(where + "high", json={"name": "a"})
    assert (missing.status_code, '"left", "right"' in missing.json["detail"]) == (404, True)


def test_the_overlay_shows_the_picture_with_its_outlines(studio, sheet):
    """An SVG of our own, with one path a shape; of a drawing there is none."""
    id_ = studio.add()
    where = send(studio, id_, sheet, dpi="300").headers["Location"]
    answer = studio.assistant.get(where + "/overlay")
    assert (answer.status_code, answer.mimetype) == (200, "image/svg+xml")
    assert answer.text.count("<path") == 1
    assert "data:image/jpeg" in answer.text
    assert "sandbox" in answer.headers["Content-Security-Policy"]
    assert studio.assistant.get(f"/api/v1/projects/{id_}/outlines/leaf.svg/overlay").status_code == 404
    assert studio.stranger.get(where + "/overlay").status_code == 401


def test_a_picture_too_large_is_refused_before_it_is_unpacked(studio):
    """A PNG whose head says 30,000 x 30,000 pixels, and that holds none: the head alone is read."""
    head = struct.pack(">IIBBBBB", 30_000, 30_000, 8, 0, 0, 0, 0)
    chunk = b"IHDR" + head
    bomb = b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + chunk + struct.pack(">I", zlib.crc32(chunk))
    idat = b"IDAT" + zlib.compress(b"")
    bomb += struct.pack(">I", len(idat) - 4) + idat + struct.pack(">I", zlib.crc32(idat))
    answer = send(studio, studio.add(), bomb, dpi="300")
    assert answer.status_code == 422
    assert "too many pixels" in answer.json["detail"]
    assert "64 million" in answer.json["errors"][0]["right"]


@pytest.mark.parametrize(
    ("start", "size", "status"), [(b"\x89PNG", 6, 422), (b"\x89PNG", 26, 413), (b"<svg", 6, 413)]
)
def test_a_photograph_may_be_larger_than_a_drawing(studio, start, size, status):
    """25 MB against 5 MB; what is let in by its size is then looked at, and here is no picture."""
    form = (
        b'--edge\r\nContent-Disposition: form-data; name="dpi"\r\n\r\n300\r\n'
        b'--edge\r\nContent-Disposition: form-data; name="file"; filename="large"\r\n\r\n'
        + start + bytes(size * 1_000_000) + b"\r\n--edge--\r\n"
    )  # fmt: skip
    where = f"/api/v1/projects/{studio.add()}/outlines"
    answer = studio.maker.post(where, data=form, content_type="multipart/form-data; boundary=edge")
    assert answer.status_code == status, answer.text
    if status == 413:
        assert ("25,000,000" if start == b"\x89PNG" else "5,000,000") in answer.json["detail"]


@pytest.mark.parametrize("magic", [b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0", b"%PDF-1.7"])
def test_a_damaged_picture_is_refused(studio, magic):
    """By what the file is, not by what it is called; the web side goes on."""
    answer = send(studio, studio.add(), magic + b"rest", "leaf.svg")
    assert answer.status_code == 422
    assert answer.json["type"].endswith("/unreadable-outline")
    assert answer.json["errors"][0]["pointer"] == "/file"


def test_shapes_are_named_by_their_place_on_the_page(studio):
    """Row by row from the top, from left to right; the names are for the maker to change."""
    shapes = [star(60, 15, 10, 5), star(20, 15, 8, 4), Polygon([(10, 35), (70, 35), (70, 55), (10, 55)])]
    data = encode(paint(shapes, dpi=150, size=SMALL, flaws=Flaws(skew=0)), "JPEG", quality=90)
    found = send(studio, studio.add(), data, "sheet.jpg", dpi="150").json["shapes"]
    assert [shape["name"] for shape in found] == ["top-left", "top-right", "bottom"]
    assert [round(shape["width"]["mm"]) for shape in found] == [15, 19, 60]


@pytest.mark.parametrize(("paper", "size"), [("A4", (210, 297)), ("Letter", (215.9, 279.4))])
def test_the_calibration_sheet_prints_at_true_size(studio, paper, size):
    """A PDF of one page of that paper that asks not to be scaled, and an SVG of the same size."""
    answer = studio.assistant.get(f"/api/v1/calibration-sheet?paper={paper}")
    assert (answer.status_code, answer.mimetype) == (200, "application/pdf")
    with pikepdf.open(io.BytesIO(answer.data)) as document:
        [page] = document.pages
        assert [float(side) / 72 * 25.4 for side in page.mediabox[2:]] == pytest.approx(size, abs=0.1)
        assert document.Root.ViewerPreferences.PrintScaling == "/None"
    drawn = studio.assistant.get(f"/api/v1/calibration-sheet?paper={paper}&format=svg")
    assert f'width="{size[0]:g}mm"' in drawn.text
    assert studio.assistant.get("/api/v1/calibration-sheet?paper=A3").status_code == 422
