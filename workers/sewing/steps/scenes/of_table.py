"""Which scene a step has that belongs to no stage: test of the seam, cutting, applique, finishing."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from service.craft.cutting_choices import DIAGONAL_JOIN
from service.craft.drawing.scenes import Scene
from service.craft.finish import CONTINUOUS
from workers.sewing.names import label
from workers.sewing.steps.long_strips import LONG_STRIPS
from workers.sewing.steps.scenes.of_binding import show_binding_strip
from workers.sewing.steps.scenes.of_binding_edge import show_binding_edge
from workers.sewing.steps.scenes.of_cutting import show_cutting
from workers.sewing.steps.scenes.of_layers import show_layers
from workers.sewing.steps.scenes.of_long_strips import show_long_strips
from workers.sewing.steps.scenes.of_pieces import show_pieces
from workers.sewing.steps.scenes.of_seam_test import show_seam_test
from workers.sewing.steps.scenes.of_sleeve import show_sleeve
from workers.sewing.steps.scenes.of_turned import show_turned
from workers.sewing.steps.scenes.of_web import show_web
from workers.sewing.steps.step import Lesson, Step


def find_table_scene(step: Step, lesson: Lesson) -> Scene | None:
    """The scene of a step that belongs to no stage; None where it is called as no other."""
    try:
        return _find_by_name(step, lesson)
    except KeyError:
        return None


def find_by_tools(step: Step, lesson: Lesson) -> Scene:
    """Sewn, pressed, cut or drawn, on the top or on the piece that the step is about."""
    a, b = _cloths(lesson)
    fabrics = {piece.name: piece.fabric for piece in lesson.project.pieces}
    scenes = _show_applique(a, next((fabrics[name] for name in step.pieces), b))
    ways = {
        "sewing machine": "finish",
        "hand needle": "finish",
        "iron": "fuse",
        "rotary cutter": "cut",
        "scissors": "cut",
    }
    return scenes[next((ways[tool] for tool in step.tools if tool in ways), "draw")]


def _find_by_name(step: Step, lesson: Lesson) -> Scene:
    step_id = step.id
    a, b = _cloths(lesson)
    chapter, _, rest = step_id.partition(".")
    last = step_id.rpartition(".")[2]
    if step_id.startswith("piecing.seam-test"):
        return show_seam_test(a, b)["measure" if last == "seam-test" else last]
    if step_id.startswith(LONG_STRIPS):
        key = next(key for key in lesson.project.fabrics if step_id.startswith(f"{LONG_STRIPS}{label(key)}."))
        return show_long_strips(key, slanting=lesson.project.cutting.join == DIAGONAL_JOIN)[last]
    if chapter == "cutting":
        name = rest.partition(".")[0]
        return show_cutting(_named(lesson, rest) or a, b)[f"cutting.{name}"]
    if chapter == "applique":
        return _applique_scene(step, last, lesson, a)
    kinds: Mapping[str, Callable[[str, str], dict[str, Scene]]] = {
        "sleeve": show_sleeve,
        "binding": _show_binding,
    }
    group = rest.partition(".")[0]
    if group in kinds and "." in rest:
        return kinds[group](a, _finish_cloth(lesson, group) or b)[_variant(last, group, lesson)]
    return show_layers(a, _finish_cloth(lesson, "backing") or b)[rest]


def _variant(last: str, group: str, lesson: Lesson) -> str:
    binding = lesson.project.finish.binding
    if group == "sleeve":
        return f"sleeve.{last}"
    if binding is None:
        return last
    if last == "join" and binding.join == "straight":
        return "join straight"
    if last == "join" and binding.cut != "straight":
        return "join slanted"
    return "cut round" if last == "cut" and binding.cut == CONTINUOUS else last


TURNED = {"finish": "sew turned", "sew": "sew turned", "cut": "cut round card", "mat": "mat plain"}
"""What is drawn otherwise where the edge of a piece is turned under."""


def _applique_scene(step: Step, last: str, lesson: Lesson, a: str) -> Scene:
    named = step.id.split(".")
    pieces = {piece.name: piece for piece in lesson.project.pieces}
    about = [pieces[name] for name in step.pieces if name in pieces]
    own = about[0].fabric if about else a
    scenes = _show_applique(a, own)
    if named[1] in ("mark", "hoop", "look"):
        return scenes[f"applique.{named[1]}"]
    on_mat = last == "cut" and lesson.track.cutter is not None
    if about and about[0].turned_under and last in TURNED and not on_mat:
        return scenes[TURNED[last]]
    hoop, trims = lesson.track.hoop is not None, lesson.project.fabrics[own].trim_in_place
    whole = trims or (hoop and lesson.track.cutter is None)
    if last == "lay" and named[1] == "piece":
        return scenes["lay over" if whole else "lay in hoop" if hoop else "lay"]
    if last == "tack-down" and not hoop:
        return scenes["tack back"]
    return scenes["cut on mat" if on_mat else last]


def _cloths(lesson: Lesson) -> tuple[str, str]:
    used = list(dict.fromkeys(patch.fabric for patch in lesson.project.top.patches()))
    return used[0], used[min(1, len(used) - 1)]


def _named(lesson: Lesson, rest: str) -> str:
    return next((key for key in lesson.project.fabrics if rest == f"cloth.{label(key)}"), "")


def _finish_cloth(lesson: Lesson, part: str) -> str:
    made = getattr(lesson.project.finish, part, None)
    return made.fabric if made is not None else ""


def _show_applique(a: str, b: str) -> dict[str, Scene]:
    return show_pieces(a, b) | show_web(b) | show_turned(a, b)


def _show_binding(a: str, b: str) -> dict[str, Scene]:
    return show_binding_strip(b) | show_binding_edge(a, b)
