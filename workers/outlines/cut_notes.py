"""What is said of cut files in words: to everybody who cuts, and of the pieces that ask for care, by their names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from service.craft.language import phrase, say_number
from workers.outlines.blade_turns import SHARP_DEGREES, TIGHT_MM
from workers.outlines.cut_writing import DXF_TOLERANCE_MM
from workers.outlines.thinness import THIN_MM


def say_notes(files: Sequence[Mapping[str, Any]]) -> list[str]:
    """The notes on these files, each as `cut-files.json` describes it; pieces are named where not all are meant."""
    pieces = list({piece["name"]: piece for file in files for piece in file["pieces"]}.values())
    return [
        phrase(
            "Every piece is mirrored for the fusible side: lay the cloth right side down, fusible web up."
        ),
        *_say_edges(pieces),
        phrase("Cut the test square from paper first and measure 100 mm both ways."),
        *_say_thin(_named(files, "thin")),
        phrase(
            "Corners and curves are cut as drawn: none is rounded or left out. DXF has curves in straight steps,"
            " {off} mm off at most.",
            off=say_number(DXF_TOLERANCE_MM),
        ),
        *_say_hard_turns(_named(files, "hard_turns")),
        phrase(
            "A blade is sharp whether the machine runs or not: keep fingers away, and follow the maker's instructions."
        ),
    ]


def _say_edges(pieces: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    turned = {piece["name"]: piece["turning_mm"] for piece in pieces if piece["turning_mm"]}
    if any(not piece["turning_mm"] for piece in pieces):
        if turned:
            yield phrase("Edges are raw: there is no seam allowance, but for the pieces named next.")
        else:
            yield phrase("Edges are raw: there is no seam allowance.")
    for width in sorted(set(turned.values())):
        yield phrase(
            "With {width} mm to turn under along the edges that show: {pieces}.",
            width=say_number(width, ".1f"),
            pieces=", ".join(name for name, own in turned.items() if own == width),
        )
    for piece in pieces:
        for under in piece["reaches_under"]:
            yield phrase(
                "{piece} reaches up to {reach} mm further where it lies under {upper}: leave that edge flat.",
                piece=piece["name"],
                reach=say_number(under["mm"], ".1f"),
                upper=under["piece"],
            )


def _say_thin(names: Sequence[str]) -> Iterator[str]:
    if names:
        yield phrase(
            "Narrower than {width} mm somewhere: {pieces}. Cut slowly, and peel the cloth off slowly too.",
            width=say_number(THIN_MM),
            pieces=", ".join(names),
        )


def _say_hard_turns(names: Sequence[str]) -> Iterator[str]:
    if names:
        yield phrase(
            "Curves tighter than {radius} mm or points under {angle} degrees: {pieces}. Cut slowly, and try one first.",
            radius=say_number(TIGHT_MM),
            angle=say_number(SHARP_DEGREES),
            pieces=", ".join(names),
        )


def _named(files: Sequence[Mapping[str, Any]], field: str) -> list[str]:
    return list(dict.fromkeys(name for file in files for name in file[field]))
