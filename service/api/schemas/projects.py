"""Projects: the document is the maker's own; only what stands beside it is ours."""

from __future__ import annotations

from marshmallow import INCLUDE, Schema, fields

from service.api.schemas.common import (
    FaultSchema,
    LengthSchema,
    PageQuery,
    date_field,
    id_field,
    nullable,
    time_field,
)


class ProjectBody(Schema):
    """A project document (see the guide), with `series` and `release` where it has them."""

    class Meta:
        """The document's fields are checked by what reads documents, all faults at once."""

        unknown = INCLUDE

    series = fields.String(allow_none=True)
    release = fields.String(allow_none=True, metadata={"format": "date"})
    title = fields.String(required=True)
    fabrics = fields.Dict(required=True)
    top = fields.Raw(required=True, metadata={"description": "a unit, or the name of a block"})


class ProjectSchema(ProjectBody):
    """The document as it was sent, with what we keep beside it."""

    id = fields.String(required=True)
    revision = fields.Integer(required=True)
    updated = time_field()


class ProjectCard(Schema):
    """A project in a list."""

    id = fields.String(required=True)
    title = fields.String(required=True)
    summary = fields.String(required=True)
    series = nullable()
    release = nullable(metadata={"format": "date"})
    revision = fields.Integer(required=True)
    updated = time_field()
    tracks = fields.List(fields.String(), required=True)


class ProjectPage(Schema):
    """Some projects."""

    projects = fields.List(fields.Nested(ProjectCard), required=True)
    next = nullable()


class ProjectQuery(PageQuery):
    """Which projects."""

    title = fields.String(load_default=None, metadata={"description": "only those with exactly this title"})
    series = id_field("series", load_default=None)
    release = date_field(load_default=None)


class TrackSchema(Schema):
    """A way through a project."""

    name = fields.String(required=True)
    slug = fields.String(required=True, metadata={"description": "the name as it stands in file names"})
    has = fields.List(fields.String(), required=True)
    reading = fields.String(required=True)


class TrackList(Schema):
    """The tracks of a project."""

    tracks = fields.List(fields.Nested(TrackSchema), required=True)


class CheckSchema(Schema):
    """What stands in the way of a batch."""

    ready = fields.Boolean(required=True)
    faults = fields.List(fields.Nested(FaultSchema), required=True)
    warnings = fields.List(fields.Nested(FaultSchema), required=True)


class ShapeSchema(Schema):
    """One closed shape found in a drawing."""

    name = fields.String(required=True)
    width = fields.Nested(LengthSchema, required=True)
    height = fields.Nested(LengthSchema, required=True)
    nodes = fields.Integer(
        required=True, metadata={"description": "corners and ends of curves, holes included"}
    )


class LineSchema(Schema):
    """One open line drawn in a shape: a piece can have it sewn as a detail."""

    name = fields.String(required=True, metadata={"description": "as `details` ask for it: `file#name`"})
    shape = fields.String(required=True, metadata={"description": "the shape it lies in"})


class OutlineSchema(Schema):
    """An outline file as it was read."""

    name = fields.String(required=True)
    sha256 = fields.String(required=True, metadata={"description": "of the file that was sent"})
    shapes = fields.List(fields.Nested(ShapeSchema), required=True)
    lines = fields.List(
        fields.Nested(LineSchema),
        required=True,
        metadata={"description": "open lines drawn in shapes; each is sewn where a piece asks for it"},
    )
    notes = fields.List(
        fields.String(), required=True, metadata={"description": "what was changed or left out"}
    )


class ShapeNameBody(Schema):
    """What a shape is to be called."""

    name = fields.String(required=True, metadata={"description": "no other shape's in this file"})


class RenamedSchema(OutlineSchema):
    """An outline file after one of its shapes was named anew."""

    asking = fields.List(
        fields.Nested(FaultSchema),
        required=True,
        metadata={"description": "pieces of the document that still ask for the old name"},
    )


class OutlineList(Schema):
    """The outline files of a project."""

    outlines = fields.List(fields.Nested(OutlineSchema), required=True)


class WordingSchema(Schema):
    """The maker's own words for a step."""

    text = fields.String(required=True)
    written_beside = fields.String(required=True, metadata={"description": "the computed text at that time"})
    changed_since = fields.Boolean(required=True)


class StepSchema(Schema):
    """One step of a track, as it is computed, with the maker's own words beside it."""

    class Meta:
        """More may stand in a step than is named here."""

        unknown = INCLUDE

    id = fields.String(required=True)
    text = fields.String(required=True)
    wording = fields.Nested(WordingSchema, required=True, allow_none=True)


class ComputedFrom(Schema):
    """The batch and the revision of the project that something was computed from."""

    batch = fields.String(required=True)
    revision = fields.Integer(required=True)


class LeftOver(Schema):
    """Own words for a step that there is no longer."""

    id = fields.String(required=True)
    text = fields.String(required=True)
    written_beside = fields.String(required=True)


class TipSchema(Schema):
    """A maker's tip before or after a step."""

    step = fields.String(required=True)
    place = fields.String(required=True)
    text = fields.String(required=True)
    every_track = fields.Boolean(required=True)
    written_beside = fields.String(
        required=True, metadata={"description": "the computed text of the step then"}
    )
    changed_since = fields.Boolean(required=True)
    gone = fields.Boolean(
        required=True, metadata={"description": "its step is not there any more; not printed"}
    )


class StepList(Schema):
    """The steps of one track."""

    track = fields.String(required=True)
    computed_from = fields.Nested(ComputedFrom, required=True)
    steps = fields.List(fields.Nested(StepSchema), required=True)
    left_over = fields.List(fields.Nested(LeftOver), required=True)
    tips = fields.List(fields.Nested(TipSchema), required=True)


class StepsLater(Schema):
    """The steps are on their way."""

    detail = fields.String(required=True)
    batch = fields.String(required=True)
