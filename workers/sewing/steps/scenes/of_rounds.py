"""Scenes of stages that are sewn in several rounds: stars, fields of hexagons, mitred borders, strip sets."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from service.craft.units import EightPointedStar, Hexagons, StripSet
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_stage import patches_of, show_pressed, show_sewn
from workers.sewing.steps.scenes.shapes import rect, ruler
from workers.sewing.works import SeamLine

NEAR = 1e-4
"""Inches within which two corners are one."""

MITRED = "mitred border"


def show_round(what: str, stage: Stage) -> Scene | None:
    """The scene of one of these stages; None where it is drawn as any other."""
    ways: dict[str, Callable[[str, Stage], Scene | None]] = {
        EightPointedStar.kind: _show_star,
        Hexagons.kind: _show_hexagons,
        StripSet.kind: _show_strip_set,
        MITRED: _show_mitred,
    }
    way = ways.get(stage.work.kind)
    return way(what, stage) if way else None


def _show_star(what: str, stage: Stage) -> Scene | None:
    """Seams between diamonds by their place in the ring, then those of the triangles and of the squares."""
    ring = [n for n, seam in enumerate(stage.work.seams) if seam.left.role == seam.right.role]
    rest = [n for n in range(len(stage.work.seams)) if n not in ring]
    sharp = [n for n in rest if _meets_triangle(stage, stage.work.seams[n])]
    rounds = {
        "pairs": ring[::2],
        "halves": ring[1::4],
        "star": ring[3::4],
        "set-in-triangles": sharp,
        "set-in-squares": [n for n in rest if n not in sharp],
    }
    if what in rounds:
        return show_sewn(stage, rounds[what])
    pressed = {"press-diamonds": ring, "press": rest}
    return show_pressed(stage, pressed[what]) if what in pressed else None


def _show_hexagons(what: str, stage: Stage) -> Scene | None:
    """Upright seams of the rows, the zigzags between rows, and the triangles along the edges."""
    edges = [n for n, seam in enumerate(stage.work.seams) if _meets_triangle(stage, seam)]
    inner = [n for n in range(len(stage.work.seams)) if n not in edges]
    upright = [n for n in inner if abs((stage.work.seams[n].end - stage.work.seams[n].start).real) < NEAR]
    rounds = {"rows": upright, "join": [n for n in inner if n not in upright], "edges": edges}
    return show_sewn(stage, rounds[what]) if what in rounds else None


def _meets_triangle(stage: Stage, seam: SeamLine) -> bool:
    """Whether a patch with three corners lies along a seam."""
    return any(
        len(cut.corners) == 3 and _has(cut.corners, seam.start) and _has(cut.corners, seam.end)
        for cut in patches_of(stage)
    )


def _has(corners: Iterable[complex], place: complex) -> bool:
    return any(abs(corner - place) < NEAR for corner in corners)


def _show_strip_set(what: str, stage: Stage) -> Scene | None:
    """The whole set lying on its side: its long seams, the first cut across it, the pieces."""
    cuts = patches_of(stage)
    pieces = tuple(rect(0, 3.0 * n, 24, 3.0, cut.fabric) for n, cut in enumerate(cuts))
    high = 3.0 * len(cuts)
    seams: tuple[tuple[str, Line], ...] = tuple(
        ("sew" if what == "sew" else "sewn", ((0.0, 3.0 * n), (24.0, 3.0 * n))) for n in range(1, len(cuts))
    )
    first: tuple[str, Line] = ("cut", ((1.2, -0.8), (1.2, high + 0.8)))
    if what == "sew":
        return Scene(
            phrase("The strips of a set side by side, their long seams dashed"),
            pieces,
            seams,
            labels=(((23, 3.0), phrase("sew")),),
        )
    if what == "square-end":
        tool, marks = ruler(1.4, -0.8, 2.6, high + 1.6)
        labels = (((1.2, 0.5), phrase("cut")), ((4.0, high - 1), phrase("ruler, square to the seams")))
        alt = phrase("A sewn strip set with a ruler across its seams and the line to cut off its end")
        return Scene(alt, (*pieces, tool), (*seams, *marks, first), labels=labels)
    if what == "cut":
        across = tuple(("cut", ((x, -0.8), (x, high + 0.8))) for x in (5.8, 10.4, 15.0))
        labels = (((15.0, 0.5), phrase("cut")), ((12.7, high - 1), phrase("a piece")))
        alt = phrase("A sewn strip set cut across into pieces, measured from its squared end")
        return Scene(alt, pieces, (*seams, first, *across), labels=labels)
    return None


def _show_mitred(what: str, stage: Stage) -> Scene | None:
    """Strips to the inside, then one corner close by: two strips on each other, and the slanting seam."""
    seams = stage.work.seams
    if what == "sew":
        return show_sewn(stage, [n for n, seam in enumerate(seams) if seam.left.role != seam.right.role])
    border = next(cut.fabric for cut in reversed(patches_of(stage)))
    slant: Line = ((10.0, 4.0), (14.0, 0.0))
    folded = Piece(((0, 4), (10, 4), (2, 12), (0, 12)), patches_of(stage)[0].fabric, True)
    pieces = (rect(0, 0, 20, 4, border, back=True), folded)
    if what == "look-mitre":
        return show_sewn(stage, [n for n, seam in enumerate(seams) if seam.left.role == seam.right.role])
    return (_draw_mitre(pieces, slant) | _sew_mitre(pieces, slant)).get(what)


def _draw_mitre(pieces: tuple[Piece, ...], slant: Line) -> dict[str, Scene]:
    """A corner folded, the line of its seam drawn and pinned."""
    return {
        "fold-mitre": Scene(
            phrase("The top folded on the slant at a corner, two strips level on each other"),
            pieces,
            (("fold", ((10.0, 4.0), (2.0, 12.0))),),
            labels=(((5.0, 9.0), phrase("fold")), ((19, 1.5), phrase("two strips on each other"))),
        ),
        "draw-mitre": Scene(
            phrase("The line to draw on the upper strip, which goes on where the fold ends"),
            pieces,
            (("fold", ((10.0, 4.0), (2.0, 12.0))), ("drawn", slant)),
            labels=(((5.0, 9.0), phrase("fold")), ((12, 2), phrase("draw, as the fold goes on"))),
        ),
        "bias": Scene(
            phrase("Pins across the drawn line, through both strips"),
            pieces,
            (("drawn", slant),),
            pins=((10.8, 3.2), (12.0, 2.0), (13.2, 0.8)),
            pins_along=(-0.7071, -0.7071),
            labels=(((12, 2), phrase("pins across the line")),),
        ),
    }


def _sew_mitre(pieces: tuple[Piece, ...], slant: Line) -> dict[str, Scene]:
    """The seam sewn, and what lies beyond it cut off."""
    return {
        "mitre": Scene(
            phrase("The slanting seam across both strips, dashed, from the inner corner out"),
            pieces,
            (("sew", slant),),
            arrows=(((10.8, 3.2), (13.0, 1.0)),),
            labels=(((12, 2), phrase("sew outwards")), ((10, 4), phrase("inner corner"))),
        ),
        "trim": Scene(
            phrase("The ends of the strips beyond the slanting seam, with the line to cut"),
            pieces,
            (("sewn", slant), ("cut", ((11.6, 4.0), (15.6, 0.0)))),
            labels=(
                ((15, 0.6), phrase("cut")),
                ((19, 2), phrase("falls off")),
                ((10.4, 3.6), phrase("slanting seam")),
            ),
        ),
    }
