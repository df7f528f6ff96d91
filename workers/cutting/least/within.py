"""Every full pattern that a plan shorter than a given length could use.

At fair prices a plan's length is the worth of all pieces, plus what each strip's height exceeds its worth (its loss),
plus the worth of pieces cut too many. A plan below some length therefore uses only strips whose loss fits between
the bound and that length. A pattern with room for one more wanted piece is left out: with it, it loses no more.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from workers.cutting.least.field import Field, Pattern
from workers.cutting.least.prices import SCALE, Prices

Whole = npt.NDArray[np.int64]
Chosen = npt.NDArray[np.bool_]


@dataclass(frozen=True)
class Offer:
    """A pattern, and what a strip of it loses (times SCALE)."""

    loss: int
    pattern: Pattern


@dataclass
class _Open:
    """Strips filled from the highest way downwards: room left, loss if no more came, highest way, counts."""

    room: Whole
    loss: Whole
    top: Whole
    counts: npt.NDArray[np.int32]

    def pick(self, chosen: Chosen | Whole) -> _Open:
        return _Open(self.room[chosen], self.loss[chosen], self.top[chosen], self.counts[chosen])


def patterns_within(field: Field, prices: Prices, loss: int, most: int) -> tuple[Offer, ...] | None:
    """All full patterns that lose `loss` at most, those that lose least first.

    None where more than `most` half-filled strips would have to be looked at together.
    """
    ways = field.ways
    tables = _worth_below(field, prices)
    open_strips = _nothing(field)
    for number in range(len(ways) - 1, -1, -1):
        filled = _lay(field, prices, tables[number], open_strips, number, loss, most)
        if filled is None:
            return None
        open_strips = filled
    done = open_strips.pick(_full(field, open_strips))
    offers = [
        Offer(
            int(lost),
            Pattern(ways[top].along, tuple((int(w), int(counts[w])) for w in np.flatnonzero(counts))),
        )
        for lost, top, counts in zip(done.loss, done.top, done.counts, strict=True)
    ]
    return tuple(sorted(offers, key=lambda offer: (offer.loss, offer.pattern.height, offer.pattern.counts)))


def _worth_below(field: Field, prices: Prices) -> list[Whole]:
    """The most that ways before each one are worth in a given room."""
    tables = [np.zeros(field.width + 1, np.int64)]
    for number, way in enumerate(field.ways):
        table = tables[-1]
        left, lot = field.most[number] if prices[way.size] else 0, 1
        while left:
            lot = min(lot, left)
            room = way.across * lot
            table = table.copy()
            table[room:] = np.maximum(table[room:], table[: table.size - room] + prices[way.size] * lot)
            left -= lot
            lot *= 2
        tables.append(table)
    return tables


def _lay(
    field: Field, prices: Prices, below: Whole, strips: _Open, number: int, loss: int, most: int
) -> _Open | None:
    """Every open strip goes on with each possible number of pieces of one way; a new one starts with it."""
    way = field.ways[number]
    strips = _join([strips, _begin(field, number)])
    begun = strips.room.size - 1
    other = [i for i, w in enumerate(field.ways) if w.size == way.size]
    wanted = field.demand[way.size] - strips.counts[:, other].sum(axis=1)
    grown, size = [], 0
    for count in range(field.most[number] + 1):
        room = strips.room - count * way.across
        rows = np.flatnonzero((room >= 0) & (wanted >= count))
        if count == 0:
            rows = rows[rows != begun]
        lost = strips.loss[rows] - count * prices[way.size]
        rows = rows[lost - below[room[rows]] <= loss]
        size += rows.size
        if size > most:
            return None
        part = strips.pick(rows)
        part.room -= count * way.across
        part.loss -= count * prices[way.size]
        part.counts[:, number] = count
        grown.append(part)
    return _join(grown)


def _nothing(field: Field) -> _Open:
    none = np.zeros(0, np.int64)
    return _Open(none, none, none, np.zeros((0, len(field.ways)), np.int32))


def _begin(field: Field, number: int) -> _Open:
    height = field.ways[number].along * SCALE
    counts = np.zeros((1, len(field.ways)), np.int32)
    return _Open(np.array([field.width]), np.array([height]), np.array([number]), counts)


def _join(parts: list[_Open]) -> _Open:
    return _Open(
        np.concatenate([part.room for part in parts]),
        np.concatenate([part.loss for part in parts]),
        np.concatenate([part.top for part in parts]),
        np.concatenate([part.counts for part in parts]),
    )


def _full(field: Field, strips: _Open) -> Chosen:
    """Which strips have no room for one more wanted piece that is no higher."""
    heights = np.array([way.along for way in field.ways], np.int64)[strips.top]
    full = np.ones(strips.room.size, bool)
    for way in field.ways:
        same = [i for i, w in enumerate(field.ways) if w.size == way.size]
        wanted = strips.counts[:, same].sum(axis=1) < field.demand[way.size]
        full &= ~(wanted & (strips.room >= way.across) & (heights >= way.along))
    return full
