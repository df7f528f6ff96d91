"""Order and names of shapes: what a piece's `file#shape` can say."""

from __future__ import annotations

import re
from collections.abc import Iterable

from service.craft.outlines.model import Outline

LONGEST_NAME = 80


def reading_order(outlines: Iterable[Outline]) -> list[Outline]:
    """Row by row from the top, each row from left to right, as one would point at them on the page."""
    return [outline for row in rows_of(outlines) for outline in row]


def rows_of(outlines: Iterable[Outline]) -> list[list[Outline]]:
    """The rows from the top, each from left to right.

    A shape belongs to the row whose first shape its middle lies beside.
    """
    rows: list[list[Outline]] = []
    for outline in sorted(outlines, key=lambda o: (o.box_mm[1], o.box_mm[0])):
        middle = (outline.box_mm[1] + outline.box_mm[3]) / 2
        if rows and middle <= rows[-1][0].box_mm[3]:
            rows[-1].append(outline)
        else:
            rows.append([outline])
    return [sorted(row, key=lambda o: (o.box_mm[0], o.box_mm[1])) for row in rows]


def name_apart(outlines: Iterable[Outline]) -> list[Outline]:
    """Every outline with a name of its own, in reading order.

    One without a name becomes `shape-1`, `shape-2` …; where names are alike, later ones get `-2`, `-3`.
    """
    named: list[Outline] = []
    taken: set[str] = set()
    unnamed = 0
    for outline in reading_order(outlines):
        name = clean_name(outline.name)
        if not name:
            unnamed += 1
            name = f"shape-{unnamed}"
        own, n = name, 1
        while own in taken:
            n += 1
            own = f"{name}-{n}"
        taken.add(own)
        named.append(Outline(own, outline.rings))
    return named


def clean_name(text: str) -> str:
    """A name without blanks or control characters, and not longer than one can read.

    >>> clean_name(" leek\\nstalk "), clean_name("")
    ('leek-stalk', '')
    """
    return re.sub(r"[\s\x00-\x1f\x7f]+", "-", text.strip())[:LONGEST_NAME]
