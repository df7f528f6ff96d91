"""Checks that no stitches are missing: what a swinging edge sweeps over lies under its thread, out to the full width."""

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

WIDEST_STEPS = 7.6
"""Two stitches and the next two lie at most so many spacings apart, both sides together: side by side they are two
apart, and where corners meet up to 7.4 (measured on 842 icons, no source)."""

ROUNDED_MM = 0.09
"""Needle points are rounded to tenths: two threads beside a place lie off their plan by up to 0.07 mm each."""

ENDS_LEFT_OUT = 5
"""The first and last needle points of a finish belong to its ties."""

ACROSS = 14
"""What lies between three needle points is looked at in so many steps each way."""

OFF_EDGE_MM = (-0.5, -0.25, 0.25, 0.5)
"""Wherever a piece lies that is out of place by up to half a millimetre, its raw edge lies between these lines."""

LESS_THAN_WIDTH_MM = 0.25
"""Bends are eased and needle points rounded: the finish reaches its width less this, all round."""


FACING = 3.0
"""A line outside the edge faces another part of the piece where a disc so many times its distance does not fit in."""


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
    return np.minimum(aside, np.hypot(*(points[2:] - points[:-2]).T))


def wide_steps(points: Points, spacing_mm: float) -> Points:
    """Places where the stitches go on farther than at any corner, though other thread may lie there."""
    turns = points[ENDS_LEFT_OUT : len(points) - ENDS_LEFT_OUT]
    if len(turns) < 4:
        return np.zeros((0, 2))
    advance = measure_advance(turns)
    wide = np.flatnonzero(advance[:-1] + advance[1:] > WIDEST_STEPS * spacing_mm)
    return turns[wide + 1]


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
        spacing = piece.settings.spacing_of(piece.edge)
        turns = join_split(checked.sewn_in(number))
        found = np.vstack([wide_steps(turns, spacing), bare_between(turns, spacing)])
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
    """A check that holds where no line round an edge lies bare for longer than a raw edge may."""
    longest = max(looked.covered.longest_gap_mm for looked in found)
    bare = [looked for looked in found if looked.covered.longest_gap_mm > LONGEST_GAP_MM]
    places = [place for looked in bare for place in looked.places]
    name = "the edge has its width all round"
    return Check(name, not bare, round(longest, 2), places[:MOST_PLACES], LONGEST_GAP_MM)


def look_round(checked: Checked, piece: StitchPiece) -> list[Looked]:
    """The lines round a piece's outline that its finish must cover, corners included."""
    settings, surface = piece.settings, surface_of(checked, piece)
    far = settings.outside_mm(piece.edge) - settings.pull_mm - LESS_THAN_WIDTH_MM
    shape = shapely.Polygon(piece.rings[0], piece.rings[1:])
    lines = [(off, shapely.boundary(shapely.buffer(shape, off))) for off in OFF_EDGE_MM]
    lines.append((far, open_line(shape, far)))
    found = []
    for off, line in lines:
        for path in map(shapely.get_coordinates, shapely.get_parts(line)):
            covered = look_along(surface, sample_every(path, SAMPLE_MM))
            places = [at_point(p, piece=piece.name, off_edge_mm=round(off, 2)) for p in covered.bare]
            found.append(Looked(covered, places))
    return found


def open_line(shape: shapely.Polygon, off_mm: float) -> shapely.Geometry:
    """The line so far outside a shape, but where it faces another part: there the edges stop half way between."""
    facing = shapely.buffer(shapely.buffer(shape, FACING * off_mm), -FACING * off_mm)
    return shapely.difference(shapely.boundary(shapely.buffer(shape, off_mm)), facing)
