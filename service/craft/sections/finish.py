"""Reads how a top is finished: binding, backing, batting and a sleeve to hang it by."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.cutting_choices import DIAGONAL_JOIN, STRAIGHT_JOIN
from service.craft.finish import (
    BACKING_SEAMS,
    BINDING_CUTS,
    BINDING_EXTRA,
    BINDING_FOLDS,
    BINDING_JOINS,
    DOUBLE,
    HORIZONTAL,
    LAYERS,
    LEAST,
    SINGLE,
    STRAIGHT,
    Backing,
    Binding,
    Finish,
    Sleeve,
)
from service.craft.measure import Exact, format_length
from service.craft.reading import Reader, at

DEFAULT_STRIP = {DOUBLE: Fraction(9, 4), SINGLE: Fraction(2)}
DEFAULT_BACKING_OVERHANG = Fraction(4)
DEFAULT_BATTING_OVERHANG = Fraction(4)
DEFAULT_SLEEVE_DEPTH = Fraction(4)
"""Inches: 2 1/4 in [quiltsbyjen.ca] and, for a single fold, 2 in [sew-whats-new.com, M. Lewis] of binding; overhangs
of 4 in on each side [sewingwithstitcher.com]; a sleeve of 4 in is common practice, no source."""

NARROWEST_HUNG = Fraction(6)
"""Inches; what is narrower has no room for a sleeve, which ends before the corners."""

BINDING_FIELDS = ("fabric", "strip", "finished", "fold", "turn", "cut", "join", "extra")


def read_finish(raw: Mapping[str, Any], reader: Reader) -> Finish:
    """Binding, backing, batting and sleeve, each only where the document has it."""
    fields = reader.mapping(raw.get("finish", {}), "/finish", 'the "finish"')
    if fields is None:
        return Finish()
    reader.known_fields(fields, "/finish", ("binding", "backing", "batting", "sleeve"))
    batting = _optional(fields, "batting", reader)
    overhang = None
    if batting is not None:
        reader.known_fields(batting, "/finish/batting", ("overhang",))
        overhang = reader.optional_length(
            batting, "overhang", "/finish/batting", "the overhang", DEFAULT_BATTING_OVERHANG, zero=True
        )
    return Finish(
        _read_binding(fields, reader), _read_backing(fields, reader), overhang, _read_sleeve(fields, reader)
    )


def check_sleeve(finish: Finish, width: Exact, height: Exact, reader: Reader) -> None:
    """A top of that finished size (inches) has room for its sleeve."""
    if finish.sleeve is None:
        return
    if width < NARROWEST_HUNG:
        least, wide = (format_length(v, reader.measure) for v in (NARROWEST_HUNG, width))
        reader.fault(
            "/finish/sleeve", f"the top is {wide} wide", f"a top at least {least} wide, or no sleeve"
        )
    if finish.sleeve.depth >= height:
        deep, high = (format_length(v, reader.measure) for v in (finish.sleeve.depth, height))
        reader.fault(
            "/finish/sleeve/depth",
            f"the sleeve is {deep} deep, and the top {high} high",
            "a sleeve less deep than the top is high",
        )


def _optional(raw: Mapping[str, Any], key: str, reader: Reader) -> Mapping[str, Any] | None:
    return None if raw.get(key) is None else reader.mapping(raw[key], at("/finish", key), f'the "{key}"')


def _read_binding(raw: Mapping[str, Any], reader: Reader) -> Binding | None:
    fields, where = _optional(raw, "binding", reader), "/finish/binding"
    if fields is None:
        return None
    reader.known_fields(fields, where, BINDING_FIELDS)
    fabric = reader.fabric(fields, "fabric", where, "the binding")
    fold = reader.choice(fields, "fold", where, BINDING_FOLDS, DOUBLE)
    strip, finished = _read_strip(fields, fold, reader)
    cut = reader.choice(fields, "cut", where, BINDING_CUTS, STRAIGHT)
    join = reader.choice(fields, "join", where, BINDING_JOINS, DIAGONAL_JOIN)
    if cut != STRAIGHT and join == STRAIGHT_JOIN:
        reader.fault(
            at(where, "join"),
            "strips cut on the bias end on the slant",
            f'"{DIAGONAL_JOIN}", or "cut": "{STRAIGHT}"',
        )
    extra = reader.optional_length(
        fields, "extra", where, "what is added to the way round", BINDING_EXTRA, zero=True
    )
    return None if fabric is None else Binding(fabric, strip, cut, join, fold, extra, finished)


def _read_strip(raw: Mapping[str, Any], fold: str, reader: Reader) -> tuple[Fraction, Fraction | None]:
    """The width to cut, and the finished width where the document gives that instead."""
    where = "/finish/binding"
    if raw.get("finished") is None:
        if raw.get("turn") is not None:
            reader.fault(
                at(where, "turn"),
                '"turn" is added to a strip worked out from "finished"',
                '"finished" beside it',
            )
        strip = reader.optional_length(
            raw, "strip", where, "the width of the binding strip", DEFAULT_STRIP[fold]
        )
        return strip, None
    if raw.get("strip") is not None:
        reader.fault(
            at(where, "strip"),
            'the binding has a "strip" and a "finished" width',
            "one of them: each gives the other",
        )
    finished = reader.length(raw["finished"], at(where, "finished"), "the finished width of the binding")
    turn = reader.optional_length(
        raw, "turn", where, "what the fold of the binding takes up", Fraction(0), zero=True
    )
    if turn and fold == SINGLE:
        reader.fault(at(where, "turn"), "a single fold takes nothing up", f'"fold": "{DOUBLE}", or no "turn"')
    return (DEFAULT_STRIP[fold] if finished is None else LAYERS[fold] * finished + turn), finished


def _read_backing(raw: Mapping[str, Any], reader: Reader) -> Backing | None:
    fields, where = _optional(raw, "backing", reader), "/finish/backing"
    if fields is None:
        return None
    reader.known_fields(fields, where, ("fabric", "overhang", "seams"))
    fabric = reader.fabric(fields, "fabric", where, "the backing")
    overhang = reader.optional_length(
        fields, "overhang", where, "the overhang", DEFAULT_BACKING_OVERHANG, zero=True
    )
    seams = reader.choice(fields, "seams", where, BACKING_SEAMS, LEAST)
    if fabric is None:
        return None
    cloth = reader.fabrics.get(fabric)
    if seams == HORIZONTAL and cloth is not None and cloth.one_way:
        what = "print" if cloth.directional else "pile"
        reader.fault(
            at(where, "seams"),
            f'the {what} of "{cloth.name}" has a direction and would lie on its side',
            '"along the length", or a cloth without a direction',
        )
    return Backing(fabric, overhang, seams)


def _read_sleeve(raw: Mapping[str, Any], reader: Reader) -> Sleeve | None:
    fields, where = _optional(raw, "sleeve", reader), "/finish/sleeve"
    if fields is None:
        return None
    reader.known_fields(fields, where, ("fabric", "depth"))
    fabric = reader.fabric(fields, "fabric", where, "the sleeve")
    depth = reader.optional_length(fields, "depth", where, "the depth of the sleeve", DEFAULT_SLEEVE_DEPTH)
    return None if fabric is None else Sleeve(fabric, depth)
