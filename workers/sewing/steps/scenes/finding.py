"""Which scene a step has: by what it is called and, for what is called as many others are, by the tools it takes."""

from __future__ import annotations

from service.craft.drawing import view_cloths
from service.craft.drawing.scenes import Scene, draw_scene
from service.craft.units import (
    CornerSquares,
    Diamond,
    FanBladeRing,
    FlyingGeese,
    HalfSquareTriangle,
    QuarterSquareTriangle,
    SquareInASquare,
)
from service.craft.units.flying_geese import CORNERS
from service.craft.units.flying_geese import TRIANGLES as CUT_GEESE
from service.craft.units.half_square_triangle import TRIANGLES
from service.craft.units.square_in_a_square import FLIPPED
from workers.sewing.fan_blade_sizes import read_ring
from workers.sewing.plan import Stage
from workers.sewing.steps.scenes import (
    of_blades,
    of_care,
    of_corners,
    of_joins,
    of_marks,
    of_pairs,
    of_rings,
    of_rounds,
    of_stage,
)
from workers.sewing.steps.scenes.of_right_sides import show_right_sides
from workers.sewing.steps.scenes.of_table import find_by_tools, find_table_scene
from workers.sewing.steps.step import Lesson, Step

LAST_CORNER = ("lay-second", "second", "press-second", "fold-second", "cut-second", "unfold-second")


def draw_step_picture(step: Step, lesson: Lesson) -> dict[str, str]:
    """The step's drawing as SVG, and what it shows in words."""
    scene = find_scene(step, lesson)
    return {"alt": scene.alt, "svg": draw_scene(scene, view_cloths(lesson.project.fabrics))}


def find_scene(step: Step, lesson: Lesson) -> Scene:
    """The scene of a step; a general one by its tools where there is none of its own."""
    own = find_own_scene(step, lesson)
    if own is not None:
        return own
    return find_by_tools(step, lesson) if step.stage is None else _by_tools(step, step.stage, lesson)


def find_own_scene(step: Step, lesson: Lesson) -> Scene | None:
    """The scene drawn for what a step is called; None where nothing is drawn for it."""
    if step.stage is None:
        return find_table_scene(step, lesson)
    what, stage = step.id.rpartition(".")[2], step.stage
    own = (
        _of_joins(what, stage, lesson)
        or _of_corners(what, stage, lesson)
        or _of_pairs(what, stage, lesson)
        or _of_halves(what, stage)
    )
    return own or _by_name(what, stage, lesson)


def _of_joins(what: str, stage: Stage, lesson: Lesson) -> Scene | None:
    """What is named alike in all stages but drawn in its own way: graded, loosened, borders, corners set on."""
    kind = stage.work.kind
    shown = of_rings.show_ring(what, stage) or of_rounds.show_round(what, stage)
    if shown is None and what == "mark":
        shown = of_marks.show_marked(stage)
    if shown is None and kind == FanBladeRing.kind:
        shown = of_blades.show_blades(
            what, stage, read_ring(stage.work.facts, lesson.project.seam_allowance).groups
        )
    if shown is not None:
        return shown
    if what.startswith("grade"):
        return of_joins.show_graded(stage, lesson)
    if what in ("loosen", "loosen-star"):
        return of_joins.show_loosened(stage)
    if kind == of_joins.BORDER_KIND and what in ("measure", "trim-strips"):
        border = of_joins.measure_inside if what == "measure" else of_joins.trim_strips
        return border(stage, lesson)
    if kind == of_joins.CORNERS_KIND and what in ("sew", "corners"):
        return of_stage.show_sewn(stage, of_joins.find_seams(stage, triangles=what == "corners"))
    if what == "bias":
        return of_stage.show_pinned(stage, of_joins.find_seams(stage, triangles=True))
    return None


def _of_corners(what: str, stage: Stage, lesson: Lesson) -> Scene | None:
    """Squares flipped over corners."""
    kind, method = stage.work.kind, stage.work.facts.get("method", "")
    flips = (
        kind == CornerSquares.kind
        or (kind == SquareInASquare.kind and method == FLIPPED)
        or (kind == FlyingGeese.kind and method == CORNERS)
    )
    if not flips or (kind == FlyingGeese.kind and what == "trim"):
        return None
    corner = of_corners.find_corner(stage, lesson, last=what in LAST_CORNER)
    spare = bool(stage.work.facts.get("spare leg"))
    scenes = {
        "mark": lambda: of_corners.mark_corner(corner),
        "lay": lambda: of_corners.lay_corner(corner),
        "lay-second": lambda: of_corners.lay_corner(corner),
        "sew": lambda: of_corners.sew_corner(corner),
        "second": lambda: of_corners.sew_corner(corner),
        "sew-again": lambda: of_corners.sew_corner(corner, again=True),
        "press": lambda: of_corners.press_corner(corner),
        "press-second": lambda: of_corners.press_corner(corner),
        "unfold": lambda: of_corners.press_corner(corner),
        "unfold-second": lambda: of_corners.press_corner(corner),
        "others": lambda: of_corners.lay_corner(corner),
        "fold-back": lambda: of_corners.fold_corner(corner),
        "fold-second": lambda: of_corners.fold_corner(corner),
        "trim": lambda: of_corners.fold_corner(corner, cut=True, midway=spare),
        "cut-back": lambda: of_corners.fold_corner(corner, cut=True),
        "cut-second": lambda: of_corners.fold_corner(corner, cut=True),
        "press-spare": lambda: of_corners.show_spare(stage, cut=False),
        "spare": lambda: of_corners.show_spare(stage, cut=True),
    }
    return scenes[what]() if what in scenes else None


def _of_pairs(what: str, stage: Stage, lesson: Lesson) -> Scene | None:
    """Squares sewn in pairs before they are cut."""
    kind, method, s = stage.work.kind, stage.work.facts.get("method", ""), lesson.allowance
    if (
        kind not in (HalfSquareTriangle.kind, QuarterSquareTriangle.kind, FlyingGeese.kind)
        or method == TRIANGLES
    ):
        return None
    if kind == FlyingGeese.kind and method == CORNERS:
        return None
    eight, four = "eight" in method, "four" in method and kind == HalfSquareTriangle.kind
    beside = what in ("halves", "sew", "second")
    if what == "pair":
        return of_pairs.lay_pair(stage)
    if what in ("mark", "lay", "lay-second"):
        return of_pairs.mark(stage, both=eight) if what == "mark" else of_pairs.lay_pair(stage)
    if what == "mark-across":
        return of_pairs.mark_across(stage)
    if beside:
        return of_pairs.sew_round(stage, s) if four else of_pairs.sew_beside(stage, s, both=eight)
    if what == "cut-lines":
        return of_pairs.cut_quarter(stage)
    if what in ("cut", "cut-halves", "cut-second"):
        return of_pairs.cut_pair(
            stage, method if kind == HalfSquareTriangle.kind and what == "cut" else "two"
        )
    return None


def _of_halves(what: str, stage: Stage) -> Scene | None:
    """Quarter-square triangles, geese and squares that are sewn in two rounds."""
    kind = stage.work.kind
    if kind == QuarterSquareTriangle.kind:
        ways = {
            "halves": ("sew", (0, 1)),
            "press-halves": ("press", (0, 1)),
            "sew": ("sew", (2,)),
            "press": ("press", (2,)),
            "move-units": ("press", (0, 1)),
        }
    elif kind == FlyingGeese.kind:
        ways = {
            "sew": ("sew", (0,)),
            "press-first": ("press", (0,)),
            "press-halves": ("press", (0, 1)),
            "second": ("sew", (1,)),
            **({"press": ("press", (1,))} if stage.work.facts["method"] == CUT_GEESE else {}),
        }
    elif kind in (SquareInASquare.kind, Diamond.kind):
        ways = {
            "first-two": ("sew", (0, 2)),
            "press-two": ("press", (0, 2)),
            "other-two": ("sew", (1, 3)),
            "press": ("press", (1, 3)),
        }
    else:
        return None
    if what not in ways:
        return None
    how, seams = ways[what]
    return of_stage.show_sewn(stage, seams) if how == "sew" else of_stage.show_pressed(stage, seams)


def _by_name(what: str, stage: Stage, lesson: Lesson) -> Scene | None:
    """What is called alike in every kind of work."""
    if what == "keep-points":
        return of_care.show_points(stage, lesson, back=True)
    if what in ("check", "points") and lesson.plan.notes[stage.id].points:
        return of_care.show_points(stage, lesson)
    if what in ("piles", "sort-halves"):
        return of_care.show_piles(stage)
    if what in ("lay", "pair", "lay-rows") or what.startswith("in-turn"):
        return of_stage.show_apart(stage)
    if what in ("measure", "width", "check", "look-ring", "look-groups"):
        return of_stage.show_measured(stage, lesson)
    if what == "keep-edges":
        return of_care.show_kept(stage, lesson)
    if what == "sew" and (laid := show_right_sides(stage, lesson)) is not None:
        return laid
    if what in ("pin", "bias", "nest", "pin-star", "pin-cover"):
        return of_stage.show_pinned(stage)
    if what in ("mark", "crease", "fold-half", "fold-mitre") and stage.work.items:
        return of_stage.show_folded(stage)
    whole = {"sew": of_stage.show_sewn, "press": of_stage.show_pressed}
    if what in whole:
        return whole[what](stage)
    return of_stage.show_trimmed(stage, lesson) if what in ("trim", "trim-halves") else None


def _by_tools(step: Step, stage: Stage, lesson: Lesson) -> Scene:
    """Sewn at the machine, pressed with the iron, cut with a blade; anything else is laid out."""
    if "sewing machine" in step.tools:
        return of_stage.show_sewn(stage)
    if "iron" in step.tools:
        return of_stage.show_pressed(stage)
    if {"rotary cutter", "scissors"} & set(step.tools):
        return of_stage.show_trimmed(stage, lesson)
    return of_stage.show_apart(stage)
