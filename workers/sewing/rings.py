"""Parts that go round a middle: the seam of the first is sewn in two goes, part of the way first and the rest last."""

from __future__ import annotations

from collections.abc import Sequence

from service.craft.language import phrase
from service.craft.planar.pinwheels import Pinwheel
from workers.sewing.polygon_groups import Group
from workers.sewing.works import Beside, Laid, SeamLine, Work, walk_patches

RING = "parts round a middle"
"""The kind of such a work: its items are the parts in the order in which they are sewn on, and the middle."""

CLOSE = 1e-6
"""Inches within which two places are one."""


def lay_seams(
    pinwheel: Pinwheel, parts: Sequence[Group], group: Group, sides: Sequence[Beside]
) -> list[SeamLine]:
    """A seam for each part round the middle, from end to end of its line in the picture of the group."""
    seams, middle = [], Beside("middle", words=phrase("the middle"))
    for line, part, beside in zip(pinwheel.lines, parts, sides, strict=False):
        corners = [corner for figure in part.figures for corner in figure.corners]
        ends = [corner for corner in corners if not line.side(corner)]
        start, end = min(ends, key=line.along), max(ends, key=line.along)
        # the negative side of a line lies at the left hand
        before = min(map(line.side, corners)) < 0
        left, right = (beside, middle) if before else (middle, beside)
        seams.append(SeamLine(group.place(start), group.place(end), left, right))
    return seams


def find_first_go(work: Work) -> tuple[complex, complex]:
    """Where the first seam of a ring is begun, and where it is left: half-way along the middle."""
    first = work.seams[0]
    touching = sorted(
        (corner for cut in walk_patches(work.items[-1]) for corner in cut.corners if _lies_on(corner, first)),
        key=lambda corner: min(abs(corner - first.start), abs(corner - first.end)),
    )
    begun = touching[0]
    far = max(touching, key=lambda corner: abs(corner - begun))
    return begun, (begun + far) / 2


def find_rest(work: Work) -> tuple[complex, complex]:
    """Where the first seam is taken up again, and the end that it runs to."""
    begun, left = find_first_go(work)
    first = work.seams[0]
    return left, max((first.start, first.end), key=lambda end: abs(end - begun))


def _lies_on(point: complex, seam: SeamLine) -> bool:
    along = seam.end - seam.start
    there = (point - seam.start) * along.conjugate() / abs(along)
    return abs(there.imag) < CLOSE and -CLOSE < there.real < abs(along) + CLOSE


def list_sewn(work: Work, number: int) -> tuple[Laid, ...]:
    """The middle, and the parts up to the one of that number, which is counted from 1."""
    return (work.items[-1], *work.items[:number])
