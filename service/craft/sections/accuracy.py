"""Reads how exactly and how fast a project is sewn: the sections "accuracy" and "pace"."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields as fields_of
from fractions import Fraction
from typing import Any

from service.craft.accuracy import USUAL, Accuracy
from service.craft.measure import format_length
from service.craft.pace import USUAL_PACE, Pace
from service.craft.reading import Reader, at

MOST_ERROR = Fraction(1, 4)
"""Inches: who is off by more has made another piece."""

MOST_THICKNESS = Fraction(1, 4)
"""Inches: thicker than the thickest fleece."""

LEAST_SECONDS, MOST_SECONDS = Fraction(0), Fraction(3600)
LEAST_TIMES, MOST_TIMES = Fraction(1), Fraction(10)

WORDS = {
    "seam": "what one seam is off",
    "cut": "what one cut edge is off",
    "habit": "what every seam is off alike",
    "thread": "the thickness of the thread",
}


def read_accuracy(raw: Mapping[str, Any], reader: Reader, seam_allowance: Fraction) -> Accuracy:
    """The section "accuracy", each length with its default where the document leaves it out."""
    given = reader.mapping(raw.get("accuracy", {}), "/accuracy", 'the section "accuracy"') or {}
    reader.known_fields(given, "/accuracy", [field.name for field in fields_of(Accuracy)])
    return _read_all(given, "/accuracy", USUAL, reader, seam_allowance)


def read_track_accuracy(
    raw: Any, pointer: str, usual: Accuracy, reader: Reader, seam_allowance: Fraction
) -> Accuracy:
    """How exactly the viewers of one track work; what is left out is `usual`. Thread is the same on every track."""
    given = reader.mapping(raw, pointer, 'the section "accuracy" of the track') or {}
    reader.known_fields(
        given, pointer, [field.name for field in fields_of(Accuracy) if field.name != "thread"]
    )
    return _read_all({**given, "thread": None}, pointer, usual, reader, seam_allowance)


def _read_all(
    given: Mapping[str, Any], where: str, usual: Accuracy, reader: Reader, seam_allowance: Fraction
) -> Accuracy:
    read = {
        key: _read_small(given, key, where, what, getattr(usual, key), reader) for key, what in WORDS.items()
    }
    beyond = _read_beyond(given, where, reader, seam_allowance)
    return Accuracy(**read, beyond_points=usual.beyond_points if beyond is None else beyond)


def _read_small(
    raw: Mapping[str, Any], key: str, pointer: str, what: str, default: Fraction, reader: Reader
) -> Fraction:
    value = reader.optional_length(raw, key, pointer, what, default, zero=True)
    if value <= MOST_ERROR:
        return value
    most = format_length(MOST_ERROR, reader.measure)
    reader.fault(at(pointer, key), f"{what} is more than {most}", '"1/64", or "0.4 mm"')
    return default


def _read_beyond(
    raw: Mapping[str, Any], pointer: str, reader: Reader, seam_allowance: Fraction
) -> Fraction | None:
    what = "the least allowance beyond a point"
    if raw.get("beyond_points") is None:
        return None
    where = at(pointer, "beyond_points")
    value = reader.length(raw["beyond_points"], where, what)
    if value is None or value <= seam_allowance:
        return value
    full = format_length(seam_allowance, reader.measure)
    reader.fault(where, f"{what} is more than the seam allowance", f"{full} at most")
    return None


def read_thickness(raw: Mapping[str, Any], pointer: str, reader: Reader, default: Fraction) -> Fraction:
    """How thick a cloth is, in inches."""
    what = "the thickness of the cloth"
    value = reader.optional_length(raw, "thickness", pointer, what, default)
    if value <= MOST_THICKNESS:
        return value
    most = format_length(MOST_THICKNESS, reader.measure)
    reader.fault(
        at(pointer, "thickness"), f"{what} is more than {most}", 'one layer of it, such as "0.25 mm"'
    )
    return default


def read_pace(raw: Mapping[str, Any], reader: Reader) -> Pace:
    """The section "pace", in seconds; `beginner` is a number of times."""
    where = "/pace"
    given = reader.mapping(raw.get("pace", {}), where, 'the section "pace"') or {}
    names = [field.name for field in fields_of(Pace)]
    reader.known_fields(given, where, names)
    read = {}
    for name in names:
        times = name == "beginner"
        least, most = (LEAST_TIMES, MOST_TIMES) if times else (LEAST_SECONDS, MOST_SECONDS)
        read[name] = reader.number(
            given, name, where, default=getattr(USUAL_PACE, name), least=least, most=most
        )
    return Pace(**read)
