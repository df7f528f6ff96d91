"""Which scene a step has that belongs to no stage: test of the seam, cutting, applique, finishing."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from service.craft.cutting_choices import DIAGONAL_JOIN
from service.craft.drawing.scenes import Scene
from service.craft.finish import CONTINUOUS
from service.craft.patch_templates import count_templates
from workers.sewing.names import label
from workers.sewing.steps.long_strips import LONG_STRIPS
from workers.sewing.steps.scenes.motifs import show_template
from workers.sewing.steps.scenes.of_applique import find_applique_scene, find_rough_scene, show_by_tools
from workers.sewing.steps.scenes.of_binding import show_binding_strip
from workers.sewing.steps.scenes.of_binding_edge import show_binding_edge
from workers.sewing.steps.scenes.of_cutting import show_cutting, show_heaps, show_templates
from workers.sewing.steps.scenes.of_layers import show_layers
from workers.sewing.steps.scenes.of_long_strips import show_long_strips
from workers.sewing.steps.scenes.of_seam_test import show_seam_test
from workers.sewing.steps.scenes.of_sleeve import show_sleeve
from workers.sewing.steps.step import Lesson, Step


def find_table_scene(step: Step, lesson: Lesson) -> Scene | None:
    """The scene of a step that belongs to no stage; None where it is called as no other."""
    try:
        return _find_by_name(step, lesson)
    except KeyError:
        return None


def find_by_tools(step: Step, lesson: Lesson) -> Scene:
    """Sewn, pressed, cut or drawn, on the top or on the piece that the step is about."""
    ways = {
        "sewing machine": "finish",
        "hand needle": "finish",
        "iron": "fuse",
        "rotary cutter": "cut",
        "scissors": "cut",
    }
    return show_by_tools(step, lesson, next((ways[tool] for tool in step.tools if tool in ways), "draw"))


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
        return _cutting_scene(rest, lesson, a, b)
    if chapter == "applique":
        scene = find_applique_scene(step, lesson)
        if scene is None:
            raise KeyError(step_id)
        return scene
    kinds: Mapping[str, Callable[[str, str], dict[str, Scene]]] = {
        "sleeve": show_sleeve,
        "binding": _show_binding,
    }
    group = rest.partition(".")[0]
    if group in kinds and "." in rest:
        return kinds[group](a, _finish_cloth(lesson, group) or b)[_variant(last, group, lesson)]
    return show_layers(a, _finish_cloth(lesson, "backing") or b)[rest]


def _cutting_scene(rest: str, lesson: Lesson, a: str, b: str) -> Scene:
    name = f"cutting.{rest.partition('.')[0]}"
    if name == "cutting.pieces":
        return find_rough_scene(lesson)
    counts = count_templates(lesson.project.top)
    templates: dict[str, Scene] = {}
    if counts:
        template, cloth, _ = next(iter(counts))
        templates = show_templates(cloth, show_template(template, lesson.project.seam_allowance))
    return (show_cutting(_named(lesson, rest) or a) | show_heaps(a, b) | templates)[name]


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


def _cloths(lesson: Lesson) -> tuple[str, str]:
    used = lesson.project.cloths_of_top
    return used[0], used[min(1, len(used) - 1)]


def _named(lesson: Lesson, rest: str) -> str:
    return next((key for key in lesson.project.fabrics if rest == f"cloth.{label(key)}"), "")


def _finish_cloth(lesson: Lesson, part: str) -> str:
    made = getattr(lesson.project.finish, part, None)
    return made.fabric if made is not None else ""


def _show_binding(a: str, b: str) -> dict[str, Scene]:
    return show_binding_strip(b) | show_binding_edge(a, b)
