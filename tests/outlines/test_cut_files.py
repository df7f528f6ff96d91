"""Cut files: true size in SVG and DXF, each read back by something else; who gets what."""

from __future__ import annotations

import io
import json
import math
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import ezdxf
import pytest
import trimesh
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.svgLib.path import parse_path
from shapely import Polygon, box
from shapely.affinity import scale, translate

from service.craft.outlines import find_outline, flatten
from workers.outlines.cut_files import make_cut_files
from workers.recipe import CannotMake, JobInput, MadeFile

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

SVG_NAMES = {"svg": "http://www.w3.org/2000/svg"}
OWNED = {"name": "a bought pattern", "covers": ["pod.svg"], "rights": "viewer must own"}


def cut(job: JobInput) -> dict[str, MadeFile]:
    return {made.name: made for made in make_cut_files(job)}


def read_report(made: dict[str, MadeFile], name: str = "cut-files.json") -> dict[str, Any]:
    report: dict[str, Any] = json.loads(made[name].data)
    return report


def read_paths(data: bytes) -> dict[str, list[str]]:
    """The `d` of every path by the title of its group, by the standard library's XML parser."""
    found: dict[str, list[str]] = {}
    for group in ElementTree.fromstring(data).iterfind(".//svg:g/svg:g", SVG_NAMES):
        title = group.find("svg:title", SVG_NAMES)
        assert title is not None
        found.setdefault(str(title.text), []).extend(
            p.get("d", "") for p in group.iterfind("svg:path", SVG_NAMES)
        )
    return found


def measure_path(data: str) -> tuple[float, float, float]:
    """Width, height and area of path data. Source: fontTools' parser, bounds pen and area pen."""
    bounds, area = BoundsPen(None), AreaPen()
    parse_path(data, bounds)
    parse_path(data, area)
    left, top, right, bottom = bounds.bounds
    return right - left, bottom - top, abs(area.value)


def read_polylines(data: bytes) -> tuple[dict[str, str], list[tuple[str, list[tuple[float, float]]]]]:
    """Header values, and layer and corners of every LWPOLYLINE, from the bare pairs of code and value.

    Source: the published group codes: 0 starts an entity, 8 is its layer, 90 counts its corners, 70 bit 1
    closes it, 10 and 20 are x and y, 9 names a header variable.
    """
    lines = data.decode("ascii").split("\n")
    pairs = [(int(code), value.strip()) for code, value in zip(lines[0::2], lines[1::2], strict=False)]
    header = {value: pairs[i + 1][1] for i, (code, value) in enumerate(pairs) if code == 9}
    found: list[tuple[str, list[tuple[float, float]]]] = []
    for i, (code, value) in enumerate(pairs):
        if (code, value) != (0, "LWPOLYLINE"):
            continue
        end = next(j for j in range(i + 1, len(pairs)) if pairs[j][0] == 0)
        body = pairs[i + 1 : end]
        xs, ys = ([float(v) for c, v in body if c == axis] for axis in (10, 20))
        assert [v for c, v in body if c == 90] == [str(len(xs))]
        assert [int(v) & 1 for c, v in body if c == 70] == [1]
        found.append((next(v for c, v in body if c == 8), list(zip(xs, ys, strict=True))))
    return header, found


def test_test_square_measures_100_mm_in_svg(job: Job) -> None:
    data = cut(job())["cut-test-square.svg"].data
    root = ElementTree.fromstring(data)
    assert (root.get("width"), root.get("viewBox")) == ("120mm", "0 0 120 120")
    (path,) = read_paths(data)["test square, 100 mm"]
    assert measure_path(path) == pytest.approx((100, 100, 10_000))


def test_test_square_measures_100_mm_in_dxf_and_the_unit_is_the_millimetre(job: Job) -> None:
    """Source: $INSUNITS 4 is millimetres, AC1015 is the release of 2000."""
    header, polylines = read_polylines(cut(job())["cut-test-square.dxf"].data)
    assert (header["$INSUNITS"], header["$ACADVER"]) == ("4", "AC1015")
    ((layer, corners),) = polylines
    assert layer == "mark"
    assert Polygon(corners).bounds == (10, 10, 110, 110)


@pytest.mark.parametrize("shape", ["bed", "stalk", "ring"])
def test_a_piece_is_cut_at_true_size_in_both_formats(job: Job, piece: Make, shape: str) -> None:
    asked = job(piece("one", f"leek.svg#{shape}", fabric="print"))
    outline = find_outline(asked.outlines, f"leek.svg#{shape}")
    made = cut(asked)
    (path,) = read_paths(made["cut-print-1.svg"].data)["one"]
    assert measure_path(path) == pytest.approx(
        (outline.width_mm, outline.height_mm, outline.area_mm2), abs=0.2
    )
    assert measure_path(path)[:2] == pytest.approx((outline.width_mm, outline.height_mm), abs=0.002)
    _, polylines = read_polylines(made["cut-print-1.dxf"].data)
    *holes, outer = (corners for _, corners in polylines)
    cut_out = Polygon(outer, holes)
    assert cut_out.area == pytest.approx(outline.area_mm2, abs=0.02 * 2 * math.pi * 40)
    left, low, right, high = cut_out.bounds
    assert (right - left, high - low) == pytest.approx((outline.width_mm, outline.height_mm), abs=0.05)


def test_page_is_the_mat_and_a_unit_a_millimetre(job: Job, piece: Make) -> None:
    root = ElementTree.fromstring(cut(job(piece("one", "leek.svg#bed")))["cut-leaf-1.svg"].data)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == (
        "304.8mm",
        "304.8mm",
        "0 0 304.8 304.8",
    )


def test_pieces_are_cut_mirrored_for_the_fusible_side_and_y_runs_up_in_dxf(job: Job, piece: Make) -> None:
    """Source: the outline mirrored by shapely; SVG and DXF must hold the same region of the mat."""
    asked = job(piece("one", "leek.svg#stalk", fabric="print"))
    expected = scale(
        Polygon(flatten(find_outline(asked.outlines, "leek.svg#stalk").rings[0])), -1, 1, origin=(0, 0)
    )
    made = cut(asked)
    _, ((_, corners),) = read_polylines(made["cut-print-1.dxf"].data)
    seen = scale(Polygon(corners), 1, -1, origin=(0, 304.8 / 2))
    moved = translate(expected, seen.bounds[0] - expected.bounds[0], seen.bounds[1] - expected.bounds[1])
    assert seen.symmetric_difference(moved).area < 0.01 * seen.area
    assert b"mirrored for the fusible side" in made["cut-print-1.svg"].data
    assert read_report(made)["mirrored"] is True


def test_a_mirrored_piece_is_cut_as_its_outline_was_drawn(job: Job, piece: Make) -> None:
    asked = job(piece("one", "leek.svg#stalk", fabric="print", mirror=True))
    expected = Polygon(flatten(find_outline(asked.outlines, "leek.svg#stalk").rings[0]))
    _, ((_, corners),) = read_polylines(cut(asked)["cut-print-1.dxf"].data)
    seen = scale(Polygon(corners), 1, -1, origin=(0, 304.8 / 2))
    moved = translate(expected, seen.bounds[0] - expected.bounds[0], seen.bounds[1] - expected.bounds[1])
    assert seen.symmetric_difference(moved).area < 0.01 * seen.area


def test_cloth_with_a_direction_keeps_its_pieces_as_they_lie_on_the_top(job: Job, piece: Make) -> None:
    """A quarter turn of 60 x 40 mm lies 40 x 60; on plain cloth it lies the way that takes least."""
    made = cut(job(piece("a", "leek.svg#bed", fabric="print", turn=90), piece("b", "leek.svg#bed", turn=90)))
    (printed,), (plain,) = (
        read_paths(made[f"cut-{cloth}-1.svg"].data)[n] for cloth, n in (("print", "a"), ("leaf", "b"))
    )
    assert measure_path(printed)[:2] == pytest.approx((40, 60))
    assert measure_path(plain)[:2] == pytest.approx((60, 40))


def many(piece: Make) -> list[dict[str, Any]]:
    shapes = [f"leek.svg#{shape}" for shape in ("ring", "stalk", "bed")]
    cloths = ("leaf", "print")
    return [
        piece(f"piece {n}", shapes[n % 3], scale=f"1.{n % 7}", turn=17 * n % 360, fabric=cloths[n % 2])
        for n in range(30)
    ]


def test_pieces_keep_their_distance_from_each_other_and_from_the_rim(job: Job, piece: Make) -> None:
    """Source: shapely's distances on the polylines read from the DXF: 5 mm between pieces, 6 mm to the rim."""
    made = cut(job(*many(piece)))
    stems = [entry["dxf"] for entry in read_report(made)["files"]]
    assert len(stems) > 2
    for stem in stems:
        _, polylines = read_polylines(made[stem].data)
        pieces = [Polygon(corners) for _, corners in polylines]
        outers = [p for p in pieces if not any(q.contains(p) for q in pieces if q is not p)]
        for i, one in enumerate(outers):
            assert box(6, 6, 298.8, 298.8).buffer(1e-3).contains(one)
            assert all(one.distance(other) >= 5 - 0.05 for other in outers[:i])


def test_every_piece_is_cut_once_for_its_mat(job: Job, piece: Make) -> None:
    made = cut(job(*many(piece)))
    entries = read_report(made)["files"]
    names = [p["name"] for entry in entries for p in entry["pieces"] for _ in range(p["count"])]
    assert sorted(names) == sorted(f"piece {n}" for n in range(30))
    for entry in entries:
        assert sorted(read_paths(made[entry["svg"]].data)) == sorted(p["name"] for p in entry["pieces"])


def test_holes_are_cut_before_the_piece_comes_loose(job: Job, piece: Make) -> None:
    made = cut(job(piece("one", "leek.svg#ring")))
    _, polylines = read_polylines(made["cut-leaf-1.dxf"].data)
    hole, outer = (Polygon(corners) for _, corners in polylines)
    assert outer.contains(hole)
    first, second = (part for part in read_paths(made["cut-leaf-1.svg"].data)["one"][0].split("M") if part)
    assert measure_path(f"M{first}")[2] < measure_path(f"M{second}")[2]


def test_blade_goes_on_to_the_nearest_piece(job: Job, piece: Make) -> None:
    """No other piece not yet cut begins nearer to where the blade left off."""
    made = cut(job(*[piece(f"pea {n}", "pod.svg", scale="1.5") for n in range(20)]))
    _, polylines = read_polylines(made["cut-leaf-1.dxf"].data)
    starts = [corners[0] for _, corners in polylines]
    here = (0.0, 304.8)
    for n, start in enumerate(starts):
        assert math.dist(here, start) <= min(math.dist(here, other) for other in starts[n:]) + 1e-6
        here = start


def test_curves_stay_curves_in_svg(job: Job, piece: Make) -> None:
    (path,) = read_paths(cut(job(piece("one", "leek.svg#ring")))["cut-leaf-1.svg"].data)["one"]
    assert path.count("C") >= 8
    assert "L" not in path


def test_a_reader_of_the_library_that_wrote_it_finds_nothing_wrong(job: Job, piece: Make) -> None:
    data = cut(job(*many(piece)))["cut-leaf-1.dxf"].data
    auditor = ezdxf.read(io.StringIO(data.decode("ascii"))).audit()
    assert not auditor.errors


def test_cloth_trimmed_in_place_stays_off_the_mat_and_is_reported(job: Job, piece: Make) -> None:
    made = cut(job(piece("stalk", "leek.svg#stalk", fabric="fleece"), piece("bed", "leek.svg#bed")))
    assert not any("fleece" in name for name in made)
    (left_out,) = read_report(made)["not_cut"]
    assert left_out["piece"] == "stalk"


def test_what_a_viewer_must_own_is_cut_in_the_studio_alone(job: Job, piece: Make) -> None:
    made = cut(job(piece("pea", "pod.svg"), piece("bed", "leek.svg#bed"), sources=(OWNED,)))
    assert {name for name, file in made.items() if not file.public} == {
        "cut-leaf-studio-1.svg",
        "cut-leaf-studio-1.dxf",
        "cut-files-studio.json",
    }
    assert list(read_paths(made["cut-leaf-1.svg"].data)) == ["bed"]
    assert list(read_paths(made["cut-leaf-studio-1.svg"].data)) == ["pea"]
    assert read_report(made)["bring_your_own"] == ["a bought pattern, for pea"]
    assert "studio" not in json.dumps(read_report(made)["files"])


def test_several_sizes_of_mat_have_files_of_their_own(job: Job, piece: Make) -> None:
    tracks = [
        {"name": "small", "has": ["cutter 200x200 mm"]},
        {"name": "large", "has": ["cutter 300x600 mm", "hoop 100x100"]},
        {"name": "large too", "has": ["cutter 300x600 mm"]},
    ]
    made = cut(job(*[piece(f"bed {n}", "leek.svg#bed") for n in range(13)], tracks=tracks))
    report = read_report(made)
    by_mat = {(entry["mat"], tuple(entry["tracks"])): entry["svg"] for entry in report["files"]}
    assert by_mat[("200x200", ("small",))] == "cut-leaf-200x200-2.svg"
    assert by_mat[("300x600", ("large", "large too"))] == "cut-leaf-300x600-1.svg"
    assert [(mat["label"], mat["needed"]) for mat in report["mats"]] == [("200x200", 2), ("300x600", 1)]


def test_the_report_measures_what_the_file_holds(job: Job, piece: Make) -> None:
    made = cut(job(piece("a", "leek.svg#bed"), piece("b", "leek.svg#bed")))
    (entry,) = read_report(made)["files"]
    _, polylines = read_polylines(made["cut-leaf-1.dxf"].data)
    shapes = [Polygon(corners) for _, corners in polylines]
    assert entry["used_share"] == pytest.approx(sum(s.area for s in shapes) / 304.8**2, abs=1e-4)
    assert entry["box_mm"] == [6, 6, 6 + 60 + 5 + 60, 46]
    assert entry["longest_side_mm"] == 125
    assert (entry["laid"], entry["thinnest_mm"], entry["thin"]) == ("in rows", 10, [])


def test_thin_pieces_are_named_in_the_report(job: Job, piece: Make) -> None:
    """Worked by hand: a bed of 60 x 40 mm at a twentieth is 3 x 2 mm."""
    made = cut(job(piece("a", "leek.svg#bed"), piece("b", "leek.svg#bed", scale="0.05")))
    (entry,) = read_report(made)["files"]
    assert entry["thin"] == ["b"]
    assert 1.0 <= entry["thinnest_mm"] <= 2.0


def test_a_piece_larger_than_the_mat_is_refused_with_the_mat_it_needs(job: Job, piece: Make) -> None:
    with pytest.raises(
        CannotMake, match=r'"rail" is 360\.0 x 240\.0 mm and does not fit the mat of 305 x 305'
    ) as caught:
        cut(job(piece("bed", "leek.svg#bed"), piece("rail", "leek.svg#bed", scale=6)))
    assert caught.value.pointer == "/pieces/1"
    assert "at least 372 x 252 mm" in caught.value.right


def read_drawing(data: bytes) -> Any:
    """A DXF as trimesh's own reader has it: its units, its closed shapes, its layers."""
    return trimesh.load_path(io.BytesIO(data), file_type="dxf")


def test_another_reader_finds_the_dxf_in_millimetres_at_true_size(job: Job, piece: Make) -> None:
    """Source: trimesh. Worked by hand: the ring is 60 mm across with a hole of 20, the bed 60 x 40 mm."""
    made = cut(job(piece("bed", "leek.svg#bed"), piece("ring", "leek.svg#ring")))
    drawing = read_drawing(made["cut-leaf-1.dxf"].data)
    hole, bed, ring = sorted(drawing.polygons_closed, key=lambda shape: shape.area)
    assert drawing.units == "millimeters"
    assert {layer.lower() for layer in drawing.layers} == {"cut"}
    assert (hole.area, ring.area) == pytest.approx((math.pi * 10**2, math.pi * 30**2), rel=3e-3)
    assert ring.contains(hole)
    left, top, right, bottom = ring.bounds
    assert (right - left, bottom - top) == pytest.approx((60, 60), abs=0.05)
    assert bed.area == pytest.approx(2400, abs=0.1)


def test_svg_and_dxf_hold_the_same_cloth(job: Job, piece: Make) -> None:
    """Source: trimesh for the DXF, fontTools for the SVG: the area of every ring within three thousandths."""
    made = cut(job(*[one for one in many(piece) if one["fabric"] == "leaf"]))
    for entry in read_report(made)["files"]:
        seen = sorted(shape.area for shape in read_drawing(made[entry["dxf"]].data).polygons_closed)
        paths = [path for of_piece in read_paths(made[entry["svg"]].data).values() for path in of_piece]
        rings = [f"M{part}" for path in paths for part in path.split("M") if part]
        assert seen == pytest.approx(sorted(measure_path(ring)[2] for ring in rings), rel=3e-3)


def test_spacing_and_margin_are_those_of_the_document(job: Job, piece: Make) -> None:
    """Worked by hand: two beds of 60 x 40 mm beside each other, 12 mm between, 10 mm from the rim."""
    more = {"cutting": {"mat": {"spacing": "12 mm", "margin": "10 mm"}}}
    report = read_report(cut(job(piece("a", "leek.svg#bed"), piece("b", "leek.svg#bed"), more=more)))
    assert report["files"][0]["box_mm"] == [10, 10, 10 + 60 + 12 + 60, 50]
    assert (report["spacing_mm"], report["margin_mm"]) == (12, 10)


def test_cloth_trimmed_in_place_is_in_no_file_in_any_colourway(job: Job, piece: Make) -> None:
    more = {
        "colourways": [{"name": "dusk", "fabrics": {"fleece": {"colour": "#223344", "name": "dusk fleece"}}}]
    }
    made = cut(job(piece("stalk", "leek.svg#stalk", fabric="fleece"), more=more))
    assert sorted(made) == ["cut-files.json", "cut-test-square.dxf", "cut-test-square.svg"]


def test_holes_are_cut_before_outer_edges_in_every_piece_of_a_mat(job: Job, piece: Make) -> None:
    """Source: shapely: no ring that is cut later lies inside one that was cut before."""
    made = cut(job(*[piece(f"ring {n}", "leek.svg#ring") for n in range(5)]))
    _, polylines = read_polylines(made["cut-leaf-1.dxf"].data)
    rings = [Polygon(corners) for _, corners in polylines]
    assert len(rings) == 10
    assert not any(a.contains(b) for n, a in enumerate(rings) for b in rings[n + 1 :])


def test_hard_turns_of_the_blade_are_named(job: Job, piece: Make) -> None:
    """Worked by hand: a pea of 24 mm at a thirtieth has a radius of 0.4 mm."""
    made = cut(job(piece("a", "pod.svg"), piece("b", "pod.svg", scale=0.0333333)))
    (entry,) = read_report(made)["files"]
    assert entry["hard_turns"] == ["b"]
    assert entry["tightest_radius_mm"] == pytest.approx(0.4, abs=0.02)


ROD = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="9mm" viewBox="0 0 400 9">'
    '<rect id="rod" width="370" height="8"/></svg>'
)


def test_a_piece_longer_than_the_mat_lies_aslant_where_it_fits(job: Job, piece: Make) -> None:
    """Worked by hand: 370 mm on a square of 292.8 mm, whose diagonal is 414 mm."""
    made = cut(job(piece("rod", "rod.svg#rod"), files={"rod.svg": ROD}))
    _, ((_, corners),) = read_polylines(made["cut-leaf-1.dxf"].data)
    assert box(6, 6, 298.8, 298.8).buffer(1e-3).contains(Polygon(corners))
    assert Polygon(corners).area == pytest.approx(370 * 8, abs=0.5)


@pytest.mark.parametrize(
    ("changes", "more", "why"),
    [
        ({"fabric": "print"}, {}, "its cloth has a direction"),
        ({}, {"cutting": {"mat": {"turns": "quarter turns"}}}, '"turns" of the mat is "quarter turns"'),
    ],
)
def test_a_piece_that_may_not_lie_aslant_is_refused(
    job: Job, piece: Make, changes: dict[str, Any], more: dict[str, Any], why: str
) -> None:
    with pytest.raises(CannotMake, match=f"it would fit aslant, but {why}") as caught:
        cut(job(piece("rod", "rod.svg#rod", **changes), files={"rod.svg": ROD}, more=more))
    assert "a mat of at least 382 x 20 mm" in caught.value.right


def test_a_long_piece_is_turned_to_fit(job: Job, piece: Make) -> None:
    """A mat of 150 x 400: 210 x 140 mm only fits turned."""
    tracks = [{"name": "narrow", "has": ["cutter 160x400 mm"]}]
    made = cut(job(piece("bed", "leek.svg#bed", scale="3.5"), tracks=tracks))
    (path,) = read_paths(made["cut-leaf-1.svg"].data)["bed"]
    assert measure_path(path)[:2] == pytest.approx((140, 210))


def test_same_input_gives_the_same_bytes(job: Job, piece: Make) -> None:
    assert make_cut_files(job(*many(piece))) == make_cut_files(job(*many(piece)))


def test_another_cloth_changes_nothing_for_the_first(job: Job, piece: Make) -> None:
    alone = cut(job(piece("a", "leek.svg#bed")))
    together = cut(job(piece("a", "leek.svg#bed"), piece("b", "leek.svg#ring", fabric="soil")))
    assert together["cut-leaf-1.svg"] == alone["cut-leaf-1.svg"]
    assert together["cut-leaf-1.dxf"] == alone["cut-leaf-1.dxf"]


def test_a_project_without_pieces_gets_the_test_square_and_a_report(job: Job) -> None:
    assert list(cut(job())) == ["cut-test-square.svg", "cut-test-square.dxf", "cut-files.json"]


def test_names_that_are_markup_stay_names(job: Job, piece: Make) -> None:
    made = cut(job(piece('<bed> & "more"', "leek.svg#bed")))
    assert list(read_paths(made["cut-leaf-1.svg"].data)) == ['<bed> & "more"']


def test_a_project_without_a_cutting_machine_cannot_have_cut_files(job: Job) -> None:
    with pytest.raises(CannotMake, match="no track has a cutting machine"):
        make_cut_files(job(tracks=[{"name": "by hand", "has": []}]))


def test_kinds_and_media_types(job: Job, piece: Make) -> None:
    made = cut(job(piece("bed", "leek.svg#bed")))
    assert {(f.kind, f.media_type) for f in made.values()} == {
        ("cut file", "image/svg+xml"),
        ("cut file", "image/vnd.dxf"),
        ("cut report", "application/json"),
    }
