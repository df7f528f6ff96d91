"""Batting: the size to cut, and the sizes it is sold in."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from service.craft.measure import Number
from service.craft.units import CuttingRules


@dataclass(frozen=True)
class Packet:
    """A size batting is sold in: its name, and its sides in whole inches, the shorter first."""

    name: str
    short: int
    long: int

    def holds(self, width: Fraction, height: Fraction) -> bool:
        """Whether so many inches come out of it, lying either way."""
        return min(width, height) <= self.short and max(width, height) <= self.long

    def holds_upright(self, width: Fraction, height: Fraction) -> bool:
        """Whether so many inches come out of it with its long side up and down."""
        return width <= self.short and height <= self.long


SURE = (
    Packet("craft", 34, 45),
    Packet("crib", 45, 60),
    Packet("twin", 72, 90),
    Packet("full", 81, 96),
    Packet("queen", 90, 108),
    Packet("king", 120, 120),
)
"""Sizes that every packet of the name holds. honeybegood.com, K. Daniel, 2012, and project12quilts.blogspot.com
2012/01; where the two differ, the smaller."""

DOUBTFUL = (
    Packet("craft", 36, 45),
    Packet("throw", 60, 60),
    Packet("full", 84, 96),
    Packet("king", 120, 124),
)
"""Larger sizes under the same names, and one that not every shop has. Full 84 x 96 and king 124 x 120:
project12quilts.blogspot.com 2012/01, where honeybegood.com has 81 x 96 and 120 x 120; craft 36 x 45 and throw
60 x 60: from memory."""


@dataclass(frozen=True)
class BattingPlan:
    """Batting of `width` by `height` inches, and the packet it comes out of.

    `packet` is None beyond the largest. `perhaps` is a smaller packet that may do: measure it in the shop.
    """

    width: Fraction
    height: Fraction
    overhang: Fraction
    packet: Packet | None
    perhaps: Packet | None


def plan_batting(width: Number, height: Number, overhang: Fraction, rules: CuttingRules) -> BattingPlan:
    """The batting of a top of that finished size (inches), larger by the overhang on every side."""
    w, h = (rules.round(side + 2 * overhang) for side in (width, height))
    packet = smallest_packet(SURE, w, h)
    perhaps = smallest_packet(DOUBTFUL, w, h)
    if perhaps is not None and packet is not None and not _is_smaller(perhaps, packet):
        perhaps = None
    return BattingPlan(w, h, overhang, packet, perhaps)


def sure_size(name: str) -> Packet | None:
    """The size that every packet of that name holds; None for a name that not every shop has."""
    return next((packet for packet in SURE if packet.name == name), None)


def smallest_packet(packets: tuple[Packet, ...], width: Fraction, height: Fraction) -> Packet | None:
    """The smallest size that covers so many inches, lying either way; None beyond the largest."""
    holding = [packet for packet in packets if packet.holds(width, height)]
    return min(holding, key=lambda p: p.short * p.long, default=None)


def _is_smaller(one: Packet, other: Packet) -> bool:
    return one.short * one.long < other.short * other.long
