"""Files that were made, and what comes out when."""

from __future__ import annotations

from marshmallow import Schema, fields

from service.api.schemas.common import id_field, nullable, time_field


class ArtifactSchema(Schema):
    """A file that was made."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    kind = fields.String(required=True)
    media_type = fields.String(required=True)
    size = fields.Integer(required=True, metadata={"description": "bytes"})
    sha256 = fields.String(required=True)


class ArtifactDetail(ArtifactSchema):
    """A file that was made, and from what."""

    project = fields.String(required=True)
    job = fields.String(required=True)
    public = fields.Boolean(
        required=True, metadata={"description": "whether viewers may get it once it is out"}
    )
    created = time_field()
    links = fields.Dict(keys=fields.String(), values=fields.String(), required=True)


class ArtifactList(Schema):
    """The newest files of a project."""

    artifacts = fields.List(fields.Nested(ArtifactSchema), required=True)


class BundleSchema(Schema):
    """What one track of one project downloads."""

    project = fields.String(required=True)
    title = fields.String(required=True)
    size = fields.Integer(required=True)
    sha256 = fields.String(required=True)
    href = fields.String(required=True)


class ReleaseTrack(Schema):
    """A track on a release date, over all projects that have it."""

    name = fields.String(required=True)
    slug = fields.String(required=True)
    reading = fields.String(required=True)
    ready = fields.Boolean(required=True, metadata={"description": "whether every bundle of it is made"})
    href = fields.String(required=True)
    bundles = fields.List(fields.Nested(BundleSchema), required=True)


class ReleaseProject(Schema):
    """A project that comes out."""

    id = fields.String(required=True)
    title = fields.String(required=True)
    summary = fields.String(required=True)
    series = nullable()


class ReleaseSchema(Schema):
    """What comes out on a date."""

    date = fields.String(required=True, metadata={"format": "date"})
    out = fields.Boolean(required=True, metadata={"description": "whether the public sees all of it by now"})
    projects = fields.List(fields.Nested(ReleaseProject), required=True)
    tracks = fields.List(fields.Nested(ReleaseTrack), required=True)


class ReleaseList(Schema):
    """Releases, oldest first."""

    releases = fields.List(fields.Nested(ReleaseSchema), required=True)


class BundleQuery(Schema):
    """Of which project, where several come out on one day."""

    project = id_field("project", load_default=None)
