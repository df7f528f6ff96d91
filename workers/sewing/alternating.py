"""Copies pressed in two ways, in turn: a work in every second place gives way to its twin.

A twin is sewn like the work it is the twin of, in the same stage; only its seams, and those of what it is joined of,
are pressed for themselves. Where equal blocks lie side by side, seams of one meet seams of the next: pressed alike
they may not nest, pressed in turn they can (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from workers.sewing.polygons import JOINED
from workers.sewing.works import Laid, Work

TWIN, MOVED_ON = ".other-way", ".moved-on"
"""What a twin's id ends with: a work that is pressed for itself, a row that begins with a twin."""

IN_LINE = ("row", "rows", JOINED)
"""Kinds of work whose parts lie in a line, each the neighbour of the next."""

WRAPS = ("diagonal row", "diagonal rows joined", "setting corners")
"""Kinds of work round rows. A diagonal row begins with a main block, so an alternate is never in an even place."""


def alternate(top: Work, ids: Collection[str]) -> Work:
    """The top with a twin in every second place of the works with these ids."""
    return _Alternator(ids).make(top, moved_on=False, twin=False)


class _Alternator:
    def __init__(self, ids: Collection[str]) -> None:
        self._ids = ids
        self._made: dict[tuple[Work, bool, bool], Work] = {}

    def make(self, work: Work, *, moved_on: bool, twin: bool) -> Work:
        """A work with its parts in turn, begun with a twin where it is `moved_on`; itself a `twin` or not."""
        key = work, moved_on, twin
        if key not in self._made:
            items = tuple(self._lay(work, i, item, moved_on, twin) for i, item in enumerate(work.items))
            changed = any(new is not old for new, old in zip(items, work.items, strict=True))
            ending = TWIN * twin + MOVED_ON * (moved_on and changed)
            twin_of = work.stage if ending else work.twin_of
            made = replace(work, id=work.id + ending, items=items, twin_of=twin_of)
            self._made[key] = made if ending or changed else work
        return self._made[key]

    def _lay(self, work: Work, number: int, item: Laid, moved_on: bool, twin: bool) -> Laid:
        piece = item.piece
        if not isinstance(piece, Work):
            return item
        second = moved_on ^ (work.kind in IN_LINE and number % 2 == 1)
        if piece.id in self._ids:
            # the places of a block's inside go on from its neighbour's: an odd number of rows begins the other way
            begins = second and piece.kind == "rows" and len(piece.items) % 2 == 1
            made = self.make(piece, moved_on=begins, twin=second)
        elif _is_line_inside(piece):
            made = self.make(piece, moved_on=second, twin=twin)
        else:
            made = self.make(piece, moved_on=False, twin=twin and bool(piece.works or piece.kind in IN_LINE))
        return item if made is piece else replace(item, piece=made)


def _is_line_inside(work: Work) -> bool:
    """Whether a work is a part of what it lies in, such as a row, so that its places go on from the row above."""
    return work.kind in WRAPS or (work.kind in IN_LINE and not work.whole)
