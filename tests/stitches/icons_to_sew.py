"""Shapes of drawings sewn and checked one by one: passed, refused with a reason, or failed."""

import json
from collections import Counter

from service.craft.fabric import Thread
from service.craft.outlines import flatten
from workers.recipe import CannotMake
from workers.stitches.hooping import plan_hoopings
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import StitchPiece
from workers.stitches.settings import USUAL, Field
from workers.stitches.writing import make_files, write_best

FIELD = Field(200, 200)


def sew_shape(shape, edge="satin"):
    """`passed`, `refused: …` or `failed: …` for one outline."""
    piece = StitchPiece(
        shape.name, tuple(flatten(r) for r in shape.rings), Thread("white", "#ffffff"), edge=edge
    )
    try:
        (hooping,) = plan_hoopings([sew_piece(piece, USUAL)], FIELD, USUAL)
    except CannotMake as refused:
        return f"refused: {refused.detail.partition(':')[0].replace(shape.name, '…')[:90]}"
    report = json.loads(make_files(write_best(hooping, USUAL), USUAL)[-1].data)
    failed = [check["name"] for check in report["checks"] if not check["ok"]]
    assert report["released"] == (not failed)
    assert all(check["where"] for check in report["checks"] if not check["ok"]), failed
    return f"failed: {', '.join(failed)}" if failed else "passed"


def sew_all(files, edge="satin"):
    """How the shapes of drawings end, and which of them failed."""
    ends, failed = Counter(), {}
    for file in files:
        for shape in file.shapes:
            end = sew_shape(shape, edge)
            ends[end] += 1
            if end.startswith("failed"):
                failed[f"{file.name}#{shape.name}"] = end
    return ends, failed
