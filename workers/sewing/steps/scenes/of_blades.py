"""Scenes of rings of blades: their tips, the ring, its place on the background, the disc over its hole."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import cos, pi, sin

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from service.craft.outlines.affine import Point
from service.craft.planar.round_shapes import POINTED
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes.of_blades_laid import show_laying
from workers.sewing.steps.scenes.of_stage import patches_of, show_pressed, show_sewn
from workers.sewing.steps.scenes.shapes import iron, ring

HALF = ((1.8, 10.0), (0.0, 0.0), (3.0, 0.0), (3.0, 10.0))
POINT = ((1.8, 10.0), (0.0, 3.0), (3.0, 0.0), (6.0, 3.0), (4.2, 10.0))
ROUND = ((1.8, 10.0), (0.0, 2.0), (1.2, 0.6), (3.0, 0.0), (4.8, 0.6), (6.0, 2.0), (4.2, 10.0))


def _circle(radius: float, at: Point = (6.0, 6.0)) -> tuple[Point, ...]:
    return tuple((at[0] + radius * cos(k * pi / 12), at[1] + radius * sin(k * pi / 12)) for k in range(24))


def show_blades(what: str, stage: Stage, groups: Sequence[int]) -> Scene | None:
    """The scene of a step of a ring sewn in `groups` of blades; None where the stage is drawn as any other."""
    patches = patches_of(stage)
    blade, centre = patches[1].fabric, patches[-1].fabric
    under = next((cut.fabric for cut in patches[1:] if cut.fabric != centre), patches[0].fabric)
    rounds = _part_seams(len(stage.work.seams), groups)
    if what in rounds:
        return show_sewn(stage, rounds[what])
    if what in ("press", "press-ring"):
        return show_pressed(stage, rounds["ring"] if what == "press-ring" else ())
    end = POINT if stage.work.facts["tips"] == POINTED else ROUND
    tips = _show_points(blade) | _show_round_ends(blade) | {"turn": _show_turned(end, blade)}
    return (tips | _show_disc(centre, under) | show_laying(stage, groups)).get(what)


def _part_seams(seams: int, groups: Sequence[int]) -> dict[str, list[int]]:
    """The seams by the round in which they are sewn: in pairs, to groups, to the ring.

    >>> _part_seams(6, (3, 3))
    {'pairs': [0, 3], 'groups': [1, 4], 'ring': [2, 5]}
    """
    pairs: list[int] = []
    joined: list[int] = []
    ring: list[int] = []
    first = 0
    for count in groups or [seams]:
        inner = range(first, first + count - 1)
        pairs += inner[::2]
        joined += inner[1::2]
        ring.append(first + count - 1)
        first += count
    return {"pairs": pairs, "groups": joined, "ring": [n for n in ring if n < seams]}


def _show_points(cloth: str) -> dict[str, Scene]:
    half = Piece(HALF, cloth, True)
    return {
        "fold-half": Scene(
            phrase("A blade folded in half lengthwise, its back outside"),
            (half,),
            (("fold", ((3.0, 0.0), (3.0, 10.0))),),
            labels=(((3.0, 5.0), phrase("fold")), ((0.9, 4.0), phrase("long edges level"))),
        ),
        "fold": Scene(
            phrase("A folded blade with a seam to sew along its wide end"),
            (half,),
            (("sew", ((0.2, 1.0), (3.0, 1.0))), ("fold", ((3.0, 0.0), (3.0, 10.0)))),
            labels=(((3.0, 6.0), phrase("fold")), ((2.6, 1.0), phrase("sew from the fold"))),
        ),
        "clip": Scene(
            phrase("The wide end of a blade with the piece to cut off"),
            (half,),
            (("sewn", ((0.2, 1.0), (3.0, 1.0))), ("cut", ((1.8, 0.0), (3.0, 0.8)))),
            labels=(((2.6, 0.5), phrase("cut")), ((2.0, 1.0), phrase("not into the seam"))),
        ),
        "turn-out": Scene(
            phrase("A blade with its tip turned right side out"),
            (Piece(POINT, cloth),),
            (("sewn", ((3.0, 0.0), (3.0, 3.0))),),
            labels=(((3.0, 0.4), phrase("push the point out")), ((3.0, 2.4), phrase("seam, on the back"))),
        ),
    }


def _show_round_ends(cloth: str) -> dict[str, Scene]:
    gathered: tuple[tuple[str, Line], ...] = tuple(("sew", line) for line in itertools.pairwise(ROUND))
    return {
        "card": Scene(
            phrase("A card in the finished shape of a blade"),
            (Piece(ROUND, ""),),
            ring("cut", ROUND),
            labels=(((4.6, 6.0), phrase("card")), ((5.0, 0.8), phrase("cut"))),
        ),
        "gather": Scene(
            phrase("A blade with long stitches in the allowance of its rounded end"),
            (Piece(ROUND, cloth, True),),
            gathered,
            labels=(((5.2, 1.0), phrase("long stitches")),),
        ),
        "draw-up": Scene(
            phrase("The thread drawn up, the edge folded over the card on the back of the blade"),
            (Piece(ROUND, cloth, True), Piece(tuple((3 + (x - 3) * 0.8, 1 + y * 0.9) for x, y in ROUND), "")),
            arrows=(((3.0, 0.4), (6.6, -0.6)),),
            labels=(((6.6, -0.6), phrase("draw the thread")), ((4.4, 6.0), phrase("card"))),
        ),
    }


def _show_turned(end: Sequence[Point], cloth: str) -> Scene:
    return Scene(
        phrase("The end of a blade with its edge turned to the back, an iron on it"),
        (Piece(end, cloth, True), iron(4.0, 0.6, 5.0)),
        labels=(((7.0, 2.0), phrase("iron")), ((3.4, 8.0), phrase("back of the blade"))),
    )


def _show_disc(cloth: str, base: str) -> dict[str, Scene]:
    wide, card, hole = _circle(5.4), _circle(4.2), _circle(2.6)
    return {
        "disc-card": Scene(
            phrase("The card for the centre, with the line to cut"),
            (Piece(card, ""),),
            ring("cut", card),
            labels=(((10.0, 6.0), phrase("cut on the dashed line")),),
        ),
        "disc-gather": Scene(
            phrase("The back of the centre with long stitches in its allowance, all the way round"),
            (Piece(wide, cloth, True),),
            ring("sew", _circle(4.9)),
            labels=(((10.8, 6.0), phrase("long stitches")),),
        ),
        "disc-draw-up": Scene(
            phrase("The thread drawn up, the allowance folded over the card"),
            (Piece(wide, cloth, True), Piece(card, "")),
            arrows=(((10.8, 6.0), (13.0, 4.0)),),
            labels=(((13.0, 4.0), phrase("draw the thread")), ((8.0, 8.0), phrase("card"))),
        ),
        "disc": Scene(
            phrase("The centre on its card, an iron on it"),
            (Piece(card, cloth), iron(6.0, 4.5, 6.0)),
            labels=(((10.0, 6.0), phrase("iron")), ((5.0, 9.0), phrase("centre over its card"))),
        ),
        "pin-cover": Scene(
            phrase("The centre pinned over the hole of the ring"),
            (Piece(_circle(6.0), base), Piece(card, cloth)),
            ring("fold", hole),
            pins=((6.0, 2.6), (9.2, 6.6), (3.0, 6.6)),
            labels=(((9.2, 6.0), phrase("pins")), ((8.4, 6.8), phrase("hole under it"))),
        ),
        "cover": Scene(
            phrase("The edge of the centre to sew down, dashed"),
            (Piece(_circle(6.0), base), Piece(card, cloth)),
            ring("sew", _circle(4.0)),
            labels=(((10.0, 6.0), phrase("sew the edge down")),),
        ),
    }
