"""Reads the colourways of a document: other cloths for the same project."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from service.craft.fabric import Fabric
from service.craft.faults import show
from service.craft.finish import Colourway
from service.craft.reading import Reader, at
from service.craft.sections.sold_as import read_sold_as

SAME_AS = "same_as"
QUANTITIES = ("usable_width", "shrinkage", "directional", "napped", "sold_as")
"""What of a cloth decides how much is bought of it."""

CHANGES = frozenset(["name", "colour", "swatch", SAME_AS, *QUANTITIES])


def read_colourways(raw: Mapping[str, Any], reader: Reader) -> tuple[Colourway, ...]:
    """The colourways; a field that a changed cloth leaves out stays what it is in the design."""
    found = []
    listed = reader.sequence(raw.get("colourways", []), "/colourways", 'the list "colourways"') or []
    for i, entry in enumerate(listed):
        where = at("/colourways", i)
        fields = reader.mapping(entry, where, "a colourway")
        if fields is None:
            continue
        name = reader.name(fields, "name", where)
        raw_cloths = fields.get("fabrics")
        changes = reader.mapping(raw_cloths, at(where, "fabrics"), "the cloths of the colourway") or {}
        colourway = _read_changes(name or "", changes, at(where, "fabrics"), reader)
        if name:
            found.append(colourway)
    return tuple(found)


def _read_changes(name: str, changes: Mapping[str, Any], where: str, reader: Reader) -> Colourway:
    colours, names, cloths, swatches = {}, {}, {}, {}
    for key, change in _known(changes, where, reader):
        inside = at(where, key)
        reader.known_fields(change, inside, CHANGES)
        if "colour" in change:
            colours[key] = reader.colour(change, inside)
        if "colour" in change or "swatch" in change:
            # another colour is another cloth: the design's photograph does not show it
            swatches[key] = reader.text(change, "swatch", inside, default="", longest=200) or ""
        names[key] = reader.text(change, "name", inside, default="", longest=200) or ""
        if change.keys() & set(QUANTITIES) and key in reader.fabrics:
            cloths[key] = _change_cloth(reader.fabrics[key], change, inside, reader)
    return Colourway(name, colours, names, cloths, dict(_read_merges(changes, where, reader)), swatches)


def _known(changes: Mapping[str, Any], where: str, reader: Reader) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """The changes to cloths that there are."""
    for key, value in changes.items():
        inside = at(where, key)
        change = reader.mapping(value, inside, "the changed cloth")
        if reader.fabric_name(key, inside, "the colourway") and change is not None:
            yield key, change


def _change_cloth(cloth: Fabric, change: Mapping[str, Any], where: str, reader: Reader) -> Fabric:
    """The cloth with what the colourway says of it. What is at home is the cloth of the design, not this one."""
    width = reader.optional_length(change, "usable_width", where, "the usable width", cloth.usable_width)
    most = Fraction(1, 2)
    return replace(
        cloth,
        usable_width=width,
        shrinkage=reader.number(
            change, "shrinkage", where, default=cloth.shrinkage, least=Fraction(0), most=most
        ),
        directional=reader.flag(change, "directional", where, default=cloth.directional),
        napped=reader.flag(change, "napped", where, default=cloth.napped),
        sold_as=read_sold_as(change, where, reader, width) if "sold_as" in change else cloth.sold_as,
        stash=(),
    )


def _read_merges(changes: Mapping[str, Any], where: str, reader: Reader) -> Iterator[tuple[str, str]]:
    """Which cloths are cut from another one here: from one that is a cloth of its own in the same colourway."""
    merged = {key for key, change in changes.items() if isinstance(change, Mapping) and SAME_AS in change}
    for key in sorted(merged & set(reader.fabric_keys), key=list(changes).index):
        inside = at(where, key)
        other, beside = changes[key][SAME_AS], sorted((changes[key].keys() & CHANGES) - {SAME_AS})
        for field in beside:
            right = f'leave it out, or leave "{SAME_AS}" out'
            reader.fault(at(inside, field), f'"{key}" is the same cloth as {show(other)} here', right)
        if reader.fabric_name(other, at(inside, SAME_AS), "the colourway") is None:
            continue
        if other in merged:
            reader.fault(
                at(inside, SAME_AS),
                f"{show(other)} is itself the same as another cloth here",
                "a cloth that stays one of its own in this colourway",
            )
        else:
            yield key, other
