"""Texts that are nearly a length: what they say, or what would make one of them."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from service.craft.measure.lengths import RIGHT, NotALength, parse_length


def read_negative(raw: Any, measure: str) -> Fraction | None:
    """What a text with a minus before a length says, in inches; None where it is no such text."""
    if not isinstance(raw, str) or not raw.strip().startswith("-"):
        return None
    try:
        return -parse_length(raw.strip()[1:], measure)
    except NotALength:
        return None


def right_length(raw: Any, measure: str) -> str:
    """What would be right instead of a text that is no length: the same with a point, where that makes it one."""
    if isinstance(raw, str) and raw.count(",") == 1:
        with_point = raw.strip().replace(",", ".")
        try:
            parse_length(with_point, measure)
        except NotALength:
            return RIGHT
        return f'"{with_point}", with a point'
    return RIGHT
