"""A series."""

from __future__ import annotations

from marshmallow import Schema, fields

from service.api.schemas.common import (
    LONGEST_TEXT,
    Strict,
    check_timezone,
    nullable,
    text_field,
    time_field,
)


class SeriesBody(Strict):
    """A series as it is sent."""

    title = text_field("what the year is called", required=True)
    rule = text_field(
        'when its projects come out, in words, for example "the 20th, or the working day before"',
        longest=LONGEST_TEXT,
        least=0,
        load_default="",
    )
    timezone = fields.String(
        load_default=None,
        allow_none=True,
        validate=check_timezone,
        metadata={
            "right": 'a zone of the IANA database, for example "Europe/London"; none for the studio\'s'
        },
    )
    notes = text_field("anything to remember", longest=LONGEST_TEXT, least=0, load_default="")


class SeriesSchema(Schema):
    """A series as it is kept."""

    id = fields.String(required=True)
    title = fields.String(required=True)
    rule = fields.String(required=True)
    timezone = nullable(metadata={"description": "in which its release dates begin; null for the studio's"})
    notes = fields.String(required=True)
    revision = fields.Integer(required=True)
    updated = time_field()


class SeriesPage(Schema):
    """Some series."""

    series = fields.List(fields.Nested(SeriesSchema), required=True)
    next = nullable()
