"""Copies pressed in two ways: which places take the second way, and the top with twins in those places.

Where equal blocks lie side by side, seams of one meet seams of the next: pressed alike they may not nest, pressed in
turn they can (common practice, no source). A twin is sewn like the work it is the twin of, in the same stage, and
pressed for itself.

Say that in a twin all seams of some kinds of work lie on the other side. Then whether a crossing nests is a sum modulo
two: of the sides of its two seams, and of the places, from the seam up to the crossing, that take the second way.
Elimination finds places for which all crossings nest, if there are any (systems of sums modulo two: common knowledge,
no source).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from service.craft.units import StripSet
from workers.sewing.crossings import Crossing, Slot
from workers.sewing.ordering import FIRST
from workers.sewing.works import Laid, Work

TWIN, LAID_ANEW = ".other-way", ".laid"
"""What the id of a twin ends with, and before a number that of a work of which parts are twins."""

Group = Callable[[Work], str]
"""A name for works whose seams turn together, or an empty text for a work that is always pressed alike."""

Turned = frozenset[tuple[Slot, str]]
"""Places, and the groups of works inside that are turned there."""


def group_joined(work: Work) -> str:
    """What is joined of units turns, the units themselves are pressed alike."""
    return "" if work.kind in FIRST else "joined"


def group_units(work: Work) -> str:
    """Small units turn alone. Pieces of one strip set are pressed before they are cut apart, so always alike."""
    return "units" if work.kind in FIRST and work.kind != StripSet.kind else ""


def group_all(work: Work) -> str:
    """All turn together."""
    return "" if work.kind == StripSet.kind else "all"


def group_each(work: Work) -> str:
    """Each work turns for itself."""
    return "" if work.kind == StripSet.kind else work.stage


GROUPS: tuple[Group, ...] = (group_joined, group_units, group_all, group_each)
"""What turns with what, the simplest first."""


def alternate(top: Work, turned: Turned, group: Group) -> Work:
    """The top with twins in the places of `turned`; inside a turned work, turned places are as they were.

    A twin may be pressed in any way, not only turned. Works that differ in their parts alone are pressed alike.
    """
    return _Alternator(turned, group).make(top, frozenset())


class _Alternator:
    def __init__(self, turned: Turned, group: Group) -> None:
        self._turned: dict[Slot, set[str]] = defaultdict(set)
        for slot, name in turned:
            self._turned[slot].add(name)
        self._group = group
        self._inside: dict[Work, frozenset[str]] = {}
        self._made: dict[tuple[Work, frozenset[str]], Work] = {}
        self._layings: dict[tuple[str, tuple[Laid, ...]], int] = {}

    def make(self, work: Work, turned: frozenset[str]) -> Work:
        """A work in which these groups are turned."""
        if (work, turned) not in self._made:
            items = tuple(self._lay(work, i, item, turned) for i, item in enumerate(work.items))
            own = self._group(work)
            pressed_as = work.id + TWIN if own and own in turned else work.id
            laid = self._layings.setdefault((pressed_as, items), len(self._layings))
            same = pressed_as == work.id and all(a is b for a, b in zip(items, work.items, strict=True))
            new_id = pressed_as if items == work.items else f"{pressed_as}{LAID_ANEW}-{laid}"
            changed = replace(work, id=new_id, items=items, twin_of=work.stage, pressed_as=pressed_as)
            self._made[work, turned] = work if same else changed
        return self._made[work, turned]

    def _lay(self, work: Work, number: int, item: Laid, turned: frozenset[str]) -> Laid:
        if not isinstance(item.piece, Work):
            return item
        here = (turned ^ self._turned.get((work.id, number), set())) & self._groups_inside(item.piece)
        piece = self.make(item.piece, here)
        return item if piece is item.piece else replace(item, piece=piece)

    def _groups_inside(self, work: Work) -> frozenset[str]:
        if work not in self._inside:
            inner = (self._groups_inside(part) for part in work.works)
            self._inside[work] = frozenset({self._group(work)} - {""}).union(*inner)
        return self._inside[work]


class _Classes:
    """Which groups turn together inside each work, since seams of them meet there; those in a class with "" never."""

    def __init__(self, works: Sequence[Work], crossings: Sequence[Crossing], group: Group) -> None:
        by_id = {work.id: work for work in works}
        met: dict[str, set[tuple[str, str]]] = defaultdict(set)
        for crossing in crossings:
            first, second = (group(by_id[seam[0]]) for seam in (crossing.first, crossing.second))
            met[crossing.work].add((first, second))
        self._of: dict[Work, dict[str, str]] = {}
        for work in works:
            joined: dict[str, str] = {"": "", group(work): group(work)}
            for part in work.works:
                for name, same in self._of[part].items():
                    _join(joined, name, same)
            for first, second in met[work.id]:
                _join(joined, first, second)
            self._of[work] = {name: _root(joined, name) for name in joined}

    def name(self, work: Work, group: str) -> str:
        """The class of a group inside a work: its first name, or an empty text where it never turns."""
        return self._of[work][group]

    def members(self, work: Work, name: str) -> list[str]:
        """The groups of a class inside a work."""
        return [group for group, same in self._of[work].items() if same == name]


def _root(joined: dict[str, str], name: str) -> str:
    while joined.setdefault(name, name) != name:
        name = joined[name]
    return name


def _join(joined: dict[str, str], first: str, second: str) -> None:
    low, high = sorted((_root(joined, first), _root(joined, second)))
    joined[high] = low


def find_turned(works: Sequence[Work], crossings: Sequence[Crossing], group: Group) -> Turned:
    """What to turn in which places, so that as many crossings as come first in the list can all nest.

    `works` as they are ordered, the top last; of places that serve alike the later and outer ones are taken.
    """
    by_id = {work.id: work for work in works}
    rank = {work.id: i for i, work in enumerate(works)}
    pieces = {
        (w.id, i): item.piece for w in works for i, item in enumerate(w.items) if isinstance(item.piece, Work)
    }
    classes = _Classes(works, crossings, group)

    def turns(crossing: Crossing) -> Iterator[tuple[Slot, str]]:
        """What would turn one of the two seams: a place, and a class of groups in what lies there."""
        for seam, lain_in in zip((crossing.first, crossing.second), crossing.slots, strict=True):
            for slot in lain_in:
                if name := classes.name(pieces[slot], group(by_id[seam[0]])):
                    yield slot, name

    every = {turn for crossing in crossings for turn in turns(crossing)}
    places = sorted(every, key=lambda turn: (rank[turn[0][0]], turn))
    seams = dict.fromkeys(key for crossing in crossings for key in (crossing.first, crossing.second))
    # places get the low bits: the highest bit of a sum is what it determines, seams before places
    place_bit = {place: 1 << i for i, place in enumerate(places)}
    seam_bit = {seam: 1 << i for i, seam in enumerate(seams, start=len(places))}
    sums: dict[int, tuple[int, int]] = {}
    for crossing in crossings:
        row, odd = seam_bit[crossing.first] ^ seam_bit[crossing.second], int(not crossing.alike)
        for turn in turns(crossing):
            row ^= place_bit[turn]
        _add_sum(sums, row, odd)
    ones = _read_off(sums, places)
    return frozenset((slot, member) for slot, name in ones for member in classes.members(pieces[slot], name))


def _add_sum(sums: dict[int, tuple[int, int]], row: int, odd: int) -> None:
    """Keep a sum, less those before it that determine its highest bits; one that contradicts them changes nothing."""
    while row and row.bit_length() in sums:
        other, other_odd = sums[row.bit_length()]
        row, odd = row ^ other, odd ^ other_odd
    if row:
        sums[row.bit_length()] = row, odd


def _read_off(sums: dict[int, tuple[int, int]], places: Sequence[tuple[Slot, str]]) -> list[tuple[Slot, str]]:
    """The places that are one in the solution in which all that is free is nought, from the lowest bit up."""
    ones = 0
    for high in sorted(sums):
        if high > len(places):
            break
        row, odd = sums[high]
        rest = row ^ (1 << (high - 1))
        if ((rest & ones).bit_count() ^ odd) & 1:
            ones |= 1 << (high - 1)
    return [place for i, place in enumerate(places) if ones >> i & 1]
