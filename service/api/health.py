"""Is the service there, and is it at work?"""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from marshmallow import Schema, fields
from sqlalchemy import select
from sqlalchemy.exc import SQLAlchemyError

from service.api.access import Circle
from service.api.problems import EXPLAINED, Problem
from service.api.room import Answer, Room
from service.api.wiring import now, parts
from service.storage.models import Beat

FRESH = timedelta(seconds=15)
"""A dispatcher says every few moments that it is at work; longer silence means that nothing is picked up."""

room = Room("health", __name__, description="Whether the service is there, and at work.")
words = Room("problems", __name__, description="What the types of problem mean.")


class HealthSchema(Schema):
    """One word."""

    status = fields.String(required=True)


class ExplanationSchema(Schema):
    """What a type of problem means."""

    title = fields.String(required=True)
    detail = fields.String(required=True)


@room.route_to("/healthz", "GET", Circle.ANYONE, Answer(200, HealthSchema))
def say_alive() -> Any:
    """Say that the web side answers."""
    return {"status": "alive"}


@room.route_to("/readyz", "GET", Circle.ANYONE, Answer(200, HealthSchema), refuses=(503,))
def say_ready() -> Any:
    """Say whether the database answers and jobs are being picked up."""
    try:
        with parts().database.reading() as session:
            last = session.scalar(select(Beat.at).where(Beat.name == "dispatcher"))
    except SQLAlchemyError as why:
        raise Problem(503, "The database does not answer.", headers={"Retry-After": "2"}) from why
    if last is None or now() - last > FRESH:
        raise Problem(503, "No worker is picking up jobs.", headers={"Retry-After": "2"})
    return {"status": "ready"}


@words.route_to("/problems/<name>", "GET", Circle.ANYONE, Answer(200, ExplanationSchema), refuses=(404,))
def explain_problem(name: str) -> Any:
    """Say what a type of problem means and what to do about it."""
    if name not in EXPLAINED:
        raise Problem(404, f"There is no type of problem called {name}.")
    title, detail = EXPLAINED[name]
    return {"title": title, "detail": detail}, {"Cache-Control": "public, max-age=3600"}
