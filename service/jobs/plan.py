"""Which jobs a project needs, and what each of them waits for: the table in DEVELOPERS.md."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from service.craft.tracks import Track

CUTTING = "cutting"
SEWING = "sewing"
COLOURWAYS = "colourways"
STITCHES = "stitches"
CUT_FILES = "cut files"
TEMPLATES = "templates"
HANDOUT = "handout"
RUN_SHEET = "run sheet"
BUNDLE = "bundle"

KINDS = (CUTTING, SEWING, COLOURWAYS, STITCHES, CUT_FILES, TEMPLATES, HANDOUT, RUN_SHEET, BUNDLE)
"""Every kind of job, a job never before what it waits for."""


class ProjectView(Protocol):
    """What planning looks at in a project that was read."""

    @property
    def tracks(self) -> Sequence[Track]:
        """The ways through the project."""
        ...

    @property
    def pieces(self) -> Sequence[object]:
        """The applique pieces; their number is all that counts here."""
        ...

    def needs_templates(self, track: Track) -> bool:
        """Whether viewers of a track draw round anything."""
        ...


@dataclass(frozen=True)
class JobName:
    """What tells the jobs of one project apart: the kind, and the track's name for jobs made once a track."""

    kind: str
    track: str | None = None


@dataclass(frozen=True)
class PlannedJob:
    """One job of a project and the jobs of the same project that it waits for."""

    name: JobName
    waits_for: tuple[JobName, ...] = ()


class UnknownKind(ValueError):
    """A kind of job was asked for that there is not."""

    def __init__(self, kind: str) -> None:
        super().__init__(f"there is no kind of job called {kind!r}; the kinds are {', '.join(KINDS)}")
        self.kind = kind


def plan_jobs(project: ProjectView, kinds: Collection[str] | None = None) -> list[PlannedJob]:
    """The jobs of a project, each after the ones it waits for.

    With `kinds`, only jobs of those kinds and what they wait for; `UnknownKind` for any other word.
    """
    every = [*_once_a_project(project), *_once_a_track(project)]
    return every if kinds is None else choose_jobs(every, kinds)


def choose_jobs(every: Sequence[PlannedJob], kinds: Collection[str]) -> list[PlannedJob]:
    """The jobs of some kinds out of a plan, with what they wait for, in the plan's order."""
    for kind in kinds:
        if kind not in KINDS:
            raise UnknownKind(kind)
    wanted = _with_what_they_wait_for(every, kinds)
    return [job for job in every if job.name in wanted]


def _once_a_project(project: ProjectView) -> Iterator[PlannedJob]:
    cutting, sewing = JobName(CUTTING), JobName(SEWING)
    yield PlannedJob(cutting)
    yield PlannedJob(sewing)
    yield PlannedJob(JobName(COLOURWAYS))
    if project.pieces and any(track.hoop for track in project.tracks):
        yield PlannedJob(JobName(STITCHES))
    if project.pieces and any(track.cutter for track in project.tracks):
        yield PlannedJob(JobName(CUT_FILES))
    yield PlannedJob(JobName(RUN_SHEET), (cutting, sewing))


def _once_a_track(project: ProjectView) -> Iterator[PlannedJob]:
    for track in project.tracks:
        used = tuple(_used_by(track, project))
        handout = JobName(HANDOUT, track.name)
        if project.needs_templates(track):
            # their marks come to lie where the middles of the hoopings do
            hooped = (JobName(STITCHES),) if project.pieces and track.hoop else ()
            yield PlannedJob(JobName(TEMPLATES, track.name), hooped)
        yield PlannedJob(handout, used)
        yield PlannedJob(JobName(BUNDLE, track.name), (*used, handout))


def _used_by(track: Track, project: ProjectView) -> Iterator[JobName]:
    """What the handout of a track shows or points to."""
    yield JobName(CUTTING)
    yield JobName(SEWING)
    if project.pieces and track.hoop:
        yield JobName(STITCHES)
    if project.pieces and track.cutter:
        yield JobName(CUT_FILES)
    if project.needs_templates(track):
        yield JobName(TEMPLATES, track.name)


def _with_what_they_wait_for(every: Iterable[PlannedJob], kinds: Collection[str]) -> set[JobName]:
    jobs = {job.name: job for job in every}
    wanted: set[JobName] = set()
    left = [name for name in jobs if name.kind in kinds]
    while left:
        name = left.pop()
        if name not in wanted:
            wanted.add(name)
            left += jobs[name].waits_for
    return wanted
