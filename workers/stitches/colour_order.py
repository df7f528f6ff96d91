"""The order of sewing in one hooping: what lies beneath first, and the thread changed as seldom as that allows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import groupby

import shapely

from service.craft.fabric import Thread
from service.craft.outlines.split_parts import LAP_MM
from workers.stitches.pieces import Pass, SewnPiece, Stop, box_of
from workers.stitches.stretches import region_of

MOST_STATES = 4000
"""So many half-sewn hoopings are looked at side by side; beyond that each colour in turn takes what it can."""


@dataclass(frozen=True)
class Turn:
    """Passes of one piece that one thread sews in one go, and the numbers of the turns that must come before."""

    piece: str
    thread: Thread
    passes: tuple[Pass, ...]
    after: frozenset[int] = frozenset()


def list_turns(sewn: Iterable[SewnPiece]) -> list[Turn]:
    """The turns of pieces in stacking order, each after what lies beneath it.

    Details wait for their piece's edge and for details they may meet.
    Pieces whose sewn areas meet keep the order they are stacked in, also where no `above` names them.
    """
    turns: list[Turn] = []
    earlier: list[tuple[SewnPiece, list[int]]] = []
    for one in sewn:
        beneath = [n for other, numbers in earlier if lies_above(one, other) for n in numbers]
        numbers: list[int] = []
        for thread, passes in groupby(one.passes, key=lambda p: p.thread):
            numbers.append(len(turns))
            turn = Turn(one.piece.name, thread, tuple(passes))
            waits = [n for n in numbers[:-1] if n == numbers[0] or boxes_meet(turns[n], turn)]
            turns.append(replace(turn, after=frozenset([*beneath, *waits])))
        earlier.append((one, numbers))
    return turns


def boxes_meet(a: Turn, b: Turn) -> bool:
    """Whether details of one piece may lie over each other."""
    (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) = (box_of([p.points for p in turn.passes]) for turn in (a, b))
    return ax0 <= bx1 and bx0 <= ax1 and ay0 <= by1 and by0 <= ay1


def lies_above(one: SewnPiece, other: SewnPiece) -> bool:
    """Whether a piece must wait for an earlier one: it is said to lie above it, or their stitches meet.

    A part of a piece waits for the parts before it, and otherwise only for what its own stitches meet.
    """
    if one.piece.name == other.piece.name:
        return True
    in_parts = one.piece.part is not None or other.piece.part is not None
    if other.piece.name in one.piece.above and not in_parts:
        return True
    (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) = one.box, other.box
    if ax1 < bx0 or bx1 < ax0 or ay1 < by0 or by1 < ay0:
        return False
    return bool(shapely.intersects(sewn_area(one), sewn_area(other)))


def sewn_area(one: SewnPiece) -> shapely.Geometry:
    """The piece, or the part of it that is sewn, with its edge finish round it."""
    shape: shapely.Geometry = shapely.Polygon(one.piece.rings[0], one.piece.rings[1:])
    if one.piece.part is not None:
        shape = shapely.intersection(shape, region_of(one.piece.part, LAP_MM))
    return shapely.buffer(shape, one.piece.settings.outside_mm(one.piece.edge))


def sew_with(thread: Thread, done: frozenset[int], turns: list[Turn]) -> list[int]:
    """Every turn this thread can sew now, one after the other, in stacking order."""
    sewn = set(done)
    taken: list[int] = []
    while True:
        ready = [n for n, t in enumerate(turns) if n not in sewn and t.thread == thread and t.after <= sewn]
        if not ready:
            return taken
        taken.append(ready[0])
        sewn.add(ready[0])


def order_turns(turns: list[Turn]) -> list[int]:
    """The numbers of the turns in an order with the fewest changes of thread.

    Breadth first over the sets of turns already sewn. A thread in the needle sews all it can: stopping earlier
    never saves a change. The first set that holds every turn is reached with the fewest changes.
    """
    states: dict[frozenset[int], list[int]] = {frozenset(): []}
    while True:
        following: dict[frozenset[int], list[int]] = {}
        for done, order in states.items():
            if len(order) == len(turns):
                return order
            for thread in dict.fromkeys(t.thread for t in turns):
                taken = sew_with(thread, done, turns)
                if taken:
                    following.setdefault(done | frozenset(taken), [*order, *taken])
        if len(following) > MOST_STATES:
            furthest = max(following, key=len)
            following = {furthest: following[furthest]}
        states = following


def sequence_passes(sewn: Iterable[SewnPiece]) -> tuple[Pass, ...]:
    """All passes of a hooping in sewing order, with a stop wherever the thread is changed."""
    turns = list_turns(sewn)
    order = [turns[n] for n in order_turns(turns)]
    passes: list[Pass] = []
    for turn, following in zip(order, [*order[1:], None], strict=True):
        passes += turn.passes
        if following is not None and following.thread != turn.thread:
            passes[-1] = replace(passes[-1], then_stop=Stop(thread=following.thread))
    return tuple(passes)
