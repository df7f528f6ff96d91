"""Fields and schemas that several resources share."""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from marshmallow import RAISE, Schema, ValidationError, fields, validate

LONGEST_NAME = 200
LONGEST_TEXT = 20_000
PAGE_SIZE, LARGEST_PAGE = 50, 200


class Strict(Schema):
    """A body of our own: a field it does not know is a fault."""

    class Meta:
        """Unknown fields are refused, and fields keep the order in which they are written here."""

        unknown = RAISE


def text_field(right: str, *, longest: int = LONGEST_NAME, least: int = 1, **more: Any) -> fields.String:
    """A text of bounded length; an empty one is refused unless `least` is 0."""
    message = f"this text has between {least} and {longest} characters"
    return fields.String(
        validate=[validate.Length(least, longest, error=message), _check_not_blank if least else _let_be],
        metadata={"right": right, "description": right},
        error_messages={"invalid": "this is not a text", "null": "this is null"},
        **more,
    )


def _let_be(_text: str) -> None:
    return None


def _check_not_blank(text: str) -> None:
    if not text.strip():
        raise ValidationError("this text is blank")


def id_field(what: str, **more: Any) -> fields.String:
    """The id of something."""
    return text_field(f"the id of a {what}", longest=36, **more)


class DateField(fields.String):
    """A calendar date as text, `2027-01-20`; checked, and kept as text."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        return parse_date(super()._deserialize(value, attr, data, **kwargs)).isoformat()


def parse_date(text: str) -> date:
    """A date written `2027-01-20`; `ValidationError` for anything else.

    >>> parse_date("2027-01-20")
    datetime.date(2027, 1, 20)
    """
    try:
        found = date.fromisoformat(text)
    except ValueError as why:
        raise ValidationError(f'"{text[:40]}" is not a date') from why
    if found.isoformat() != text:
        raise ValidationError(f'"{text[:40]}" is not a date')
    return found


DATE_RIGHT = 'a date as year-month-day, for example "2027-01-20"'


def date_field(**more: Any) -> DateField:
    """A calendar date."""
    return DateField(metadata={"right": DATE_RIGHT, "description": DATE_RIGHT, "format": "date"}, **more)


def check_timezone(name: str) -> None:
    """Refuse a zone that the IANA time zone database does not have."""
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError) as why:
        raise ValidationError(f'there is no time zone "{name[:60]}"') from why


def check_cursor(text: str) -> None:
    """A cursor is the id that a page ended with."""
    try:
        UUID(text)
    except ValueError as why:
        raise ValidationError("this cursor was not made here") from why


class PageQuery(Schema):
    """Which part of a collection."""

    limit = fields.Integer(
        load_default=PAGE_SIZE,
        validate=validate.Range(1, LARGEST_PAGE, error=f"a page has between 1 and {LARGEST_PAGE} entries"),
        metadata={"right": f"a whole number from 1 to {LARGEST_PAGE}", "description": "entries on the page"},
        error_messages={"invalid": "this is not a whole number"},
    )
    cursor = fields.String(
        load_default=None,
        validate=check_cursor,
        metadata={"right": "the `next` of the page before", "description": "the `next` of the page before"},
    )


class LengthSchema(Schema):
    """A length: as a maker writes it, and as numbers."""

    text = fields.String(required=True, metadata={"example": "3 1/2 in"})
    inches = fields.Float(required=True)
    mm = fields.Float(required=True)


class FaultSchema(Schema):
    """What is wrong, where, and what would be right."""

    pointer = fields.String(required=True, metadata={"description": "JSON pointer (RFC 6901)"})
    detail = fields.String(required=True)
    right = fields.String(required=True)
    project = fields.String(metadata={"description": "the project it is about, where there are several"})
    parameter = fields.String(metadata={"description": "the name in the query, where it is not in a body"})


class ProblemSchema(Schema):
    """Problem details (RFC 9457)."""

    type = fields.String(required=True)
    title = fields.String(required=True)
    status = fields.Integer(required=True)
    detail = fields.String(required=True)
    instance = fields.String(required=True)
    errors = fields.List(fields.Nested(FaultSchema), required=True)


def nullable(**more: Any) -> fields.String:
    """A text in an answer that may be null."""
    return fields.String(required=True, allow_none=True, **more)


def time_field(*, null: bool = False) -> fields.String:
    """A moment in an answer, RFC 3339 in UTC."""
    return fields.String(required=True, allow_none=null, metadata={"format": "date-time"})
