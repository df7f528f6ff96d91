"""What a run needs from the place it runs in, opened once a process."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.settings import Settings
from service.storage.files import FileStore
from service.storage.session import Database
from service.storage.times import Clock, utc_now
from workers.queue.code_version import name_code
from workers.queue.recipes import load_table


@dataclass(frozen=True)
class Context:
    """The settings and what they lead to. `code` names the code, so that only its own files are reused."""

    settings: Settings
    database: Database
    store: FileStore
    recipes: Mapping[str, str]
    code: str
    clock: Clock

    @classmethod
    def open(cls, settings: Settings, clock: Clock = utc_now) -> Context:
        """Wire the real parts together; nothing is connected before its first use."""
        return cls(
            settings=settings,
            database=Database(settings.database_url),
            store=FileStore(settings.data),
            recipes=load_table(settings.recipes),
            code=f"{name_code()} {settings.recipes}",
            clock=clock,
        )
