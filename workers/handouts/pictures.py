"""Pictures of what each sewing stage makes, drawn from the unit it is about."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from service.craft.document import Project
from service.craft.drawing import SeamView, StageView, draw_stage, view_cloths, view_patches
from service.craft.units import Unit
from workers.handouts.sizes import show_length

UNIT_KEYS = ("pointer", "unit", "makes", "block", "title")
"""Where a stage may name its unit: by its place in the document, or by the name of a block."""


def draw_stages(project: Project, sewing: Mapping[str, Any]) -> dict[str, str]:
    """A drawing (SVG) by stage id for every stage whose unit is known and has more than one patch."""
    units = index_units(project)
    drawn = {}
    for stage in sewing.get("stages", []):
        unit = find_unit(stage, units)
        if unit is not None:
            view = view_stage(project, stage, unit, sewing)
            if len(view.patches) > 1:
                drawn[str(stage.get("id"))] = draw_stage(view)
    return drawn


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
    project: Project, stage: Mapping[str, Any], unit: Unit, sewing: Mapping[str, Any]
) -> StageView:
    """A stage as drawings see it: the unit's patches, the stage's seams where their places are given."""
    size = stage.get("size") or {}
    return StageView(
        title=str(stage.get("title", "")),
        width=float(unit.width),
        height=float(unit.height),
        cloths=view_cloths(project.fabrics),
        patches=view_patches(unit),
        seams=tuple(_list_seams(stage, sewing)),
        width_text=show_length(size.get("width"), project.measure).main,
        height_text=show_length(size.get("height"), project.measure).main,
    )


def _list_seams(stage: Mapping[str, Any], sewing: Mapping[str, Any]) -> Iterator[SeamView]:
    for seam in sewing.get("seams", []):
        line = seam.get("line")
        if seam.get("stage") != stage.get("id") or not isinstance(line, list) or len(line) != 2:
            continue
        (x0, y0), (x1, y1) = (map(float, point) for point in line)
        number = seam.get("order")
        yield SeamView(
            (x0, y0), (x1, y1), str(seam.get("press", "")), number if isinstance(number, int) else None
        )
