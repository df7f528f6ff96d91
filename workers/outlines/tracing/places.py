"""Names of traced shapes by their place on the page, in words: "top-left", "second-row-third-from-left"."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.craft.outlines import Outline
from service.craft.outlines.naming import name_apart, rows_of

NUMBERS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def name_by_place(outlines: Sequence[Outline]) -> tuple[Outline, ...]:
    """Every outline with a name of its own, in reading order, for the maker to rename.

    The third of the page (of the box round all shapes) that its middle lies in, across and down, names each
    shape where no two then have the same name. Otherwise rows count from the top, and shapes in them from the left.
    """
    words = _by_thirds(outlines)
    if len(set(words)) == len(outlines):
        return tuple(name_apart(Outline(word, one.rings) for word, one in zip(words, outlines, strict=True)))
    rows = rows_of(outlines)
    named = [
        Outline(_join(_row_word(nth, len(rows)), _word_in_row(at, len(row))), outline.rings)
        for nth, row in enumerate(rows)
        for at, outline in enumerate(row)
    ]
    return tuple(name_apart(named))


def _by_thirds(outlines: Sequence[Outline]) -> list[str]:
    boxes = np.array([outline.box_mm for outline in outlines])
    middles = (boxes[:, :2] + boxes[:, 2:]) / 2
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    thirds = np.clip((middles - low) * 3 // (high - low), 0, 2).astype(int)
    return [_join(("top", "", "bottom")[y], ("left", "", "right")[x]) for x, y in thirds.tolist()]


def _row_word(nth: int, count: int) -> str:
    """Which row, of so many.

    >>> [_row_word(nth, 3) for nth in range(3)], _row_word(0, 1), _row_word(1, 5)
    (['top', 'middle', 'bottom'], '', 'second-row')
    """
    if count == 1:
        return ""
    if nth in (0, count - 1):
        return "top" if nth == 0 else "bottom"
    if count == 3:
        return "middle"
    return f"{NUMBERS[nth]}-row" if nth < len(NUMBERS) else f"row-{nth + 1}"


def _word_in_row(at: int, count: int) -> str:
    """Which of so many in its row.

    >>> [_word_in_row(at, 3) for at in range(3)], _word_in_row(0, 1), _word_in_row(2, 5)
    (['left', 'middle', 'right'], '', 'third-from-left')
    """
    if count == 1:
        return ""
    if at in (0, count - 1):
        return "left" if at == 0 else "right"
    if count == 3:
        return "middle"
    return f"{NUMBERS[at]}-from-left" if at < len(NUMBERS) else f"place-{at + 1}"


def _join(row: str, place: str) -> str:
    """Both words; of the middle of the middle one is enough, and one shape alone lies there too.

    >>> _join("top", "left"), _join("middle", "middle"), _join("", "")
    ('top-left', 'middle', 'middle')
    """
    if row == place or not (row and place):
        return row or place or "middle"
    return f"{row}-{place}"
