"""Photographs of cloth as they stand in answers."""

from __future__ import annotations

from marshmallow import Schema, fields

from service.api.schemas.common import LengthSchema


class SwatchSchema(Schema):
    """A photograph as it is kept."""

    name = fields.String(required=True)
    sha256 = fields.String(required=True, metadata={"description": "of the picture as it is kept"})
    width = fields.Nested(LengthSchema, required=True, metadata={"description": "of the cloth in it"})
    height = fields.Nested(LengthSchema, required=True, metadata={"description": "of the cloth in it"})
    width_px = fields.Integer(required=True)
    height_px = fields.Integer(required=True)
    colour = fields.String(
        required=True, metadata={"description": "its median, for a cloth that gives no colour: `#rrggbb`"}
    )
    picture = fields.String(required=True, metadata={"description": "where the picture is"})


class SwatchList(Schema):
    """The photographs of a project."""

    swatches = fields.List(fields.Nested(SwatchSchema), required=True)
