"""The sewing plan: the works in order, what they measure, which way their seams are pressed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from service.craft.document import Project
from service.craft.measure import Exact
from workers.recipe import CannotMake
from workers.sewing.assemble import NotSewn, assemble
from workers.sewing.crossings import Crossing, SeamKey
from workers.sewing.liking import weigh_sides
from workers.sewing.lines import LineFinder
from workers.sewing.nesting import Nested, find_nesting
from workers.sewing.pressed import Laying, PressedSeam, find_layings, press_in_ways
from workers.sewing.pressing import Pressing
from workers.sewing.simulation import Simulator
from workers.sewing.small_units import ClothNames
from workers.sewing.stage_notes import StageNotes, note_stages
from workers.sewing.tolerance import ErrorModel, round_limits
from workers.sewing.works import Laid, Work


@dataclass(frozen=True)
class StageSize:
    """What a stage measures, allowances on, and the smallest and largest that still join: width, height, inches."""

    expected: tuple[Exact, Exact]
    low: tuple[Fraction, Fraction]
    high: tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Stage:
    """One stage of the work: what is sewn, how many, how large, how pressed, and whether other seams meet its own.

    `other_way` counts the copies that are pressed the second way; `layings` say which places of which
    copies of this stage take parts that are pressed the second way.
    """

    work: Work
    count: int
    size: StageSize
    seams: tuple[PressedSeam, ...]
    meets_others: bool
    other_way: int = 0
    layings: tuple[Laying, ...] = ()

    @property
    def id(self) -> str:
        """The stage's id, the same as long as what it is about stands."""
        return self.work.stage

    @property
    def needs(self) -> list[str]:
        """The ids of the stages that come first, each once."""
        return list(dict.fromkeys(inner.stage for inner in self.work.works))

    @property
    def makes(self) -> str:
        """What the stage makes, in words."""
        return f"{self.count} {self.work.many}" if self.count > 1 else f"1 {self.work.one}"


@dataclass(frozen=True)
class SewingPlan:
    """The whole plan of one project. `nested` holds every work and its crossings; equal ones are one stage."""

    project: Project
    names: ClothNames
    top: Laid
    stages: tuple[Stage, ...]
    nested: Nested

    @property
    def crossings(self) -> tuple[Crossing, ...]:
        """The crossings, looked at once a work."""
        return self.nested.crossings

    @property
    def pressing(self) -> Pressing[SeamKey]:
        """The side of every seam, and which crossings fail."""
        return self.nested.pressing

    @cached_property
    def notes(self) -> dict[str, StageNotes]:
        """Points, bias edges and time by stage id."""
        works = {stage.id: (stage.work, stage.count) for stage in self.stages}
        return note_stages(self.project, works, (crossing.work for crossing in self.crossings))

    @property
    def failing(self) -> Iterator[Crossing]:
        """The crossings whose seams do not nest."""
        return iter(self.nested.failing)


def plan_sewing(project: Project, *, model: ErrorModel | None = None) -> SewingPlan:
    """Plan the sewing of a project's top; a `CannotMake` names a unit that nobody can sew yet."""
    names = ClothNames(project.fabrics, project.measure)
    try:
        top = assemble(project, names)
    except NotSewn as kind:
        raise CannotMake(str(kind), pointer="/top", right="one of the kinds of unit in the guide") from kind
    nested = find_nesting(top, lambda seam, bulk: weigh_sides(seam, bulk, project.fabrics))
    meeting = {seam[0] for crossing in nested.crossings for seam in crossing.met}
    measure = _Measurer(project, model or ErrorModel(project.accuracy))
    sewn_together: dict[str, list[Work]] = {}
    for work in nested.works:
        sewn_together.setdefault(work.stage, []).append(work)
    ways_of = {stage: press_in_ways(works, nested, project.fabrics) for stage, works in sewn_together.items()}
    second = frozenset[str]().union(*(ways.second for ways in ways_of.values()))
    stages = []
    for stage, works in sewn_together.items():
        ways = ways_of[stage]
        stages.append(
            Stage(
                ways.work,
                sum(nested.counts[work] for work in works),
                measure.size(ways.work),
                ways.seams,
                any(work.id in meeting for work in works),
                ways.other_way,
                find_layings(works, second, nested),
            )
        )
    return SewingPlan(project, names, replace(top, piece=nested.top), tuple(stages), nested)


class _Measurer:
    """Measures works: what they should come to, and how far off they come out where errors are tried out."""

    def __init__(self, project: Project, model: ErrorModel) -> None:
        self._project, self._model = project, model
        self._lines, self._simulator = LineFinder(project.rules), Simulator(model)

    def size(self, work: Work) -> StageSize:
        """The expected size of a work and the limits within which it still joins."""
        expected = work.unfinished(self._project.seam_allowance)
        spreads = map(self._simulator.spread, self._lines.find(work))
        limits = [
            round_limits(size, spread.below, spread.above, self._project.measure, self._model)
            for size, spread in zip(expected, spreads, strict=True)
        ]
        (low_width, high_width), (low_height, high_height) = limits
        return StageSize(expected, (low_width, low_height), (high_width, high_height))
