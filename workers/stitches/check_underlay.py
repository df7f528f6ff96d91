"""Checks that what lies under a satin edge was sewn, and before it."""

from __future__ import annotations

from workers.stitches.findings import Check, Checked
from workers.stitches.pieces import FINISH, UNDERLAY, SewnPiece


def wants_underlay(sewn: SewnPiece) -> bool:
    """Whether a piece's settings ask for an underlay: satin does, unless the document says none."""
    return sewn.piece.edge == "satin" and sewn.piece.settings.underlay != "none"


def check_underlay(checked: Checked) -> Check:
    """Every satin edge that asks for an underlay has one, sewn right before its finish with the same thread."""
    passes = checked.hooping.passes
    faults: list[dict[str, object]] = []
    found = 0
    for sewn in checked.hooping.sewn:
        if not wants_underlay(sewn):
            continue
        finishes = [n for n, one in enumerate(passes) if one.piece == sewn.piece.name and one.kind == FINISH]
        for n in finishes:
            if n and is_underlay_of(checked, n - 1, n):
                found += 1
            else:
                faults.append({"piece": sewn.piece.name, "record": checked.ranges[n][0]})
    return Check("underlay before every satin edge", not faults, found, faults)


def is_underlay_of(checked: Checked, under: int, finish: int) -> bool:
    """Whether one pass is the underlay of the next: its kind and piece say so, and it ends where that begins."""
    one, other = checked.hooping.passes[under], checked.hooping.passes[finish]
    first, last = checked.ranges[under]
    return (
        one.kind == UNDERLAY
        and one.piece == other.piece
        and first <= last < checked.ranges[finish][0] <= last + 2
    )
