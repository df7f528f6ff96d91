"""What finishes a top: binding, backing, batting. And the sources its outlines come from."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

STRAIGHT, BIAS = BINDING_CUTS = ("straight", "bias")
OWN, SHARED, VIEWER = RIGHTS = ("own", "may be shared", "viewer must own")


@dataclass(frozen=True)
class Binding:
    """Strips round the edge. `strip` is the cut width in inches."""

    fabric: str
    strip: Fraction
    cut: str = STRAIGHT


@dataclass(frozen=True)
class Backing:
    """The cloth of the back, so many inches larger than the top on every side."""

    fabric: str
    overhang: Fraction


@dataclass(frozen=True)
class Finish:
    """How the top is finished; None for what a project leaves out. Batting is given by its overhang in inches."""

    binding: Binding | None = None
    backing: Backing | None = None
    batting_overhang: Fraction | None = None


@dataclass(frozen=True)
class Source:
    """Where outlines come from, and who may pass them on. `covers` names outline files."""

    name: str
    covers: tuple[str, ...]
    rights: str

    @property
    def may_leave(self) -> bool:
        """Whether what it covers may stand in a public bundle."""
        return self.rights != VIEWER


@dataclass(frozen=True)
class Part:
    """One part of a project as it is published, and the chapters it covers."""

    title: str
    covers: tuple[str, ...]


CHAPTERS = ("cutting", "piecing", "applique", "finishing")
"""The chapters of every project, in working order."""


@dataclass(frozen=True)
class Colourway:
    """Other cloths for the same project: new colours (and names) by fabric key."""

    name: str
    colours: dict[str, str]
    names: dict[str, str]
