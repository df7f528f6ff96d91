"""What the cut files hold, in numbers, for people and for the handout."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any

from service.craft.language import mark, phrase
from workers.outlines.asked import AskedPiece
from workers.outlines.blade_turns import find_blade_turns
from workers.outlines.cut_notes import say_notes
from workers.outlines.cut_plan import CutSheet
from workers.outlines.mat_room import CutSettings, Mat
from workers.outlines.thinness import THIN_MM, find_thinnest_mm

TEST_SQUARE = "cut-test-square"

ALONG_MAT, ANY_WAY = mark("along the mat's height"), mark("any way")
"""How the lengthwise grain of a cloth lies on its mat: keys of a report, said in words where they are printed."""


def build_report(
    sheets: Sequence[CutSheet],
    mats: Sequence[Mat],
    pieces: Sequence[AskedPiece],
    own: Sequence[str],
    settings: CutSettings,
) -> dict[str, Any]:
    """The report on these sheets: mats needed, and for every file its pieces, its box and the mat's use."""
    by_name = {asked.piece.name: asked for asked in pieces}
    files = [_describe_sheet(sheet, by_name) for sheet in sheets]
    return {
        "mats": [_describe_mat(mat, sheets) for mat in mats],
        "files": files,
        "test_square": {"svg": f"{TEST_SQUARE}.svg", "dxf": f"{TEST_SQUARE}.dxf", "side_mm": 100.0},
        "not_cut": [
            {"piece": asked.piece.name, "why": phrase("its cloth is trimmed in place and stays off the mat")}
            for asked in pieces
            if asked.fabric.trim_in_place
        ],
        "bring_your_own": list(own),
        "spacing_mm": settings.spacing_mm,
        "margin_mm": settings.margin_mm,
        "mirrored": True,
        "notes": say_notes(files),
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
        "grain": ALONG_MAT if sheet.fabric.one_way else ANY_WAY,
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
