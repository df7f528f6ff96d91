"""Every copy of every work for itself: the whole top unfolded, and what its seams ask of each other.

Copies of a work could each be pressed in a way of their own, and each be spun or not. Each seam of each copy has two
nodes, one an end, so that a spun seam can have its halves on different sides. A bond says of two nodes whether they
are to lie on the same side or on different ones.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.craft.units import StripSet
from workers.sewing.crossings import Crossing, Meetings, SeamKey, Slot, Spin
from workers.sewing.odd_circles import Link
from workers.sewing.works import Work

NO_COPY = -1
"""In the place of a patch, which is no copy of a work."""


@dataclass(frozen=True)
class Copy:
    """One copy of a work: the numbers of the copies it is sewn of, item by item, and the node of its first seam."""

    work: Work
    parts: tuple[int, ...]
    first_node: int

    @property
    def nodes(self) -> range:
        """The nodes of its seams, two a seam."""
        return range(self.first_node, self.first_node + 2 * len(self.work.seams))


@dataclass(frozen=True)
class CouldSpin:
    """A copy whose last seam can be spun: what binds its halves, when it is spun and when it is not; spun, the
    `crossed` links must be kept."""

    copy: int
    spun: tuple[Link, Link]
    plain: Link
    crossed: tuple[int, ...]


class UnfoldedTop:
    """All copies of a top, the parts of each before it, the whole top last; `meetings` as they are without a spin.

    Pieces of one strip set are pressed before they are cut apart, so their seams are the same nodes.
    """

    def __init__(self, top: Work, meetings: Mapping[Work, Meetings]) -> None:
        self.copies: list[Copy] = []
        self.size = 0
        self.links: list[Link] = []
        self.could_spin: list[CouldSpin] = []
        self._strip_sets: dict[Work, int] = {}
        self._unfold(top)
        for number, copy in enumerate(self.copies):
            self._bind(number, copy, meetings[copy.work])

    @property
    def one_seams(self) -> list[Link]:
        """Both nodes of every seam on one side, but for the seams that can be spun."""
        two_sided = {could.plain[0] for could in self.could_spin}
        return [(node, node + 1, 0) for node in range(0, self.size, 2) if node not in two_sided]

    def _unfold(self, work: Work) -> int:
        parts = tuple(
            self._unfold(item.piece) if isinstance(item.piece, Work) else NO_COPY for item in work.items
        )
        first = self._strip_sets.get(work, self.size)
        if first == self.size:
            self.size += 2 * len(work.seams)
        if work.kind == StripSet.kind:
            self._strip_sets[work] = first
        self.copies.append(Copy(work, parts, first))
        return len(self.copies) - 1

    def _bind(self, number: int, copy: Copy, met: Meetings) -> None:
        """The links of the crossings in a copy, and of the seam in it that can be spun."""
        begun = len(self.links)
        self.links += [self._link(copy, crossing) for crossing in met.crossings]
        if met.could_spin is not None:
            crossed = [begun + i for i, c in enumerate(met.crossings) if c.across == met.could_spin.seam[1]]
            self.could_spin.append(self._spin(number, copy, met.could_spin, tuple(crossed)))

    def _link(self, copy: Copy, crossing: Crossing) -> Link:
        ends = (
            self._find_node(copy, seam, slots, at_end=at_end)
            for seam, slots, at_end in zip(
                (crossing.first, crossing.second), crossing.slots, crossing.at_ends, strict=True
            )
        )
        first, second = ends
        return first, second, 0 if crossing.alike else 1

    def _spin(self, number: int, copy: Copy, spin: Spin, crossed: tuple[int, ...]) -> CouldSpin:
        half = copy.first_node + 2 * spin.seam[1]
        by = self._find_node(copy, spin.by, spin.slots, at_end=spin.at_end)
        side = spin.find_side(0)
        return CouldSpin(number, ((by, half, side), (by, half + 1, 1 - side)), (half, half + 1, 0), crossed)

    def _find_node(self, copy: Copy, seam: SeamKey, slots: tuple[Slot, ...], *, at_end: bool) -> int:
        """The node of an end of a seam that lies in these places, the inner ones first, of a copy."""
        for _, item in reversed(slots):
            copy = self.copies[copy.parts[item]]
        return copy.first_node + 2 * seam[1] + at_end
