"""Checks of a piece whose edge is sewn in several hoopings: what the files of all its parts do together."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from workers.stitches.check_density import MOST_HOLES, MOST_THREAD_MM, sum_squares
from workers.stitches.cover import Looked, displacements, sample_stitches, share_check
from workers.stitches.covering import SAMPLE_MM, finish_surface, look_along
from workers.stitches.curves import close_path, sample_every
from workers.stitches.findings import Check, Checked, at_point
from workers.stitches.pieces import DETAIL, FINISH, UNDERLAY, Hooping, Points, StitchPiece


def to_top(hooping: Hooping, points: Points) -> Points:
    """Where points of a hooping's field lie on the top, millimetres; any shape whose last axis is x and y."""
    x, y = points[..., 0], points[..., 1]
    upright = np.stack([y, -x] if hooping.turned else [x, y], axis=-1)
    return np.asarray(upright + np.array(hooping.centre_mm))


def to_field(hooping: Hooping, points: Points) -> Points:
    """Where points of the top lie in a hooping's field."""
    moved = points - np.array(hooping.centre_mm)
    x, y = moved[..., 0], moved[..., 1]
    return np.asarray(np.stack([-y, x] if hooping.turned else [x, y], axis=-1))


def check_across(own: Checked, others: Iterable[Checked]) -> list[Check]:
    """For each piece of which a hooping sews one part: all parts together cover its edge and heap up nowhere.

    `others` are the other hoopings of the field. Places are given in the hooping's own field.
    """
    checks: list[Check] = []
    hoopings = [own, *others]
    for piece in (s.piece for s in own.hooping.sewn if s.piece.part is not None):
        with_parts = [one for one in hoopings if any(s.piece.name == piece.name for s in one.hooping.sewn)]
        finish = gather(own, with_parts, piece, FINISH)
        checks.append(check_edge(own, piece, finish, len(with_parts)))
        checks.append(check_heap(piece, gather(own, with_parts, piece, UNDERLAY, FINISH, DETAIL)))
    return checks


def gather(own: Checked, hoopings: Iterable[Checked], piece: StitchPiece, *kinds: str) -> Points:
    """The stitches of a piece in the files of several hoopings, laid into the field of one."""
    found = [to_field(own.hooping, to_top(one.hooping, one.segments(piece.name, *kinds))) for one in hoopings]
    return np.concatenate(found)


def check_edge(own: Checked, piece: StitchPiece, finish: Points, files: int) -> Check:
    """The whole raw edge lies under the finish of all files, also out of place."""
    surface = finish_surface(finish, piece.edge, piece.settings)
    looked = []
    for moved in displacements(own.settings.displacement_mm):
        for ring in piece.rings:
            covered = look_along(surface, sample_every(close_path(ring) + moved, SAMPLE_MM))
            looked.append(Looked(covered, [at_point(place, piece=piece.name) for place in covered.bare]))
    return share_check(f"the {files} parts of {piece.name} cover its edge together", looked)


def check_heap(piece: StitchPiece, stitches: Points) -> Check:
    """No square millimetre holds more thread or needle holes of all files than cloth bears, by the rule for one."""
    lengths = np.linalg.norm(stitches[:, 1] - stitches[:, 0], axis=1)
    parts = np.maximum(np.ceil(lengths / SAMPLE_MM).astype(int), 1)
    thread, there = sum_squares(sample_stitches(stitches), np.repeat(lengths / parts, parts))
    holes, hole = sum_squares(stitches[:, 1], None)
    most = MOST_THREAD_MM * max(1.0, 0.4 / piece.settings.spacing_mm)
    places = [at_point(there, piece=piece.name, thread_mm=round(thread, 1))] if thread > most else []
    places += [at_point(hole, piece=piece.name, holes=int(holes))] if holes > MOST_HOLES else []
    worst = max(thread / most, holes / MOST_HOLES)
    return Check(
        f"thread of the parts of {piece.name} does not heap up", not places, round(worst, 2), places, 1.0
    )
