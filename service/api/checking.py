"""Holding a body against a schema where it was not the route that read it: after a merge patch."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, ValidationError

from service.api.faults import faults_of
from service.api.problems import Problem
from service.api.room import say_faults


def check_body(schema: type[Schema], body: Any) -> dict[str, Any]:
    """What the schema reads from a body; a 422 problem with every fault."""
    reader = schema()
    try:
        read: dict[str, Any] = reader.load(body)
    except ValidationError as why:
        found = faults_of(ValidationError({"json": why.messages}), reader)
        raise Problem(422, say_faults(found), name="faults", errors=found) from why
    return read
