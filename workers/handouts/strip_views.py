"""Strips of the cutting plan as drawings see them, each size with its letter."""

from __future__ import annotations

import string
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from service.craft.cutting_words import say_then
from service.craft.drawing import ColumnInStrip, CutInStrip, StripView
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from workers.handouts.sizes import read_inches, show_length, show_size

Json = Mapping[str, Any]


def letter_cuts(cuts: Sequence[Json]) -> list[str]:
    """A small letter for every cut of the list, beginning anew with each cloth: a to z, then aa, ab and so on.

    >>> letter_cuts([{"fabric": "leaf"}, {"fabric": "leaf"}, {"fabric": "soil"}])
    ['a', 'b', 'a']
    """
    seen: Counter[str] = Counter()
    letters = []
    for cut in cuts:
        key = str(cut.get("fabric", ""))
        high, low = divmod(seen[key], len(string.ascii_lowercase))
        letters.append((string.ascii_lowercase[high - 1] if high else "") + string.ascii_lowercase[low])
        seen[key] += 1
    return letters


def view_strip(strip: Json, cuts: Sequence[Json], measure: str) -> StripView:
    """A strip of the plan as drawings see it; `pieces` name cuts by their place in the list.

    In a stacked plan a strip has `columns` of them.
    """
    letters = letter_cuts(cuts)

    def view(pieces: Sequence[Json]) -> tuple[CutInStrip, ...]:
        return tuple(
            _view_cut(piece, cuts[piece["cut"]], letters[piece["cut"]], measure)
            for piece in pieces
            if 0 <= piece.get("cut", -1) < len(cuts)
        )

    columns = tuple(
        ColumnInStrip(
            read_inches(column["width"]), show_length(column["width"], measure).main, view(column["pieces"])
        )
        for column in strip.get("columns", [])
    )
    height = strip.get("height")
    text = show_length(height, measure).main
    return StripView(read_inches(height), text, view(strip.get("pieces", [])), columns)


def _view_cut(piece: Json, cut: Json, letter: str, measure: str) -> CutInStrip:
    width, height = read_inches(cut.get("width")), read_inches(cut.get("height"))
    then = str(cut.get("then", ""))
    once, twice, diamonds = (say_then(key) in then for key in (ONCE, TWICE, DIAMONDS))
    return CutInStrip(
        count=int(piece.get("count", 1)),
        along=height if piece.get("turned") else width,
        across=width if piece.get("turned") else height,
        text=show_size(cut.get("width"), cut.get("height"), measure).main,
        diagonals=2 if twice else int(once),
        letter=letter,
        diamonds=int(cut.get("makes", 0)) // max(1, int(cut.get("count", 1))) if diamonds else 0,
    )
