"""Writes numbers and lengths back into a document, exactly: what is read again is the same number."""

from __future__ import annotations

from fractions import Fraction

from service.craft.measure.lengths import INCHES_PER, named_unit

MOST_PLACES = 9
"""Decimal places; a number that needs more is written as a fraction."""


def write_number(value: Fraction) -> int | float | str:
    """A number for a document: 2, 1.5, or "4/3" where no decimals say it exactly.

    >>> write_number(Fraction(2)), write_number(Fraction(3, 2)), write_number(Fraction(4, 3))
    (2, 1.5, '4/3')
    """
    if value.denominator == 1:
        return int(value)
    decimals = _decimals(value)
    return float(decimals) if decimals else str(value)


def rewrite_length(written: object, value: Fraction, measure: str) -> object:
    """A length (inches, exact) in place of one written in a document: in the unit that names, or in the measure.

    What says the same already is kept as it is written.

    >>> rewrite_length("3 1/2", Fraction(7), "in"), rewrite_length("89 mm", 2 * Fraction(445, 127), "in")
    ('7', '178 mm')
    >>> rewrite_length(3.5, Fraction(15, 7), "in"), rewrite_length("8.9", Fraction(5, 127), "cm")
    ('2 1/7', '0.1')
    """
    named = named_unit(written)
    unit = named or measure
    text = _write_in(value / INCHES_PER[unit], decimal=unit in ("mm", "cm", "m"))
    return f"{text} {unit}" if named else text


def _write_in(number: Fraction, *, decimal: bool) -> str:
    """Decimals in metric where they are exact; else whole and fraction: `2 1/7`."""
    decimals = _decimals(number) if decimal else ""
    if decimals:
        return decimals
    whole, rest = divmod(number, 1)
    parts = [str(whole)] if whole or not rest else []
    return " ".join([*parts, *([str(rest)] if rest else [])])


def _decimals(number: Fraction) -> str:
    """The number in decimals, without needless zeros, or nothing where it has more than a few."""
    scaled = number * 10**MOST_PLACES
    if scaled.denominator != 1:
        return ""
    whole, rest = divmod(int(scaled), 10**MOST_PLACES)
    places = f"{rest:0{MOST_PLACES}d}".rstrip("0")
    return f"{whole}.{places}" if places else str(whole)
