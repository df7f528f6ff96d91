"""Scenes of a stage as it lies on the table: its parts apart, its seams, its allowances, its points, its cut edges."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.outlines.affine import Point
from workers.sewing.plan import Stage
from workers.sewing.pressed import PressedSeam
from workers.sewing.steps.step import Lesson
from workers.sewing.works import Cut, Laid, walk_patches

APART = 0.28
"""By how much of its way from the middle a part moves out."""

WAYS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}
UNTRIMMED = 0.06
"""How far a unit stands out over its size before it is trimmed, of its longer side: drawn larger than it is."""


def point(place: complex) -> Point:
    """A place as drawings have it."""
    return place.real, place.imag


def line(start: complex, end: complex) -> Line:
    """A line as drawings have it."""
    return point(start), point(end)


def patches_of(stage: Stage) -> list[Cut]:
    """Every patch where it lies."""
    return list(walk_patches(Laid(stage.work)))


def piece_of(cut: Cut, shift: complex = 0j) -> Piece:
    """A patch as a piece of cloth."""
    return Piece([point(corner + shift) for corner in cut.corners], cut.fabric)


def middle_of(corners: Iterable[complex]) -> complex:
    """The middle of some corners."""
    listed = list(corners)
    return sum(listed, 0j) / len(listed)


def whole(stage: Stage) -> tuple[Piece, ...]:
    """The stage sewn."""
    return tuple(piece_of(cut) for cut in patches_of(stage))


def show_apart(stage: Stage, alt: str = "") -> Scene:
    """Its parts laid out with room between them."""
    centre = complex(float(stage.work.width), float(stage.work.height)) / 2
    pieces: list[Piece] = []
    for item in stage.work.items:
        cuts = list(walk_patches(item))
        away = (middle_of(corner for cut in cuts for corner in cut.corners) - centre) * APART
        pieces += [piece_of(cut, away) for cut in cuts]
    count = len(stage.work.items)
    return Scene(alt or f"The {count} parts of one {stage.work.one} laid out in their places", tuple(pieces))


def show_sewn(stage: Stage, seams: Sequence[int] = (), label: str = "sew") -> Scene:
    """Its patches with the seams that are sewn now dashed."""
    lines = stage.work.seams
    chosen = [lines[i] for i in seams if i < len(lines)] or list(lines)
    drawn = tuple(("sew", line(seam.start, seam.end)) for seam in chosen)
    at = point(middle_of((chosen[0].start, chosen[0].end))) if chosen else point(0j)
    many = f"{len(chosen)} seams" if len(chosen) != 1 else "one seam"
    alt = f"One {stage.work.one} with {many} to sew, dashed"
    return Scene(alt, whole(stage), drawn, labels=((at, label),) if chosen else ())


def show_pressed(stage: Stage, seams: Sequence[int] = ()) -> Scene:
    """Its seams with a wedge on the side to which each is pressed."""
    chosen = [stage.seams[i] for i in seams if i < len(stage.seams)] or list(stage.seams)
    wedges = tuple(wedge for seam in chosen for wedge in _wedges(seam))
    drawn = tuple(("sew", line(seam.line.start, seam.line.end)) for seam in chosen)
    flat = [seam for seam in chosen if seam.press == "open"]
    labels = tuple((point(middle_of((s.line.start, s.line.end))), "open") for s in flat[:1])
    ways = ", ".join(dict.fromkeys(seam.press for seam in chosen)) or "flat"
    return Scene(
        f"One {stage.work.one}, its seams pressed {ways}", whole(stage), drawn, wedges=wedges, labels=labels
    )


def _wedges(seam: PressedSeam) -> list[tuple[Point, Point]]:
    halves = [(half.start, half.end, half.press) for half in seam.halves] or [
        (seam.line.start, seam.line.end, seam.press)
    ]
    found = []
    for start, end, press in halves:
        if press in WAYS and start != end:
            square = (end - start) / abs(end - start) * 1j
            facing = square.real * WAYS[press][0] + square.imag * WAYS[press][1]
            found.append((point((start + end) / 2), point(square if facing >= 0 else -square)))
    return found


def with_allowance(stage: Stage, beyond: float) -> tuple[Piece, ...]:
    """The sewn stage with so much cloth (inches) beyond its finished edge."""
    width, height = float(stage.work.width), float(stage.work.height)
    centre = complex(width, height) / 2
    wider, higher = 1 + 2 * beyond / width, 1 + 2 * beyond / height

    def grow(corner: complex) -> complex:
        off = corner - centre
        return centre + complex(off.real * wider, off.imag * higher)

    below = [Piece([point(grow(corner)) for corner in cut.corners], cut.fabric) for cut in patches_of(stage)]
    return (*below, *whole(stage))


def show_trimmed(stage: Stage, lesson: Lesson) -> Scene:
    """Cut lines at its size, with what stands out beyond them."""
    s = float(lesson.project.seam_allowance)
    width, height = float(stage.work.width), float(stage.work.height)
    over = s + UNTRIMMED * max(width, height)
    edges = _frame(-s, -s, width + s, height + s)
    labels = (
        ((width + s, -s), "cut"),
        ((width + s / 2, height / 2), f"{lesson.allowance} outside"),
    )
    alt = f"One {stage.work.one} with lines to cut on all sides, {lesson.allowance} outside the finished edge"
    return Scene(alt, with_allowance(stage, over), tuple(("cut", edge) for edge in edges), labels=labels)


def show_points(stage: Stage, lesson: Lesson) -> Scene:
    """Rings round the points near its edges."""
    s = float(lesson.project.seam_allowance)
    points = [point(found.at) for found in lesson.plan.notes[stage.id].points]
    inner = lesson.plan.notes
    if not points:
        needed = next((need for need in stage.needs if inner[need].points), None)
        if needed is not None:
            stage = next(other for other in lesson.plan.stages if other.id == needed)
            points = [point(found.at) for found in inner[needed].points]
    width, height = float(stage.work.width), float(stage.work.height)
    edges = tuple(("sew", edge) for edge in _frame(0.0, 0.0, width, height))
    labels = [((width, height / 2), "the next seam")]
    if points:
        labels.append((points[0], "a point"))
    alt = f"One {stage.work.one} with rings round the points, each {lesson.allowance} inside the cut edge"
    return Scene(alt, with_allowance(stage, s), edges, rings=tuple(points), labels=tuple(labels))


def show_pinned(stage: Stage, lesson: Lesson) -> Scene:
    """Pins along the first seam."""
    seams = stage.work.seams
    if not seams:
        return show_apart(stage)
    first = seams[0]
    pins = tuple(point(first.start + (first.end - first.start) * share) for share in (0.08, 0.36, 0.64, 0.92))
    drawn = (("sew", line(first.start, first.end)),)
    return Scene(
        f"One {stage.work.one} with pins along a seam", whole(stage), drawn, pins, labels=((pins[0], "pins"),)
    )


def show_folded(stage: Stage) -> Scene:
    """Its parts apart, a dotted fold from each part's middle outwards."""
    apart = show_apart(
        stage, f"The parts of one {stage.work.one}, each with a dotted crease through its middle"
    )
    folds = []
    for piece in apart.pieces:
        mid = middle_of(complex(*corner) for corner in piece.points)
        longest = max(
            zip(piece.points, [*piece.points[1:], piece.points[0]], strict=True),
            key=lambda side: abs(complex(*side[1]) - complex(*side[0])),
        )
        folds.append(("fold", line(mid, (complex(*longest[0]) + complex(*longest[1])) / 2)))
    return Scene(apart.alt, apart.pieces, tuple(folds), labels=((folds[0][1][1], "crease"),))


def show_measured(stage: Stage, lesson: Lesson) -> Scene:
    """An arrow across each way."""
    width, height = float(stage.work.width), float(stage.work.height)
    s = float(lesson.project.seam_allowance)
    arrows = (((width / 2, height / 2), (-s, height / 2)), ((width / 2, height / 2), (width + s, height / 2)))
    size = lesson.length(stage.size.expected[0])
    alt = f"One {stage.work.one}, measured through its middle"
    return Scene(alt, with_allowance(stage, s), arrows=arrows, labels=(((width / 2, height / 2), size),))


def _frame(left: float, top: float, right: float, bottom: float) -> list[Line]:
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    return list(zip(corners, [*corners[1:], corners[0]], strict=True))
