"""What the routes of one application share: put there by `create_app`, asked for by the views."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from typing import cast

from flask import current_app

from service.jobs.dispatch import Dispatch
from service.settings import Settings
from service.storage.files import FileStore
from service.storage.session import Database
from service.storage.times import Clock
from service.studio.shopping import ShoppingDesk
from service.studio.tracing import TracingDesk

NAME = "batchbee"


class Turnstile:
    """Lets in so many at a time. Safe between threads."""

    def __init__(self, places: int) -> None:
        self._places = places
        self._inside = 0
        self._lock = threading.Lock()

    def enter(self) -> bool:
        """Take a place; False when all are taken."""
        with self._lock:
            if self._inside >= self._places:
                return False
            self._inside += 1
            return True

    def leave(self) -> None:
        """Give the place back."""
        with self._lock:
            self._inside -= 1


@dataclass(frozen=True)
class Wiring:
    """The parts one application was made of."""

    settings: Settings
    database: Database
    store: FileStore
    clock: Clock
    dispatch: Dispatch | None
    streams: Turnstile
    shopping: ShoppingDesk = field(default_factory=ShoppingDesk)
    tracing: TracingDesk = field(default_factory=TracingDesk)
    sleep: Callable[[float], None] = time.sleep
    bundles: dict[tuple[str, ...], str] = field(default_factory=dict)
    """Which file in the store holds the bundles of these projects together."""


def parts() -> Wiring:
    """The parts of the application that answers the present request."""
    return cast(Wiring, current_app.extensions[NAME])


def now() -> datetime:
    """The present moment by the application's clock."""
    return parts().clock()
