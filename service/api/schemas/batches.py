"""Batches and jobs."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from service.api.schemas.common import Strict, date_field, id_field, nullable, time_field
from service.jobs.plan import KINDS
from service.storage.models import JobState

STATES = [state.value for state in JobState]
MOST_PROJECTS = 100
STATE_WORDS = "of RFC 8011: held waits for other jobs, aborted failed, stopped waits for one that failed"


class BatchBody(Strict):
    """What is to be made: projects by id, or every project of a series with one release date."""

    projects = fields.List(
        id_field("project"),
        validate=validate.Length(
            1, MOST_PROJECTS, error=f"a batch has between 1 and {MOST_PROJECTS} projects"
        ),
        metadata={"right": "a list of ids of projects"},
    )
    series = id_field("series")
    release = date_field()
    kinds = fields.List(
        fields.String(validate=validate.OneOf(KINDS, error="there is no such kind of job")),
        validate=validate.Length(1, error="this list is empty"),
        metadata={"right": f"some of: {', '.join(KINDS)}; without it, everything"},
    )

    @validates_schema
    def check_one_way(self, data: dict[str, Any], **_kwargs: Any) -> None:
        """Projects, or a series with a date; not both, and not half."""
        whole = {"series", "release"} & set(data)
        if bool(whole) == ("projects" in data):
            raise ValidationError('say "projects", or "series" with "release"')
        if len(whole) == 1:
            raise ValidationError('"series" and "release" go together')


class ProgressSchema(Schema):
    """How far a job is."""

    fraction = fields.Float(required=True)
    message = fields.String(required=True)


class JobProblem(Schema):
    """Why a job failed."""

    detail = fields.String(required=True)
    pointer = fields.String(required=True)
    right = fields.String(required=True)


class JobSchema(Schema):
    """One thing to make."""

    id = fields.String(required=True)
    kind = fields.String(required=True)
    project = fields.String(required=True)
    batch = fields.String(required=True)
    track = nullable()
    state = fields.String(
        required=True, validate=validate.OneOf(STATES), metadata={"description": STATE_WORDS}
    )
    reasons = fields.List(fields.String(), required=True)
    message = fields.String(required=True)
    problem = fields.Nested(JobProblem, required=True, allow_none=True)
    attempt = fields.Integer(required=True)
    progress = fields.Nested(ProgressSchema, required=True)
    queue_seconds = fields.Float(required=True, allow_none=True)
    run_seconds = fields.Float(required=True, allow_none=True)
    links = fields.Dict(keys=fields.String(), values=fields.String(), required=True)


class BatchCard(Schema):
    """A batch in a list."""

    id = fields.String(required=True)
    state = fields.String(
        required=True, validate=validate.OneOf(STATES), metadata={"description": STATE_WORDS}
    )
    projects = fields.List(fields.String(), required=True)
    series = nullable()
    release = nullable(metadata={"format": "date"})
    created = time_field()
    links = fields.Dict(keys=fields.String(), values=fields.String(), required=True)


class BatchSchema(BatchCard):
    """A batch and its jobs."""

    counts = fields.Dict(
        keys=fields.String(),
        values=fields.Integer(),
        required=True,
        metadata={"description": "jobs by state"},
    )
    fraction_done = fields.Float(required=True, metadata={"description": "0 to 1"})
    jobs = fields.List(fields.Nested(JobSchema), required=True)


class BatchPage(Schema):
    """Some batches."""

    batches = fields.List(fields.Nested(BatchCard), required=True)
    next = nullable()


class EventSchema(Schema):
    """Something that happened in a batch."""

    id = fields.Integer(required=True)
    type = fields.String(required=True)
    job = nullable()
    at = time_field()
    data = fields.Dict(required=True)


class EventList(Schema):
    """What happened in a batch after a number."""

    events = fields.List(fields.Nested(EventSchema), required=True)
    last = fields.Integer(required=True, metadata={"description": "ask again with after=this"})


class EventQuery(Schema):
    """From where on."""

    after = fields.Integer(
        load_default=None,
        validate=validate.Range(min=0, error="this is less than 0"),
        error_messages={"invalid": "this is not a whole number"},
        metadata={"right": "the number of the last event you have"},
    )
