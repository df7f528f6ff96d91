"""Every junction of a whole top, looked at where it lies: the obvious way to see whether seams nest.

Nothing of the planner's own finding is used but where pieces lie and the words for how seams are pressed. Two seams
that end at a point of the seam being sewn, one from each side, come to lie on each other where one is the other's
mirror image in that seam. They nest where the allowance of one, mirrored, lies on the other side of the other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from workers.sewing.works import ROTATIONS, Laid, Work

CLOSE = 1e-6
WAYS = {"left": -1 + 0j, "right": 1 + 0j, "up": -1j, "down": 1j}


@dataclass(frozen=True)
class End:
    """One end of a pressed seam: where, which way the seam runs from there, which way its allowance lies (or open)."""

    at: complex
    along: complex
    allowance: complex | None


Pressed = dict[str, list[dict[str, Any]]]
"""By a work's id, how each of its seams is pressed: `press` and, where it is spun, `halves`."""


def count_junctions(top: Laid, pressed: Pressed) -> tuple[int, int]:
    """How many junctions of the top there are, and how many of them do not nest."""
    assert isinstance(top.piece, Work)
    found = list(_walk(top.piece, pressed))
    return len(found), found.count(False)


def _walk(work: Work, pressed: Pressed) -> Iterator[bool]:
    for item in work.items:
        if isinstance(item.piece, Work):
            yield from _walk(item.piece, pressed)
    for number, seam in enumerate(work.seams):
        along = (seam.end - seam.start) / abs(seam.end - seam.start)
        before = _ends_before(work, number, pressed)
        ends = [end for end in before if _lies_on(end.at, seam.start, seam.end)]
        lefts, rights = ([e for e in ends if sign * (e.along / along).imag > CLOSE] for sign in (-1, 1))
        for left in lefts:
            mirrored = along * (left.along / along).conjugate()
            for right in rights:
                if abs(mirrored - right.along) < 1e-4 and abs(left.at - right.at) < CLOSE:
                    yield _nests(left, right, along)


def _nests(left: End, right: End, along: complex) -> bool:
    if left.allowance is None or right.allowance is None:
        return False
    mirrored = along * (left.allowance / along).conjugate()
    return abs(mirrored + right.allowance) < 1e-4


def _ends_before(work: Work, number: int, pressed: Pressed) -> Iterator[End]:
    """The ends of seams that are sewn before a seam of a work: those inside its parts, and its own that end within."""
    yield from _ends_inside(work, pressed)
    seam = work.seams[number]
    for end in _own_ends(work, pressed):
        if min(abs(end.at - seam.start), abs(end.at - seam.end)) > CLOSE:
            yield end


def _ends_inside(work: Work, pressed: Pressed) -> Iterator[End]:
    """The ends on the outlines of a work's parts."""
    for item in work.items:
        if isinstance(item.piece, Work):
            turn = ROTATIONS[item.eighths]
            for end in _ends_on_outline(item.piece, pressed):
                allowance = None if end.allowance is None else end.allowance * turn
                yield End(item.place(end.at), end.along * turn, allowance)


def _ends_on_outline(work: Work, pressed: Pressed) -> Iterator[End]:
    corners = work.corners
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    for end in [*_ends_inside(work, pressed), *_own_ends(work, pressed)]:
        if any(_lies_on(end.at, a, b) for a, b in sides):
            yield end


def _own_ends(work: Work, pressed: Pressed) -> Iterator[End]:
    for seam, way in zip(work.seams, pressed[work.id], strict=True):
        if seam.fixed:
            continue
        along = (seam.end - seam.start) / abs(seam.end - seam.start)
        words = [half["press"] for half in way["halves"]] if way.get("halves") else [way["press"]] * 2
        for at, out, word in ((seam.start, along, words[0]), (seam.end, -along, words[1])):
            yield End(at, out, _square_to(along, word))


def _square_to(along: complex, word: str) -> complex | None:
    """The direction square to a seam that a word of pressing names."""
    if word not in WAYS:
        return None
    square, wanted = along * 1j, WAYS[word]
    return square if (square * wanted.conjugate()).real > 0 else -square


def _lies_on(point: complex, start: complex, end: complex) -> bool:
    length = abs(end - start)
    there = (point - start) * (end - start).conjugate() / length
    return abs(there.imag) < CLOSE and -CLOSE < there.real < length + CLOSE
