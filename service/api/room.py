"""Rooms: blueprints whose every route says who may call it, what it takes and what it answers.

A thin layer over flask-smorest: it makes the routes, checks what comes in against a schema and writes the
OpenAPI document from the same words.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import wraps
from typing import Any, NoReturn, TypeVar

from flask import Request
from flask_smorest import Blueprint
from marshmallow import Schema, ValidationError
from webargs.core import missing
from webargs.flaskparser import FlaskParser

from service.api.access import Circle, admit
from service.api.bodies import read_body
from service.api.faults import faults_of
from service.api.problems import MEDIA_TYPE, Problem
from service.api.schemas.common import ProblemSchema

View = TypeVar("View", bound=Callable[..., Any])

KEY: list[dict[str, list[str]]] = [{"key": []}]


@dataclass(frozen=True)
class Answer:
    """What a route answers when all is well. `schema` is a marshmallow schema or, for files, a plain one."""

    status: int
    schema: Any = None
    media_type: str = "application/json"
    words: str | None = None


class StrictParser(FlaskParser):
    """Reads bodies strictly and answers faults with pointers into them."""

    def _raw_load_json(self, req: Request) -> Any:
        # Without a body the schema is to say what is missing, not the media type.
        return read_body(req) if req.get_data(cache=True) or req.mimetype else missing

    def handle_error(
        self,
        error: ValidationError,
        req: Request,
        schema: Schema,
        *,
        error_status_code: int | None,
        error_headers: Mapping[str, str] | None,
    ) -> NoReturn:
        """Every fault a schema found, in one problem."""
        found = faults_of(error, schema)
        raise Problem(422, say_faults(found), name="faults", errors=found) from error


def say_faults(found: list[dict[str, str]]) -> str:
    """One sentence over a list of faults."""
    if len(found) == 1:
        return f"{found[0]['detail']}."
    return f"There are {len(found)} faults."


class Room(Blueprint):  # type: ignore[misc]  # flask-smorest has no types
    """The routes of one kind of resource."""

    ARGUMENTS_PARSER = StrictParser()

    def route_to(
        self,
        rule: str,
        method: str,
        who: Circle,
        *answers: Answer,
        query: type[Schema] | None = None,
        body: type[Schema] | None = None,
        tagged: bool = False,
        refuses: tuple[int, ...] = (),
        **doc: Any,
    ) -> Callable[[View], View]:
        """Make the decorated function answer `method` on `rule`.

        It is given what `query` and `body` read, in this order, before the parts of the path. With
        `tagged` its answers carry an ETag, and what changes something needs If-Match.
        """

        def decorate(view: View) -> View:
            made: Any = view
            for answer in answers:
                made = self._documented(answer, made, first=answer is answers[0])
            if body is not None:
                made = self.arguments(body)(made)
            if query is not None:
                made = self.arguments(query, location="query")(made)
            if tagged:
                made = self.etag(made)
            for status in _refusals(who, refuses, query=query, body=body):
                made = self.alt_response(status, schema=ProblemSchema, content_type=MEDIA_TYPE)(made)
            made = self.doc(**{"security": [] if who is Circle.ANYONE else KEY, "x-for": who.value}, **doc)(
                made
            )
            self.add_url_rule(rule, endpoint=view.__name__, view_func=_guarded(made, who), methods=[method])
            return view

        return decorate

    def _documented(self, answer: Answer, view: Any, *, first: bool) -> Any:
        if first:
            decorate = self.response(
                answer.status, answer.schema, content_type=answer.media_type, description=answer.words
            )
        else:
            decorate = self.alt_response(
                answer.status,
                schema=answer.schema,
                content_type=answer.media_type,
                description=answer.words,
                success=True,
            )
        return decorate(view)


def _guarded(view: Any, who: Circle) -> Any:
    @wraps(view)
    def guarded(*args: Any, **kwargs: Any) -> Any:
        admit(who)
        return view(*args, **kwargs)

    guarded.circle = who  # type: ignore[attr-defined]  # read by the test of the route table
    return guarded


def _refusals(
    who: Circle, refuses: tuple[int, ...], *, query: type[Schema] | None, body: type[Schema] | None
) -> list[int]:
    found = {401, *refuses}
    if who is Circle.MAKER:
        found.add(403)
    if body is not None:
        found |= {400, 413, 415, 422}
    if query is not None:
        found.add(422)
    return sorted(found)
