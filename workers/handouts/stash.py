"""What the studio cuts from its own stash, and what it still buys: for the run sheet alone, since viewers have none."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from markupsafe import Markup

from service.craft.document import Project
from service.craft.drawing import ClothView, draw_strips, view_cloths
from service.craft.language import mark, phrase
from workers.handouts.plan_words import show_bought
from workers.handouts.sizes import read_inches, show_length, show_size
from workers.handouts.strip_views import view_strip

Json = Mapping[str, Any]

AT_HOME, BOUGHT = "at home", "bought"
PIECES = {
    (AT_HOME, False): (
        mark("A piece of {size} at home: strips across it"),
        mark("{count} pieces of {size} at home, each: strips across it"),
    ),
    (AT_HOME, True): (
        mark("A piece of {size} at home: strips along it"),
        mark("{count} pieces of {size} at home, each: strips along it"),
    ),
    (BOUGHT, False): (
        mark("A piece of {size} bought: strips across it"),
        mark("{count} pieces of {size} bought, each: strips across it"),
    ),
    (BOUGHT, True): (
        mark("A piece of {size} bought: strips along it"),
        mark("{count} pieces of {size} bought, each: strips along it"),
    ),
}
"""By where pieces come from and whether they are turned: one piece, and several alike."""

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
    pieces = [(AT_HOME, stash[piece["stash"]], piece) for piece in plan.get("pieces", [])]
    pieces += [(BOUGHT, entry["buy_pieces"], piece) for piece in rest.get("pieces", [])]
    for (where, size, turned, strips), alike in groupby(
        pieces, key=lambda one: (one[0], one[1], one[2]["turned"], one[2]["strips"])
    ):
        count, words = len(list(alike)), show_size(size["width"], size["length"], measure).main
        title = phrase(PIECES[where, turned][count > 1], count=count, size=words)
        across = size["length"] if turned else size["width"]
        yield StashCut(title, _draw(cloth, across, strips, cuts, measure))
    if rest.get("strips"):
        drawings = _draw(cloth, entry["usable_width"], rest["strips"], cuts, measure)
        yield StashCut(phrase("The rest from the roll"), drawings)


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
        return phrase("nothing")
    if "count" in rest:
        return f"{rest['count']} × {entry['buy_pieces']['name']}"
    whole, buy = show_bought(entry, measure), show_bought(rest, measure)
    cut = show_length(rest["length"], measure).main
    return phrase(
        "{length} in place of {whole}; {cut} of it are cut", length=buy.main, whole=whole.main, cut=cut
    )


def _say_left(one: Json, measure: str) -> str:
    size = show_size(one["width"], one["length"], measure).main
    return phrase("{count} of {size} ({place})", count=one["count"], size=size, place=phrase(one["from"]))


def _say_sold(sold: Json, measure: str) -> str:
    """How many pieces hold the cuts, and which cuts none of them holds."""
    size = show_size(sold["width"], sold["length"], measure).main
    words, large = f"{sold['count']} × {sold['name']} ({size})", len(sold["too_large"])
    if not large:
        return words
    return phrase(
        "{pieces}, and the roll for {count} of the cuts, which are larger", pieces=words, count=large
    )
