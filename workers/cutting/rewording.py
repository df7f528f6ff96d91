"""The same cuts in the words of other readers."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Hashable, Iterable, Sequence

from workers.cutting.cuts import Cut


def reword(cuts: Sequence[Cut], again: Iterable[Cut]) -> list[Cut]:
    """The cuts in their order, each with the words it has in `again`, where they were listed for other readers.

    Plans name cuts by their place in the list, so that nothing but words may change. A cut that is not there again
    (a search may end elsewhere where its clock ran out) keeps the words it has.
    """
    waiting: defaultdict[Hashable, deque[Cut]] = defaultdict(deque)
    for cut in again:
        waiting[_key(cut)].append(cut)
    return [waiting[_key(cut)].popleft() if waiting[_key(cut)] else cut for cut in cuts]


def _key(cut: Cut) -> Hashable:
    """Everything that is no words."""
    return (
        *(cut.fabric, cut.width, cut.height, cut.count, cut.makes, cut.wanted),
        *(cut.shape, cut.template, cut.grain, cut.may_turn, cut.pointer, cut.serves),
        cut.joined,
    )
