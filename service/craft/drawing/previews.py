"""One drawing of a project by its style: the whole top, or one block of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from service.craft.document import Project
from service.craft.drawing.cut_diagram import draw_cuts
from service.craft.drawing.cut_views import view_cuts
from service.craft.drawing.exploding import draw_exploded, take_apart
from service.craft.drawing.lines import draw_lines
from service.craft.drawing.top import draw_top
from service.craft.drawing.views import TopView, view_cloths, view_top, view_unit
from service.craft.language import phrase
from service.craft.outlines import OutlineFile
from service.craft.units import Unit
from service.craft.units.walking import walk_once

Draw = Callable[[Project, Unit, TopView], str]


def draw_preview(
    project: Project,
    outlines: Mapping[str, OutlineFile | Mapping[str, Any]],
    *,
    style: str = "top",
    block: str | None = None,
) -> str:
    """The top with its pieces, or a block by its name, as SVG for the studio's own eyes; `style` is one of `STYLES`.

    `KeyError` for a block or a style that is not there; `OutlineNotFound` where an outline is missing.
    """
    draw = STYLES[style]
    if block is None:
        return draw(project, project.top, view_top(project, outlines))
    unit, cloths = project.blocks[block], view_cloths(project.fabrics)
    return draw(project, unit, view_unit(unit, title=block, measure=project.measure, cloths=cloths))


def _draw_whole(_project: Project, _unit: Unit, view: TopView) -> str:
    return draw_top(view, public=False)


def _draw_apart(_project: Project, unit: Unit, view: TopView) -> str:
    return draw_exploded(view, take_apart(unit))


def _draw_numbered(_project: Project, _unit: Unit, view: TopView) -> str:
    return draw_lines(view, public=False)


def _draw_blank(_project: Project, _unit: Unit, view: TopView) -> str:
    return draw_lines(view, numbered=False, public=False)


def _draw_cuts(project: Project, unit: Unit, view: TopView) -> str:
    """Every cut of every unit inside, each shown once."""
    cuts = (cut for inner in walk_once(unit) for cut in view_cuts(inner, project.rules, project.measure))
    return draw_cuts(
        list(dict.fromkeys(cuts)), view.cloths, title=phrase("{title}, what is cut", title=view.title)
    )


STYLES: dict[str, Draw] = {
    "top": _draw_whole,
    "exploded": _draw_apart,
    "lines": _draw_numbered,
    "blank": _draw_blank,
    "cuts": _draw_cuts,
}
"""Every style of drawing by its name."""
