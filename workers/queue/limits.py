"""How long one job may take; far more than the slowest job known, far less than anybody waits."""

from __future__ import annotations

from time import monotonic

from workers.patience import Left

PATIENCE_SECONDS = 75
"""What a recipe is told it has: it then answers with the best it has found, well before it would be stopped."""
SOFT_LIMIT_SECONDS = 120
"""After this the job is told to stop, and fails."""
HARD_LIMIT_SECONDS = 150
"""After this its process is killed."""


def run_down(seconds: float = PATIENCE_SECONDS) -> Left:
    """The seconds that are left of so many, counted from now."""
    end = monotonic() + seconds
    return lambda: end - monotonic()
