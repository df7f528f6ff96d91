"""How many of what, in words."""

from __future__ import annotations


def count_of(number: int, word: str) -> str:
    """A number with its word.

    >>> count_of(1, "speck"), count_of(1200, "flat patch")
    ('1 speck', '1,200 flat patches')
    """
    plural = f"{word}es" if word.endswith("ch") else f"{word}s"
    return f"1 {word}" if number == 1 else f"{number:,} {plural}"
