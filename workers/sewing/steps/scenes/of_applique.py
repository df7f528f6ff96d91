"""Which scene an applique step has, and the shape it shows: the very pieces that the step is about."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from service.craft.drawing.scenes import Scene
from service.craft.language import phrase
from service.craft.outlines import place
from service.craft.pieces import Piece
from workers.sewing.steps.cutting import list_rough_cloths
from workers.sewing.steps.pieces import SATIN, PieceLesson
from workers.sewing.steps.scenes.motifs import OWN_PATTERN, Motif, show_card, show_outlines, show_placed
from workers.sewing.steps.scenes.of_cutting import show_rough_piece
from workers.sewing.steps.scenes.of_parts import show_part
from workers.sewing.steps.scenes.of_pieces import show_pieces
from workers.sewing.steps.scenes.of_places import show_place
from workers.sewing.steps.scenes.of_turned import show_turned
from workers.sewing.steps.scenes.of_web import show_web
from workers.sewing.steps.step import Lesson, Step

MOST_SHAPES = 3
"""How many different shapes stand in one picture: more would be too small to be known again."""

AT_THE_TABLE = ("bring", "web", "mat", "trace", "card", "cut")
"""Steps at which a piece is not on the top yet: it stands upright, as its template or cut file has it."""

TURNED = {"finish": "sew turned", "cut": "cut round card", "mat": "mat plain", "lay": "lay turned"}
"""What is drawn otherwise where the edge of a piece is turned under."""


def find_applique_scene(step: Step, lesson: Lesson) -> Scene | None:
    """The scene of a step about pieces; None where it is called as no other."""
    _, kind, *_ = step.id.split(".")
    about = [piece for piece in lesson.project.pieces if piece.name in step.pieces]
    if kind in ("mark", "hoop", "look"):
        return _draw_all(list(lesson.project.pieces[:1]), lesson)[f"applique.{kind}"]
    if not about:
        return None
    what = step.id.rpartition(".")[2]
    if kind == "piece":
        if found := _find_part(step, about[0], lesson):
            return found
        placed = _find_placed(what, about[0], lesson)
        if placed:
            return show_place(placed, PieceLesson(about[0], lesson, not lesson.project.may_leave(about[0])))
    return _draw_all(about, lesson, at_the_table=what in AT_THE_TABLE).get(_find_name(what, about[0], lesson))


def _find_part(step: Step, piece: Piece, lesson: Lesson) -> Scene | None:
    """The scene of a step about one part of a piece that is sewn in several hoopings."""
    *_, part, what = step.id.split(".")
    if what != "mark-split" and not part.startswith("part-"):
        return None
    number = 0 if what == "mark-split" else int(part.removeprefix("part-"))
    one = PieceLesson(piece, lesson, not lesson.project.may_leave(piece))
    return show_part(what, one, number, lesson.ground.cloth_under(piece))


def show_by_tools(step: Step, lesson: Lesson, name: str) -> Scene:
    """A general scene by its name, with the pieces that a step is about."""
    about = [piece for piece in lesson.project.pieces if piece.name in step.pieces]
    return _draw_all(about, lesson)[name]


def find_rough_scene(lesson: Lesson) -> Scene:
    """The cloth of a piece that is cut to shape later, with the first such piece on it."""
    cloths = list_rough_cloths(lesson)
    about = [piece for piece in lesson.project.pieces if piece.fabric in cloths][:1]
    return show_rough_piece(about[0].fabric, find_motif(about, lesson, at_the_table=True))


def _find_placed(what: str, piece: Piece, lesson: Lesson) -> str:
    """The name of a scene of the whole top, for a step that says where on it the piece lies; else an empty text."""
    if what == "sew":
        return what
    if lesson.track.hoop is not None or what not in ("lay", "draw"):
        return ""
    if what == "lay" and piece.turned_under:
        return "pin"
    return "" if what == "lay" and _trims(piece, lesson) else what


def _trims(piece: Piece, lesson: Lesson) -> bool:
    return lesson.project.fabrics[piece.fabric].trim_in_place


def _find_name(what: str, piece: Piece, lesson: Lesson) -> str:
    """What the scene of a step is called, which depends on how the piece is sewn and on what the track has."""
    hoop, cutter = lesson.track.hoop is not None, lesson.track.cutter is not None
    own_pattern = not lesson.project.may_leave(piece)
    if piece.turned_under and what in TURNED and not (what == "cut" and cutter and not own_pattern):
        return "finish" if what == "finish" and hoop else TURNED[what]
    whole = not piece.turned_under and (_trims(piece, lesson) or (hoop and not cutter))
    if what == "lay":
        return "lay over" if whole else "lay in hoop"
    if what == "tack-down":
        return "tack-down" if not whole else "tack-down covered" if hoop else "tack back"
    if what == "hoop-off" and whole:
        return "hoop-off covered"
    if what == "cut" and cutter:
        return "cut on mat plain" if piece.turned_under else "cut on mat"
    return what


def _draw_all(about: list[Piece], lesson: Lesson, *, at_the_table: bool = False) -> dict[str, Scene]:
    """Every scene with these pieces, by name."""
    ground = lesson.ground
    first = about[0] if about else None
    a = ground.cloth_under(first) if first else next(iter(ground.areas))
    b = first.fabric if first else a
    motif = find_motif(about, lesson, at_the_table=at_the_table)
    edge = "" if first is None else first.hoop_edge if lesson.track.hoop is not None else first.edge
    scenes = show_pieces(a, b, motif, edge or SATIN)
    scenes |= show_web(b, motif, traced=lesson.track.cutter is None)
    return scenes | show_turned(a, b, motif) if first and first.turned_under else scenes


def find_motif(about: list[Piece], lesson: Lesson, *, at_the_table: bool) -> Motif:
    """The shape of pieces: upright at the table, else as the first lies on the top; a card where it is not shown."""
    if any(not lesson.project.may_leave(piece) for piece in about):
        return show_card(phrase(OWN_PATTERN))
    there = [piece for piece in about if piece.name in lesson.outlines]
    if not there:
        return show_card()
    if not at_the_table:
        one = PieceLesson(there[0], lesson, owned=False)
        lower = [(place(piece, outline), piece.fabric) for piece, outline in one.find_lower()]
        return show_placed(place(one.piece, lesson.outlines[one.name]), lower)
    unlike: dict[str, Piece] = {}
    for piece in there:
        unlike.setdefault(piece.outline, replace(piece, turn=Fraction(0)))
    shown = list(unlike.values())[: 1 if there[0].turned_under else MOST_SHAPES]
    return show_outlines(place(piece, lesson.outlines[piece.name]) for piece in shown)
