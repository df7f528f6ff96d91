"""Icons that nobody drew for this, taken all the way: read at a size one can cut, laid on mats, written."""

from __future__ import annotations

import json
import re
import time
from collections.abc import Iterable, Sequence
from pathlib import Path

from service.craft.outlines import OutlineFile, OutlineUnreadable, read_svg, to_json
from workers.outlines.cut_files import make_cut_files
from workers.recipe import JobInput

SIDE_MM = 90
A_ROW = 12
APART_IN = 12


def read_icons(paths: Iterable[Path]) -> tuple[list[OutlineFile], dict[str, str]]:
    """What was read, and of what was refused the words."""
    read: list[OutlineFile] = []
    refused: dict[str, str] = {}
    for path in paths:
        text = path.read_text("utf-8")
        for side in ("width", "height"):
            text = re.sub(rf'(<svg[^>]*?\s){side}="[^"]*"', rf'\1{side}="{SIDE_MM}mm"', text, count=1)
        try:
            read.append(read_svg(text.encode(), path.name))
        except OutlineUnreadable as why:
            refused[path.name] = str(why)
    return read, refused


def cut_all(files: Sequence[OutlineFile], seconds: float = 60.0) -> list[str]:
    """The pieces that the report of the cut files has, one for each shape of the files, named "file shape".

    Laying them closely ends after about so many seconds; what is not laid by then goes in rows.
    """
    end = time.monotonic() + seconds
    pieces = [
        {
            "name": f"{file.name} {shape.name}",
            "outline": f"{file.name}#{shape.name}",
            "fabric": "print",
            "edge": "raw",
        }
        for file in files
        for shape in file.shapes
    ]
    for number, piece in enumerate(pieces):
        piece["at"] = [str(APART_IN * (1 + number % A_ROW)), str(APART_IN * (1 + number // A_ROW))]
    side = str(APART_IN * (A_ROW + 2 + len(pieces) // A_ROW))
    document = {
        "title": "Icons",
        "fabrics": {"print": {"name": "seed print", "usable_width": "42", "directional": True}},
        "top": {"unit": "patch", "size": [side, side], "fabric": "print"},
        "pieces": pieces,
        "tracks": [{"name": "cutter", "has": ["cutter 12x12"]}],
    }
    outlines = {file.name: to_json(file) for file in files}
    made = {
        one.name: one.data
        for one in make_cut_files(
            JobInput(kind="", document=document, outlines=outlines, left=lambda: end - time.monotonic())
        )
    }
    mats = json.loads(made["cut-files.json"])["files"]
    missing = [mat[kind] for mat in mats for kind in ("svg", "dxf") if not made.get(mat[kind])]
    assert not missing, missing
    return [entry["name"] for mat in mats for entry in mat["pieces"] for _ in range(entry["count"])]
