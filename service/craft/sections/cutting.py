"""Reads what a document chooses about cutting, for all its cloths or for one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from service.craft.cutting_choices import (
    BUYING_STEPS,
    DEFAULT_STEP,
    DEFAULT_STRAIGHTENING,
    JOINS,
    MAT_MARGIN,
    MAT_SPACING,
    MOST_MAT_SPACING,
    MOST_STRAIGHTENING,
    PLANS,
    STRAIGHT_JOIN,
    TURNS,
    WORTH_KEEPING,
    CuttingChoices,
    MatChoices,
)
from service.craft.faults import show
from service.craft.measure import MM_PER_INCH
from service.craft.reading import Reader, at
from service.craft.tracks import Equipment, parse_equipment

FIELDS = frozenset({"plan", "join", "buying_step", "straightening", "worth_keeping", "stacked", "mat"})
MAT_FIELDS = frozenset({"spacing", "margin", "turns"})


def read_cutting(raw: Mapping[str, Any], reader: Reader) -> CuttingChoices:
    """The choices of the section "cutting", each with its default where the document leaves it out."""
    where = "/cutting"
    fields = reader.mapping(raw.get("cutting", {}), where, 'the section "cutting"') or {}
    reader.known_fields(fields, where, FIELDS)
    mat = _read_mat(fields.get("mat", {}), at(where, "mat"), reader)
    _check_margin(mat.margin, raw, reader)
    return CuttingChoices(
        plan=reader.choice(fields, "plan", where, PLANS, "") if "plan" in fields else "",
        join=reader.choice(fields, "join", where, JOINS, STRAIGHT_JOIN),
        buying_step=read_buying_step(fields, where, reader, BUYING_STEPS[DEFAULT_STEP[reader.measure]]),
        straightening=read_straightening(fields, where, reader, DEFAULT_STRAIGHTENING[reader.measure]),
        worth_keeping=reader.optional_length(
            fields, "worth_keeping", where, "the side of a piece worth keeping", WORTH_KEEPING
        ),
        stacked=reader.flag(fields, "stacked", where),
        mat=mat,
    )


def _read_mat(raw: Any, where: str, reader: Reader) -> MatChoices:
    """How pieces lie on a cutting mat; a margin of nothing is allowed, two pieces that touch are not."""
    fields = reader.mapping(raw, where, "how pieces lie on a mat", like='{"spacing": "5 mm"}') or {}
    reader.known_fields(fields, where, MAT_FIELDS)
    spacing = reader.optional_length(fields, "spacing", where, "the distance between pieces", MAT_SPACING)
    if spacing > MOST_MAT_SPACING:
        reader.fault(
            at(where, "spacing"), "pieces on the mat are more than 2 in apart", '"5 mm", or "1/4 in"'
        )
    return MatChoices(
        spacing=spacing,
        margin=reader.optional_length(
            fields, "margin", where, "the margin of the mat", MAT_MARGIN, zero=True
        ),
        turns=reader.choice(fields, "turns", where, TURNS, TURNS[0]),
    )


def _check_margin(margin: Fraction, raw: Mapping[str, Any], reader: Reader) -> None:
    """The margin on both sides must leave at least half of the narrower side of every mat."""
    for name, cutter in _list_cutters(raw):
        narrow = min(cutter.width_mm, cutter.height_mm)
        if margin * MM_PER_INCH * 4 > narrow:
            reader.fault(
                "/cutting/mat/margin",
                f"the margin leaves less than half of the mat of the track {show(name)}",
                f"at most {float(narrow / 4):g} mm, a quarter of its narrower side",
            )


def _list_cutters(raw: Mapping[str, Any]) -> Iterator[tuple[Any, Equipment]]:
    """The mats of the tracks with the tracks' names; what is wrong with a track is said where tracks are read."""
    tracks = raw.get("tracks")
    for track in tracks if isinstance(tracks, list) else []:
        has = track.get("has") if isinstance(track, dict) else None
        for text in has if isinstance(has, list) else []:
            try:
                equipment = parse_equipment(text if isinstance(text, str) else "")
            except ValueError:
                continue
            if equipment.kind == "cutter":
                yield track.get("name"), equipment


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
