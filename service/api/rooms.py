"""Every room, in the order of the OpenAPI document, and where it stands."""

from __future__ import annotations

from service.api.artifacts import room as artifacts
from service.api.batches import room as batches
from service.api.calibration import room as calibration
from service.api.events import room as events
from service.api.health import room as health
from service.api.health import words as problems
from service.api.jobs import room as jobs
from service.api.materials import room as materials
from service.api.outlines import room as outlines
from service.api.previews import room as previews
from service.api.projects import room as projects
from service.api.releases import room as releases
from service.api.room import Room
from service.api.series import room as series
from service.api.shopping import room as shopping
from service.api.steps import room as steps
from service.api.swatches import room as swatches
from service.api.tokens import room as tokens

API = "/api/v1"

ROOMS: tuple[tuple[Room, str | None], ...] = (
    (series, API),
    (projects, API),
    (previews, API),
    (outlines, API),
    (swatches, API),
    (calibration, API),
    (steps, API),
    (shopping, API),
    (materials, API),
    (batches, API),
    (events, API),
    (jobs, API),
    (artifacts, API),
    (releases, API),
    (tokens, API),
    (problems, API),
    (health, None),
)
