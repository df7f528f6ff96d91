"""Sixty layouts of pieces by chance: every one legal by what Shapely measures, without the project's own check."""

from __future__ import annotations

import random
from dataclasses import dataclass
from math import cos, pi, sin

import pytest
import shapely
from shapely.affinity import rotate, translate

from service.craft.outlines import Outline, flatten
from service.craft.outlines.model import Cubic, Line, Ring
from workers.outlines import layout
from workers.outlines.asked import at_origin
from workers.outlines.layout import ANY_TURN, AS_PLACED, BY_SHAPE, QUARTER_TURNS, Layout, Room
from workers.outlines.nesting import strip

LAYOUTS = 60
FEW_STEPS = 40
"""Ever shorter strips come nearer to a fault, so a few steps of each of many layouts show more than many of a few."""

CHORDS_MM = 0.05
"""Curves are measured by chords, places are given to a hundredth: half the width of a pencil line."""


@dataclass(frozen=True)
class Bed:
    """Pieces, how they may turn, and the room they are laid in."""

    outlines: tuple[Outline, ...]
    turns: tuple[float, ...]
    room: Room


def sow(seed: int) -> Bed:
    """Three to eight shapes by chance on a mat that every one fits."""
    chance = random.Random(seed)
    draw = (draw_blob, draw_hook, draw_leaf, draw_ring)
    outlines = tuple(chance.choice(draw)(chance, chance.uniform(15, 70)) for _ in range(chance.randint(3, 8)))
    longest = max(max(o.width_mm, o.height_mm) for o in outlines)
    room = Room(longest + chance.uniform(0, 80), longest + chance.uniform(0, 120), chance.uniform(0.5, 9))
    return Bed(outlines, (AS_PLACED, QUARTER_TURNS, ANY_TURN)[seed % 3], room)


def draw_blob(chance: random.Random, size: float) -> Outline:
    """Corners at even angles, each at a distance of its own from the middle: often with points and bays."""
    count = chance.randint(3, 40)
    corners = []
    for n in range(count):
        out, turn = size * chance.uniform(0.2, 0.5), 2 * pi * n / count
        corners.append((out * cos(turn), out * sin(turn)))
    return outline(ring(*corners))


def draw_hook(chance: random.Random, size: float) -> Outline:
    """Two arms at a right angle, of one width."""
    arm = size * chance.uniform(0.15, 0.45)
    return outline(ring((0, 0), (size, 0), (size, arm), (arm, arm), (arm, size), (0, size)))


def draw_leaf(chance: random.Random, size: float) -> Outline:
    """Two curves between two tips."""
    high, low = (size * chance.uniform(-0.2, 0.6) for _ in range(2))
    upper = Cubic((size / 3, -high - 1), (2 * size / 3, -high - 1), (size, 0.0))
    lower = Cubic((2 * size / 3, low + size / 5), (size / 3, low + size / 5), (0.0, 0.0))
    return outline(Ring((0.0, 0.0), (upper, lower)))


def draw_ring(chance: random.Random, size: float) -> Outline:
    """A square frame: nothing may lie in its hole, for that is waste."""
    rim = size * chance.uniform(0.1, 0.4)
    inner = size - rim
    return outline(
        ring((0, 0), (size, 0), (size, size), (0, size)),
        ring((rim, rim), (rim, inner), (inner, inner), (inner, rim)),
    )


def ring(*corners: tuple[float, float]) -> Ring:
    first, *rest = ((float(x), float(y)) for x, y in corners)
    return Ring(first, tuple(Line(corner) for corner in rest))


def outline(*rings: Ring) -> Outline:
    return at_origin(Outline("piece", rings))


def region(piece: Outline) -> shapely.Polygon:
    return shapely.Polygon(flatten(piece.rings[0]))


def lay(bed: Bed) -> Layout | None:
    return layout._lay_shapes(list(bed.outlines), bed.turns, bed.room)


@pytest.fixture(autouse=True)
def few_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strip, "STEPS", FEW_STEPS)
    strip.solve_strip.cache_clear()


def is_turned(shape: shapely.Polygon, original: shapely.Polygon, degrees: float) -> bool:
    turned = rotate(original, degrees, origin=(0, 0))
    moved = translate(turned, shape.bounds[0] - turned.bounds[0], shape.bounds[1] - turned.bounds[1])
    return bool(shape.hausdorff_distance(moved) < 2 * CHORDS_MM)


@pytest.mark.parametrize("seed", range(LAYOUTS))
def test_pieces_by_chance_lie_apart_in_the_room_and_as_they_may_turn(seed: int) -> None:
    """Source: Shapely's distance, cover, rotate and Hausdorff distance, of the outlines as the files get them."""
    bed = sow(seed)
    laid = lay(bed)
    assert laid is not None
    assert laid.way == BY_SHAPE
    shapes = [(mat, region(piece)) for mat, piece in laid.places]
    room = shapely.box(0, 0, bed.room.width_mm, bed.room.height_mm).buffer(CHORDS_MM, join_style="mitre")
    assert all(room.covers(shape) for _, shape in shapes)
    for n, (mat, shape) in enumerate(shapes):
        near = [other for there, other in shapes[:n] if there == mat]
        assert all(shape.distance(other) >= bed.room.spacing_mm - CHORDS_MM for other in near)
    for original, (_, shape) in zip(bed.outlines, shapes, strict=True):
        assert not bed.turns or any(is_turned(shape, region(original), turn) for turn in bed.turns)
        assert shape.area == pytest.approx(region(original).area, rel=1e-3)


def test_holes_go_with_their_pieces() -> None:
    """Every frame keeps its hole, in its middle."""
    frames = tuple(draw_ring(random.Random(n), 40.0 + n) for n in range(5))
    laid = lay(Bed(frames, ANY_TURN, Room(120.0, 160.0, 4.0)))
    assert laid is not None
    for _, piece in laid.places:
        outer, hole = (shapely.Polygon(flatten(one)) for one in piece.rings)
        assert outer.contains(hole)
        assert outer.centroid.distance(hole.centroid) < CHORDS_MM
