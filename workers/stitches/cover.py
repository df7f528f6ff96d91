"""Checks that the finish does its work: on the raw edge, also with the piece out of place, and over what is beneath."""

from __future__ import annotations

import numpy as np

from workers.stitches.covering import SAMPLE_MM, Surface, covered_share, finish_surface
from workers.stitches.curves import close_path, sample_every
from workers.stitches.findings import MOST_PLACES, Check, Checked, at_point
from workers.stitches.pieces import FINISH, PLACEMENT, TACK_DOWN, Points, StitchPiece

SHARE_COVERED = 0.995
"""The least share of a line that the finish must reach; between threads a hair's breadth may show."""

EDGE_WORDS = {
    "satin": "the finish covers the raw edge",
    "zigzag": "the zigzag swings over the raw edge",
    "blanket": "the bites hold the raw edge",
    "raw": "the sewn line follows the raw edge",
}
BENEATH_WORDS = {
    "satin": "the {} is hidden under the finish",
    "zigzag": "the {} lies within the zigzag",
}
"""Blanket stitch and raw edges hide nothing, and no check says they do."""

Found = list[tuple[float, list[dict[str, object]]]]


def displacements(distance_mm: float) -> Points:
    """No displacement, and the same one in eight directions."""
    angle = np.arange(8) * np.pi / 4
    return np.vstack([np.zeros((1, 2)), distance_mm * np.stack([np.cos(angle), np.sin(angle)], axis=1)])


def check_cover(checked: Checked) -> list[Check]:
    """For each kind of edge in the hooping: the raw edge, and for closed finishes what lies beneath."""
    off = checked.settings.displacement_mm
    checks: list[Check] = []
    for edge in dict.fromkeys(sewn.piece.edge for sewn in checked.hooping.sewn):
        pieces = [s.piece for s in checked.hooping.sewn if s.piece.edge == edge]
        surfaces = [surface_of(checked, piece) for piece in pieces]
        both = list(zip(pieces, surfaces, strict=True))
        found = [result for piece, surface in both for result in look_at_edge(checked, piece, surface)]
        checks.append(share_check(f"{EDGE_WORDS[edge]}, also {off:g} mm out of place", found))
        if edge in BENEATH_WORDS:
            for kind, words in ((PLACEMENT, "placement line"), (TACK_DOWN, "tack-down")):
                beneath = [look_beneath(checked, piece, surface, kind) for piece, surface in both]
                checks.append(share_check(BENEATH_WORDS[edge].format(words), beneath))
    return checks


def surface_of(checked: Checked, piece: StitchPiece) -> Surface:
    """The finish of a piece as a covering surface, from the file."""
    return finish_surface(checked.segments(piece.name, FINISH), piece.edge, checked.settings)


def look_at_edge(checked: Checked, piece: StitchPiece, surface: Surface) -> Found:
    """The covered share of the raw edge for each displacement, and the bare places."""
    lines = [close_path(ring) for ring in piece.rings]
    found: Found = []
    for moved in displacements(checked.settings.displacement_mm):
        share, bare = covered_share(
            surface, np.vstack([sample_every(line + moved, SAMPLE_MM) for line in lines])
        )
        by = [round(float(d), 2) for d in moved]
        found.append((share, [at_point(p, piece=piece.name, displaced_mm=by) for p in bare]))
    return found


def look_beneath(
    checked: Checked, piece: StitchPiece, surface: Surface, kind: str
) -> tuple[float, list[dict[str, object]]]:
    """The covered share of the stitches of one kind, and the bare places."""
    stitches = checked.segments(piece.name, kind)
    if not len(stitches):
        return 0.0, [{"fault": f"{piece.name} has no {kind}"}]
    share, bare = covered_share(surface, np.vstack([sample_every(stitch, SAMPLE_MM) for stitch in stitches]))
    return share, [at_point(p, piece=piece.name) for p in bare]


def share_check(name: str, found: Found) -> Check:
    """A check that holds where every share is high enough; it lists the bare places of those that fail."""
    worst = min(share for share, _ in found)
    where = [place for share, bare in found if share < SHARE_COVERED for place in bare]
    return Check(name, worst >= SHARE_COVERED, round(worst, 4), where[:MOST_PLACES], SHARE_COVERED)
