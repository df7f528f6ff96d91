"""Reads the cloths of a document, with their prices and what is at home already."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.accuracy import THICKNESS
from service.craft.cutting_choices import CuttingChoices
from service.craft.fabric import TRIM_IN_PLACE, Fabric, StashPiece
from service.craft.faults import show
from service.craft.reading import Reader, at
from service.craft.sections.accuracy import read_thickness
from service.craft.sections.cutting import read_buying_step, read_straightening
from service.craft.sections.sold_as import read_sold_as

FABRIC_FIELDS = frozenset(
    [
        *("name", "colour", "usable_width", "directional", "napped", "shrinkage", "straightening"),
        *("buying_step", "price_per_length", "stash", "sold_as", "cut", "thickness", "swatch"),
    ]
)
DEFAULT_WIDTH = Fraction(40)
"""Usable width in inches where a cloth gives none: the safe one.

Sources: onceuponaquilt.blogspot.com; sylviasquiltdepot.com.
"""

LIKE_FABRICS = '{"frost": {"name": "frost white", "colour": "#eef1ee"}}'
MOST_FABRICS = 500
MOST_IN_STASH = 100
"""Different pieces at home of one cloth."""


def read_fabrics(raw: Mapping[str, Any], reader: Reader, choices: CuttingChoices) -> dict[str, Fabric]:
    """The cloths by key; `choices` hold for those that say nothing else.

    A cloth that is faulty is still known by its key, so that its uses are not faults too.
    """
    where = "/fabrics" if "fabrics" in raw else ""
    listed = reader.mapping(raw.get("fabrics"), where, 'the list of "fabrics"', like=LIKE_FABRICS)
    reader.fabric_keys = tuple(listed or ())
    if listed and len(listed) > MOST_FABRICS:
        reader.fault("/fabrics", f"there are more than {MOST_FABRICS} cloths", "the cloths of one project")
        listed = {}
    read = {key: _read_fabric(key, value, reader, choices) for key, value in (listed or {}).items()}
    return {key: fabric for key, fabric in read.items() if fabric is not None}


def _read_fabric(key: str, raw: Any, reader: Reader, choices: CuttingChoices) -> Fabric | None:
    where = at("/fabrics", key)
    fields = reader.mapping(raw, where, "a cloth")
    if fields is None:
        return None
    reader.known_fields(fields, where, FABRIC_FIELDS)
    cut = reader.choice(fields, "cut", where, (TRIM_IN_PLACE, "on the mat"), "on the mat")
    width = reader.optional_length(fields, "usable_width", where, "the usable width", DEFAULT_WIDTH)
    shrinkage = reader.number(
        fields, "shrinkage", where, default=Fraction(0), least=Fraction(0), most=Fraction(1, 2)
    )
    return Fabric(
        key=key,
        name=reader.text(fields, "name", where, default=key, longest=200) or key,
        colour=reader.colour(fields, where),
        usable_width=width,
        directional=reader.flag(fields, "directional", where),
        shrinkage=shrinkage,
        price=_read_price(fields, where, reader),
        stash=_read_stash(fields, where, reader),
        sold_as=read_sold_as(fields, where, reader, width),
        trim_in_place=cut == TRIM_IN_PLACE,
        napped=reader.flag(fields, "napped", where),
        straightening=read_straightening(fields, where, reader, choices.straightening),
        buying_step=read_buying_step(fields, where, reader, choices.buying_step),
        thickness=read_thickness(fields, where, reader, THICKNESS),
        swatch=reader.text(fields, "swatch", where, default="", longest=200) or "",
    )


def _read_price(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[Fraction, Fraction] | None:
    if raw.get("price_per_length") is None:
        return None
    where = at(pointer, "price_per_length")
    fields = reader.mapping(raw["price_per_length"], where, "the price")
    if fields is None:
        return None
    amount = reader.number(
        fields, "amount", where, default=Fraction(0), least=Fraction(0), most=Fraction(100_000)
    )
    per = reader.length(fields.get("per"), at(where, "per"), "the length the price is for")
    return None if per is None else (amount, per)


def _read_stash(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[StashPiece, ...]:
    where = at(pointer, "stash")
    pieces = []
    listed = reader.sequence(raw.get("stash", []), where, 'the list "stash"') or []
    if len(listed) > MOST_IN_STASH:
        reader.fault(
            where, f'"stash" names {len(listed)} sizes', f"{MOST_IN_STASH} at most, the largest pieces"
        )
        listed = []
    for i, entry in enumerate(listed):
        fields = reader.mapping(entry, at(where, i), "a stash piece")
        if fields is None:
            continue
        width = reader.length(fields.get("width"), at(where, i, "width"), "the width of the stash piece")
        length = reader.length(fields.get("length"), at(where, i, "length"), "the length of the stash piece")
        count = reader.number(
            fields, "count", at(where, i), default=Fraction(1), least=Fraction(1), most=Fraction(10_000)
        )
        if count.denominator != 1:
            reader.fault(
                at(where, i, "count"), f'"count" is {show(fields["count"])}', "a whole number of pieces"
            )
        if width is not None and length is not None:
            pieces.append(StashPiece(width, length, int(count)))
    return tuple(pieces)
