"""What is worth knowing of a stage beside its size: points at risk, bias edges, how long it takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from service.craft.document import Project
from service.craft.language import phrase
from service.craft.pace import Pace
from workers.sewing.bias import BiasEdges, BiasFinder, is_sewn_before_cut
from workers.sewing.minutes import Counts, Minutes, Seconds, as_minutes, count_work, estimate_seconds
from workers.sewing.points import Point, find_points
from workers.sewing.tolerance import ErrorModel
from workers.sewing.trimming import find_room_to_trim
from workers.sewing.works import Work


@dataclass(frozen=True)
class StageNotes:
    """Of one stage: its points, its bias edges, and what is done in it, with the seconds at a practised pace.

    `pin`: edges on the bias lie open when they are sewn.
    """

    points: tuple[Point, ...]
    bias: BiasEdges
    counts: Counts
    seconds: Seconds
    pin: bool = False

    @property
    def at_risk(self) -> tuple[Point, ...]:
        """The points that the next seam may cut off."""
        return tuple(point for point in self.points if point.at_risk)


def note_stages(
    project: Project, works: Mapping[str, tuple[Work, int]], crossed_in: Iterable[str], model: ErrorModel
) -> dict[str, StageNotes]:
    """Notes by stage id, from each stage's work and its copies; `crossed_in` names a work for each crossing in it.

    Points are looked at with the errors of the model.
    """
    finder, crossings = BiasFinder(), Counter(crossed_in)
    notes = {}
    for stage, (work, copies) in works.items():
        trimmed = find_room_to_trim(work, project.rules) is not None
        counts = count_work(work, copies, crossings[work.id], trimmed=trimmed)
        bias = finder.find(work)
        notes[stage] = StageNotes(
            find_points(work, project, model),
            bias,
            counts,
            estimate_seconds(counts, project.pace),
            bool(bias.sewn) and not is_sewn_before_cut(work),
        )
    return notes


@dataclass(frozen=True)
class WholeTime:
    """How long a whole top takes: cutting its patches, piecing, and both; of that, what long strips take to join."""

    cutting: Minutes
    piecing: Minutes
    total: Minutes
    joins: Minutes


def add_up(notes: Iterable[StageNotes], joins: Counts, pace: Pace) -> WholeTime:
    """The time of all stages and of the joins of long strips together; each sum is rounded up by itself."""
    joining = estimate_seconds(joins, pace)
    listed = [*(note.seconds for note in notes), joining]
    cutting, sewing = (sum(getattr(part, what) for part in listed) for what in ("cutting", "sewing"))
    whole = (as_minutes(seconds, pace) for seconds in (cutting, sewing, cutting + sewing, joining.total))
    return WholeTime(*whole)


def say_hours(minutes: int) -> str:
    """Minutes as somebody plans an afternoon by: in tens, from an hour and a half on in halves of an hour, rounded up.

    >>> say_hours(3), say_hours(44), say_hours(91), say_hours(200), say_hours(240)
    ('about 10 minutes', 'about 50 minutes', 'about 2 hours', 'about 3 1/2 hours', 'about 4 hours')
    """
    if minutes <= LONGEST_IN_MINUTES:
        return phrase("about {minutes} minutes", minutes=max(1, -(-minutes // 10)) * 10)
    halves = -(-minutes // 30)
    hours = f"{halves // 2} 1/2" if halves % 2 else str(halves // 2)
    return phrase("about {hours} hours", hours=hours)


LONGEST_IN_MINUTES = 90
"""Minutes up to which a time is said in minutes."""
