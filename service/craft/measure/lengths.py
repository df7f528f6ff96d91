r"""Lengths in trade notation and metric: read exactly, written as a maker writes them.

A length in a document is a string ("3 1/2", "3-1/2", "3½", "3.5", "3 1/2 in", "89 mm", "8.9 cm") or a number
in the document's measure. 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from math import isfinite
from typing import TypedDict

from service.craft.audience import BOTH, INCH, METRIC, current_audience
from service.craft.faults import show
from service.craft.language import decimal_mark, phrase
from service.craft.measure.exact import Exact, Number
from service.craft.measure.rounding import round_nearest

MM_PER_INCH = Fraction(127, 5)

INCHES_PER: dict[str, Fraction] = {
    "in": Fraction(1),
    "mm": 1 / MM_PER_INCH,
    "cm": 10 / MM_PER_INCH,
    "m": 1000 / MM_PER_INCH,
    "yd": Fraction(36),
}
"""Inches in one of each unit a document may use."""

UNIT_WORDS = {
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "”": "in",
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "yd": "yd",
}

MEASURES = ("in", "mm", "cm")
"""What a document may be written in."""

PRINT_STEP = Fraction(1, 64)
"""Inches are written to the nearest 1/64, finer than any ruler: only a diagonal ever needs the rounding."""

RULER_MARKS = {"in": Fraction(1, 16), "mm": 1 / MM_PER_INCH, "cm": 1 / MM_PER_INCH}
"""The finest marks of a sewing ruler in each measure, in inches: common practice, no source."""

RULER_SLACK = Fraction(1, 1000)
"""Inches: nobody sees on a ruler that a length is off a mark by less."""

LONGEST_TEXT = 40

PATTERN = re.compile(
    r"""(?P<whole>\d+)?
        (?:(?P<decimal>\.\d+)
          |(?:(?:^|(?<=\d)[ -])(?P<over>\d+)/(?P<under>\d+)))?
        \ ?(?P<unit>inches|inch|in|mm|cm|m|yd|"|″|”)?""",
    re.VERBOSE | re.ASCII,
)

RIGHT = 'a length such as "3 1/2", "3.5", "3½ in", "89 mm" or "8.9 cm"'


class Length(TypedDict):
    """A length in an answer."""

    text: str
    inches: float
    mm: float


class NotALength(ValueError):
    """What was given cannot be read as a length; the message says why."""


def parse_length(value: object, measure: str) -> Fraction:
    """A length in inches, exactly, from a string or a number in the document's `measure` (in, mm or cm).

    >>> [str(parse_length(t, "in")) for t in ("3 1/2", "3-1/2", "3½", "3.5", 3.5, "3 1/2 in", "89 mm", "8.9 cm")]
    ['7/2', '7/2', '7/2', '7/2', '7/2', '7/2', '445/127', '445/127']
    >>> parse_length("1/0", "in")
    Traceback (most recent call last):
    ...
    service.craft.measure.lengths.NotALength: "1/0" divides by zero
    """
    if isinstance(value, bool) or not isinstance(value, str | int | float | Fraction):
        raise NotALength(f"{show(value)} is not a length")
    if not isinstance(value, str):
        return _from_number(value) * INCHES_PER[measure]
    number, unit = _from_text(value)
    return number * INCHES_PER[unit or measure]


def named_unit(value: object) -> str:
    """The unit a length in a document names (in, mm, cm, m or yd), or nothing where it is in the document's measure.

    >>> named_unit("3 1/2″"), named_unit("8.9 cm"), named_unit("3"), named_unit(3)
    ('in', 'cm', '', '')
    """
    return _from_text(value)[1] if isinstance(value, str) else ""


def _from_number(value: float | Fraction) -> Fraction:
    if isinstance(value, float):
        if not isfinite(value):
            raise NotALength(f"{value!r} is not a finite number")
        # a JSON number is written in decimals: take the decimals, not the nearest binary fraction
        return Fraction(repr(value))
    return Fraction(value)


def _from_text(text: str) -> tuple[Fraction, str]:
    plain = _plain(text)
    found = PATTERN.fullmatch(plain) if len(plain) <= LONGEST_TEXT else None
    if found is None or not (found["whole"] or found["decimal"] or found["over"]):
        raise NotALength(f"{show(text)} is not a length")
    if found["under"] is not None and int(found["under"]) == 0:
        raise NotALength(f"{show(text)} divides by zero")
    number = Fraction(int(found["whole"] or 0))
    if found["decimal"]:
        number += Fraction("0" + found["decimal"])
    if found["over"]:
        number += Fraction(int(found["over"]), int(found["under"]))
    return number, UNIT_WORDS[found["unit"]] if found["unit"] else ""


def _plain(text: str) -> str:
    """Vulgar fractions, fraction slashes and odd spaces as plain characters; other signs stay what they are."""
    plain = "".join(map(_plain_sign, text)).replace("⁄", "/").replace("–", "-").lower()
    return re.sub(r"\s*/\s*", "/", re.sub(r"\s+", " ", plain).strip()).replace("- ", "-")


def _plain_sign(sign: str) -> str:
    if sign.isascii() or "FRACTION" not in unicodedata.name(sign, "") or unicodedata.category(sign) != "No":
        return sign
    return " " + unicodedata.normalize("NFKC", sign)


def format_inches(value: Number) -> str:
    """Inches as a maker writes them: `3 1/2 in`, `7/8 in`, `12 in`; to the nearest 1/64.

    >>> format_inches(Fraction(7, 2)), format_inches(Fraction(7, 8)), format_inches(0), format_inches(Fraction(-9, 8))
    ('3 1/2 in', '7/8 in', '0 in', '-1 1/8 in')
    """
    return phrase("{number} in", number=write_inches(value))


def write_inches(value: Number) -> str:
    """The number of `format_inches` without its unit.

    >>> write_inches(Fraction(7, 2))
    '3 1/2'
    """
    near = round_nearest(value, PRINT_STEP)
    whole, rest = divmod(abs(near), 1)
    parts = [str(whole)] if whole or not rest else []
    parts += [f"{rest.numerator}/{rest.denominator}"] if rest else []
    return ("-" if near < 0 else "") + " ".join(parts)


def format_mm(value: Number) -> str:
    """The same length (given in inches) in millimetres, or centimetres from 10 cm up: `89 mm`, `31.8 cm`.

    >>> format_mm(Fraction(7, 2)), format_mm(Fraction(25, 2)), format_mm(Fraction(1, 4))
    ('88.9 mm', '31.8 cm', '6.4 mm')
    >>> from service.craft.audience import Audience, writing_for
    >>> with writing_for(Audience(language="nl")):
    ...     format_mm(Fraction(25, 2)), format_inches(Fraction(7, 2))
    ('31,8 cm', '3 1/2 inch')
    """
    tenths = round_nearest(value * MM_PER_INCH, Fraction(1, 10))
    if abs(tenths) < 100:
        return f"{_one_place(tenths)} mm"
    return f"{_one_place(round_nearest(value * MM_PER_INCH / 10, Fraction(1, 10)))} cm"


def _one_place(number: Fraction) -> str:
    whole, tenth = divmod(abs(number) * 10, 10)
    return ("-" if number < 0 else "") + f"{whole}" + (f"{decimal_mark()}{tenth}" if tenth else "")


def format_length(value: Number, measure: str) -> str:
    """A length (inches) as text in what its readers measure with: the document's measure, if nothing else is asked for.

    >>> from service.craft.audience import Audience, writing_for
    >>> with writing_for(Audience(BOTH)):
    ...     format_length(Fraction(7, 2), "in"), format_length(Fraction(7, 2), "cm")
    ('3 1/2 in (88.9 mm)', '88.9 mm (3 1/2 in)')
    """
    label = format_label(value, measure)
    return f"{label} ({format_other(value, measure)})" if current_audience().units == BOTH else label


def format_label(value: Number, measure: str) -> str:
    """A length (inches) as `format_length` says it, in one measure alone: for drawings and tables, where room is short.

    >>> from service.craft.audience import Audience, writing_for
    >>> with writing_for(Audience(INCH)):
    ...     format_label(Fraction(7, 2), "mm"), format_label(Fraction(1, 10), "mm")
    ('3 1/2 in', 'about 1/8 in')
    """
    units, inches = current_audience().units, measure == "in"
    if units in (INCH, METRIC) and (units == INCH) != inches:
        return format_other(value, measure)
    return format_inches(value) if inches else format_mm(value)


def format_other(value: Number, measure: str) -> str:
    """A length (inches) in the measure that its document does not use; inches to the marks of a ruler.

    >>> format_other(Fraction(7, 2), "in"), format_other(89 / MM_PER_INCH, "mm")
    ('88.9 mm', 'about 3 1/2 in')
    """
    if measure == "in":
        return format_mm(value)
    near, exactly = near_ruler(value)
    return format_inches(near) if exactly else phrase("about {length}", length=format_inches(near))


def near_ruler(value: Number) -> tuple[Fraction, bool]:
    """The nearest inches that a ruler, or a finer one under its first mark, shows; and whether they are exact.

    >>> near_ruler(Fraction(7, 2)), near_ruler(89 / MM_PER_INCH)
    ((Fraction(7, 2), True), (Fraction(7, 2), False))
    """
    mark = RULER_MARKS["in"]
    near = round_nearest(value, PRINT_STEP if -mark < value < mark else mark)
    return near, -RULER_SLACK < near - value < RULER_SLACK


def length_object(value: Number, measure: str) -> Length:
    """A length (inches) as it stands in every answer.

    >>> length_object(Fraction(7, 2), "in")
    {'text': '3 1/2 in', 'inches': 3.5, 'mm': 88.9}
    """
    mm = value * MM_PER_INCH if isinstance(value, Exact) else Fraction(value) * MM_PER_INCH
    return {
        "text": format_length(value, measure),
        "inches": round(float(value), 6),
        "mm": round(float(mm), 4),
    }


def round_to_ruler(value: Number, measure: str) -> Fraction:
    """The nearest length (inches) that a sewing ruler has a mark for.

    >>> round_to_ruler(Fraction(509, 64), "in"), round_to_ruler(Fraction(75, 254), "mm") * MM_PER_INCH
    (Fraction(127, 16), Fraction(8, 1))
    """
    return round_nearest(value, RULER_MARKS[measure])
