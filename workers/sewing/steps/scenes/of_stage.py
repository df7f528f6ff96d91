"""Scenes of a stage as it lies on the table: its parts apart, its seams, its allowances, its points, its cut edges."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.drawing.stages import PRESSED
from service.craft.language import mark, phrase, phrase_count
from service.craft.outlines.affine import Point
from workers.sewing.names import as_sentence, has_article
from workers.sewing.plan import Stage
from workers.sewing.pressed import PressedSeam
from workers.sewing.steps.step import Lesson
from workers.sewing.works import Cut, Laid, walk_patches

APART = 0.28
"""By how much of its way from the middle a part moves out."""

WAYS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}
FLAT = "flat"
PRESSED_OR_FLAT = {**PRESSED, FLAT: mark("flat")}
"""Ways of pressing as a description names them."""

CREASED = 0.5
"""How far from the edge towards the middle a crease is drawn."""

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


def say_one(stage: Stage) -> str:
    """One of what a stage makes, inside a sentence; what is there but once has its article already."""
    one = stage.work.one
    return one if has_article(one) else phrase("one {one}", one=one)


def name_one(stage: Stage) -> str:
    """The same at the beginning of a sentence."""
    one = stage.work.one
    return as_sentence(one) if has_article(one) else phrase("One {one}", one=one)


def show_apart(stage: Stage, alt: str = "") -> Scene:
    """Its parts laid out with room between them."""
    centre = complex(float(stage.work.width), float(stage.work.height)) / 2
    pieces: list[Piece] = []
    for item in stage.work.items:
        cuts = list(walk_patches(item))
        away = (middle_of(corner for cut in cuts for corner in cut.corners) - centre) * APART
        pieces += [piece_of(cut, away) for cut in cuts]
    count = len(stage.work.items)
    return Scene(
        alt or phrase("The {count} parts of {one} laid out in their places", count=count, one=say_one(stage)),
        tuple(pieces),
    )


def show_sewn(stage: Stage, seams: Sequence[int] = ()) -> Scene:
    """Its patches with the seams that are sewn now dashed."""
    lines = stage.work.seams
    chosen = [lines[i] for i in seams if i < len(lines)] or list(lines)
    drawn = tuple(("sew", line(seam.start, seam.end)) for seam in chosen)
    middles = [middle_of((seam.start, seam.end)) for seam in chosen]
    at = point(max(middles, key=lambda place: place.real)) if middles else point(0j)
    alt = phrase_count(
        "{one} with one seam to sew, dashed",
        "{one} with {number} seams to sew, dashed",
        len(chosen),
        one=name_one(stage),
    )
    return Scene(alt, whole(stage), drawn, labels=((at, phrase("sew")),) if chosen else ())


def show_pressed(stage: Stage, seams: Sequence[int] = ()) -> Scene:
    """Its seams with a wedge on the side to which each is pressed."""
    chosen = [stage.seams[i] for i in seams if i < len(stage.seams)] or list(stage.seams)
    wedges = tuple(wedge for seam in chosen for wedge in find_wedges(seam))
    drawn = tuple(("sew", line(seam.line.start, seam.line.end)) for seam in chosen)
    flat = [seam for seam in chosen if seam.press == "open"]
    labels = tuple((point(middle_of((s.line.start, s.line.end))), phrase("open")) for s in flat[:1])
    ways = ", ".join(
        phrase(PRESSED_OR_FLAT[way]) for way in dict.fromkeys(seam.press for seam in chosen) or (FLAT,)
    )
    return Scene(
        phrase("{one}, its seams pressed {ways}", one=name_one(stage), ways=ways),
        whole(stage),
        drawn,
        wedges=wedges,
        labels=labels,
    )


def find_wedges(seam: PressedSeam) -> list[tuple[Point, Point]]:
    """Where the wedges of a seam stand, and which way they point."""
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

    cuts = [cut for cut in patches_of(stage) if _lies_outside(cut, width, height)]
    below = [Piece([point(grow(corner)) for corner in cut.corners], cut.fabric) for cut in cuts]
    return (*below, *whole(stage))


def _lies_outside(cut: Cut, width: float, height: float) -> bool:
    """Whether a patch has a corner on the outer edge; of slanted outlines every patch counts."""
    near = 1e-6
    return any(
        min(corner.real, corner.imag) < near or corner.real > width - near or corner.imag > height - near
        for corner in cut.corners
    )


def show_trimmed(stage: Stage, lesson: Lesson) -> Scene:
    """Cut lines at its size, with what stands out beyond them."""
    s = float(lesson.project.seam_allowance)
    width, height = float(stage.work.width), float(stage.work.height)
    over = s + UNTRIMMED * max(width, height)
    edges = frame_of(-s, -s, width + s, height + s)
    labels = (
        ((width + s, -s), phrase("cut")),
        ((width + s / 2, height / 2), phrase("{allowance} allowance", allowance=lesson.allowance)),
    )
    alt = phrase(
        "{one} with lines to cut on all sides, {allowance} outside the finished edge",
        one=name_one(stage),
        allowance=lesson.allowance,
    )
    return Scene(alt, with_allowance(stage, over), tuple(("cut", edge) for edge in edges), labels=labels)


def show_pinned(stage: Stage, seams: Sequence[int] = (0,)) -> Scene:
    """Pins along the first of some seams."""
    lines = stage.work.seams
    if not lines:
        return show_apart(stage)
    first = lines[seams[0] if seams else 0]
    pins = tuple(point(first.start + (first.end - first.start) * share) for share in (0.08, 0.36, 0.64, 0.92))
    drawn = (("sew", line(first.start, first.end)),)
    last = max(pins, key=lambda pin: pin[0])
    alt = phrase("{one} with pins across a seam", one=name_one(stage))
    across = first.to_right if first.to_right.imag >= 0 else -first.to_right
    return Scene(alt, whole(stage), drawn, pins, pins_along=point(across), labels=((last, phrase("pins")),))


def show_folded(stage: Stage) -> Scene:
    """Its parts apart, a short dotted fold from the middle of each edge that meets another at its middle."""
    centre = complex(float(stage.work.width), float(stage.work.height)) / 2
    pieces: list[Piece] = []
    folds: list[tuple[str, Line]] = []
    for item in stage.work.items:
        cuts = list(walk_patches(item))
        middle = middle_of(corner for cut in cuts for corner in cut.corners)
        apart = (middle - centre) * APART
        pieces += [piece_of(cut, apart) for cut in cuts]
        if isinstance(item.piece, Cut):
            folds += [("fold", line(start + apart, end + apart)) for start, end in _creases(cuts[0], middle)]
    alt = phrase("The parts of {one} with dotted creases in the middle of the edges", one=say_one(stage))
    labels = (
        ((max((start for _, (start, _) in folds), key=lambda at: at[0]), phrase("crease")),) if folds else ()
    )
    return Scene(alt, tuple(pieces), tuple(folds), labels=labels)


def _creases(cut: Cut, middle: complex) -> list[tuple[complex, complex]]:
    """Of a triangle the middle of its longest edge, of anything else of every edge, with the way inwards."""
    corners = list(cut.corners)
    sides = sorted(
        zip(corners, [*corners[1:], corners[0]], strict=True), key=lambda side: -abs(side[1] - side[0])
    )
    middles = [(start + end) / 2 for start, end in (sides[:1] if len(corners) == 3 else sides)]
    return [(at, at + (middle - at) * CREASED) for at in middles]


def show_measured(stage: Stage, lesson: Lesson) -> Scene:
    """An arrow across each way."""
    width, height = float(stage.work.width), float(stage.work.height)
    s = float(lesson.project.seam_allowance)
    arrows = (((width / 2, height / 2), (-s, height / 2)), ((width / 2, height / 2), (width + s, height / 2)))
    size = lesson.length(stage.size.expected[0])
    alt = phrase("{one}, measured through its middle", one=name_one(stage))
    return Scene(alt, with_allowance(stage, s), arrows=arrows, labels=(((width / 2, height / 2), size),))


def frame_of(left: float, top: float, right: float, bottom: float) -> list[Line]:
    """The edges of a rectangle."""
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    return list(zip(corners, [*corners[1:], corners[0]], strict=True))
