"""Reads how a top is finished: binding, backing and batting."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.finish import BINDING_CUTS, STRAIGHT, Backing, Binding, Finish
from service.craft.reading import Reader, at

DEFAULT_STRIP = Fraction(9, 4)
DEFAULT_BACKING_OVERHANG = Fraction(4)
DEFAULT_BATTING_OVERHANG = Fraction(4)


def read_finish(raw: Mapping[str, Any], reader: Reader) -> Finish:
    """Binding, backing and batting, each only where the document has it."""
    fields = reader.mapping(raw.get("finish", {}), "/finish", 'the "finish"')
    if fields is None:
        return Finish()
    reader.known_fields(fields, "/finish", ("binding", "backing", "batting"))
    batting = _optional(fields, "batting", reader)
    overhang = None
    if batting is not None:
        overhang = reader.optional_length(
            batting, "overhang", "/finish/batting", "the overhang", DEFAULT_BATTING_OVERHANG, zero=True
        )
    return Finish(_read_binding(fields, reader), _read_backing(fields, reader), overhang)


def _optional(raw: Mapping[str, Any], key: str, reader: Reader) -> Mapping[str, Any] | None:
    return None if raw.get(key) is None else reader.mapping(raw[key], at("/finish", key), f'the "{key}"')


def _read_binding(raw: Mapping[str, Any], reader: Reader) -> Binding | None:
    fields, where = _optional(raw, "binding", reader), "/finish/binding"
    if fields is None:
        return None
    reader.known_fields(fields, where, ("fabric", "strip", "cut"))
    fabric = reader.fabric(fields, "fabric", where, "the binding")
    strip = reader.optional_length(fields, "strip", where, "the width of the binding strip", DEFAULT_STRIP)
    cut = reader.choice(fields, "cut", where, BINDING_CUTS, STRAIGHT)
    return None if fabric is None else Binding(fabric, strip, cut)


def _read_backing(raw: Mapping[str, Any], reader: Reader) -> Backing | None:
    fields, where = _optional(raw, "backing", reader), "/finish/backing"
    if fields is None:
        return None
    reader.known_fields(fields, where, ("fabric", "overhang"))
    fabric = reader.fabric(fields, "fabric", where, "the backing")
    overhang = reader.optional_length(
        fields, "overhang", where, "the overhang", DEFAULT_BACKING_OVERHANG, zero=True
    )
    return None if fabric is None else Backing(fabric, overhang)
