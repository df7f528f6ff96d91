"""Reads the pieces a cloth is sold in, cut already, with the sizes that their names stand for."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.fabric import SoldAs
from service.craft.measure.lengths import RIGHT
from service.craft.reading import Reader, at

FIELDS = frozenset({"name", "width", "length", "price"})

FAT_QUARTER, FAT_EIGHTH, SQUARE, STRIP = "fat quarter", "fat eighth", "square", "strip"

SIZES: dict[str, tuple[Fraction | None, Fraction | None]] = {
    FAT_QUARTER: (Fraction(21), Fraction(18)),
    FAT_EIGHTH: (Fraction(21), Fraction(9)),
}
"""Width across the cloth and length along it, in inches, where a document says only the name: the safe ones.

A fat quarter is published as 18 x 22 (quilterscache.com, sew4home.com) and as 18 x 21, a fat eighth as 9 x 21
(allpeoplequilt.com 2017-02-13): the smaller is what is left within the selvage. Metric ones, 50 x 55 cm, are larger
(from memory).
"""

STRIP_LENGTH = Fraction(5, 2)
"""Inches along the cloth of a strip sold by that name, as wide as its cloth: rolls of 2 1/2 in strips (Nebraska
Extension 4-H fair book; 1 1/2 in is sold as well and must be said)."""


def read_sold_as(
    raw: Mapping[str, Any], pointer: str, reader: Reader, usable_width: Fraction
) -> SoldAs | None:
    """The piece a cloth is sold as; None where it comes from the roll."""
    if raw.get("sold_as") is None:
        return None
    where = at(pointer, "sold_as")
    fields = reader.mapping(raw["sold_as"], where, 'what the cloth is "sold_as"')
    if fields is None:
        return None
    reader.known_fields(fields, where, FIELDS)
    name = reader.name(fields, "name", where)
    width, length = _read_size(fields, where, reader, name or "", usable_width)
    price = reader.number(
        fields, "price", where, default=Fraction(-1), least=Fraction(0), most=Fraction(100_000)
    )
    if name is None or width is None or length is None:
        return None
    return SoldAs(name, width, length, None if price < 0 else price)


def _read_size(
    fields: Mapping[str, Any], where: str, reader: Reader, name: str, usable_width: Fraction
) -> tuple[Fraction | None, Fraction | None]:
    """Width and length as they stand, or as the name has them; each one that is missing is a fault."""
    known = {**SIZES, STRIP: (usable_width, STRIP_LENGTH)}.get(name, (None, None))
    width, length = (
        _read_side(fields, key, where, reader, name, default)
        for key, default in zip(("width", "length"), known, strict=True)
    )
    return (width or length, length or width) if name == SQUARE else (width, length)


def _read_side(
    fields: Mapping[str, Any], key: str, where: str, reader: Reader, name: str, default: Fraction | None
) -> Fraction | None:
    if fields.get(key) is not None:
        return reader.length(fields[key], at(where, key), f"the {key} of the piece")
    one_side = name == SQUARE and any(fields.get(side) is not None for side in ("width", "length"))
    if default is None and name and not one_side:
        right = "10 in, 5 in or 2 1/2 in, as it is sold" if name == SQUARE else RIGHT
        reader.fault(where, f'"{name}" says no size, and "{key}" is missing', right)
    return default
