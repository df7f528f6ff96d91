"""What the studio owns."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, ValidationError, fields, validate

from service.api.schemas.common import LONGEST_TEXT, Strict, nullable, text_field, time_field
from service.craft.measure import NotALength, parse_length
from service.craft.measure.lengths import RIGHT
from service.craft.reading import COLOUR

KINDS = ("cloth", "thread", "batting", "notion")


class LengthField(fields.Raw):
    """A length in trade notation; kept as it was written."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        try:
            length = parse_length(value, "in")
        except NotALength as why:
            raise ValidationError(str(why)) from why
        if length <= 0:
            raise ValidationError("this length is not above zero")
        return value


class MaterialBody(Strict):
    """A cloth, a thread, a notion, as it is sent."""

    name = text_field("what the studio calls it", required=True)
    kind = fields.String(
        required=True,
        validate=validate.OneOf(KINDS, error="there is no such kind"),
        metadata={"right": f"one of: {', '.join(KINDS)}"},
    )
    colour = fields.String(
        load_default=None,
        allow_none=True,
        validate=validate.Regexp(COLOUR, error="this is not an sRGB colour"),
        metadata={"right": 'six hexadecimal digits, for example "#5f8f4e"'},
    )
    usable_width = LengthField(load_default=None, allow_none=True, metadata={"right": RIGHT})
    length = LengthField(load_default=None, allow_none=True, metadata={"right": RIGHT})
    quantity = fields.Integer(
        load_default=1,
        strict=True,
        validate=validate.Range(0, 1_000_000, error="this is not between 0 and 1 000 000"),
        error_messages={"invalid": "this is not a whole number"},
        metadata={"right": "how many there are"},
    )
    notes = text_field("anything to remember", longest=LONGEST_TEXT, least=0, load_default="")


class MaterialSchema(Schema):
    """A material as it is kept."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    kind = fields.String(required=True)
    colour = nullable()
    usable_width = fields.Raw(required=True, allow_none=True)
    length = fields.Raw(required=True, allow_none=True)
    quantity = fields.Integer(required=True)
    notes = fields.String(required=True)
    revision = fields.Integer(required=True)
    updated = time_field()


class MaterialPage(Schema):
    """Some materials."""

    materials = fields.List(fields.Nested(MaterialSchema), required=True)
    next = nullable()
