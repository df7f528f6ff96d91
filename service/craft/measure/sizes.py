"""Two lengths as one size, the unit said once."""

from __future__ import annotations

from fractions import Fraction

from service.craft.audience import BOTH, INCH, METRIC, current_audience
from service.craft.language import decimal_mark, phrase
from service.craft.measure.exact import Number
from service.craft.measure.lengths import MM_PER_INCH, format_inches, format_mm, near_ruler, write_inches
from service.craft.measure.rounding import round_nearest


def format_size(width: Number, height: Number, measure: str, *, by: str = "") -> str:
    """A width and a height (inches) in what their readers measure with, as `format_length` says one of them.

    `by` stands between them, where none is given the word for it. Millimetres and centimetres never stand beside one
    unit: who reads "50.8 by 10.2 cm" cuts half a metre.

    >>> from service.craft.audience import Audience, writing_for
    >>> format_size(2, 4, "in"), format_size(2, 4, "cm", by="×")
    ('2 by 4 in', '5.1 × 10.2 cm')
    >>> with writing_for(Audience(BOTH)):
    ...     format_size(2, Fraction(7, 2), "in"), format_size(2, Fraction(7, 2), "mm")
    ('2 by 3 1/2 in (50.8 by 88.9 mm)', '50.8 by 88.9 mm (2 by 3 1/2 in)')
    """
    units, between = current_audience().units, by or phrase("by")
    as_inches, as_metric = _in_inches(width, height, measure, between), _in_metric(width, height, between)
    main, other = (as_inches, as_metric) if measure == "in" else (as_metric, as_inches)
    if units == BOTH:
        return f"{main} ({other})"
    return {INCH: as_inches, METRIC: as_metric}.get(units, main)


def _in_inches(width: Number, height: Number, measure: str, by: str) -> str:
    """Of a metric document to the marks of a ruler, with "about" once where one is not exact."""
    if measure == "in":
        return f"{write_inches(width)} {by} {format_inches(height)}"
    (one, one_exactly), (other, other_exactly) = near_ruler(width), near_ruler(height)
    size = f"{write_inches(one)} {by} {format_inches(other)}"
    return size if one_exactly and other_exactly else phrase("about {length}", length=size)


def _in_metric(width: Number, height: Number, by: str) -> str:
    one, other = format_mm(width), format_mm(height)
    unit = other.rpartition(" ")[2]
    if one.endswith(f" {unit}"):
        return f"{one.removesuffix(f' {unit}')} {by} {other}"
    sides = (round_nearest(side * MM_PER_INCH / 10, Fraction(1, 10)) for side in (width, height))
    numbers = (f"{float(side):.1f}".removesuffix(".0").replace(".", decimal_mark()) for side in sides)
    return f" {by} ".join(numbers) + " cm"
