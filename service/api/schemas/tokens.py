"""Keys."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from service.api.schemas.common import Strict, nullable, text_field, time_field
from service.storage.models import Role

ROLES = [role.value for role in Role]


class NewToken(Strict):
    """A key to be made."""

    name = text_field("who or what the key is for", required=True)
    role = fields.String(
        required=True,
        validate=validate.OneOf(ROLES, error="there is no such role"),
        metadata={"right": f"one of: {', '.join(ROLES)}"},
    )
    expires = fields.AwareDateTime(
        load_default=None,
        allow_none=True,
        error_messages={
            "invalid": "this is not a moment",
            "awareness": "this moment has no time zone",
        },
        metadata={"right": 'a moment with its zone, for example "2027-12-31T23:59:59Z"'},
    )


class TokenSchema(Schema):
    """A key, without its secret."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    role = fields.String(required=True, validate=validate.OneOf(ROLES))
    created = time_field()
    expires = nullable(metadata={"format": "date-time"})
    last_used = nullable(metadata={"format": "date-time", "description": "to within five minutes"})


class MadeToken(TokenSchema):
    """A key that was just made, with the secret, which is shown this once."""

    secret = fields.String(required=True, metadata={"description": "sent as Authorization: Bearer …"})


class TokenPage(Schema):
    """Keys that are good."""

    tokens = fields.List(fields.Nested(TokenSchema), required=True)
    next = nullable()
