"""How long a stage takes: counted from cuts, seams, inches of seam, pressings and pins, at a pace that can be set."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from service.craft.pace import Pace
from workers.sewing.panels import PANELS
from workers.sewing.works import Cut, Work

PINNED_FROM = 6.0
"""Inches of seam from which it is pinned along its way, once every so much; shorter ones are pinned where seams cross.
Our own estimate."""

CUTS_TO_TRIM = 2
"""A unit is trimmed in two goes, two sides in each. Common practice, no source."""

CUTS_TO_TRIM_PANELS = 1
"""A piece of panels is trimmed across its seams alone: two sides, one go."""


@dataclass(frozen=True)
class Counts:
    """What is done in a stage for all its copies: patches cut, seams, inches of seam, pressings, pins, trimmings."""

    cuts: int
    seams: int
    inches: float
    pressings: int
    pins: int
    trimmings: int = 0


def count_work(work: Work, copies: int, crossings: int, *, trimmed: bool) -> Counts:
    """The counts of a stage with so many copies; `crossings` are those inside one of them.

    A patch that is cut of panels is no cut of its own: they were cut, sewn and trimmed to its size in their own stage.
    """
    lengths = [abs(seam.end - seam.start) for seam in work.seams]
    pins = crossings + sum(int(length / PINNED_FROM) for length in lengths)
    goes = CUTS_TO_TRIM_PANELS if work.kind == PANELS else CUTS_TO_TRIM
    return Counts(
        cuts=copies * sum(isinstance(item.piece, Cut) and item.piece.pieced is None for item in work.items),
        seams=copies * len(lengths),
        inches=copies * sum(lengths),
        pressings=copies * len(lengths),
        pins=copies * pins,
        trimmings=copies * goes if trimmed else 0,
    )


@dataclass(frozen=True)
class Seconds:
    """Seconds of a stage at a practised pace: for cutting its own patches, and for sewing it."""

    cutting: float
    sewing: float

    @property
    def total(self) -> float:
        """Both together."""
        return self.cutting + self.sewing


def estimate_seconds(counts: Counts, pace: Pace) -> Seconds:
    """What a stage takes somebody practised."""
    sewing = (
        counts.seams * float(pace.seam)
        + counts.inches * float(pace.sewing)
        + counts.pressings * float(pace.press)
        + counts.pins * float(pace.pin)
        + counts.trimmings * float(pace.cut)
    )
    return Seconds(counts.cuts * float(pace.cut), sewing)


@dataclass(frozen=True)
class Minutes:
    """Whole minutes, rounded up, for somebody practised and for a beginner."""

    practised: int
    beginner: int


def as_minutes(seconds: float, pace: Pace) -> Minutes:
    """Seconds of somebody practised in minutes for both.

    >>> as_minutes(90, Pace())
    Minutes(practised=2, beginner=3)
    """
    return Minutes(ceil(seconds / 60), ceil(seconds * float(pace.beginner) / 60))
