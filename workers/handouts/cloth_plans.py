"""The cutting plan as it is printed: what to buy, a table and a strip diagram for every cloth."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from service.craft.document import Project
from service.craft.drawing import (
    ClothView,
    CutInStrip,
    StripView,
    draw_strips,
    measure_height_mm,
    view_cloths,
)
from service.craft.measure import length_object
from workers.handouts.plan_words import find_followed, say_plan, show_bought
from workers.handouts.sizes import Shown, read_inches, show_length, show_size

SAME = 0.02
"""Inches within which a cut's side counts as the height of its strip."""


DIAGONAL_CUT = re.compile(r"\bcut (once|twice) on the diagonal")

TOGETHER_MM, ROW_MM = 150.0, 13.0
"""A cloth's table and strips up to this height stay on one page; about what a row of the table takes."""


@dataclass(frozen=True)
class CutRow:
    """One line of a cutting table."""

    count: int
    shape: str
    size: Shown
    then: str
    makes: str
    purpose: str


@dataclass(frozen=True)
class ClothPlan:
    """One cloth: what to buy of it, its cuts, the strips of the plan that is followed as drawings, how good that plan
    is in `words`, and what else to know.
    """

    cloth: ClothView
    buy: Shown
    usable: Shown
    rows: tuple[CutRow, ...]
    strips: tuple[Markup, ...]
    notes: tuple[str, ...]
    together: bool = True
    words: str = ""


def plan_cloths(project: Project, cutting: Mapping[str, Any]) -> list[ClothPlan]:
    """Every cloth that is cut or bought, in the document's order."""
    cloths = view_cloths(project.fabrics)
    bought = {entry.get("fabric"): entry for entry in cutting.get("fabrics", [])}
    cuts: Sequence[Mapping[str, Any]] = cutting.get("cuts", [])
    needed = {*bought, *(cut.get("fabric") for cut in cuts)}
    return [
        _plan_cloth(project, cloth, bought.get(key, {}), cuts)
        for key, cloth in cloths.items()
        if key in needed
    ]


def _plan_cloth(
    project: Project, cloth: ClothView, entry: Mapping[str, Any], cuts: Sequence[Mapping[str, Any]]
) -> ClothPlan:
    fabric = project.fabrics[cloth.key]
    usable = length_object(fabric.usable_width, project.measure)
    strips = [view_strip(strip, cuts, project.measure) for strip in find_followed(entry).get("strips", [])]
    drawings = draw_strips(cloth, float(fabric.usable_width), usable["text"], strips)
    rows = tuple(_show_cut(cut, project.measure) for cut in cuts if cut.get("fabric") == cloth.key)
    height = len(rows) * ROW_MM + sum(measure_height_mm(drawing) for drawing in drawings)
    return ClothPlan(
        cloth=cloth,
        buy=show_bought(entry, project.measure),
        usable=show_length(usable, project.measure),
        rows=rows,
        strips=tuple(Markup(drawing) for drawing in drawings),  # noqa: S704 - our own, escaped by the sheet
        notes=tuple(_list_notes(project, cloth.key, entry)),
        together=height <= TOGETHER_MM,
        words=say_plan(entry, project.measure),
    )


def view_strip(strip: Mapping[str, Any], cuts: Sequence[Mapping[str, Any]], measure: str) -> StripView:
    """A strip of the plan as drawings see it; `pieces` name cuts by their place in the list."""
    height = read_inches(strip.get("height"))
    views = [
        _view_cut(piece, cuts[piece["cut"]], height, measure)
        for piece in strip.get("pieces", [])
        if 0 <= piece.get("cut", -1) < len(cuts)
    ]
    return StripView(height, show_length(strip.get("height"), measure).main, tuple(views))


def _view_cut(piece: Mapping[str, Any], cut: Mapping[str, Any], height: float, measure: str) -> CutInStrip:
    width, across = read_inches(cut.get("width")), read_inches(cut.get("height"))
    # the side that is as high as the strip lies across it, whatever the plan calls width and height
    turned = abs(across - height) > SAME and (abs(width - height) <= SAME or bool(piece.get("turned")))
    along, over = (across, width) if turned else (width, across)
    diagonal = DIAGONAL_CUT.search(str(cut.get("then", "")))
    return CutInStrip(
        count=int(piece.get("count", 1)),
        along=along,
        across=over,
        text=show_size(cut.get("width"), cut.get("height"), measure).main,
        diagonals=0 if diagonal is None else 2 if diagonal[1] == "twice" else 1,
    )


def _show_cut(cut: Mapping[str, Any], measure: str) -> CutRow:
    shape = str(cut.get("shape", ""))
    size = show_size(cut.get("width"), cut.get("height"), measure, square=False)
    template = f" ({cut['template']})" if cut.get("template") else ""
    count = int(cut.get("count", 0))
    makes = cut.get("makes")
    return CutRow(
        count=count,
        shape=shape + template,
        size=size,
        then="; ".join(_say_then(cut)),
        makes="" if makes in (None, count) else str(makes),
        purpose=_list_words(cut.get("for", [])),
    )


def _say_then(cut: Mapping[str, Any]) -> Iterable[str]:
    yield from (str(cut[key]) for key in ("then", "method") if cut.get(key))
    yield from (str(note) for note in cut.get("notes", []))


def _list_words(words: str | Iterable[Any]) -> str:
    return words if isinstance(words, str) else ", ".join(str(word) for word in words)


def _list_notes(project: Project, key: str, entry: Mapping[str, Any]) -> Iterable[str]:
    fabric = project.fabrics[key]
    if fabric.trim_in_place:
        yield (
            "Keep this cloth off the cutting mat. Lay it over its placement line, tack it down, then trim it in place."
        )
    if fabric.directional:
        yield "The print has a right way up. Check which way each patch lies before you cut."
    if fabric.napped:
        yield "The pile runs one way. Mark which on the back, and lay every piece along it, all heads to one side."
    if fabric.shrinkage:
        share = f"{float(fabric.shrinkage) * 100:g}"
        yield f"It may shrink by about {share} % in the wash: wash it before you cut, or never."
    yield from (str(note) for note in entry.get("notes", []) if isinstance(note, str))
