"""From what a schema found wrong to faults with a pointer, in our words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from marshmallow import Schema, ValidationError, fields

from service.api.problems import fault
from service.craft.faults import escape_token, suggest

UNKNOWN = "Unknown field."
MISSING = "Missing data for required field."


def faults_of(error: ValidationError, schema: Schema) -> list[dict[str, str]]:
    """Every fault in a validation error of webargs, where messages stand by location first."""
    messages = error.messages
    assert isinstance(messages, dict)  # noqa: S101  # webargs always groups by location
    found: list[dict[str, str]] = []
    for location, inside in messages.items():
        for steps, message in _walk(inside, ()):
            found.append(_fault(location, steps, message, schema))
    return found


def _walk(messages: Any, steps: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str]]:
    if isinstance(messages, dict):
        for key, inside in messages.items():
            yield from _walk(inside, steps if key == "_schema" else (*steps, str(key)))
    elif isinstance(messages, list):
        for message in messages:
            yield from _walk(message, steps)
    else:
        yield steps, str(messages).removesuffix(".")


def _fault(location: str, steps: tuple[str, ...], message: str, schema: Schema) -> dict[str, str]:
    field = _field_at(schema, steps)
    right = str(field.metadata.get("right", "")) if field is not None else ""
    named = steps[-1] if steps else ""
    if message == UNKNOWN.removesuffix("."):
        message, right = f'there is no field "{named}" here', suggest(named, _known(schema, steps))
    elif message == MISSING.removesuffix("."):
        message = f'"{named}" is missing'
    if location == "query":
        return fault(f"in the query, {named}: {message}", right, parameter=named)
    return fault(message, right, pointer="".join(f"/{escape_token(step)}" for step in steps))


def _known(schema: Schema, steps: tuple[str, ...]) -> list[str]:
    inside = _schema_at(schema, steps[:-1])
    return [f.data_key or name for name, f in inside.load_fields.items()] if inside is not None else []


def _field_at(schema: Schema, steps: tuple[str, ...]) -> Any:
    names = [step for step in steps if not step.isdigit()]
    inside = _schema_at(schema, tuple(names[:-1]))
    if inside is None or not names:
        return None
    return next((f for name, f in inside.fields.items() if (f.data_key or name) == names[-1]), None)


def _schema_at(schema: Schema, steps: tuple[str, ...]) -> Schema | None:
    for step in steps:
        if step.isdigit():
            continue
        field: Any = schema.fields.get(step)
        if isinstance(field, fields.List):
            field = field.inner
        if not isinstance(field, fields.Nested):
            return None
        schema = field.schema
    return schema
