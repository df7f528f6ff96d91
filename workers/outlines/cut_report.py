"""What the cut files hold, in numbers, for people and for the handout."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any

from workers.outlines.asked import AskedPiece
from workers.outlines.blade_turns import SHARP_DEGREES, TIGHT_MM, find_blade_turns
from workers.outlines.cut_plan import CutSheet
from workers.outlines.cut_writing import DXF_TOLERANCE_MM, MIRRORED
from workers.outlines.mat_room import CutSettings, Mat
from workers.outlines.thinness import THIN_MM, find_thinnest_mm

TEST_SQUARE = "cut-test-square"

NOTES = (
    f"Every piece is {MIRRORED}.",
    "Edges are raw: there is no seam allowance, but for `turning_mm`, which is turned under all round.",
    "A piece with `reaches_under` is that much longer where it lies under the piece named: leave that edge flat.",
    "Cut the test square from paper first and measure 100 mm both ways.",
    f"Pieces under `thin` are narrower than {THIN_MM:g} mm somewhere: cut them slowly, and peel the cloth off them.",
    "Corners and curves are cut as drawn: none is rounded or left out. DXF has curves in straight steps,"
    f" {DXF_TOLERANCE_MM:g} mm off at most.",
    f"Pieces under `hard_turns` have curves tighter than {TIGHT_MM:g} mm or points under {SHARP_DEGREES:g} degrees:"
    " cut them slowly, and try one first.",
    "A blade is sharp whether the machine runs or not: keep fingers away, and follow the maker's instructions.",
)


def build_report(
    sheets: Sequence[CutSheet],
    mats: Sequence[Mat],
    pieces: Sequence[AskedPiece],
    own: Sequence[str],
    settings: CutSettings,
) -> dict[str, Any]:
    """The report on these sheets: mats needed, and for every file its pieces, its box and the mat's use."""
    return {
        "mats": [_describe_mat(mat, sheets) for mat in mats],
        "files": [_describe_sheet(sheet, {asked.piece.name: asked for asked in pieces}) for sheet in sheets],
        "test_square": {"svg": f"{TEST_SQUARE}.svg", "dxf": f"{TEST_SQUARE}.dxf", "side_mm": 100.0},
        "not_cut": [
            {"piece": asked.piece.name, "why": "its cloth is trimmed in place and stays off the mat"}
            for asked in pieces
            if asked.fabric.trim_in_place
        ],
        "bring_your_own": list(own),
        "spacing_mm": settings.spacing_mm,
        "margin_mm": settings.margin_mm,
        "mirrored": True,
        "notes": list(NOTES),
    }


def format_report(report: dict[str, Any]) -> bytes:
    """The report as JSON bytes, fields in the order they were put in."""
    return (json.dumps(report, ensure_ascii=False, indent=1) + "\n").encode()


def _describe_mat(mat: Mat, sheets: Sequence[CutSheet]) -> dict[str, Any]:
    return {
        "label": mat.label,
        "size_mm": [mat.width_mm, mat.height_mm],
        "tracks": list(mat.tracks),
        "needed": sum(sheet.mat == mat for sheet in sheets),
    }


def _describe_piece(asked: AskedPiece, count: int) -> dict[str, Any]:
    """What is cut beyond the finished shape, in millimetres."""
    return {
        "name": asked.piece.name,
        "count": count,
        "turning_mm": round(asked.turning_mm, 3),
        "reaches_under": [{"piece": name, "mm": round(reach, 2)} for name, reach in asked.underlaps],
    }


def _describe_sheet(sheet: CutSheet, asked: Mapping[str, AskedPiece]) -> dict[str, Any]:
    left, top, right, bottom = (round(side, 3) for side in sheet.box_mm)
    names = Counter(piece.name for piece in sheet.pieces)
    turns = {piece.name: find_blade_turns(piece.outline) for piece in sheet.pieces}
    radius = min(turn.radius_mm for turn in turns.values())
    thin = {piece.name: find_thinnest_mm(piece.outline) for piece in sheet.pieces}
    return {
        "svg": f"{sheet.stem}.svg",
        "dxf": f"{sheet.stem}.dxf",
        "fabric": sheet.fabric.key,
        "cloth": sheet.fabric.name,
        "mat": sheet.mat.label,
        "tracks": list(sheet.mat.tracks),
        "grain": "along the mat's height" if sheet.fabric.one_way else "any way",
        "pieces": [_describe_piece(asked[name], count) for name, count in names.items()],
        "box_mm": [left, top, right, bottom],
        "longest_side_mm": round(max(right - left, bottom - top), 3),
        "used_share": round(sheet.used_share, 4),
        "laid": sheet.way,
        "thinnest_mm": min(thin.values()),
        "thin": [name for name, width in thin.items() if width < THIN_MM],
        "tightest_radius_mm": round(radius, 3) if isfinite(radius) else None,
        "sharpest_corner_degrees": round(min(turn.corner_degrees for turn in turns.values()), 1),
        "hard_turns": [name for name, turn in turns.items() if turn.hard],
    }
