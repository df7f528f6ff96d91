"""Checks that no stitches are missing: what a swinging edge sweeps over lies under its thread."""

from __future__ import annotations

import numpy as np
import shapely

from workers.stitches.cover import LONGEST_GAP_MM, Looked, surface_of
from workers.stitches.covering import SAMPLE_MM, look_along
from workers.stitches.curves import Floats, sample_every
from workers.stitches.findings import MOST_PLACES, Check, Checked, at_point
from workers.stitches.nearness import Stitches
from workers.stitches.pieces import FINISH, Points, StitchPiece

SWINGING = ("satin", "zigzag")
"""Edges that swing from side to side; in the others a missing stitch makes its neighbour too long."""

STRAIGHT_ON = 0.9
"""A stitch that goes on in the direction of the one before, by this cosine or more, is part of one long stitch."""

WIDEST_STEPS = 4.5
"""Two full stitches and the next two lie at most so many spacings apart, both sides together: side by side they are two
apart, in 842 icons at most 2.7, in outlines of nothing but corners 4.1 (measured, no source)."""

FULL_SHARE = 0.7
"""A stitch over this share of the width is a full one; at corners and in narrow places they are shorter."""

ROUNDED_MM = 0.09
"""Needle points are rounded to tenths: two threads beside a place lie off their plan by up to 0.07 mm each."""

ENDS_LEFT_OUT = 5
"""The first and last needle points of a finish belong to its ties."""

ACROSS = 14
"""What lies between three needle points is looked at in so many steps each way."""

OFF_EDGE_MM = (-0.5, -0.25, 0.25, 0.5)
"""Wherever a piece lies that is out of place by up to half a millimetre, its raw edge lies between these lines."""


def join_split(points: Points) -> Points:
    """The needle points at which a finish turns: those inside a divided stitch are left out.

    >>> join_split(np.array([[0.0, 0.0], [3.0, 0.0], [8.0, 0.1], [0.0, 0.2]]))[:, 0].tolist()
    [0.0, 8.0, 0.0]
    """
    way = np.diff(points, axis=0)
    length = np.hypot(*way.T)
    along = (way[:-1] * way[1:]).sum(axis=1) / np.maximum(length[:-1] * length[1:], 1e-9)
    kept = np.ones(len(points), dtype=bool)
    kept[1:-1] = along < STRAIGHT_ON
    return points[kept]


def measure_advance(points: Points) -> Floats:
    """For every three needle points how far the third lies beside the first: off the line of the shorter stitch."""
    way = np.diff(points, axis=0)
    length = np.hypot(*way.T)
    area = np.abs(way[:-1, 0] * way[1:, 1] - way[:-1, 1] * way[1:, 0])
    aside = area / np.maximum(np.minimum(length[:-1], length[1:]), 1e-9)
    return np.asarray(np.minimum(aside, np.hypot(*(points[2:] - points[:-2]).T)))


def wide_steps(points: Points, spacing_mm: float, width_mm: float) -> Points:
    """Places where full stitches lie farther apart than side by side, even where other thread lies there."""
    turns = points[ENDS_LEFT_OUT : len(points) - ENDS_LEFT_OUT]
    if len(turns) < 4:
        return np.zeros((0, 2))
    advance = measure_advance(turns)
    full = np.hypot(*np.diff(turns, axis=0).T) > FULL_SHARE * width_mm
    wide = (advance[:-1] + advance[1:] > WIDEST_STEPS * spacing_mm) & full[:-2] & full[2:]
    return turns[np.flatnonzero(wide) + 1]


def bare_between(points: Points, spacing_mm: float) -> Points:
    """Places between three needle points in a row that no thread of the pass lies near: a hole in what it swept."""
    reach = spacing_mm + ROUNDED_MM
    wide = np.flatnonzero(measure_advance(points) > reach - ROUNDED_MM / 2)
    if not len(wide):
        return np.zeros((0, 2))
    first, second, third = points[wide, None], points[wide + 1, None], points[wide + 2, None]
    steps = np.arange(ACROSS + 1) / ACROSS
    shares = np.array([(a, b) for a in steps for b in steps if a + b <= 1.0])
    places = first + shares[None, :, :1] * (second - first) + shares[None, :, 1:] * (third - first)
    places = places.reshape(-1, 2)
    threads = Stitches(np.stack([points[:-1], points[1:]], axis=1), reach)
    return np.asarray(places[~threads.reach(places)])


def check_gaps(checked: Checked) -> list[Check]:
    """No stitches are missing in edges that swing; nothing where a hooping has none."""
    pieces = {s.piece.name: s.piece for s in checked.hooping.sewn if s.piece.edge in SWINGING}
    places: list[dict[str, object]] = []
    for number, one in enumerate(checked.hooping.passes):
        if one.kind != FINISH or one.piece not in pieces:
            continue
        piece = pieces[one.piece]
        spacing, width = piece.settings.spacing_of(piece.edge), piece.settings.width_of(piece.edge)
        turns = join_split(checked.sewn_in(number))
        found = np.vstack([wide_steps(turns, spacing, width), bare_between(turns, spacing)])
        places += [at_point(place, piece=piece.name) for place in found]
    if not pieces:
        return []
    name = "no stitches are missing in the edge"
    whole = [piece for piece in pieces.values() if piece.part is None]
    reaching = [look for piece in whole for look in look_round(checked, piece)]
    return [
        Check(name, not places, len(places), places[:MOST_PLACES], 0),
        *([reach_check(reaching)] if reaching else []),
    ]


def reach_check(found: list[Looked]) -> Check:
    """A check that holds where no line beside an edge lies bare for longer than a raw edge may."""
    longest = max(looked.covered.longest_gap_mm for looked in found)
    bare = [looked for looked in found if looked.covered.longest_gap_mm > LONGEST_GAP_MM]
    places = [place for looked in bare for place in looked.places]
    name = "no place within half a millimetre of the raw edge is bare"
    return Check(name, not bare, round(longest, 2), places[:MOST_PLACES], LONGEST_GAP_MM)


def look_round(checked: Checked, piece: StitchPiece) -> list[Looked]:
    """The lines beside a piece's raw edge that its finish must cover, corners included."""
    surface = surface_of(checked, piece)
    shape = shapely.Polygon(piece.rings[0], piece.rings[1:])
    found = []
    for off in OFF_EDGE_MM:
        for path in lines_off(shape, off):
            covered = look_along(surface, sample_every(path, SAMPLE_MM))
            places = [at_point(p, piece=piece.name, off_edge_mm=off) for p in covered.bare]
            found.append(Looked(covered, places))
    return found


def lines_off(shape: shapely.Polygon, off_mm: float) -> list[Points]:
    """The lines so far outside the edges of a shape, or inside (negative)."""
    moved = shapely.boundary(shapely.buffer(shape, off_mm))
    return [shapely.get_coordinates(line) for line in shapely.get_parts(moved)]
