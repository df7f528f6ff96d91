"""For whom words are written: the language and the units of the viewers of a track.

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


ENGLISH = "en"


@dataclass(frozen=True)
class Audience:
    """Who reads. `units` is one of `UNITS`, `language` a tag of RFC 5646 (`service.craft.language`)."""

    units: str = AS_WRITTEN
    language: str = ENGLISH

    @property
    def slug(self) -> str:
        """What tells files for this audience from those of others.

        >>> Audience(METRIC).slug, Audience().slug, Audience(METRIC, "nl").slug
        ('metric', 'as-written', 'nl-metric')
        """
        units = self.units.replace(" ", "-")
        return units if self.language == ENGLISH else f"{self.language}-{units}"


def name_in(language: str, name: str) -> str:
    """The name of a file beside another that is the same in a language of its own.

    >>> name_in("nl", "stitch-130x180-1-colours.svg")
    'stitch-130x180-1-colours-nl.svg'
    """
    stem, dot, ending = name.rpartition(".")
    return f"{stem}-{language}{dot}{ending}"


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
