"""A project in another size."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from service.api.schemas.common import LengthSchema

LENGTH_WORDS = "a length in trade notation or a number in the document's measure"


STYLES = ("top", "exploded", "lines", "blank", "cuts")
STYLE_WORDS = f"one of: {', '.join(STYLES)}"


class DrawingQuery(Schema):
    """What is drawn, and how."""

    style = fields.String(
        load_default="top",
        validate=validate.OneOf(STYLES, error="there is no such style of drawing"),
        metadata={
            "right": STYLE_WORDS,
            "description": "`top` in its cloths; `exploded`, patches moved apart; `lines` to colour in, numbered by "
            "cloth; `blank`, the same without numbers; `cuts`, what is cut for each unit, with its diagonal cuts",
        },
    )
    block = fields.String(load_default=None, metadata={"description": "one block by its name; else the top"})


class ScaledBody(Schema):
    """How large: one of the three."""

    width = fields.Raw(metadata={"description": f"the finished width of the top: {LENGTH_WORDS}"})
    height = fields.Raw(metadata={"description": f"the finished height of the top: {LENGTH_WORDS}"})
    factor = fields.Raw(
        metadata={"description": 'how many times as large: a number, or text such as "3/4"', "example": "3/4"}
    )


class FinishedSchema(Schema):
    """The finished size of a top."""

    width = fields.Nested(LengthSchema, required=True)
    height = fields.Nested(LengthSchema, required=True)


class NearSizeSchema(Schema):
    """A size at which every cut comes out on the ruler without rounding."""

    factor = fields.String(required=True, metadata={"example": "3/4"})
    finished = fields.Nested(FinishedSchema, required=True)


class ScaledSchema(Schema):
    """The document in the size asked for."""

    document = fields.Dict(required=True, metadata={"description": "as `POST /projects` takes it"})
    factor = fields.String(required=True, metadata={"example": "3/4"})
    finished = fields.Nested(FinishedSchema, required=True)
    notes = fields.List(fields.String(), required=True, metadata={"description": "what stayed as it was"})
    alternatives = fields.List(
        fields.Nested(NearSizeSchema),
        required=True,
        metadata={
            "description": "the nearest sizes below and above (and this one, if it is one) without any rounding"
        },
    )
