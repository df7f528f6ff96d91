"""Lengths from the plans as they are printed: the document's measure first, the other one beside it.

Viewers who asked for inches or metric alone get that alone (`service.craft.audience`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from service.craft.audience import AS_WRITTEN, INCH, METRIC, current_audience
from service.craft.language import phrase, say_number
from service.craft.measure import format_label, format_other, length_object, round_to_ruler


@dataclass(frozen=True)
class Shown:
    """A length or size in words, and the same in the other measure; both empty where there is none."""

    main: str = ""
    second: str = ""

    def __bool__(self) -> bool:
        return bool(self.main)


def show_length(length: Any, measure: str) -> Shown:
    """A *length* of the plans (`text`, `inches`, `mm`), or any plain text or number as it is.

    >>> show_length({"text": "3 1/2 in", "inches": 3.5, "mm": 88.9}, "in")
    Shown(main='3 1/2 in', second='88.9 mm')
    >>> show_length({"text": "89 mm", "inches": 3.503937, "mm": 89.0}, "mm").second
    'about 3 1/2 in'
    >>> show_length(None, "in")
    Shown(main='', second='')
    """
    if not isinstance(length, Mapping):
        return Shown("" if length is None else str(length))
    if "inches" not in length:
        return Shown(str(length.get("text", "")))
    inches, units = Fraction(str(length["inches"])), current_audience().units
    # the plan's own words know the exact length, where a number of six decimals may fall to the other side of a mark
    main = str(length["text"]) if units == AS_WRITTEN else format_label(inches, measure)
    return Shown(main, "" if units in (INCH, METRIC) else format_other(inches, measure))


def show_size(width: Any, height: Any, measure: str, *, square: bool = True) -> Shown:
    """Two lengths as one size, the unit said once; equal sides as "3 in square" unless `square` is false.

    >>> two = {"text": "2 in", "inches": 2.0, "mm": 50.8}
    >>> show_size(two, {"text": "3 1/2 in", "inches": 3.5, "mm": 88.9}, "in")
    Shown(main='2 × 3 1/2 in', second='50.8 × 88.9 mm')
    >>> show_size(two, two, "in").main
    '2 in square'
    """
    one, other = show_length(width, measure), show_length(height, measure)
    if one == other and one and square:
        return Shown(_say_square(one.main), _say_square(one.second) if one.second else "")
    main, second = _join(one.main, other.main), _join(one.second, other.second)
    if measure != "in" or current_audience().units == INCH:
        return Shown(main, second)
    metric = _metric_pair(width, height)
    return Shown(metric or main) if current_audience().units == METRIC else Shown(main, metric or second)


def _say_square(side: str) -> str:
    return phrase("{side} square", side=side)


def round_length(length: Any, measure: str) -> Any:
    """A length to what a ruler shows (1/16 in, or a millimetre); what is no length stays what it is.

    >>> round_length({"text": "28 13/64 in", "inches": 28.203125, "mm": 716.36}, "in")["text"]
    '28 3/16 in'
    """
    if not isinstance(length, Mapping) or "inches" not in length:
        return length
    return length_object(round_to_ruler(Fraction(str(length["inches"])), measure), measure)


def read_inches(length: Any) -> float:
    """A length's inches as a number, 0 where there are none."""
    return float(length.get("inches", 0)) if isinstance(length, Mapping) else 0.0


def _metric_pair(width: Any, height: Any) -> str:
    """Both sides in centimetres as soon as one is 10 cm or more; empty where one is no length."""
    if not all(isinstance(side, Mapping) and "mm" in side for side in (width, height)):
        return ""
    sides = [float(side["mm"]) for side in (width, height)]
    unit, factor = ("cm", 10.0) if max(sides) >= 100 else ("mm", 1.0)
    numbers = (say_number(float(f"{side / factor:.1f}")) for side in sides)
    return f"{' × '.join(numbers)} {unit}"


def _join(one: str, other: str) -> str:
    if not (one and other):
        return one or other
    about = phrase("about {length}", length="")
    number, _, unit = one.rpartition(" ")
    same = unit and other.endswith(f" {unit}")
    return f"{number if same else one} × {other.removeprefix(about) if same else other}"
