"""Scenes of what is joined and cared for: borders, corners set on, graded allowances, a seam made ready to be spun."""

from __future__ import annotations

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import mark, phrase
from service.look.palette import compute_lightness
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_stage import line, middle_of, patches_of, piece_of, point, say_one
from workers.sewing.steps.scenes.shapes import rect
from workers.sewing.steps.step import Lesson
from workers.sewing.works import Laid, walk_patches

LEVEL = mark(
    "What the border goes round, before its strips are on, with an arrow from left to right through its middle"
)
UPRIGHT = mark(
    "What the border goes round, before its strips are on, with an arrow from top to bottom through its middle"
)

ROW, SETTING = "row", "setting triangle"
BORDER_KIND, CORNERS_KIND = "border pair", "setting corners"


NEAR, MANY = 1e-4, 4
"""Inches within which ends of seams are one place; so many at most end where two seams cross."""


def find_seams(stage: Stage, *, triangles: bool) -> tuple[int, ...]:
    """The numbers of the seams that sew a setting triangle on, or of all the others."""
    return tuple(
        number
        for number, seam in enumerate(stage.work.seams)
        if (SETTING in (seam.left.role, seam.right.role)) is triangles
    )


def measure_inside(stage: Stage, _lesson: Lesson) -> Scene:
    """What a border goes round, with an arrow through its middle along the strips that are sewn on next."""
    inside, strip = _part_border(stage)
    pieces = tuple(piece_of(cut) for cut in walk_patches(inside))
    corners = [complex(*at) for piece in pieces for at in piece.points]
    low = complex(min(at.real for at in corners), min(at.imag for at in corners))
    high = complex(max(at.real for at in corners), max(at.imag for at in corners))
    centre, upright = (low + high) / 2, _is_upright(strip)
    ends = (
        (complex(centre.real, low.imag), complex(centre.real, high.imag))
        if upright
        else (complex(low.real, centre.imag), complex(high.real, centre.imag))
    )
    arrows: tuple[Line, ...] = tuple(line(centre, end) for end in ends)
    label = (((high.real, centre.imag) if not upright else point(ends[1])), phrase("the middle"))
    alt = phrase(UPRIGHT if upright else LEVEL)
    return Scene(alt, pieces, arrows=arrows, labels=(label,))


def trim_strips(stage: Stage, _lesson: Lesson) -> Scene:
    """Two strips of a border, one above the other, with the line to cut at one end."""
    _, strip = _part_border(stage)
    cloth = next(cut.fabric for cut in walk_patches(strip))
    strips = (rect(0, 0, 20, 2.4, cloth), rect(0, 4, 20, 2.4, cloth))
    cuts: tuple[tuple[str, Line], ...] = (("cut", ((17.5, -0.8), (17.5, 7.2))),)
    arrows: tuple[Line, ...] = (((8.0, 3.2), (0.0, 3.2)), ((8.0, 3.2), (17.5, 3.2)))
    labels = (
        ((17.5, -0.4), phrase("cut")),
        ((13, 3.2), phrase("as measured")),
        ((19, 5.4), phrase("falls off")),
    )
    alt = phrase("Two strips of the border, both cut off at the length that was measured")
    return Scene(alt, strips, cuts, arrows=arrows, labels=labels)


def _part_border(stage: Stage) -> tuple[Laid, Laid]:
    """What lies inside a pair of strips, and one of the strips."""
    items = sorted(stage.work.items, key=lambda item: _area(item))
    return items[-1], items[0]


def _area(item: Laid) -> float:
    return float(item.piece.width) * float(item.piece.height)


def _is_upright(strip: Laid) -> bool:
    corners = [corner for cut in walk_patches(strip) for corner in cut.corners]
    wide = max(c.real for c in corners) - min(c.real for c in corners)
    return wide < max(c.imag for c in corners) - min(c.imag for c in corners)


def show_graded(stage: Stage, lesson: Lesson) -> Scene:
    """A seam from the back, close by: the dark allowance on the light one, and the line to cut along it."""
    light, dark = _light_and_dark(stage, lesson)
    pieces = (
        rect(0, 0, 20, 6, light, back=True),
        rect(0, 6, 20, 4, dark, back=True),
        rect(0, 2.4, 20, 3.6, light),
        rect(0, 2.4, 20, 3.6, dark, back=True),
    )
    lines: tuple[tuple[str, Line], ...] = (
        ("cut", ((0.0, 3.0), (20.0, 3.0))),
        ("sewn", ((0.0, 6.0), (20.0, 6.0))),
    )
    labels = (
        ((19.0, 1.0), phrase("light cloth, back")),
        ((19.0, 3.0), phrase("cut the dark one")),
        ((19.0, 4.6), phrase("dark allowance")),
        ((19.0, 6.0), phrase("seam")),
    )
    alt = phrase(
        "A seam seen from the back: the dark allowance lies on the light one, with a line to cut a thread inside its "
        "edge"
    )
    return Scene(alt, pieces, lines, labels=labels)


def _light_and_dark(stage: Stage, lesson: Lesson) -> tuple[str, str]:
    """The cloths of the first seam whose dark allowance lies under light cloth."""
    sides = [
        (seam.line.left.fabric, seam.line.right.fabric)
        for _, seams in stage.ways
        for seam in seams
        if seam.shadows and seam.line.left.fabric and seam.line.right.fabric
    ]
    pair = sides[0] if sides else tuple(cut.fabric for cut in patches_of(stage))
    colours = {key: compute_lightness(lesson.project.fabrics[key].colour) for key in pair}
    return max(colours, key=lambda key: colours[key]), min(colours, key=lambda key: colours[key])


def show_loosened(stage: Stage) -> Scene:
    """The stage from the back, a ring round the place where stitches are taken out."""
    last = stage.work.seams[-1]
    pieces = tuple(Piece(piece_of(cut).points, cut.fabric, back=True) for cut in patches_of(stage))
    middle = point(_find_crossed(stage) or middle_of((last.start, last.end)))
    sewn = tuple(("sewn", line(seam.start, seam.end)) for seam in stage.work.seams)
    alt = phrase(
        "The back of {one} with a ring round its middle, where the stitches are taken out",
        one=say_one(stage),
    )
    return Scene(alt, pieces, sewn, rings=(middle,), labels=((middle, phrase("take stitches out here")),))


def _find_crossed(stage: Stage) -> complex | None:
    """Where more than four seams end, as in a star's middle; None where they meet nowhere so."""
    ends = [end for seam in stage.work.seams for end in (seam.start, seam.end)]
    most = max(ends, key=lambda place: sum(abs(place - other) < NEAR for other in ends))
    return most if sum(abs(most - other) < NEAR for other in ends) > MANY else None
