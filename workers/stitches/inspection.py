"""What a stitch file says and holds, for a file from anywhere: no plan is needed."""

from __future__ import annotations

from typing import Any

import numpy as np

from workers.stitches.check import header_faults
from workers.stitches.record import JUMP, STITCH, STOP
from workers.stitches.report import extents_mm, thread_used_m
from workers.stitches.salvage import salvage_stitch_file
from workers.stitches.settings import StitchSettings


def inspect_stitch_file(data: bytes) -> dict[str, Any]:
    """Counts, size, thread and time of a stitch file, and where its header is wrong; `StitchFileError` if it is none.

    A file that was cut off or added to is told of as far as it can be read, with `damage` in words.

    Counting the end record or not is a writer's choice, so ST may be one less than the records there are.
    """
    (reading, damage), settings = salvage_stitch_file(data), StitchSettings()
    lengths = reading.stitch_lengths_mm
    count = {kind: int((reading.kinds == kind).sum()) for kind in (STITCH, JUMP, STOP)}
    faults = [f for f in header_faults(reading) if (f["field"], f["says"]) != ("ST", len(reading.kinds) - 1)]
    return {
        "label": printable(reading.header["LA"]).strip(),
        "records": len(reading.kinds),
        "stitches": count[STITCH],
        "jumps": count[JUMP],
        "stops": count[STOP],
        "trims": reading.trims,
        "extents_mm": extents_mm(reading),
        "shortest_mm": round(float(np.min(lengths, initial=np.inf)), 2) if len(lengths) else 0.0,
        "longest_mm": round(float(np.max(lengths, initial=0.0)), 2),
        "thread_m": round(thread_used_m(reading, settings), 2),
        "minutes": round(count[STITCH] / settings.stitches_a_minute, 1),
        "header_faults": faults,
        "damage": damage,
    }


def printable(text: str) -> str:
    """The text with a question mark for each character that would not be seen, or that would steer a terminal.

    >>> printable("leek\x1b[31m")
    'leek?[31m'
    """
    return "".join(c if c.isprintable() else "?" for c in text)
