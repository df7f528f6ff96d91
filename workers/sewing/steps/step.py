"""One step, as every chapter makes them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from service.craft.document import Project
from service.craft.measure import Number, format_length
from service.craft.outlines import Outline
from service.craft.tracks import Track
from workers.sewing.plan import SewingPlan, Stage
from workers.sewing.steps.ground import Ground, lay_out
from workers.stitches.pieces import Hooping

CUTTING, PIECING, APPLIQUE, FINISHING = ("cutting", "piecing", "applique", "finishing")


@dataclass(frozen=True)
class Step:
    """One action and the reason for it.

    `more` is said, and `why`, to those who are new to the chapter. `hazards` name what can hurt (see `hazards.py`).
    `measured` says that the stage's size is checked here. `heading` stands over steps without a stage that belong
    together; `pieces` names the applique pieces that the step is about; `speaks_of_bias` says that it tells how
    the stage's edges on the bias are held.
    """

    id: str
    chapter: str
    text: str
    why: str = ""
    more: str = ""
    stage: Stage | None = None
    measured: bool = False
    hazards: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    files: tuple[str, ...] = ()
    heading: str = ""
    pieces: tuple[str, ...] = ()
    speaks_of_bias: bool = False

    @property
    def group(self) -> str:
        """What the step belongs to: its stage, or the steps under one heading."""
        return self.stage.id if self.stage else self.heading


@dataclass(frozen=True)
class Lesson:
    """What steps are written for: the plan and the track; and for applique pieces, by name, what each lies on and its
    outline as drawn, as far as it is there; and the hoopings of the track, where steps speak of them one by one.
    """

    plan: SewingPlan
    track: Track
    rests_on: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    outlines: Mapping[str, Outline] = field(default_factory=dict)
    hoopings: Sequence[Hooping] = ()

    @property
    def project(self) -> Project:
        """The project."""
        return self.plan.project

    @cached_property
    def ground(self) -> Ground:
        """The sewn top, cloth by cloth."""
        return lay_out(self.project.top)

    def length(self, value: Number) -> str:
        """A length (inches) as the document writes it."""
        return format_length(value, self.project.measure)

    def cloth(self, fabric: str) -> str:
        """A cloth's name."""
        return self.plan.names.cloth(fabric)

    @property
    def allowance(self) -> str:
        """The seam allowance in words."""
        return self.length(self.project.seam_allowance)

    def explains(self, chapter: str) -> bool:
        """Whether a chapter is told to somebody new to it; who has done it before reads it in short."""
        return not self.track.has_done(chapter)


def sentences(*said: str) -> str:
    """What is said, one sentence after the other; an empty one is left out.

    >>> sentences("Lay out the parts.", "", "Make 3.")
    'Lay out the parts. Make 3.'
    """
    return " ".join(filter(None, said))


Facts = Mapping[str, str]
