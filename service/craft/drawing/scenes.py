"""One action at the table as a small drawing: cloth with its front or back up, lines to draw, sew, cut and fold."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from shapely import Polygon, STRtree

from service.craft.drawing.cloth import UNKNOWN_CLOTH, draw_patches
from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Sheet, trace_lines, trace_runs
from service.craft.drawing.signs import draw_arrow, draw_wedge
from service.craft.drawing.styles import CUT, EARTH, FOLD, PAPER, SEW, SEWN, WITNESS, Stroke
from service.craft.drawing.views import ClothView
from service.craft.outlines.affine import Point
from service.look.palette import PRINT, mix

ROOM_MM = (66.0, 30.0)
MOST_HATCHED = 24
"""Pieces of a scene up to which they are hatched: more of them are too small for it."""
TOUCHING_MM = 0.02
"""Shapes that have less than this in common lie side by side."""

LABEL_MM, LABEL_STEP_MM = 3.1, 4.3
BACK_SHARE = 0.72
"""How far towards white the back of a cloth is drawn."""

PIN_MM, MARK_MM = 4.0, 0.6
DRAWN, STITCHES, STRETCHING = Stroke(0.18), Stroke(0.25), Stroke(1.0, PRINT["rhubarb"], (0.6, 0.6))
STROKES = {
    "stretching": STRETCHING,
    "cut": CUT,
    "sew": SEW,
    "fold": FOLD,
    "drawn": DRAWN,
    "sewn": SEWN,
    "stitches": STITCHES,
}

Line = tuple[Point, Point]


@dataclass(frozen=True)
class Piece:
    """A piece of cloth: its corners, its cloth's key, whether its back is up, the corners of what is cut out of it."""

    points: Sequence[Point]
    cloth: str
    back: bool = False
    holes: tuple[Sequence[Point], ...] = ()

    def moved(self, put: Callable[[Point], Point]) -> Piece:
        """The piece with every corner put elsewhere."""
        holes = tuple([put(at) for at in hole] for hole in self.holes)
        return replace(self, points=[put(at) for at in self.points], holes=holes)


@dataclass(frozen=True)
class Scene:
    """What is seen, in any measure: pieces from the lowest up, lines by what is done along them, pins, labels.

    `alt` says the same in words. A label's line leads to its place. Pins lie along the unit vector `pins_along`, square
    to the seam that they hold, their heads where it comes from.
    """

    alt: str
    pieces: tuple[Piece, ...] = ()
    lines: tuple[tuple[str, Line], ...] = ()
    pins: tuple[Point, ...] = ()
    pins_along: Point = (0.0, 1.0)
    rings: tuple[Point, ...] = ()
    marks: tuple[Point, ...] = ()
    wedges: tuple[tuple[Point, Point], ...] = ()
    arrows: tuple[Line, ...] = ()
    labels: tuple[tuple[Point, str], ...] = ()


def draw_scene(scene: Scene, cloths: Mapping[str, ClothView], room: tuple[float, float] = ROOM_MM) -> str:
    """A scene as SVG, its labels in a column at the right."""
    words = max((measure_words(text, LABEL_MM) for _, text in scene.labels), default=0.0)
    column = words + 5.0 if words else 0.0
    put, width, height = _fit(scene, room[0] - column - 2.0, room[1] - 2.0)
    high = max(height + 2.0, len(scene.labels) * LABEL_STEP_MM + 1.0)
    sheet = Sheet(width + 2.0 + column, high, title=scene.alt)
    _draw_pieces(sheet, [piece.moved(put) for piece in scene.pieces], cloths)
    _draw_lines(sheet, [(kind, (put(start), put(end))) for kind, (start, end) in scene.lines])
    _draw_pins(sheet, [put(point) for point in scene.pins], scene.pins_along)
    for stroke in (Stroke(1.0, PAPER), Stroke(0.4)):
        for point in scene.rings:
            sheet.disc(put(point), 1.7, stroke=stroke)
    for point in scene.marks:
        sheet.disc(put(point), MARK_MM, fill=EARTH, stroke=Stroke(0.25, PAPER))
    for at, towards in scene.wedges:
        draw_wedge(sheet, put(at), towards)
    for start, end in scene.arrows:
        draw_arrow(sheet, put(start), put(end), Stroke(1.0, PAPER))
        draw_arrow(sheet, put(start), put(end), Stroke(0.4))
    _write_labels(sheet, [(put(at), text) for at, text in scene.labels], width + 5.0, high)
    return sheet.to_svg()


def _fit(scene: Scene, width_mm: float, height_mm: float) -> tuple[_Put, float, float]:
    """How the scene comes to lie on the sheet, and how much room it takes."""
    seen = [point for piece in scene.pieces for point in piece.points]
    seen += [point for _, line in scene.lines for point in line] + [p for line in scene.arrows for p in line]
    xs, ys = [x for x, _ in seen], [y for _, y in seen]
    left, top = min(xs), min(ys)
    wide, high = max(max(xs) - left, 1e-6), max(max(ys) - top, 1e-6)
    scale = min(width_mm / wide, height_mm / high)
    return _Put(left, top, scale), wide * scale, high * scale


@dataclass(frozen=True)
class _Put:
    left: float
    top: float
    scale: float

    def __call__(self, point: Point) -> Point:
        return 1.0 + (point[0] - self.left) * self.scale, 1.0 + (point[1] - self.top) * self.scale


def _draw_pieces(sheet: Sheet, pieces: Sequence[Piece], cloths: Mapping[str, ClothView]) -> None:
    """Every piece, from the lowest up; those that lie side by side are drawn as one, which keeps a drawing small."""
    plain = len(pieces) > MOST_HATCHED
    for layer in _part_layers(pieces):
        views = {_key(piece): _view_cloth(piece, cloths, plain=plain) for piece in layer}
        draw_patches(sheet, [([piece.points, *piece.holes], _key(piece)) for piece in layer], views)


def _key(piece: Piece) -> str:
    return f"{piece.cloth} {'back' if piece.back else 'front'}"


def _view_cloth(piece: Piece, cloths: Mapping[str, ClothView], *, plain: bool) -> ClothView:
    cloth = cloths.get(piece.cloth, UNKNOWN_CLOTH)
    if piece.back:
        return replace(cloth, colour=mix(cloth.colour, PAPER, BACK_SHARE), hatched=False)
    return replace(cloth, hatched=cloth.hatched and not plain)


def _part_layers(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Pieces in their order, a new layer where one covers part of those before it."""
    shapes = [Polygon(piece.points) for piece in pieces]
    lower = _find_covered(shapes)
    layers: list[list[Piece]] = []
    first = 0
    for place, piece in enumerate(pieces):
        if not layers or lower[place] >= first:
            layers.append([])
            first = place
        layers[-1].append(piece)
    return layers


def _find_covered(shapes: Sequence[Polygon]) -> list[int]:
    """By shape, the last one below it that it covers part of; -1 where it covers none.

    Shapes are held against those only whose boxes they meet, so that thousands of patches take no longer than their
    number.
    """
    lower = [-1] * len(shapes)
    over, under = STRtree(shapes).query(shapes, predicate="intersects")
    for one, other in zip(over.tolist(), under.tolist(), strict=True):
        if lower[one] < other < one and shapes[one].intersection(shapes[other]).area > TOUCHING_MM**2:
            lower[one] = other
    return lower


def _draw_lines(sheet: Sheet, lines: Sequence[tuple[str, Line]]) -> None:
    """All lines of a kind as one path, over a pale edge that parts them from the cloth."""
    kinds = {kind: [line for name, line in lines if name == kind] for kind, _ in lines}
    for kind, drawn in kinds.items():
        sheet.path(trace_runs(drawn), stroke=Stroke(STROKES[kind].width_mm * 2.8, PAPER))
    for kind, drawn in kinds.items():
        sheet.path(trace_runs(drawn), stroke=STROKES[kind])


def _draw_pins(sheet: Sheet, places: Sequence[Point], along: Point) -> None:
    x, y = along[0] * PIN_MM / 2, along[1] * PIN_MM / 2
    heads = [(at[0] - x, at[1] - y) for at in places]
    shafts = trace_lines((head, (at[0] + x, at[1] + y)) for head, at in zip(heads, places, strict=True))
    for stroke in (Stroke(1.1, PAPER), Stroke(0.35)):
        sheet.path(shafts, stroke=stroke)
    for head in heads:
        sheet.disc(head, 0.8, fill=EARTH, stroke=Stroke(0.2, PAPER))


def _write_labels(sheet: Sheet, labels: list[tuple[Point, str]], x: float, high: float) -> None:
    """Each label level with its place, or below the one above it; the last ones move up where room ends."""
    ordered = sorted(labels, key=lambda label: label[0][1])
    rows: list[float] = []
    for (_, y), _text in ordered:
        rows.append(max(y, rows[-1] + LABEL_STEP_MM if rows else LABEL_STEP_MM / 2))
    last = high - LABEL_STEP_MM / 2
    for i in reversed(range(len(rows))):
        rows[i] = min(rows[i], last)
        last = rows[i] - LABEL_STEP_MM
    leads = trace_lines((at, (x - 0.6, y)) for (at, _), y in zip(ordered, rows, strict=True))
    for stroke in (Stroke(0.7, PAPER), WITNESS):
        sheet.path(leads, stroke=stroke)
    for (_, text), y in zip(ordered, rows, strict=True):
        write_words(sheet, (x, y + LABEL_MM * 0.34), text, LABEL_MM)
