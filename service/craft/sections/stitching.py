"""Reads how pieces are sewn in the hoop: settings for all pieces or one, and the details on a piece."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.fabric import Thread
from service.craft.reading import Reader, at
from service.craft.stitching import (
    AS_CLOTH_AND_THREAD_ASK,
    CHOICES,
    DETAIL_KINDS,
    MM,
    SETTINGS,
    Detail,
    SplitLine,
    Stitching,
)

FIELD = "stitching"
PLAIN_NUMBERS = ("inside", "thread_weight")
DETAIL_FIELDS = frozenset(["sew", "outline", "points", "closed", "width", "angle", "thread"])
SPLIT_FIELDS = ("from", "to")
MOST_DETAILS = 100
MOST_POINTS = 2000
LIKE_POINTS = '[["0", "-1"], ["0", "1"]], measured from the middle of the outline'
MOST_SPLITS = 8
LIKE_SPLIT = '{"from": ["-2", "0"], "to": ["2", "0"]}, measured from the middle of the outline'
LINE_WIDTH = (Fraction(4, 10) * MM, 10 * MM)
"""A satin line, in inches; under a millimetre it is sewn as a triple run."""


def read_stitching(raw: Mapping[str, Any], pointer: str, reader: Reader) -> Stitching:
    """The field `stitching` of a document or a piece; every setting may be left out."""
    if raw.get(FIELD) is None:
        return AS_CLOTH_AND_THREAD_ASK
    where = at(pointer, FIELD)
    fields = reader.mapping(raw[FIELD], where, f'"{FIELD}"', like='{"width": "4 mm"}')
    if fields is None:
        return AS_CLOTH_AND_THREAD_ASK
    reader.known_fields(fields, where, {*SETTINGS, *CHOICES})
    read = {key: _read_setting(fields, key, where, reader) for key in SETTINGS if fields.get(key) is not None}
    chosen = {
        key: reader.choice(fields, key, where, words, words[0])
        for key, (words, _) in CHOICES.items()
        if fields.get(key) is not None
    }
    return Stitching(
        width=read.get("width"),
        spacing=read.get("spacing"),
        pull=read.get("pull"),
        stitch=read.get("stitch"),
        inside=read.get("inside"),
        thread_weight=read.get("thread_weight"),
        underlay=chosen.get("underlay"),
        tack_down=chosen.get("tack_down"),
    )


def _read_setting(raw: Mapping[str, Any], key: str, pointer: str, reader: Reader) -> Fraction | None:
    """A length in its bounds, or a plain number; None where it is faulty."""
    bounds = SETTINGS[key]
    if key in PLAIN_NUMBERS:
        return reader.number(raw, key, pointer, default=bounds.least, least=bounds.least, most=bounds.most)
    value = reader.length(raw[key], at(pointer, key), f'the stitching\'s "{key}"', zero=bounds.least == 0)
    if value is None:
        return None
    if not bounds.least <= value / MM <= bounds.most:
        reader.fault(
            at(pointer, key),
            f'"{key}" comes to {float(value / MM):g} mm',
            f"from {float(bounds.least):g} to {float(bounds.most):g} mm. {bounds.words}",
        )
        return None
    return value


def read_details(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[Detail, ...]:
    """The details of a piece in sewing order."""
    where = at(pointer, "details")
    listed = reader.sequence(raw.get("details", []), where, 'the list "details"') or []
    if len(listed) > MOST_DETAILS:
        reader.fault(where, f"there are {len(listed)} details on one piece", f"at most {MOST_DETAILS}")
        return ()
    read = [_read_detail(entry, at(where, i), reader) for i, entry in enumerate(listed)]
    return tuple(detail for detail in read if detail is not None)


def _read_detail(raw: Any, pointer: str, reader: Reader) -> Detail | None:
    fields = reader.mapping(
        raw, pointer, "a detail", like='{"sew": "running", "points": [["0", "0"], ["1", "0"]]}'
    )
    if fields is None:
        return None
    reader.known_fields(fields, pointer, DETAIL_FIELDS)
    sew = reader.choice(fields, "sew", pointer, DETAIL_KINDS, DETAIL_KINDS[0])
    outline = reader.text(fields, "outline", pointer, default="", longest=200) or ""
    points = _read_points(fields, pointer, reader)
    if bool(outline) == ("points" in fields):
        reader.fault(
            pointer,
            "the detail says neither or both of where it lies",
            f'either "outline", a closed shape of a drawing or a line in one, or "points": {LIKE_POINTS}',
        )
        return None
    closed = reader.flag(fields, "closed", pointer)
    if sew == "fill" and points and not (closed and len(points) >= 3):
        reader.fault(
            pointer, "a fill has an area", '"closed": true and three points or more, or an "outline"'
        )
    return Detail(
        pointer=pointer,
        sew=sew,
        outline=outline,
        points=points,
        closed=closed,
        width=_read_width(fields, pointer, reader),
        angle=reader.number(
            fields, "angle", pointer, default=Fraction(0), least=Fraction(-360), most=Fraction(360)
        ),
        thread=_read_thread(fields, pointer, reader),
    )


def _read_points(
    raw: Mapping[str, Any], pointer: str, reader: Reader
) -> tuple[tuple[Fraction, Fraction], ...]:
    if "points" not in raw:
        return ()
    where = at(pointer, "points")
    listed = reader.sequence(raw["points"], where, 'the list "points"', least=2) or []
    if len(listed) > MOST_POINTS:
        reader.fault(where, f"the line has {len(listed)} points", f"at most {MOST_POINTS}")
        return ()
    read = [_read_point(pair, at(where, i), reader, LIKE_POINTS) for i, pair in enumerate(listed)]
    return tuple(point for point in read if point is not None)


def read_split(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[SplitLine, ...]:
    """The line, or the list of lines, along which a piece is sewn in parts where a sewing field is too small for it."""
    where, given = at(pointer, "split"), raw.get("split")
    if given is None:
        return ()
    if not isinstance(given, list):
        line = _read_split_line(given, where, reader)
        return (line,) if line else ()
    if not 1 <= len(given) <= MOST_SPLITS:
        reader.fault(where, f"the piece has {len(given)} lines to split along", f"from 1 to {MOST_SPLITS}")
        return ()
    lines = [_read_split_line(entry, at(where, i), reader) for i, entry in enumerate(given)]
    return tuple(line for line in lines if line is not None)


def _read_split_line(raw: Any, pointer: str, reader: Reader) -> SplitLine | None:
    fields = reader.mapping(raw, pointer, "a line to split along", like=LIKE_SPLIT)
    if fields is None:
        return None
    reader.known_fields(fields, pointer, SPLIT_FIELDS)
    start, end = (_read_point(fields.get(key), at(pointer, key), reader, LIKE_SPLIT) for key in SPLIT_FIELDS)
    if start is None or end is None:
        return None
    if start == end:
        reader.fault(pointer, "the line to split along begins and ends in one place", "two different places")
        return None
    return SplitLine(pointer, start, end)


def _read_point(raw: Any, pointer: str, reader: Reader, like: str) -> tuple[Fraction, Fraction] | None:
    if not isinstance(raw, list) or len(raw) != 2:
        reader.fault(pointer, "a point is not a pair", like)
        return None
    x, y = (_read_offset(value, at(pointer, n), reader) for n, value in enumerate(raw))
    return None if x is None or y is None else (x, y)


def _read_offset(raw: Any, pointer: str, reader: Reader) -> Fraction | None:
    """A length to either side of the middle: a minus sign leads to the left or up."""
    if isinstance(raw, str) and raw.strip().startswith("-"):
        value = reader.length(raw.strip()[1:], pointer, "a point's place", zero=True)
        return None if value is None else -value
    if isinstance(raw, int | float) and not isinstance(raw, bool) and raw < 0:
        value = reader.length(-raw, pointer, "a point's place", zero=True)
        return None if value is None else -value
    return reader.length(raw, pointer, "a point's place", zero=True)


def _read_width(raw: Mapping[str, Any], pointer: str, reader: Reader) -> Fraction | None:
    if raw.get("width") is None:
        return None
    value = reader.length(raw["width"], at(pointer, "width"), "the width of the line")
    if value is not None and not LINE_WIDTH[0] <= value <= LINE_WIDTH[1]:
        reader.fault(at(pointer, "width"), f"the line is {float(value / MM):g} mm wide", "from 0.4 to 10 mm")
        return None
    return value


def _read_thread(raw: Mapping[str, Any], pointer: str, reader: Reader) -> Thread | None:
    if raw.get("thread") is None:
        return None
    where = at(pointer, "thread")
    fields = reader.mapping(raw["thread"], where, "the thread")
    if fields is None:
        return None
    return Thread(reader.name(fields, "name", where) or "", reader.colour(fields, where, "#ffffff"))
