"""Copies pressed in two ways: which places take the second way, and the top with twins in those places.

Where equal blocks lie side by side, seams of one meet seams of the next: pressed alike they may not nest, pressed in
turn they can (common practice, no source). A twin is sewn like the work it is the twin of, in the same stage, and
pressed for itself.

Say that a twin has all its seams on the other side. Then whether a crossing nests is a sum modulo two: of the sides of
its two seams, and of the places, from the seam up to the crossing, that take the second way. Elimination finds places
for which all crossings nest, if there are any (systems of sums modulo two: common knowledge, no source).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from service.craft.units import StripSet
from workers.sewing.crossings import Crossing, Slot
from workers.sewing.works import Laid, Work

TWIN = ".other-way"
"""What a twin's id ends with."""

PRESSED_TOGETHER = (StripSet.kind,)
"""Pieces of one strip set are pressed before they are cut apart, so all alike."""


def alternate(top: Work, second: Collection[Slot]) -> Work:
    """The top with twins in the places of `second`; inside a twin the two ways change places."""
    made: dict[tuple[Work, bool], Work] = {}

    def make(work: Work, twin: bool) -> Work:
        if work.kind in PRESSED_TOGETHER:
            return work
        if (work, twin) not in made:
            items = tuple(lay(work, i, item, twin) for i, item in enumerate(work.items))
            same = all(new is old for new, old in zip(items, work.items, strict=True))
            made[work, twin] = (
                replace(work, id=work.id + TWIN, items=items, twin_of=work.stage)
                if twin
                else work
                if same
                else replace(work, items=items)
            )
        return made[work, twin]

    def lay(work: Work, number: int, item: Laid, twin: bool) -> Laid:
        if not isinstance(item.piece, Work):
            return item
        piece = make(item.piece, twin ^ ((work.id, number) in second))
        return item if piece is item.piece else replace(item, piece=piece)

    return make(top, twin=False)


def find_second_places(works: Sequence[Work], crossings: Sequence[Crossing]) -> frozenset[Slot]:
    """Places to take the second way, so that as many crossings as come first in the list can all nest.

    `works` as they are ordered, the top last; of places that serve alike the later and outer ones are taken.
    """
    seams = dict.fromkeys(key for crossing in crossings for key in (crossing.first, crossing.second))
    fixed = {
        (work.id, i)
        for work in works
        for i, item in enumerate(work.items)
        if isinstance(item.piece, Work) and item.piece.kind in PRESSED_TOGETHER
    }
    slots = [(work.id, i) for work in works for i in range(len(work.items)) if (work.id, i) not in fixed]
    # slots get the low bits: the highest bit of a sum is what it determines, seams before slots
    slot_bit = {slot: 1 << i for i, slot in enumerate(slots)}
    seam_bit = {seam: 1 << i for i, seam in enumerate(seams, start=len(slots))}
    sums: dict[int, tuple[int, int]] = {}
    for crossing in crossings:
        row, odd = seam_bit[crossing.first] ^ seam_bit[crossing.second], int(not crossing.alike)
        for slot in crossing.slots:
            row ^= slot_bit.get(slot, 0)
        while row and row.bit_length() in sums:
            other, other_odd = sums[row.bit_length()]
            row, odd = row ^ other, odd ^ other_odd
        if row:
            sums[row.bit_length()] = row, odd
    return _read_off(sums, slots)


def _read_off(sums: dict[int, tuple[int, int]], slots: Sequence[Slot]) -> frozenset[Slot]:
    """The slots that are one in the solution in which all that is free is nought, from the lowest bit up."""
    ones = 0
    for high in sorted(sums):
        if high > len(slots):
            break
        row, odd = sums[high]
        rest = row ^ (1 << (high - 1))
        if ((rest & ones).bit_count() ^ odd) & 1:
            ones |= 1 << (high - 1)
    return frozenset(slot for i, slot in enumerate(slots) if ones >> i & 1)
