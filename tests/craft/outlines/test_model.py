"""The outline model: boxes, areas, flattening, JSON."""

from __future__ import annotations

import json
import math

import numpy as np
import pytest
from shapely import Polygon

from service.craft.outlines import Cubic, Line, Outline, OutlineFile, Ring, flatten, from_json, to_json
from service.craft.outlines.affine import Affine

K = 4 * (math.sqrt(2) - 1) / 3


def blob() -> Ring:
    """A curve that bulges over its corner points on every side."""
    return Ring(
        (10.0, 0.0),
        (
            Cubic((30.0, -5.0), (25.0, 18.0), (12.0, 20.0)),
            Cubic((-3.0, 22.0), (-9.0, 9.0), (0.0, 6.0)),
            Line((10.0, 0.0)),
        ),
    )


def test_box_of_a_curve_is_that_of_its_points_and_not_of_its_control_points() -> None:
    """Source: the curve itself, sampled 100,000 times a segment by the defining Bernstein sum."""
    t = np.linspace(0, 1, 100_001)[:, None]
    rows = []
    for here, segment in blob().pairs():
        if isinstance(segment, Cubic):
            p = [np.array(q) for q in (here, *segment.points)]
            rows.append(
                (1 - t) ** 3 * p[0] + 3 * t * (1 - t) ** 2 * p[1] + 3 * t**2 * (1 - t) * p[2] + t**3 * p[3]
            )
    sampled = np.vstack(rows)
    assert blob().box_mm == pytest.approx((*sampled.min(0), *sampled.max(0)), abs=1e-6)


def test_box_of_a_cubic_that_is_an_upright_line_has_no_width() -> None:
    """All of its x are alike: its derivative there is nothing, and has no roots to find."""
    ring = Ring((5.0, 0.0), (Cubic((5.0, 1.0), (5.0, 2.0), (5.0, 3.0)), Line((5.0, 0.0))))
    assert ring.box_mm == (5.0, 0.0, 5.0, 3.0)


def test_area_of_a_curve_agrees_with_a_fine_polygon() -> None:
    """Source: shapely's area of the ring flattened to a hundred-thousandth of a millimetre."""
    fine = Polygon(flatten(blob(), tolerance_mm=1e-5))
    assert blob().area_mm2 == pytest.approx(fine.area, rel=2e-6)


def test_area_is_positive_clockwise_on_the_page_and_turns_its_sign_with_the_ring() -> None:
    square = Ring((0.0, 0.0), (Line((2.0, 0.0)), Line((2.0, 2.0)), Line((0.0, 2.0))))
    assert square.area_mm2 == 4
    assert square.reversed().area_mm2 == -4
    assert blob().reversed().area_mm2 == pytest.approx(-blob().area_mm2)


@pytest.mark.parametrize("tolerance_mm", [1.0, 0.1, 0.01, 0.001])
def test_flattened_ring_stays_within_its_tolerance(tolerance_mm: float) -> None:
    """Source: the distance of a very fine polyline of the same curve to the flattened one, by shapely."""
    fine = Polygon(flatten(blob(), tolerance_mm=1e-6)).exterior
    coarse = Polygon(flatten(blob(), tolerance_mm=tolerance_mm)).exterior
    assert fine.hausdorff_distance(coarse) <= tolerance_mm


def test_flattened_ring_starts_at_its_start_and_repeats_no_point() -> None:
    points = flatten(blob())
    assert tuple(points[0]) == blob().start
    assert (np.linalg.norm(np.diff(points, axis=0, append=points[:1]), axis=1) > 0).all()


def test_outline_stays_clockwise_when_it_is_mirrored() -> None:
    outline = Outline("blob", (blob(),))
    mirrored = outline.moved(Affine.scaling(-1, 1))
    assert outline.rings[0].area_mm2 > 0
    assert mirrored.rings[0].area_mm2 == pytest.approx(outline.rings[0].area_mm2)


def test_area_of_an_outline_leaves_its_holes_out() -> None:
    hole = Ring((1.0, 1.0), (Line((1.0, 2.0)), Line((2.0, 2.0)), Line((2.0, 1.0))))
    square = Ring((0.0, 0.0), (Line((3.0, 0.0)), Line((3.0, 3.0)), Line((0.0, 3.0))))
    assert Outline("frame", (square, hole)).area_mm2 == 8


def test_json_gives_back_the_same_outline_file_to_the_last_bit() -> None:
    file = OutlineFile(
        "bean.svg", "0" * 64, (Outline("pod", (blob().moved(Affine.turning(11.3)),)),), ("one note",)
    )
    assert from_json(json.loads(json.dumps(to_json(file)))) == file


def test_json_has_the_fields_that_other_rooms_read() -> None:
    raw = to_json(OutlineFile("bean.svg", "ab", (Outline("pod", (blob(),)),)))
    assert set(raw) == {"name", "sha256", "shapes", "notes"}
    assert set(raw["shapes"][0]) == {"name", "box_mm", "rings"}
    assert raw["shapes"][0]["rings"][0]["segments"][2] == ["L", 10.0, 0.0]
    assert raw["shapes"][0]["rings"][0]["segments"][0] == ["C", 30.0, -5.0, 25.0, 18.0, 12.0, 20.0]


def test_a_segment_of_another_kind_is_refused() -> None:
    raw = to_json(OutlineFile("bean.svg", "ab", (Outline("pod", (blob(),)),)))
    raw["shapes"][0]["rings"][0]["segments"][0] = ["Q", 1, 2, 3, 4]
    with pytest.raises(ValueError, match="a segment is"):
        from_json(raw)


def test_later_affine_map_is_written_on_the_left() -> None:
    """Source: the worked example of nested transforms in SVG 1.1, 7.5 (from memory).

    It prints .707 -.707 .707 .707 255.03 111.21, worked out with the rounded .707.
    """
    chain = Affine.moving(50, 90) @ Affine.turning(-45) @ Affine.moving(130, 160)
    assert chain.numbers == pytest.approx((0.707, -0.707, 0.707, 0.707, 255.03, 111.21), abs=0.04)
