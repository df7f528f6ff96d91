"""Fill: rows of stitches over an area, with needle points staggered so that no furrow runs across them.

The area is cut into sections that every row crosses in one piece. They are walked as a tree: out over every second row
of a section, into the sections beyond it, and back over the rows left out. So the needle never leaves the area, never
crosses what is sewn already but along a row, and no turn from row to row is as short as the rows lie close.
Source of the sections: the boustrophedon cell decomposition (H. Choset and P. Pignon, Coverage path planning, 1997).
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
import shapely

from workers.stitches.curves import sample_every
from workers.stitches.fill_rows import Row, cut_rows, sew_rows
from workers.stitches.pieces import Points
from workers.stitches.running import drop_short
from workers.stitches.satin import split_long
from workers.stitches.settings import StitchSettings

TO_BE_SURE_MM = 0.15
"""Needle points are rounded to tenths: a stitch that must not be too short is planned so much longer."""

ROUNDING_MM = 0.02
"""A turn may leave the area by a hair: the ends of rows lie on its edge to within the rounding of floats."""

MOST_SECTIONS = 300
"""More sections than this, and an area is a lace that rows of thread cannot show."""


class TooBrokenUp(ValueError):
    """An area that falls into more sections than can be sewn in rows."""


@dataclass(frozen=True)
class Section:
    """Rows from low to high, each in one piece, each over the one below."""

    rows: tuple[Row, ...]

    def end(self, top: int) -> Row:
        """The lowest row (0) or the highest (1)."""
        return self.rows[-1 if top else 0]


Joint = tuple[int, int, int]
"""A neighbour: which end of this section (0 low, 1 high), the other section's number, and its end there."""


def overlap(a: Row, b: Row) -> tuple[float, float]:
    """From where to where two rows lie over each other; empty where the first is not below the second."""
    return max(a.left, b.left), min(a.right, b.right)


@dataclass(frozen=True)
class Neighbours:
    """For each row the numbers of the rows over it and under it."""

    above: list[list[int]]
    below: list[list[int]]

    def only_one_above(self, n: int) -> int | None:
        """The row over this one, where both have no other neighbour there."""
        if len(self.above[n]) == 1 and len(self.below[self.above[n][0]]) == 1:
            return self.above[n][0]
        return None


def find_neighbours(rows: list[Row]) -> Neighbours:
    """Which rows lie over which."""
    at: dict[int, list[int]] = defaultdict(list)
    for n, row in enumerate(rows):
        at[row.number].append(n)
    found = Neighbours([[] for _ in rows], [[] for _ in rows])
    for n, row in enumerate(rows):
        for m in at.get(row.number + 1, ()):
            low, high = overlap(row, rows[m])
            if high > low:
                found.above[n].append(m)
                found.below[m].append(n)
    return found


def find_steps(rows: list[Row], near: Neighbours, area: shapely.Geometry) -> set[int]:
    """Rows after which the side of the area steps in or out, so that a turn over two rows would leave the area."""
    triples = [
        (n, m, k)
        for n in range(len(rows))
        if (m := near.only_one_above(n)) is not None and (k := near.only_one_above(m)) is not None
    ]
    steps: set[int] = set()
    for end in ("left", "right"):
        x = np.array([[getattr(rows[i], end) for i in triple] for triple in triples]).reshape(-1, 3)
        y = np.array([[rows[i].y for i in triple] for triple in triples]).reshape(-1, 3)
        turns = shapely.linestrings(np.stack([x[:, ::2], y[:, ::2]], axis=2))
        outside = shapely.length(shapely.difference(turns, area)) > 0
        first = np.abs(x[:, 1] - x[:, 0]) > np.abs(x[:, 2] - x[:, 1])
        steps |= {triples[i][0 if first[i] else 1] for i in np.flatnonzero(outside)}
    return steps


def find_sections(rows: list[Row], area: shapely.Geometry) -> tuple[list[Section], list[list[Joint]]]:
    """The sections of rows sorted from low to high, and each one's neighbours. Turns may reach over all of `area`."""
    near = find_neighbours(rows)
    steps = find_steps(rows, near, area)
    section, members = [0] * len(rows), list[list[int]]()
    for n in range(len(rows)):
        before = near.below[n][0] if len(near.below[n]) == 1 else None
        if before is not None and near.only_one_above(before) == n and before not in steps:
            section[n] = section[before]
        else:
            section[n] = len(members)
            members.append([])
        members[section[n]].append(n)
    joints: list[list[Joint]] = [[] for _ in members]
    for n in range(len(rows)):
        for m in near.above[n]:
            if section[m] != section[n]:
                joints[section[n]].append((1, section[m], 0))
                joints[section[m]].append((0, section[n], 1))
    return [Section(tuple(rows[n] for n in numbers)) for numbers in members], joints


def step_over(here: Row, there: Row) -> Points:
    """The way from a row onto the next: up or down where both lie over each other."""
    low, high = overlap(here, there)
    x = (low + high) / 2
    return np.array([[x, here.y], [x, there.y]])


class _Walk:
    """The walk through the sections of one area; `parts` are ways to travel and rows, in sewing order."""

    def __init__(self, sections: list[Section], joints: list[list[Joint]], settings: StitchSettings) -> None:
        self.sections, self.joints, self.settings = sections, joints, settings
        self.seen: set[int] = set()
        self.here: Row | None = None
        self.travel: list[Points] = []
        self.sewn: list[Points] = []

    def start(self, number: int) -> Points:
        """All needle points of the sections that hang together with this one."""
        self.here, self.travel, self.sewn = None, [], []
        self._visit(number, 0)
        self._sew_travel()
        return np.vstack(self.sewn)

    def _visit(self, number: int, end: int) -> None:
        rows = self.sections[number].rows[:: -1 if end else 1]
        self.seen.add(number)
        self._into_neighbours(number, end)
        self._sew_rows(rows[::2])
        self._into_neighbours(number, 1 - end)
        self._sew_rows(rows[1::2][::-1])

    def _sew_rows(self, rows: tuple[Row, ...]) -> None:
        if not rows:
            return
        self._go_to(rows[0])
        self._sew_travel()
        start = self.sewn[-1][-1] if self.sewn else None
        self.sewn.append(sew_rows(rows, self.settings, start))
        self.here = rows[-1]

    def _go_to(self, row: Row) -> None:
        """Travel from the row the needle is on to one beside it, where both lie over each other."""
        if self.here is not None and self.here != row:
            self.travel.append(step_over(self.here, row))
        self.here = row

    def _into_neighbours(self, number: int, end: int) -> None:
        for at, other, other_end in self.joints[number]:
            if at == end and other not in self.seen:
                here, there = self.sections[number].end(end), self.sections[other].end(other_end)
                self._go_to(here)
                self._go_to(there)
                self._visit(other, other_end)
                self._go_to(there)
                self._go_to(here)

    def _sew_travel(self) -> None:
        """Turn the ways gone since the last rows into running stitches that go round every corner."""
        if not self.travel:
            return
        way = np.vstack([*(self.sewn[-1:] and [self.sewn[-1][-1:]]), *self.travel])
        self.travel = []
        self.sewn += [
            sample_every(leg, self.settings.running_mm)[1:]
            for leg in np.stack([way[:-1], way[1:]], axis=1)
            if (leg[0] != leg[1]).any()
        ]


def sew_fill(area: shapely.Polygon, angle_degrees: float, settings: StitchSettings) -> list[Points]:
    """The needle points of a filled area; several lists where rows do not hang together.

    The rows reach beyond the area by what pull takes back. `TooBrokenUp` where there are too many sections.
    """
    area = area.buffer(settings.fill_out_mm, join_style="mitre", mitre_limit=2.0)
    centre = np.array([area.centroid.x, area.centroid.y])
    turn = np.radians(angle_degrees)
    out = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    rings = [shapely.get_coordinates(ring) for ring in (area.exterior, *area.interiors)]
    rings = [(ring - centre) @ out.T for ring in rings]
    rows = cut_rows(rings, settings)
    room = shapely.Polygon(rings[0], rings[1:]).buffer(ROUNDING_MM)
    sections, joints = find_sections(rows, room)
    if len(sections) > MOST_SECTIONS:
        raise TooBrokenUp(f"its rows fall into {len(sections)} sections")
    walk = _Walk(sections, joints, settings)
    runs = [walk.start(number) for number in range(len(sections)) if number not in walk.seen]
    longest = settings.longest_fill_mm
    eased = [drop_short(run, least_mm=settings.shortest_mm + TO_BE_SURE_MM) for run in runs]
    return [split_long(run, longest) @ out + centre for run in eased if len(run) > 2]
