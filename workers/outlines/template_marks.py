"""Marks on templates that are laid on lines drawn on the top: where a piece has its middle, or a hooping its own."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from shapely import LineString, Polygon, get_coordinates

from service.craft.language import mark, phrase
from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.cut_shapes import Run, unplacing
from service.craft.outlines.polygons import to_polygon
from service.craft.outlines.split_parts import find_split_ends
from service.craft.tracks import Track
from workers.outlines.asked import AskedPiece
from workers.recipe import JobInput

MARK_MM, TIP_MM = 5.0, 1.8
"""How far a mark reaches inward from the edge; half the width of the tip on the one that points up."""

ALIKE_MM = 0.5
"""Crossing lines that lie so near each other on a shape are one place: half of what a ruler is read to."""

MIDDLE = mark("Marks on the edge lead to the middle that the steps place.")
MIDDLE_UPWARDS = mark(
    "Marks on the edge lead to the middle that the steps place; the tip points up on the top."
)
CROSSING = mark(
    "Marks on the edge lie on the crossing lines of hooping {hooping} in the drawing of places, "
    "the tip where the arrow points."
)
SPLIT = mark("Long dashes: the split between hoopings; cut it in one piece.")

ALL_WAYS: tuple[Point, ...] = ((0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0))


@dataclass(frozen=True)
class Crossing:
    """The middle of a hooping as the drawing of places shows it: its name there, its place on the top (mm), how far the
    top lies turned clockwise in the hoop (degrees), and which pieces it sews in part.
    """

    label: str
    at: Point
    turned: float = 0.0
    splits: tuple[str, ...] = ()


@dataclass(frozen=True)
class Marks:
    """The lines to draw on a template, and what they mean."""

    lines: tuple[Run, ...] = ()
    split: tuple[Run, ...] = ()
    words: tuple[str, ...] = ()


def read_crossings(job: JobInput, track: Track, kept_back: Iterable[str]) -> dict[str, list[Crossing]]:
    """The hoopings of a track's field by the pieces they sew, named as in the handout: H1 is the first.

    Hoopings of pieces that are `kept_back`, because viewers must own them, are in no handout and have no name.
    """
    if track.hoop is None:
        return {}
    stem, owned = f"stitch-{track.hoop.label}-", set(kept_back)
    names = [name for name in job.inputs if name.startswith(stem) and name.endswith(".json")]
    names.sort(key=lambda name: (len(name), name))
    reports = [json.loads(job.inputs[name]) for name in names]
    shown = [report for report in reports if not owned & set(report.get("pieces", []))]
    found: dict[str, list[Crossing]] = {}
    for n, report in enumerate(shown, start=1):
        same = report.get("same_as")
        x, y = (same or report)["centre_mm"]
        turned = float(same["top_turned_degrees"]) if same else 90.0 * bool(report.get("turned"))
        crossing = Crossing(f"H{n}", (x, y), turned, tuple(report.get("parts", {})))
        for piece in report["pieces"]:
            found.setdefault(piece, []).append(crossing)
    return found


def mark_template(
    group: Sequence[AskedPiece], lay: Affine, crossings: Mapping[str, Sequence[Crossing]]
) -> Marks:
    """The marks of a template for these pieces; `lay` leads from a piece, not turned, to its drawing.

    Where all of them have the middle of one hooping in the same place on the shape, that is marked; else their own.
    """
    first = group[0]
    shape = to_polygon(first.outline)
    common = _common_crossing(group, crossings)
    lines = mark_edge(shape, common.at, common.turned) if common else ()
    words, tipped = phrase(CROSSING, hooping=common.label) if common else "", True
    if not lines:
        tipped = len({asked.piece.turn % 360 for asked in group}) == 1
        middle = (first.outline.width_mm / 2, first.outline.height_mm / 2)
        lines = mark_edge(shape, middle, -float(first.piece.turn) if tipped else 0.0)
        words = phrase(MIDDLE_UPWARDS if tipped else MIDDLE)
    if not lines:
        return Marks()
    tip = _tip(lines[0]) if tipped else ()
    split = _find_split(first, crossings)
    return Marks(_laid((*lines, *tip), lay), _laid(split, lay), (words, *([phrase(SPLIT)] if split else [])))


def mark_edge(shape: Polygon, at: Point, turn: float) -> tuple[Run, ...]:
    """Short lines from the edge inward, up, right, down and left of a place, all turned clockwise by degrees.

    None where the edge is missed on one side: the place lies outside.
    """
    x0, y0, x1, y1 = shape.bounds
    far = (x1 - x0) + (y1 - y0) + abs(at[0]) + abs(at[1])
    turned = Affine.turning(turn)
    marks = []
    for way in ALL_WAYS:
        x, y = turned.apply(way)
        met = get_coordinates(
            shape.boundary.intersection(LineString([at, (at[0] + x * far, at[1] + y * far)]))
        )
        if not len(met):
            return ()
        along = (met - np.array(at)) @ np.array((x, y))
        reach = float(along.max())
        inner = max(0.0, reach - MARK_MM)
        marks.append(((at[0] + x * reach, at[1] + y * reach), (at[0] + x * inner, at[1] + y * inner)))
    return tuple(marks)


def _tip(mark: Run) -> tuple[Run, ...]:
    """An open tip at the outer end of a mark."""
    (x, y), (inner_x, inner_y) = mark[0], mark[-1]
    length = max(float(np.hypot(x - inner_x, y - inner_y)), 1e-9)
    dx, dy = (inner_x - x) / length * TIP_MM, (inner_y - y) / length * TIP_MM
    return tuple(((x, y), (x + dx + side * dy, y + dy - side * dx)) for side in (-0.6, 0.6))


def _common_crossing(
    group: Sequence[AskedPiece], crossings: Mapping[str, Sequence[Crossing]]
) -> Crossing | None:
    """The middle of a hooping on the shape, turned as it lies there, if it is one a piece and in one place for all."""
    found: list[Crossing] = []
    for asked in group:
        own = crossings.get(asked.piece.name, ())
        if len(own) != 1:
            return None
        back = unplacing(asked.piece, asked.outline.width_mm, asked.outline.height_mm)
        turned = (-float(asked.piece.turn) - own[0].turned) % 360
        found.append(Crossing(own[0].label, back.apply(own[0].at), turned))
    spread = np.ptp(np.array([one.at for one in found]), axis=0).max()
    alike = spread <= ALIKE_MM and len({round(one.turned, 1) % 360 for one in found}) == 1
    labels = _either(one.label for one in found)
    return Crossing(labels, found[0].at, found[0].turned) if alike else None


def _either(labels: Iterable[str]) -> str:
    said, *more = labels
    for label in more:
        said = phrase("{one} or {other}", one=said, other=label)
    return said


def _find_split(asked: AskedPiece, crossings: Mapping[str, Sequence[Crossing]]) -> tuple[Run, ...]:
    """Where a piece is split between hoopings of the track, on the shape."""
    if not any(asked.piece.name in one.splits for one in crossings.get(asked.piece.name, ())):
        return ()
    back = unplacing(asked.piece, asked.outline.width_mm, asked.outline.height_mm)
    # The outline here has its size and side already; the split is measured on it as it was drawn.
    drawn = asked.outline.moved(Affine.scaling(-1.0 if asked.piece.mirror else 1.0, 1.0)).moved(
        Affine.scaling(1 / float(asked.piece.scale), 1 / float(asked.piece.scale))
    )
    return tuple((back.apply(start), back.apply(end)) for start, end in find_split_ends(asked.piece, drawn))


def _laid(lines: Iterable[Run], lay: Affine) -> tuple[Run, ...]:
    return tuple(tuple(lay.apply(point) for point in line) for line in lines)
