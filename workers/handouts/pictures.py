"""Pictures of what each sewing stage makes, drawn from the unit it is about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.craft.document import Project
from service.craft.drawing import PatchView, SeamView, StageView, draw_stage, view_cloths, view_patches
from service.craft.language import phrase
from service.craft.units import Unit
from workers.handouts.sizes import round_length, show_length

UNIT_KEYS = ("unit", "block", "makes")
"""Where a stage may name its unit: by its place in the document, or by the name of a block."""

OTHER_WAY_MM = 34.0
"""Height of each further drawing of a stage whose copies are pressed in several ways."""


def draw_stages(project: Project, sewing: Mapping[str, Any]) -> dict[str, str]:
    """A drawing (SVG) by stage id for every stage that is seen to be made of more than one patch."""
    units = index_units(project)
    drawn = {}
    for stage in sewing.get("stages", []):
        patches = list_patches(stage, units)
        if len(patches) > 1:
            drawn[str(stage.get("id"))] = _draw_ways(project, stage, patches, sewing)
    return drawn


def _draw_ways(
    project: Project, stage: Mapping[str, Any], patches: tuple[PatchView, ...], sewing: Mapping[str, Any]
) -> str:
    """A stage's drawing; where some copies are pressed in other ways, one of each below it."""
    view = view_stage(project, stage, patches, sewing)
    counts: dict[int, int] = {}
    for pile in stage.get("piles") or ():
        counts[int(pile["way"])] = counts.get(int(pile["way"]), 0) + int(pile["copies"])
    if len(counts) < 2:
        return draw_stage(view)
    count = int(stage.get("count") or 0)
    drawn = draw_stage(
        view, note=phrase("1: {copies} of the {count} are pressed so", copies=counts[1], count=count)
    )
    for way in sorted(counts)[1:]:
        seams = tuple(_list_seams(stage, sewing, _corner(patches), way=way))
        other = replace(view, seams=seams, width_text="", height_text="")
        note = phrase("{way}: {copies} so", way=way, copies=counts[way])
        drawn += draw_stage(other, max_height_mm=OTHER_WAY_MM, note=note)
    return drawn


def list_patches(stage: Mapping[str, Any], units: Mapping[str, Unit]) -> tuple[PatchView, ...]:
    """A stage's patches as the plan gives them, or else those of the unit it names."""
    if stage.get("patches"):
        return tuple(
            PatchView(
                _floats(patch["points"]), str(patch.get("fabric", "")), _floats(patch.get("hole") or ())
            )
            for patch in stage["patches"]
        )
    unit = find_unit(stage, units)
    return view_patches(unit) if unit is not None else ()


def _floats(points: Iterable[Sequence[float]]) -> tuple[tuple[float, float], ...]:
    return tuple((float(x), float(y)) for x, y in points)


def index_units(project: Project) -> dict[str, Unit]:
    """Every unit by its pointer, every block by its name as well, and the top as `top` where no block is called so."""
    found: dict[str, Unit] = {"top": project.top, **project.blocks}
    for whole in (*project.blocks.values(), project.top):
        for unit in whole.walk():
            found.setdefault(unit.pointer, unit)
    return found


def find_unit(stage: Mapping[str, Any], units: Mapping[str, Unit]) -> Unit | None:
    """The unit a stage makes, or None where the plan does not say."""
    for key in UNIT_KEYS:
        name = stage.get(key)
        for candidate in name if isinstance(name, list) else [name]:
            if isinstance(candidate, str) and candidate in units:
                return units[candidate]
    return None


def view_stage(
    project: Project, stage: Mapping[str, Any], patches: tuple[PatchView, ...], sewing: Mapping[str, Any]
) -> StageView:
    """A stage as drawings see it: its patches moved into the corner, its seams, its size in words."""
    size = stage.get("size") or {}
    xs, ys = ([corner[axis] for patch in patches for corner in patch.points] for axis in (0, 1))
    left, top = _corner(patches)
    return StageView(
        title=str(stage.get("title", "")),
        width=max(xs) - left,
        height=max(ys) - top,
        cloths=view_cloths(project.fabrics),
        patches=tuple(patch.moved(-left, -top) for patch in patches),
        seams=tuple(_list_seams(stage, sewing, (left, top))),
        width_text=show_length(round_length(size.get("width"), project.measure), project.measure).main,
        height_text=show_length(round_length(size.get("height"), project.measure), project.measure).main,
    )


def _corner(patches: tuple[PatchView, ...]) -> tuple[float, float]:
    """The top left corner of the box round the patches."""
    xs, ys = ([corner[axis] for patch in patches for corner in patch.points] for axis in (0, 1))
    return min(xs), min(ys)


def _list_seams(
    stage: Mapping[str, Any],
    sewing: Mapping[str, Any],
    corner: tuple[float, float],
    *,
    way: int = 1,
) -> Iterator[SeamView]:
    """The seams of a stage, a spun one as its two halves, as they are pressed in this `way`."""
    for seam in sewing.get("seams", []):
        line = seam.get("line")
        if seam.get("stage") != stage.get("id") or not isinstance(line, list) or len(line) != 2:
            continue
        pressed = (seam["other_ways"][way - 2] if way > 1 else None) or seam
        for part in pressed.get("halves") or [{"line": line, "press": pressed.get("press")}]:
            start, end = ((float(x) - corner[0], float(y) - corner[1]) for x, y in part["line"])
            yield SeamView(start, end, str(part["press"] or ""))
