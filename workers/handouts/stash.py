"""What the studio cuts from its own stash, and what it still buys: for the run sheet alone, since viewers have none."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from markupsafe import Markup

from service.craft.document import Project
from service.craft.drawing import ClothView, draw_strips, view_cloths
from workers.handouts.plan_words import show_bought
from workers.handouts.sizes import read_inches, show_length, show_size
from workers.handouts.strip_views import view_strip

Json = Mapping[str, Any]

DRAWING_MM = 110.0
"""A piece is drawn no wider than this, so that two or three stand on a page."""


@dataclass(frozen=True)
class StashCut:
    """Pieces of one size cut alike: what they are in words, and their strips as drawings."""

    title: str
    strips: tuple[Markup, ...]


@dataclass(frozen=True)
class StashSheet:
    """One cloth: what is cut from the stash, what is still to buy, and what is left, in words."""

    cloth: ClothView
    cuts: tuple[StashCut, ...]
    still_to_buy: str
    left: str
    sold: str


def plan_stash_sheets(project: Project, cutting: Json) -> list[StashSheet]:
    """Every cloth that is at home in part, or that is sold in pieces, in the document's order."""
    cloths = view_cloths(project.fabrics)
    cuts: Sequence[Json] = cutting.get("cuts", [])
    return [
        _plan_sheet(project, cloths[entry["fabric"]], entry, cuts)
        for entry in cutting.get("fabrics", [])
        if entry.get("from_stash") or entry.get("buy_pieces")
    ]


def _plan_sheet(project: Project, cloth: ClothView, entry: Json, cuts: Sequence[Json]) -> StashSheet:
    plan: Json = entry.get("from_stash") or {}
    measure = project.measure
    return StashSheet(
        cloth=cloth,
        cuts=tuple(_list_cuts(cloth, entry, plan, cuts, measure)),
        still_to_buy=say_still_to_buy(entry, measure) if plan else "",
        left="; ".join(_say_left(one, measure) for one in plan.get("left", [])),
        sold=_say_sold(entry["buy_pieces"], measure) if entry.get("buy_pieces") else "",
    )


def _list_cuts(
    cloth: ClothView, entry: Json, plan: Json, cuts: Sequence[Json], measure: str
) -> Iterator[StashCut]:
    """The stash, then what is bought: so many pieces alike once, and the roll."""
    stash, rest = entry.get("stash", []), plan.get("still_to_buy") or {}
    pieces = [("at home", stash[piece["stash"]], piece) for piece in plan.get("pieces", [])]
    pieces += [("bought", entry["buy_pieces"], piece) for piece in rest.get("pieces", [])]
    for (where, size, turned, strips), alike in groupby(
        pieces, key=lambda one: (one[0], one[1], one[2]["turned"], one[2]["strips"])
    ):
        count, words = len(list(alike)), show_size(size["width"], size["length"], measure).main
        title = f"{count} pieces of {words} {where}, each" if count > 1 else f"A piece of {words} {where}"
        across = size["length"] if turned else size["width"]
        yield StashCut(
            f"{title}: strips {'along' if turned else 'across'} it",
            _draw(cloth, across, strips, cuts, measure),
        )
    if rest.get("strips"):
        drawings = _draw(cloth, entry["usable_width"], rest["strips"], cuts, measure)
        yield StashCut("The rest from the roll", drawings)


def _draw(
    cloth: ClothView, width: Json, strips: Sequence[Json], cuts: Sequence[Json], measure: str
) -> tuple[Markup, ...]:
    views = [view_strip(strip, cuts, measure) for strip in strips]
    words = show_length(width, measure).main
    drawings = draw_strips(cloth, read_inches(width), words, views, max_width_mm=DRAWING_MM, selvedges=False)
    return tuple(Markup(drawing) for drawing in drawings)  # noqa: S704 - our own, escaped by the sheet


def say_still_to_buy(entry: Json, measure: str) -> str:
    """What is to be bought beside the stash, in words.

    >>> say_still_to_buy({"from_stash": {"still_to_buy": None}}, "in")
    'nothing'
    """
    rest = entry["from_stash"]["still_to_buy"]
    if rest is None:
        return "nothing"
    if "count" in rest:
        return f"{rest['count']} × {entry['buy_pieces']['name']}"
    whole, buy = show_bought(entry, measure), show_bought(rest, measure)
    cut = show_length(rest["length"], measure).main
    return f"{buy.main} in place of {whole.main}; {cut} of it are cut"


def _say_left(one: Json, measure: str) -> str:
    return f"{one['count']} of {show_size(one['width'], one['length'], measure).main} ({one['from']})"


def _say_sold(sold: Json, measure: str) -> str:
    """How many pieces hold the cuts, and which cuts none of them holds."""
    size = show_size(sold["width"], sold["length"], measure).main
    words = f"{sold['count']} × {sold['name']} ({size})"
    large = len(sold["too_large"])
    return f"{words}, and the roll for {large} of the cuts, which are larger" if large else words
