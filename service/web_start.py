"""What the web server does once when it starts, wherever it is started from (gunicorn's configuration).

A studio that has no maker's key yet gets one; without it nobody could speak to the API.
"""

from __future__ import annotations

from typing import Any

from service.settings import Settings
from service.storage.migrate import migrate
from service.storage.session import Database
from service.storage.times import utc_now
from service.studio.keys import ensure_maker_token


def on_starting(server: Any) -> None:
    """Bring the tables up to date and see to the maker's key, before any request is answered."""
    settings = Settings.from_env()
    settings.data.mkdir(parents=True, exist_ok=True)
    database = Database(settings.database_url)
    migrate(database)
    written = ensure_maker_token(database, settings.data, now=utc_now(), fixed=settings.maker_token)
    # The server forks after this.
    database.close_idle()
    if written is not None:
        server.log.info("The maker's key was written to %s; keep it to yourself.", written)
