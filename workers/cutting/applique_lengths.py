"""How much cloth the applique pieces take by themselves, and how much fusible web, counted in two ways.

By bounding boxes: a rectangle for each piece, as a maker cuts them by hand. By real shapes on the mat: the room
that the pieces take as they lie in the cut files, for tracks with a cutting machine. Who cannot wait for that has them
counted by boxes in rows on the mat instead, which takes no less cloth, and is told so.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from service.craft.document import Project
from service.craft.measure import MM_PER_INCH
from service.craft.tracks import Track
from workers.cutting.applique import RoughPiece
from workers.cutting.plan import common_step
from workers.cutting.strip_problem import Problem, Size, total_length
from workers.cutting.strip_rules import fit_rule
from workers.outlines.cut_plan import CutSheet, plan_sheets
from workers.outlines.layout import IN_ROWS_FOR_NOW
from workers.outlines.mat_room import CutSettings, list_mats, read_settings
from workers.patience import Left, endless
from workers.recipe import CannotMake

BOXES, SHAPES, ROWS = "bounding boxes", "real shapes on the mat", "boxes in rows on the mat"

WEB_ROOM = Fraction(1, 4)
"""Inches of web on every side of a piece that is traced on it and cut by hand: common practice, no source."""


@dataclass(frozen=True, order=True)
class Rectangle:
    """A rectangle in inches: across the roll, along it, and whether it may lie the other way."""

    width: Fraction
    height: Fraction
    may_turn: bool = True


@dataclass(frozen=True)
class PieceCloth:
    """What the pieces of one cloth take by themselves: rectangles and how often, and the length of the roll (inches).

    `tracks` are those that count this way; `mat` is the label of the mat, or empty; `room` the margin counted. `webbed`
    are the rectangles of mats whose pieces are fused: turned ones lie on others.
    """

    fabric: str
    counted_by: str
    tracks: tuple[str, ...]
    pieces: tuple[str, ...]
    room: Fraction
    rectangles: tuple[tuple[Rectangle, int], ...]
    length: Fraction
    mat: str = ""
    webbed: tuple[tuple[Rectangle, int], ...] = ()


@dataclass(frozen=True)
class Web:
    """Fusible web for all pieces that take any, counted one way: square inches, and inches of the roll."""

    counted_by: str
    tracks: tuple[str, ...]
    pieces: tuple[str, ...]
    area: Fraction
    length: Fraction
    mat: str = ""


@dataclass(frozen=True)
class AppliqueLengths:
    """Cloth and web of the pieces; no web where no track fuses anything."""

    cloths: tuple[PieceCloth, ...]
    webs: tuple[Web, ...]


def measure_applique(rough: Sequence[RoughPiece], project: Project, left: Left = endless) -> AppliqueLengths:
    """Every cloth of the pieces counted by boxes, and once more for each mat that a track cuts on.

    With too little time `left` to lay them by their shapes, that is by rows of their boxes, and `counted_by` says so.
    """
    by_boxes = list(_count_boxes(rough, project))
    by_shapes = list(_count_on_mats(rough, project, left))
    webs = [*_web_of_boxes(rough, project), *_web_of_shapes(by_shapes, project)]
    return AppliqueLengths((*by_boxes, *by_shapes), tuple(webs))


def measure_roll(rectangles: Iterable[tuple[Rectangle, int]], width: Fraction) -> Fraction | None:
    """Inches of a roll so wide that strips of these rectangles take; None where one fits in no way."""
    listed = list(rectangles)
    if any(min(r.width, r.height if r.may_turn else r.width) > width for r, _ in listed):
        return None
    if not listed:
        return Fraction(0)
    step = common_step(side for r, _ in listed for side in (r.width, r.height))
    sizes = tuple(Size(int(r.width / step), int(r.height / step), count, r.may_turn) for r, count in listed)
    return total_length(fit_rule(Problem(int(width / step), sizes))) * step


def _count_boxes(rough: Sequence[RoughPiece], project: Project) -> Iterable[PieceCloth]:
    for key, fabric in project.fabrics.items():
        own = [one for one in rough if one.asked.fabric.key == key]
        rectangles = _gather(Rectangle(one.width, one.height, not fabric.one_way) for one in own)
        length = measure_roll(rectangles, fabric.usable_width)
        if own and length is not None:
            yield PieceCloth(
                fabric=key,
                counted_by=BOXES,
                tracks=tuple(track.name for track in project.tracks),
                pieces=tuple(one.asked.piece.name for one in own),
                room=max(one.room for one in own),
                rectangles=rectangles,
                length=length,
            )


def _count_on_mats(rough: Sequence[RoughPiece], project: Project, left: Left) -> Iterable[PieceCloth]:
    """The rectangles to lay on the mat, by cloth and mat, in the order of the cut files."""
    settings = read_settings(project)
    try:
        sheets = plan_sheets([one.asked for one in rough], list_mats(project), settings, left)
    except CannotMake:
        # a piece larger than a mat: the cut files say so, and the cloth is counted by boxes
        return
    groups: dict[tuple[str, str], list[CutSheet]] = {}
    for sheet in sheets:
        groups.setdefault((sheet.fabric.key, sheet.mat.label), []).append(sheet)
    fused = _list_fused(project)
    for (key, mat), group in groups.items():
        on_web = [sheet for sheet in group if not fused.isdisjoint(piece.name for piece in sheet.pieces)]
        rectangles = _gather(_room_of(sheet, project, settings) for sheet in group)
        length = measure_roll(rectangles, project.fabrics[key].usable_width)
        if length is not None:
            yield PieceCloth(
                fabric=key,
                counted_by=ROWS if any(sheet.way == IN_ROWS_FOR_NOW for sheet in group) else SHAPES,
                tracks=group[0].mat.tracks,
                pieces=tuple(piece.name for sheet in group for piece in sheet.pieces),
                room=project.rules.round(Fraction(settings.margin_mm) / MM_PER_INCH),
                rectangles=rectangles,
                length=length,
                mat=mat,
                webbed=_gather(_room_of(sheet, project, settings) for sheet in on_web),
            )


def _room_of(sheet: CutSheet, project: Project, settings: CutSettings) -> Rectangle:
    """The cloth of one mat full: the box round its shapes and the mat's margin, no larger than the mat."""
    left, top, right, bottom = sheet.box_mm
    sides = []
    for side, most in ((right - left, sheet.mat.width_mm), (bottom - top, sheet.mat.height_mm)):
        side_mm = min(side + 2 * settings.margin_mm, most)
        sides.append(project.rules.round(Fraction(round(side_mm, 2)).limit_denominator(100) / MM_PER_INCH))
    return Rectangle(sides[0], sides[1], may_turn=not sheet.fabric.one_way)


def fuses_by_hand(track: Track) -> bool:
    """Whether a track's pieces are traced on web and cut out by hand: it has neither machine."""
    return track.hoop is None and track.cutter is None


def _web_of_boxes(rough: Sequence[RoughPiece], project: Project) -> Iterable[Web]:
    tracks = tuple(track.name for track in project.tracks if fuses_by_hand(track))
    fused = [one for one in rough if project.is_fused(one.asked.piece)]
    if not (tracks and fused):
        return
    rectangles = [_with_web_room(one, project) for one in fused]
    yield _web(BOXES, tracks, tuple(one.asked.piece.name for one in fused), rectangles, project)


def _with_web_room(one: RoughPiece, project: Project) -> Rectangle:
    width, height = (project.rules.round(side + 2 * WEB_ROOM) for side in one.box)
    return Rectangle(width, height)


def _web_of_shapes(cloths: Iterable[PieceCloth], project: Project) -> Iterable[Web]:
    """One for each mat: the web goes on before the mat is loaded, so it takes the same rectangles."""
    fused = _list_fused(project)
    by_mat: dict[str, list[PieceCloth]] = {}
    for cloth in cloths:
        if fused.isdisjoint(cloth.pieces):
            continue
        by_mat.setdefault(cloth.mat, []).append(cloth)
    for mat, group in by_mat.items():
        rectangles = [
            Rectangle(r.width, r.height) for cloth in group for r, count in cloth.webbed for _ in range(count)
        ]
        names = tuple(name for cloth in group for name in cloth.pieces if name in fused)
        yield _web(_say_how(group), group[0].tracks, names, rectangles, project, mat)


def _list_fused(project: Project) -> set[str]:
    return {piece.name for piece in project.pieces if project.is_fused(piece)}


def _say_how(group: Iterable[PieceCloth]) -> str:
    return ROWS if any(cloth.counted_by == ROWS for cloth in group) else SHAPES


def _web(
    counted_by: str,
    tracks: tuple[str, ...],
    pieces: tuple[str, ...],
    rectangles: Sequence[Rectangle],
    project: Project,
    mat: str = "",
) -> Web:
    area = sum((r.width * r.height for r in rectangles), Fraction(0))
    laid = _gather(part for r in rectangles for part in _split(r, project.web_width))
    length = measure_roll(laid, project.web_width) or Fraction(0)
    return Web(counted_by, tracks, pieces, area, length, mat)


def _split(whole: Rectangle, width: Fraction) -> list[Rectangle]:
    """A rectangle wider than the web both ways, in equal parts laid edge to edge: web has no grain and no seams."""
    if min(whole.width, whole.height) <= width:
        return [whole]
    parts = ceil(whole.width / width)
    return [Rectangle(whole.width / parts, whole.height)] * parts


def _gather(rectangles: Iterable[Rectangle]) -> tuple[tuple[Rectangle, int], ...]:
    """Equal ones together, the largest first."""
    return tuple(sorted(Counter(rectangles).items(), reverse=True))
