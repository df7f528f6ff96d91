"""Every room, in the order of the OpenAPI document, and where it stands."""

from __future__ import annotations

from service.api import (
    artifacts,
    batches,
    events,
    health,
    jobs,
    materials,
    outlines,
    projects,
    releases,
    series,
    steps,
    tokens,
)
from service.api.room import Room

API = "/api/v1"

ROOMS: tuple[tuple[Room, str | None], ...] = (
    (series.room, API),
    (projects.room, API),
    (outlines.room, API),
    (steps.room, API),
    (materials.room, API),
    (batches.room, API),
    (events.room, API),
    (jobs.room, API),
    (artifacts.room, API),
    (releases.room, API),
    (tokens.room, API),
    (health.words, API),
    (health.room, None),
)
