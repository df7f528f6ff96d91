"""The maker's own words for steps."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from service.api.schemas.common import LONGEST_TEXT, Strict, text_field


class OwnStep(Strict):
    """Own words for one step."""

    id = text_field("the id of a step of this track", required=True)
    text = fields.String(
        required=True,
        allow_none=True,
        validate=validate.Length(
            max=LONGEST_TEXT, error=f"this text is longer than {LONGEST_TEXT} characters"
        ),
        metadata={"right": "your own words; null to go back to the computed text"},
    )


class OwnSteps(Strict):
    """Own words for some steps of a track."""

    steps = fields.List(
        fields.Nested(OwnStep),
        required=True,
        validate=validate.Length(max=2000, error="these are more than 2000 steps"),
        metadata={"right": 'a list of {"id": …, "text": …}'},
    )


class TrackQuery(Schema):
    """Which track."""

    track = text_field("the name of a track, or its name in file names", load_default=None)
