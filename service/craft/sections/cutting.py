"""Reads what a document chooses about cutting, for all its cloths or for one."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.cutting_choices import (
    BUYING_STEPS,
    DEFAULT_STEP,
    DEFAULT_STRAIGHTENING,
    JOINS,
    MOST_STRAIGHTENING,
    PLANS,
    STRAIGHT_JOIN,
    WORTH_KEEPING,
    CuttingChoices,
)
from service.craft.reading import Reader, at

FIELDS = frozenset({"plan", "join", "buying_step", "straightening", "worth_keeping", "stacked"})


def read_cutting(raw: Mapping[str, Any], reader: Reader) -> CuttingChoices:
    """The choices of the section "cutting", each with its default where the document leaves it out."""
    where = "/cutting"
    fields = reader.mapping(raw.get("cutting", {}), where, 'the section "cutting"') or {}
    reader.known_fields(fields, where, FIELDS)
    return CuttingChoices(
        plan=reader.choice(fields, "plan", where, PLANS, "") if "plan" in fields else "",
        join=reader.choice(fields, "join", where, JOINS, STRAIGHT_JOIN),
        buying_step=read_buying_step(fields, where, reader, BUYING_STEPS[DEFAULT_STEP[reader.measure]]),
        straightening=read_straightening(fields, where, reader, DEFAULT_STRAIGHTENING[reader.measure]),
        worth_keeping=reader.optional_length(
            fields, "worth_keeping", where, "the side of a piece worth keeping", WORTH_KEEPING
        ),
        stacked=reader.flag(fields, "stacked", where),
    )


def read_buying_step(raw: Mapping[str, Any], pointer: str, reader: Reader, default: Fraction) -> Fraction:
    """Inches in the step a shop cuts cloth in."""
    if "buying_step" not in raw:
        return default
    word = reader.choice(raw, "buying_step", pointer, tuple(BUYING_STEPS), DEFAULT_STEP[reader.measure])
    return BUYING_STEPS[word]


def read_straightening(raw: Mapping[str, Any], pointer: str, reader: Reader, default: Fraction) -> Fraction:
    """Inches lost at the end of a length; zero where it comes straight from the shop."""
    value = reader.optional_length(raw, "straightening", pointer, "the straightening", default, zero=True)
    if value <= MOST_STRAIGHTENING:
        return value
    reader.fault(at(pointer, "straightening"), "the straightening is more than a yard", '"1 in", or "25 mm"')
    return default
