"""The cutting plan as it is printed: what to buy, a table and a strip diagram for every cloth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from service.craft.cutting_words import say_template
from service.craft.document import Project
from service.craft.drawing import ClothView, draw_strips, view_cloths
from service.craft.language import mark, phrase, say_number
from service.craft.measure import length_object
from service.craft.tracks import Track
from workers.handouts.piece_cloth import say_mat_room
from workers.handouts.plan_words import find_followed, say_plan, say_stacked, show_bought
from workers.handouts.sizes import Shown, show_length, show_size
from workers.handouts.strip_views import letter_cuts, view_strip

SHAPES = {"rectangle": mark("rectangle"), "square": mark("square"), "strip": mark("strip")}

MOST_NAMED = 3
"""More pieces than this are counted in a table's narrow column; what is needed names them all."""


@dataclass(frozen=True)
class CutRow:
    """One line of a cutting table; its `letter` stands on the strips too."""

    letter: str
    count: int
    shape: str
    size: Shown
    then: str
    makes: str
    purpose: str


@dataclass(frozen=True)
class OrderRow:
    """One line of the cutting order."""

    number: int
    text: str


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
    words: str = ""
    order: tuple[OrderRow, ...] = ()
    stacked: tuple[Markup, ...] = ()
    stacked_words: str = ""


def plan_cloths(project: Project, cutting: Mapping[str, Any], track: Track | None = None) -> list[ClothPlan]:
    """Every cloth that is cut or bought, in the document's order; with what a `track` knows better."""
    cloths = view_cloths(project.fabrics)
    bought = {entry.get("fabric"): entry for entry in cutting.get("fabrics", [])}
    needed = {*bought, *(cut.get("fabric") for cut in cutting.get("cuts", []))}
    return [
        _plan_cloth(project, cloth, bought.get(key, {}), cutting, track)
        for key, cloth in cloths.items()
        if key in needed
    ]


def _plan_cloth(
    project: Project,
    cloth: ClothView,
    entry: Mapping[str, Any],
    cutting: Mapping[str, Any],
    track: Track | None,
) -> ClothPlan:
    fabric, cuts = project.fabrics[cloth.key], cutting.get("cuts", [])
    usable = length_object(fabric.usable_width, project.measure)

    def draw(plan: Mapping[str, Any]) -> tuple[Markup, ...]:
        strips = [view_strip(strip, cuts, project.measure) for strip in plan.get("strips", [])]
        drawings = draw_strips(
            cloth, float(fabric.usable_width), show_length(usable, project.measure).main, strips
        )
        return tuple(Markup(drawing) for drawing in drawings)  # noqa: S704 - our own, escaped by the sheet

    words = say_stacked(entry, project.measure)
    return ClothPlan(
        cloth=cloth,
        buy=show_bought(entry, project.measure),
        usable=show_length(usable, project.measure),
        rows=tuple(_list_rows(cloth.key, cuts, project.measure)),
        strips=draw(find_followed(entry)),
        notes=(*_list_notes(project, cloth.key, entry), *say_mat_room(project, cutting, cloth.key, track)),
        words=say_plan(entry, project.measure),
        order=tuple(_list_order(cloth.key, cutting)),
        stacked=draw(entry["stacked"]) if words else (),
        stacked_words=words,
    )


def _list_order(key: str, cutting: Mapping[str, Any]) -> Iterable[OrderRow]:
    for line in cutting.get("order", []):
        if line.get("fabric") == key:
            yield OrderRow(int(line.get("number", 0)), str(line.get("text", "")))


def _list_rows(key: str, cuts: Sequence[Mapping[str, Any]], measure: str) -> Iterable[CutRow]:
    for letter, cut in zip(letter_cuts(cuts), cuts, strict=True):
        if cut.get("fabric") == key:
            yield _show_cut(letter, cut, measure)


def _show_cut(letter: str, cut: Mapping[str, Any], measure: str) -> CutRow:
    shape = str(cut.get("shape", ""))
    size = show_size(cut.get("width"), cut.get("height"), measure, square=False)
    template = f" ({say_template(str(cut['template']))})" if cut.get("template") else ""
    count = int(cut.get("count", 0))
    makes = cut.get("makes")
    return CutRow(
        letter=letter,
        count=count,
        shape=(phrase(SHAPES[shape]) if shape in SHAPES else shape) + template,
        size=size,
        then="; ".join(_say_then(cut)),
        makes="" if makes in (None, count) else str(makes),
        purpose=_say_uses(cut),
    )


def _say_then(cut: Mapping[str, Any]) -> Iterable[str]:
    yield from (str(cut[key]) for key in ("then", "method") if cut.get(key))
    yield from (str(note) for note in cut.get("notes", []))


def _say_uses(cut: Mapping[str, Any]) -> str:
    uses = cut.get("for", [])
    if isinstance(uses, str):
        return uses
    if cut.get("serves") == "pieces" and len(uses) > MOST_NAMED:
        return phrase("{count} pieces", count=len(uses))
    return ", ".join(str(use) for use in uses)


def _list_notes(project: Project, key: str, entry: Mapping[str, Any]) -> Iterable[str]:
    fabric = project.fabrics[key]
    if fabric.trim_in_place:
        yield (
            phrase(
                "Keep this cloth off the cutting mat. Lay it over its placement line, tack it down, then trim it in "
                "place."
            )
        )
    if fabric.directional:
        yield phrase("The print has a right way up. Check which way each patch lies before you cut.")
    if fabric.napped:
        yield phrase(
            "The pile runs one way. Mark which on the back, and lay every piece along it, all heads to one side.",
        )
    if fabric.shrinkage:
        share = say_number(float(fabric.shrinkage) * 100)
        yield phrase(
            "It may shrink by about {share} % in the wash: wash it before you cut, or never.", share=share
        )
    yield from (str(note) for note in entry.get("notes", []) if isinstance(note, str))
