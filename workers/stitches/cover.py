"""Checks that the finish does its work: on the raw edge, also with the piece out of place, and over what is beneath."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workers.stitches.covering import SAMPLE_MM, Covered, finish_surface, look_along
from workers.stitches.curves import sample_every
from workers.stitches.findings import MOST_PLACES, Check, Checked, at_point
from workers.stitches.nearness import Stitches
from workers.stitches.pieces import FINISH, PLACEMENT, TACK_DOWN, Points, StitchPiece
from workers.stitches.stretches import list_edges

SHARE_COVERED = 0.995
"""The least share of a line that the finish must reach; between threads a hair's breadth may show."""

EDGE_WORDS = {
    "satin": "the finish covers the raw edge",
    "zigzag": "the zigzag swings over the raw edge",
    "blanket": "the bites hold the raw edge",
    "raw": "the sewn line follows the raw edge",
    "triple run": "the triple run follows the raw edge",
}
BENEATH_WORDS = {
    "satin": "the {} is hidden under the finish",
    "zigzag": "the {} lies within the zigzag",
}
"""Blanket stitch and raw edges hide nothing, and no check says they do."""

LONGEST_GAP_MM = 0.3
"""No stretch of a line lies bare longer than this, however long the line is: an end of thread would catch there."""


@dataclass(frozen=True)
class Looked:
    """One line looked at: what of it is covered, and the bare places for the report."""

    covered: Covered
    places: list[dict[str, object]]

    @property
    def ok(self) -> bool:
        """Whether enough of the line is covered, and no stretch of it is bare."""
        return self.covered.share >= SHARE_COVERED and self.covered.longest_gap_mm <= LONGEST_GAP_MM


def displacements(distance_mm: float) -> Points:
    """No displacement, the same one in eight directions, and half of it in the four between."""
    angle = np.arange(8) * np.pi / 4
    far = distance_mm * np.stack([np.cos(angle), np.sin(angle)], axis=1)
    between = np.arange(4) * np.pi / 2 + np.pi / 8
    near = distance_mm / 2 * np.stack([np.cos(between), np.sin(between)], axis=1)
    return np.vstack([np.zeros((1, 2)), far, near])


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


def surface_of(checked: Checked, piece: StitchPiece) -> Stitches:
    """The finish of a piece as a covering surface, from the file."""
    return finish_surface(checked.segments(piece.name, FINISH), piece.edge, piece.settings)


def look_at_edge(checked: Checked, piece: StitchPiece, surface: Stitches) -> list[Looked]:
    """The raw edge in its place and for each displacement, ring by ring; of a part, what it is to cover by itself."""
    found = []
    for moved in displacements(checked.settings.displacement_mm):
        by = [round(float(d), 2) for d in moved]
        for edge in list_edges(piece):
            covered = look_along(surface, sample_every(edge + moved, SAMPLE_MM))
            found.append(
                Looked(covered, [at_point(p, piece=piece.name, displaced_mm=by) for p in covered.bare])
            )
    return found


def look_beneath(checked: Checked, piece: StitchPiece, surface: Stitches, kind: str) -> Looked:
    """The stitches of one kind, seen from above the finish."""
    stitches = checked.segments(piece.name, kind)
    if not len(stitches):
        nothing = Covered(0.0, np.zeros((0, 2)), 0.0)
        return Looked(nothing, [{"fault": f"{piece.name} has no {kind}"}])
    covered = look_along(surface, sample_stitches(stitches))
    return Looked(covered, [at_point(p, piece=piece.name) for p in covered.bare])


def sample_stitches(stitches: Points) -> Points:
    """Points along stitches one after the other, shape (n, 2, 2), at most `SAMPLE_MM` apart."""
    lengths = np.linalg.norm(stitches[:, 1] - stitches[:, 0], axis=1)
    parts = np.maximum(np.ceil(lengths / SAMPLE_MM).astype(int), 1)
    number = np.repeat(np.arange(len(parts)), parts)
    within = np.arange(len(number)) - np.repeat(np.cumsum(parts) - parts, parts)
    share = ((within + 0.5) / parts[number])[:, None]
    return np.asarray(stitches[number, 0] * (1 - share) + stitches[number, 1] * share)


def share_check(name: str, found: list[Looked]) -> Check:
    """A check that holds where all that was looked at is covered; it lists the bare places of what is not."""
    worst = min(looked.covered.share for looked in found)
    where = [place for looked in found if not looked.ok for place in looked.places]
    ok = all(looked.ok for looked in found)
    return Check(name, ok, round(worst, 4), where[:MOST_PLACES], SHARE_COVERED)
