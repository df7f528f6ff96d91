"""For whom words are written: the units that the viewers of a track measure in.

Lengths are exact inside and become words in one place (`service.craft.measure`). What the words should be depends on
who reads them, which is known where a recipe begins and not in the hundred places that say a length. So a recipe
writes inside `writing_for`, and the words ask `current_audience`. Outside of it lengths stand in the document's
measure, as faults do.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

AS_WRITTEN = "as written"
INCH, METRIC, BOTH = "inch", "metric", "both"
UNITS = (AS_WRITTEN, INCH, METRIC, BOTH)
"""What lengths are said in; the first is the default: the document's measure, and in tables the other one beside it."""


@dataclass(frozen=True)
class Audience:
    """Who reads. `units` is one of `UNITS`."""

    units: str = AS_WRITTEN

    @property
    def slug(self) -> str:
        """What tells files for this audience from those of others.

        >>> Audience(METRIC).slug, Audience().slug
        ('metric', 'as-written')
        """
        return self.units.replace(" ", "-")


USUAL_AUDIENCE = Audience()

_CURRENT: ContextVar[Audience] = ContextVar("audience", default=USUAL_AUDIENCE)


def current_audience() -> Audience:
    """For whom words are being written."""
    return _CURRENT.get()


@contextmanager
def writing_for(audience: Audience) -> Iterator[None]:
    """Words said inside are for this audience."""
    token = _CURRENT.set(audience)
    try:
        yield
    finally:
        _CURRENT.reset(token)
