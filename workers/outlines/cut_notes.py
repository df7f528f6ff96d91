"""What is said of cut files in words: to everybody who cuts, and of the pieces that ask for care, by their names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from workers.outlines.blade_turns import SHARP_DEGREES, TIGHT_MM
from workers.outlines.cut_writing import DXF_TOLERANCE_MM, MIRRORED
from workers.outlines.thinness import THIN_MM


def say_notes(files: Sequence[Mapping[str, Any]]) -> list[str]:
    """The notes on these files, each as `cut-files.json` describes it; pieces are named where not all are meant."""
    pieces = list({piece["name"]: piece for file in files for piece in file["pieces"]}.values())
    return [
        f"Every piece is {MIRRORED}.",
        *_say_edges(pieces),
        "Cut the test square from paper first and measure 100 mm both ways.",
        *_say_of(
            _named(files, "thin"), f"Narrower than {THIN_MM:g} mm somewhere", "peel the cloth off slowly too"
        ),
        "Corners and curves are cut as drawn: none is rounded or left out. DXF has curves in straight steps,"
        f" {DXF_TOLERANCE_MM:g} mm off at most.",
        *_say_of(
            _named(files, "hard_turns"),
            f"Curves tighter than {TIGHT_MM:g} mm or points under {SHARP_DEGREES:g} degrees",
            "try one first",
        ),
        "A blade is sharp whether the machine runs or not: keep fingers away, and follow the maker's instructions.",
    ]


def _say_edges(pieces: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    turned = {piece["name"]: piece["turning_mm"] for piece in pieces if piece["turning_mm"]}
    if any(not piece["turning_mm"] for piece in pieces):
        but = ", but for the pieces named next" if turned else ""
        yield f"Edges are raw: there is no seam allowance{but}."
    for width in sorted(set(turned.values())):
        names = ", ".join(name for name, own in turned.items() if own == width)
        yield f"With {width:.1f} mm to turn under along the edges that show: {names}."
    for piece in pieces:
        for under in piece["reaches_under"]:
            yield (
                f"{piece['name']} reaches up to {under['mm']:.1f} mm further where it lies under {under['piece']}:"
                " leave that edge flat."
            )


def _say_of(names: Sequence[str], what: str, also: str) -> Iterator[str]:
    if names:
        yield f"{what}: {', '.join(names)}. Cut slowly, and {also}."


def _named(files: Sequence[Mapping[str, Any]], field: str) -> list[str]:
    return list(dict.fromkeys(name for file in files for name in file[field]))
