"""Checks the file read back against the plan, needle point by needle point: nothing was lost or moved in writing."""

from __future__ import annotations

import numpy as np

from workers.stitches.findings import MOST_PLACES, Check, Checked, at_point
from workers.stitches.record import Ints, to_units


def check_planned(checked: Checked) -> Check:
    """Every pass has the needle points that were planned for it, to a tenth of a millimetre, and no others.

    What a plan is worth the other checks measure on the file alone; this one finds a record that went astray where
    they would let it pass: a stitch of an underlay, a shift that stays under the finish.
    """
    wrong: list[dict[str, object]] = []
    for number, one in enumerate(checked.hooping.passes):
        first, last = checked.ranges[number]
        read, planned = checked.reading.places[first : last + 1], points_planned(checked, number)
        same = min(len(read), len(planned))
        off = np.flatnonzero((read[:same] != planned[:same]).any(axis=1))
        if not len(off) and len(read) == len(planned):
            continue
        record = first + int(off[0] if len(off) else min(same, last - first))
        at = checked.reading.points_mm[min(max(record, 0), len(checked.reading.kinds) - 1)]
        wrong.append(at_point(at, record=record, kind=one.kind, piece=one.piece))
    return Check("the file sews what was planned", not wrong, len(wrong), wrong[:MOST_PLACES])


def points_planned(checked: Checked, number: int) -> Ints:
    """The places of a pass's stitches as planned, in tenths of a millimetre; a stitch of no length is none."""
    one = checked.hooping.passes[number]
    units = to_units(one.points)
    start = to_units(checked.hooping.passes[number - 1].points[-1:]) if one.joined and number else units[:1]
    way = np.diff(np.vstack([start, units]), axis=0)
    return np.asarray(units[way.any(axis=1)])
