"""The maker's own words for steps."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from service.api.schemas.common import LONGEST_TEXT, Strict, text_field

PLACES = ("after", "before")
LONGEST_TIP = 2000


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


class OwnTip(Strict):
    """A tip before or after a step."""

    step = text_field("the id of a step of this track", required=True)
    place = fields.String(
        load_default="after",
        validate=validate.OneOf(PLACES, error="there is no such place"),
        metadata={"right": "one of: after, before"},
    )
    text = fields.String(
        required=True,
        allow_none=True,
        validate=validate.Length(max=LONGEST_TIP, error=f"this tip is longer than {LONGEST_TIP} characters"),
        metadata={"right": "the tip; null to take it away"},
    )
    every_track = fields.Boolean(
        load_default=False,
        metadata={"right": "true for every track that has the step, false for this one"},
    )


class OwnSteps(Strict):
    """Own words for some steps of a track, and tips beside them."""

    steps = fields.List(
        fields.Nested(OwnStep),
        load_default=list,
        validate=validate.Length(max=2000, error="these are more than 2000 steps"),
        metadata={"right": 'a list of {"id": …, "text": …}'},
    )
    tips = fields.List(
        fields.Nested(OwnTip),
        load_default=list,
        validate=validate.Length(max=2000, error="these are more than 2000 tips"),
        metadata={"right": 'a list of {"step": …, "place": …, "text": …}'},
    )


class TrackQuery(Schema):
    """Which track."""

    track = text_field("the name of a track, or its name in file names", load_default=None)
