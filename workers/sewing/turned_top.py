"""A top that is itself turned: its last stage is stated as the top lies, not as the unit in it was drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.craft.language import mark, phrase
from workers.sewing.works import ROTATIONS, Laid, SeamLine, Work, box, lay, turned_size

PAIRS = {"left and right": mark("top and bottom"), "top and bottom": mark("left and right")}
BORDERS = ("border pair", "mitred border")
COUNTED = ("row", "rows")
"""Kinds whose parts are counted from the left or from the top; a turn that runs against that counts them anew."""


def set_upright(top: Laid) -> Laid:
    """The same top, its work turned itself instead of the way it lies; parts inside lie as they lay."""
    work = top.piece
    if not isinstance(work, Work) or not top.eighths:
        return top
    return lay((_turn(work, top), 0), 0j)


def _turn(work: Work, top: Laid) -> Work:
    quarters = top.eighths // 2
    rotation = ROTATIONS[top.eighths]
    items = [
        Laid(item.piece, (item.eighths + top.eighths) % 8, rotation * item.shift + top.shift)
        for item in work.items
    ]
    seams = [replace(seam, start=top.place(seam.start), end=top.place(seam.end)) for seam in work.seams]
    if work.kind in COUNTED and _runs_backwards(items):
        items.reverse()
        seams = [_turn_about(seam) for seam in reversed(seams)]
    if work.kind in BORDERS:
        items = [_set_border_upright(item) for item in items]
    width, height = turned_size((work, quarters))
    facts, title = dict(work.facts), work.title
    if quarters % 2 and facts.get("pair") in PAIRS:
        pair = facts["pair"]
        facts["pair"], title = PAIRS[pair], title.replace(phrase(pair), phrase(PAIRS[pair]))
    return replace(
        work,
        width=width,
        height=height,
        items=tuple(items),
        seams=tuple(seams),
        outline=tuple(map(top.place, work.outline)),
        facts=facts,
        title=title,
    )


def _runs_backwards(items: Sequence[Laid]) -> bool:
    """Whether parts are listed from the right, or from the bottom up."""
    apart = _middle(items[-1]) - _middle(items[0])
    return apart.real + apart.imag < 0


def _middle(item: Laid) -> complex:
    corners = [item.place(corner) for corner in item.piece.corners]
    return sum(corners) / len(corners)


def _set_border_upright(item: Laid) -> Laid:
    """The border sewn before this one, so that both name the sides as the top lies."""
    if not isinstance(item.piece, Work) or item.piece.kind not in BORDERS or not item.eighths:
        return item
    corners = [item.place(corner) for corner in box(item.piece.width, item.piece.height)]
    corner = complex(min(c.real for c in corners), min(c.imag for c in corners))
    upright = set_upright(Laid(item.piece, item.eighths, item.shift - corner))
    return replace(upright, shift=upright.shift + corner)


def _turn_about(seam: SeamLine) -> SeamLine:
    """The seam sewn from its other end: what was at the left hand is at the right."""
    return replace(seam, start=seam.end, end=seam.start, left=seam.right, right=seam.left)
