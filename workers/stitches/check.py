"""Checks a stitch file before the needle does: everything is measured on the file read back, nothing on the plan."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from workers.stitches.check_density import check_density, check_details
from workers.stitches.check_gaps import check_gaps
from workers.stitches.check_planned import check_planned
from workers.stitches.check_underlay import check_underlay
from workers.stitches.cover import check_cover
from workers.stitches.curves import draw_outlines
from workers.stitches.findings import MOST_PLACES, Check, Checked, at_point, at_records
from workers.stitches.pieces import FINISH, PLACEMENT, TACK_DOWN, UNDERLAY
from workers.stitches.reading import Reading
from workers.stitches.record import END, STITCH, STOP
from workers.stitches.stretches import count_edges

ROUNDING_MM = 0.1
"""Needle points are rounded to tenths of a millimetre on both axes: the diagonal is under 0.1 each way."""

TIED_STITCHES = 3
"""So many small stitches hold a thread (common practice, no source)."""


def check_hooping(checked: Checked) -> list[Check]:
    """Every check, in the order the report lists them."""
    return [
        check_header(checked),
        check_end(checked),
        check_all_claimed(checked),
        check_planned(checked),
        check_order(checked),
        check_longest_move(checked),
        check_longest_stitch(checked),
        check_shortest_stitch(checked),
        check_inside_field(checked),
        check_ties(checked),
        check_placement(checked),
        check_underlay(checked),
        *check_cover(checked),
        *check_gaps(checked),
        check_density(checked),
        *check_details(checked),
    ]


def header_faults(reading: Reading) -> list[dict[str, object]]:
    """Each header field that says something else than the records, with both."""
    places = np.vstack([np.zeros((1, 2), dtype=np.int64), reading.places])
    low, high, last = places.min(axis=0), places.max(axis=0), places[-1]
    true = {
        "ST": len(reading.kinds),
        "CO": int((reading.kinds == STOP).sum()),
        "+X": int(high[0]),
        "-X": int(-low[0]),
        "+Y": int(high[1]),
        "-Y": int(-low[1]),
        "AX": int(last[0]),
        "AY": int(last[1]),
    }
    said = {name: reading.number(name) for name in true}
    return [
        {"field": name, "says": said[name], "is": true[name]} for name in true if said[name] != true[name]
    ]


def check_header(checked: Checked) -> Check:
    """The header's counts, extents and last place are those of the records, and the file is one of its own.

    MX, MY and PD belong to designs of several files (EduTechWiki of the University of Geneva): here they are empty.
    """
    wrong = header_faults(checked.reading)
    empty = {"MX": "+0", "MY": "+0", "PD": "******"}
    said = {name: checked.reading.header[name].replace(" ", "") for name in empty}
    wrong += [{"field": n, "says": said[n], "is": empty[n]} for n in empty if said[n] != empty[n]]
    return Check("the header tells the truth", not wrong, len(wrong), wrong)


def check_end(checked: Checked) -> Check:
    """There is one end record and it is the last."""
    ends = np.flatnonzero(checked.reading.kinds == END)
    last = len(checked.reading.kinds) - 1
    ok = len(ends) == 1 and int(ends[0]) == last
    return Check(
        "one end record, at the end", ok, len(ends), [] if ok else [{"record": int(i)} for i in ends]
    )


def check_all_claimed(checked: Checked) -> Check:
    """Every stitch belongs to exactly one pass, and passes hold nothing but stitches."""
    kinds = checked.reading.kinds
    claims = np.zeros(len(kinds), dtype=int)
    for first, last in checked.ranges:
        claims[first : last + 1] += 1
    wrong = np.flatnonzero(claims != (kinds == STITCH))
    return Check("every stitch belongs to one pass", not len(wrong), len(wrong), at_records(checked, wrong))


def wanted_order(checked: Checked, piece: str) -> list[str]:
    """What is wrong with the order of one piece's passes, in words; empty where it is right."""
    spans: dict[str, list[tuple[int, int]]] = {}
    for one, span in zip(checked.hooping.passes, checked.ranges, strict=True):
        if one.piece == piece:
            spans.setdefault(one.kind, []).append(span)
    missing = [kind for kind in (PLACEMENT, TACK_DOWN, FINISH) if kind not in spans]
    if missing:
        return [f"{piece} has no {kind}" for kind in missing]
    sewn = next(s.piece for s in checked.hooping.sewn if s.piece.name == piece)
    rings = count_edges(sewn)
    counted = (PLACEMENT, TACK_DOWN, FINISH) if sewn.part is None else (PLACEMENT,)
    few = [kind for kind in counted if len(spans[kind]) < rings]
    if few:
        return [f"{piece} has {rings} edges, but {len(spans[kind])} of them have a {kind}" for kind in few]
    stops = np.flatnonzero(checked.reading.kinds == STOP)
    later = spans[FINISH] + spans.get(UNDERLAY, [])
    faults = []
    for before, after, words in (
        (spans[PLACEMENT], spans[TACK_DOWN], "placement and tack-down"),
        (spans[TACK_DOWN], later, "tack-down and finish"),
    ):
        ends, begins = max(last for _, last in before), min(first for first, _ in after)
        between = int(((stops > ends) & (stops < begins)).sum())
        if ends >= begins or between != 1:
            faults.append(f"{piece} has {between} stops between {words}, and they come in the wrong order")
    return faults


def check_order(checked: Checked) -> Check:
    """For each piece: placement line, stop, tack-down, stop, finish; pieces beneath come first."""
    names = [s.piece.name for s in checked.hooping.sewn]
    faults = [fault for name in names for fault in wanted_order(checked, name)]
    firsts = [
        min(
            span[0] for p, span in zip(checked.hooping.passes, checked.ranges, strict=True) if p.piece == name
        )
        for name in names
    ]
    place = dict(zip(names, firsts, strict=True))
    for sewn in checked.hooping.sewn:
        faults += [
            f"{sewn.piece.name} lies above {below} but is sewn first"
            for below in sewn.piece.above
            if place.get(below, -1) > place[sewn.piece.name]
        ]
    return Check(
        "placement, stop, tack-down, stop, finish", not faults, len(faults), [{"fault": f} for f in faults]
    )


def check_longest_move(checked: Checked) -> Check:
    """No record moves by more than a record can, on either axis."""
    moves = np.abs(checked.reading.points_mm - checked.reading.starts_mm).max(axis=1)
    limit = checked.settings.longest_move_mm
    wrong = np.flatnonzero(moves > limit + 1e-6)
    return Check(
        "no move too long", not len(wrong), round(float(moves.max()), 2), at_records(checked, wrong), limit
    )


def check_longest_stitch(checked: Checked) -> Check:
    """No stitch is longer than its pass allows: the finish its width with pull, running stitches their step."""
    pieces = {s.piece.name: s.piece for s in checked.hooping.sewn}
    wrong: list[int] = []
    longest = 0.0
    for number, one in enumerate(checked.hooping.passes):
        length = np.linalg.norm(np.diff(checked.sewn_in(number), axis=0), axis=1)
        settings = pieces[one.piece].settings
        finish = settings.longest_stitch_mm(pieces[one.piece].edge)
        limit = max(settings.longest_running_mm, finish if one.kind in (FINISH, UNDERLAY) else one.longest_mm)
        longest = max(longest, float(length.max(initial=0.0)))
        wrong += [checked.ranges[number][0] + int(i) for i in np.flatnonzero(length > limit + ROUNDING_MM)]
    places = at_records(checked, np.array(wrong, dtype=np.int64))
    widest = max(piece.settings.longest_stitch_mm(piece.edge) for piece in pieces.values())
    return Check("no stitch too long", not wrong, round(longest, 2), places, widest)


def thread_runs(checked: Checked) -> Iterator[tuple[int, int]]:
    """First and last record of each run of stitches between jumps, stops and the end."""
    stitch = np.concatenate([[0], (checked.reading.kinds == STITCH).astype(int), [0]])
    edges = np.diff(stitch)
    begins, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    yield from zip(begins.tolist(), (ends - 1).tolist(), strict=True)


def check_shortest_stitch(checked: Checked) -> Check:
    """No stitch is shorter than the least, but for the ties at both ends of a thread run."""
    length = checked.record_lengths_mm
    counted = np.zeros(len(length), dtype=bool)
    ties = checked.settings.tie_count
    for first, last in thread_runs(checked):
        counted[first + ties : last + 1 - ties] = True
    least = checked.settings.shortest_mm
    wrong = np.flatnonzero(counted & (length < least - 1e-6))
    value = float(length[counted].min()) if counted.any() else 0.0
    return Check("no stitch too short", not len(wrong), round(value, 2), at_records(checked, wrong), least)


def check_inside_field(checked: Checked) -> Check:
    """The needle stays inside the field's keep-out all the time, jumps included."""
    field_, keep = checked.hooping.field, checked.settings.keep_out_mm
    half = np.array([field_.width_mm, field_.height_mm]) / 2
    room = (half - np.abs(checked.reading.points_mm)).min(axis=1)
    wrong = np.flatnonzero(room < keep - ROUNDING_MM)
    return Check(
        "inside the sewing field",
        not len(wrong),
        round(float(room.min()), 2),
        at_records(checked, wrong),
        keep,
    )


def check_ties(checked: Checked) -> Check:
    """Every run of thread starts and ends with at least three small stitches."""
    length = checked.record_lengths_mm
    small = checked.settings.tie_mm + 2 * ROUNDING_MM
    wrong: list[int] = []
    fewest = checked.settings.tie_count
    for first, last in thread_runs(checked):
        run = length[first : last + 1]
        for ends in (run[:TIED_STITCHES], run[-TIED_STITCHES:]):
            tied = int((ends <= small).sum())
            fewest = min(fewest, tied)
            if tied < TIED_STITCHES:
                wrong.append(first)
    places = at_records(checked, np.array(wrong, dtype=np.int64))
    return Check("ties at every start and end", not wrong, fewest, places, TIED_STITCHES)


def check_placement(checked: Checked) -> Check:
    """The placement line's needle points lie on the outline: nothing has drifted."""
    worst, wrong = 0.0, []
    rings = {s.piece.name: draw_outlines(s.piece.rings) for s in checked.hooping.sewn}
    limit = 2 * ROUNDING_MM
    for number, one in enumerate(checked.hooping.passes):
        if one.kind != PLACEMENT:
            continue
        points = checked.sewn_in(number)
        off = shapely.distance(rings[one.piece], shapely.points(points))
        ties = np.zeros(len(points), dtype=bool)
        ties[: checked.settings.tie_count] = ties[len(points) - checked.settings.tie_count :] = True
        off = np.where(ties, 0.0, off)
        worst = max(worst, float(off.max()))
        wrong += [at_point(points[i], piece=one.piece) for i in np.flatnonzero(off > limit)]
    return Check("placement line on the outline", not wrong, round(worst, 2), wrong[:MOST_PLACES], limit)
