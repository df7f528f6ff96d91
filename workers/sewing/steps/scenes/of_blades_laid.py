"""Scenes of a ring of blades that is looked over and laid on its background: its own blades, in their cloths."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from shapely import Polygon, unary_union

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.areas import draw_edges, list_polygons
from workers.sewing.steps.scenes.of_stage import line, patches_of, piece_of, point
from workers.sewing.steps.scenes.shapes import iron, rect
from workers.sewing.works import Cut

NEAR = 1e-4
"""Inches within which two corners are one."""

CLOSE_SHARE = 0.012
"""How far inside the edge the ring is stitched, as drawn: a share of the width of the background."""

BEYOND = 1.08
"""How far the sides of the right angle are drawn, in shares of the length of the seam they follow."""


def show_laying(stage: Stage, groups: Sequence[int]) -> dict[str, Scene]:
    """The ring tried and laid; `groups` are how many blades are joined before the ring is closed."""
    return _show_tried(stage, groups) | _show_laid(stage)


def _blades(stage: Stage) -> list[Cut]:
    """The blades alone: a ring has as many seams as blades, and they come after the background."""
    return patches_of(stage)[1 : 1 + len(stage.work.seams)]


def _show_tried(stage: Stage, groups: Sequence[int]) -> dict[str, Scene]:
    """A group between the sides of a right angle, and the whole ring lying flat."""
    blades = _blades(stage)
    count = groups[0] if groups else len(blades)
    centre = _centre(stage)
    outer = ((blades[0], blades[1]), (blades[count - 1], blades[count - 2]))
    sides = [max(_find_side(stage, *pair), key=lambda at: abs(at - centre)) for pair in outer]
    reach = [centre + (side - centre) * BEYOND for side in sides]
    return {
        "look-groups": Scene(
            phrase("{count} blades sewn to each other, held to the two lines of a right angle", count=count),
            tuple(map(piece_of, blades[:count])),
            tuple(("drawn", line(centre, end)) for end in reach),
            labels=(
                (point(centre), phrase("the corner of the mat's lines")),
                (point(reach[0]), phrase("edge on its line")),
            ),
        ),
        "look-ring": Scene(
            phrase("The ring lying flat by itself"),
            tuple(map(piece_of, blades)),
            labels=((max(point(at) for cut in blades for at in cut.corners), phrase("lies flat all round")),),
        ),
    }


def _find_side(stage: Stage, blade: Cut, neighbour: Cut) -> tuple[complex, complex]:
    """The long side of a blade that it does not share with a neighbour."""
    for seam in stage.work.seams:
        ends = (seam.start, seam.end)
        if _has(blade, ends) and not _has(neighbour, ends):
            return ends
    return blade.corners[0], blade.corners[1]


def _has(blade: Cut, ends: Iterable[complex]) -> bool:
    return all(any(abs(corner - end) < NEAR for corner in blade.corners) for end in ends)


def _centre(stage: Stage) -> complex:
    return complex(float(stage.work.width), float(stage.work.height)) / 2


def _show_laid(stage: Stage) -> dict[str, Scene]:
    """Creased, placed, pinned, stitched and pressed."""
    width, height = float(stage.work.width), float(stage.work.height)
    base, (x, y) = patches_of(stage)[0].fabric, point(_centre(stage))
    ground, ring = rect(0, 0, width, height, base), tuple(map(piece_of, _blades(stage)))
    cross: tuple[tuple[str, Line], ...] = (
        ("fold", ((x, 0.0), (x, height))),
        ("fold", ((0.0, y), (width, y))),
    )
    laid = (ground, *ring)
    far = max(point(at) for cut in _blades(stage) for at in cut.corners)
    return {
        "crease": Scene(
            phrase("The background with two dotted creases that cross in its middle"),
            (ground,),
            cross,
            labels=(((width * 0.95, y), phrase("crease")), ((x, height * 0.85), phrase("crease"))),
        ),
        "place": Scene(
            phrase("The ring on the background, its hole where the creases cross"),
            laid,
            cross,
            labels=(((x, y), phrase("creases cross in the hole")), (far, phrase("ring"))),
        ),
        "pin": Scene(
            phrase("The ring pinned to the background"),
            laid,
            pins=_set_pins(stage),
            labels=((far, phrase("every second blade")),),
        ),
        "stitch": Scene(
            phrase("The outer edge of the ring to sew to the background, dashed"),
            laid,
            draw_edges(_outer_edge(ring, CLOSE_SHARE * width), "sew"),
            labels=((far, phrase("sew close to the edge")),),
        ),
        "press-whole": Scene(
            phrase("The whole face down, an iron on its back"),
            (rect(0, 0, width, height, base, back=True), iron(width * 0.4, height * 0.35, width * 0.45)),
            labels=(((width * 0.75, y), phrase("iron, from the back")),),
        ),
    }


def _outer_edge(ring: Sequence[Piece], inside: float) -> Polygon:
    """The outer edge of the ring, so far inside it; its hole left out."""
    whole = unary_union([Polygon(piece.points).buffer(inside / 4) for piece in ring])
    smaller = max(list_polygons(whole.buffer(-inside, join_style="mitre")), key=lambda one: one.area)
    return Polygon(smaller.exterior)


def _set_pins(stage: Stage) -> tuple[tuple[float, float], ...]:
    """A pin in the middle of every second blade."""
    blades = _blades(stage)[::2]
    return tuple(point(sum(cut.corners, 0j) / len(cut.corners)) for cut in blades)
