"""Two parts right sides together: one right side up, the other turned over on it, the seam along their common edge."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from service.craft.drawing.scenes import Piece, Scene
from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_stage import line, middle_of, name_one, piece_of, point
from workers.sewing.steps.step import Lesson
from workers.sewing.works import Cut, SeamLine, walk_patches

CLOSE = 1e-6
SIDES = ("left", "right")
PULLED_BACK = 0.8
"""How wide the upper part is drawn, in shares: the right side of the lower one stays to be seen beyond it."""

LEAST_SHARE = 0.16
"""How wide a narrow strip is drawn at least, in shares of the lower part: its back is to be seen."""

SEAM_SHARE = 0.35
"""How far inside the edge the seam is drawn at most, of what is seen of the upper part."""


@dataclass(frozen=True)
class _Part:
    """One part of a stage by its patches, how far it reaches from the seam, its area, and on which side it lies."""

    cuts: list[Cut]
    width: float
    area: float
    at_right: bool


def show_right_sides(stage: Stage, lesson: Lesson, number: int = 0) -> Scene | None:
    """The two parts of a seam laid on each other, the later or the smaller one uppermost; no others are drawn.

    None where more than one part lies on a side, or where a part reaches across the line.
    """
    if number >= len(stage.work.seams):
        return None
    seam = stage.work.seams[number]
    sides = _sort(stage, seam)
    if sides is None:
        return None
    first, second = sides
    below, above = (second, first) if first.area < second.area - CLOSE else (first, second)
    towards = seam.to_right if below.at_right else -seam.to_right
    seen = min(below.width, max(above.width, LEAST_SHARE * below.width)) * PULLED_BACK
    depth = min(float(lesson.project.seam_allowance), SEAM_SHARE * seen)
    turned = _turn_over(seam, seen / above.width)
    start, end = seam.start + towards * depth, seam.end + towards * depth
    return Scene(
        phrase(
            "{one}: two neighbours right sides together, the seam along their common edge dashed",
            one=name_one(stage),
        ),
        (
            *(piece_of(cut) for cut in below.cuts),
            *(Piece([point(turned(at)) for at in cut.corners], cut.fabric, back=True) for cut in above.cuts),
        ),
        (("sew", line(start, end)),),
        labels=(
            (point(_beyond(below, seam, towards)), phrase("right side up")),
            (
                point(turned(middle_of(corner for cut in above.cuts for corner in cut.corners))),
                phrase("right side down"),
            ),
            (
                point(start + (end - start) * 0.8),
                phrase("sew, {allowance} inside", allowance=lesson.allowance),
            ),
        ),
    )


def _sort(stage: Stage, seam: SeamLine) -> tuple[_Part, _Part] | None:
    """The parts at both sides of a seam, in the order in which they lie in their stage."""
    found = []
    for item in stage.work.items:
        cuts = list(walk_patches(item))
        reach = [_off(corner, seam) for cut in cuts for corner in cut.corners]
        if min(reach) < -CLOSE and max(reach) > CLOSE:
            return None
        if _touches(cuts, seam):
            width, area = max(map(abs, reach)), sum(map(_area, cuts))
            found.append(_Part(cuts, width, area, at_right=max(reach) > CLOSE))
    if len(found) != len(SIDES) or found[0].at_right == found[1].at_right:
        return None
    return found[0], found[1]


def _off(corner: complex, seam: SeamLine) -> float:
    away = (corner - seam.start) * seam.to_right.conjugate()
    return away.real


def _touches(cuts: list[Cut], seam: SeamLine) -> bool:
    """Whether two corners of a part lie on the seam, within it."""
    along = abs(seam.end - seam.start)
    unit = (seam.end - seam.start) / along
    places = {
        round(((corner - seam.start) * unit.conjugate()).real, 4)
        for cut in cuts
        for corner in cut.corners
        if abs(_off(corner, seam)) < CLOSE
    }
    inside = [place for place in places if -CLOSE <= place <= along + CLOSE]
    return len(inside) > 1


def _area(cut: Cut) -> float:
    corners = cut.corners
    pairs = zip(corners, [*corners[1:], corners[0]], strict=True)
    return abs(sum((a.conjugate() * b).imag for a, b in pairs)) / 2


def _turn_over(seam: SeamLine, share: float) -> Callable[[complex], complex]:
    """Where a point comes to lie that is folded over along the seam, pulled back by a share."""
    return lambda corner: corner - seam.to_right * _off(corner, seam) * (1 + share)


def _beyond(below: _Part, seam: SeamLine, towards: complex) -> complex:
    """A place of the lower part that the upper one leaves free."""
    return (seam.start + seam.end) / 2 + towards * below.width * (1 + PULLED_BACK) / 2
