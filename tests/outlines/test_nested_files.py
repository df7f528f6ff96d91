"""Cut files of pieces that lie turned among each other, read back by other libraries than those that wrote them."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest
import trimesh
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from shapely import LineString, Polygon, box

from service.craft.outlines import find_outline, flatten
from workers.outlines.cut_files import make_cut_files
from workers.recipe import JobInput

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

HOOK = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">'
    '<path id="hook" d="M0 0H110V24H24V95H0z"/></svg>'
)
SPACING, MARGIN, MAT, OFF = 5.0, 6.0, 304.8, 0.05


@pytest.fixture
def nested(job: Job, piece: Make) -> tuple[JobInput, dict[str, bytes]]:
    """Ten hooks, free to turn, on mats of 12 in."""
    pieces = [piece(f"hook {n}", "hook.svg#hook") for n in range(10)]
    asked = job(*pieces, files={"hook.svg": HOOK})
    return asked, {made.name: made.data for made in make_cut_files(asked)}


def read_dxf(data: bytes) -> list[Polygon]:
    """Source: trimesh. On the mat with y down."""
    drawing = trimesh.load_path(io.BytesIO(data), file_type="dxf")
    return [Polygon([(x, MAT - y) for x, y in shape.exterior.coords]) for shape in drawing.polygons_closed]


def read_svg_shapes(data: bytes) -> list[Polygon]:
    """Source: the standard library's XML parser and fontTools' reader of path data; a hook has straight edges only."""
    shapes = []
    for path in ElementTree.fromstring(data).iter("{http://www.w3.org/2000/svg}path"):
        pen = RecordingPen()
        parse_path(path.get("d", ""), pen)
        shapes.append(Polygon([points[0] for name, points in pen.value if name in ("moveTo", "lineTo")]))
    return shapes


def sides(shape: Polygon) -> list[float]:
    """The lengths of a hook's six sides, going round from the longest, whatever way it lies."""
    corners = list(shape.simplify(0.01).exterior.coords)
    lengths = [LineString(pair).length for pair in pairwise(corners)]
    start = lengths.index(max(lengths))
    return lengths[start:] + lengths[:start]


def test_turned_pieces_have_their_true_size_and_distance_in_both_files(
    nested: tuple[JobInput, dict[str, bytes]],
) -> None:
    """Worked by hand: a hook's sides are 110, 24, 86, 71, 24 and 95 mm, the other way round from the fusible side."""
    _, made = nested
    report = json.loads(made["cut-files.json"])
    room = box(MARGIN - OFF, MARGIN - OFF, MAT - MARGIN + OFF, MAT - MARGIN + OFF)
    assert {entry["laid"] for entry in report["files"]} == {"by shape"}
    found = 0
    for entry in report["files"]:
        for shapes in (read_dxf(made[entry["dxf"]]), read_svg_shapes(made[entry["svg"]])):
            assert len(shapes) == len(entry["pieces"])
            for n, shape in enumerate(shapes):
                assert sorted(sides(shape)) == pytest.approx([24, 24, 71, 86, 95, 110], abs=OFF)
                assert room.covers(shape)
                assert all(shape.distance(other) >= SPACING - OFF for other in shapes[:n])
        found += len(entry["pieces"])
    assert found == 10


def test_turned_pieces_are_mirrored_and_never_turned_over(nested: tuple[JobInput, dict[str, bytes]]) -> None:
    """A hook's sides follow each other the other way round in its mirror image, which no turn changes."""
    asked, made = nested
    drawn = Polygon(flatten(find_outline(asked.outlines, "hook.svg#hook").rings[0]))
    for name, data in made.items():
        if name.endswith(".svg") and "square" not in name:
            for shape in read_svg_shapes(data):
                order = sides(shape if shape.exterior.is_ccw == drawn.exterior.is_ccw else shape.reverse())
                assert order == pytest.approx([110, *sides(drawn)[:0:-1]], abs=OFF)
