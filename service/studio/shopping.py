"""Shopping lists: which projects one is for, and asking for it. What cuts cloth is found by its entry point."""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Sequence
from datetime import date
from functools import cache
from importlib.metadata import entry_points
from math import inf
from typing import Any, Protocol

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.shopping import ShoppingAsked, ShoppingProject
from service.storage.canonical import digest
from service.storage.models import Project, Series
from service.storage.recovery import NotFound
from service.studio.projects import stored_outlines

GROUP, NAME = "batchbee.computations", "shopping"
"""The entry point in pyproject.toml that names what reckons a list; nothing here imports a worker."""

SECONDS = 15.0
"""For the plans of one list; a person waits for it, and reading the projects takes its time besides."""
WAIT_SECONDS = 25.0
"""How long a list waits for others before it."""
KEPT = 40
"""Lists kept in memory."""
HURRIED_KEPT_SECONDS = 600.0
"""How long a list is kept for which time ran out: another day it comes out better."""


class PlanShopping(Protocol):
    """What reckons a list: plain JSON, as the guide says; `CannotShop` where a project cannot be cut or sewn."""

    def __call__(self, asked: ShoppingAsked, /) -> dict[str, Any]:
        """The list for what is asked."""
        ...


class NotHere(Exception):
    """Nothing is installed that reckons lists."""


class Busy(Exception):
    """Other lists are being reckoned; ask again."""


class NothingThatDay(LookupError):
    """A series has no project with a release date; `dates` are those it has."""

    def __init__(self, release: date, dates: Sequence[date]) -> None:
        super().__init__(f"The series has no project with the release date {release.isoformat()}.")
        self.dates = tuple(dates)


def plan_by_entry_point(asked: ShoppingAsked) -> dict[str, Any]:
    """What the installed distribution names; it is loaded when the first list is asked for. `NotHere`."""
    return _load()(asked)


@cache
def _load() -> PlanShopping:
    for entry in entry_points(group=GROUP, name=NAME):
        found: PlanShopping = entry.load()
        return found
    raise NotHere(f"no entry point {NAME} in the group {GROUP}")


class ShoppingDesk:
    """Hands out lists, one after the other: a list takes all of a core. Each is reckoned once while it stands.

    Safe between threads.
    """

    def __init__(
        self, plan: PlanShopping = plan_by_entry_point, *, clock: Callable[[], float] = time.monotonic
    ) -> None:
        self._plan = plan
        self._clock = clock
        self._turn = threading.Lock()
        self._keeping = threading.Lock()
        self._kept: OrderedDict[str, tuple[dict[str, Any], float]] = OrderedDict()

    def list_for(self, projects: Sequence[ShoppingProject], kits: int) -> dict[str, Any]:
        """The list for so many kits of these projects. `CannotShop`, `Busy`, `NotHere`."""
        key = digest([kits, [_identify(project) for project in projects]], keep_order=True)
        if (found := self._recall(key)) is not None:
            return found
        if not self._turn.acquire(timeout=WAIT_SECONDS):
            raise Busy
        try:
            # somebody may have asked for the same while this one waited
            return self._recall(key) or self._reckon(key, projects, kits)
        finally:
            self._turn.release()

    def _reckon(self, key: str, projects: Sequence[ShoppingProject], kits: int) -> dict[str, Any]:
        end = self._clock() + SECONDS
        made = self._plan(ShoppingAsked(tuple(projects), kits, lambda: end - self._clock()))
        now = self._clock()
        self._keep(key, made, until=inf if now < end else now + HURRIED_KEPT_SECONDS)
        return made

    def _recall(self, key: str) -> dict[str, Any] | None:
        with self._keeping:
            made, until = self._kept.get(key, (None, inf))
            if made is not None:
                self._kept.move_to_end(key)
            return made if self._clock() < until else None

    def _keep(self, key: str, made: dict[str, Any], *, until: float) -> None:
        """Keep a list, and let go of those asked for longest ago."""
        with self._keeping:
            self._kept[key] = (made, until)
            while len(self._kept) > KEPT:
                self._kept.popitem(last=False)


def _identify(project: ShoppingProject) -> list[Any]:
    """Everything that a list depends on; an outline file is known by the checksum of its bytes."""
    sums = {name: stored["sha256"] for name, stored in project.outlines.items()}
    return [project.id, project.release, project.document, sums]


def gather_project(session: Session, id_: str) -> ShoppingProject:
    """One project to buy for; `NotFound`."""
    project = session.get(Project, id_)
    if project is None:
        raise NotFound("project", id_)
    return _as_asked(session, project)


def gather_series(session: Session, id_: str, release: date | None) -> tuple[Series, list[ShoppingProject]]:
    """The projects of a series, of one release date or all, in the order of their release.

    `NotFound`; `NothingThatDay` where no project has that date.
    """
    series = session.get(Series, id_)
    if series is None:
        raise NotFound("series", id_)
    of_series = select(Project).where(Project.series_id == id_)
    projects = sorted(session.scalars(of_series), key=lambda p: (p.release or date.max, p.id))
    wanted = [project for project in projects if release in (None, project.release)]
    if release is not None and not wanted:
        raise NothingThatDay(release, sorted({p.release for p in projects if p.release is not None}))
    return series, [_as_asked(session, project) for project in wanted]


def _as_asked(session: Session, project: Project) -> ShoppingProject:
    return ShoppingProject(
        id=project.id,
        title=project.title,
        document=project.document,
        outlines=stored_outlines(session, project.id),
        release=project.release.isoformat() if project.release else None,
    )
