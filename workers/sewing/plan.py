"""The sewing plan: the works in order, what they measure, which way their seams are pressed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from service.craft.accuracy import Accuracy
from service.craft.document import Project
from service.craft.measure import Exact
from workers.recipe import CannotMake
from workers.sewing.assemble import NotSewn, assemble
from workers.sewing.crossings import Crossing, SeamKey
from workers.sewing.liking import weigh_sides
from workers.sewing.lines import LineFinder
from workers.sewing.nesting import Nested, find_nesting
from workers.sewing.pressed import Pile, PressedSeam, sort_into_piles
from workers.sewing.pressing import Pressing
from workers.sewing.simulation import Simulator
from workers.sewing.small_units import ClothNames
from workers.sewing.stage_notes import StageNotes, note_stages
from workers.sewing.titles import tell_apart
from workers.sewing.tolerance import ErrorModel, round_limits
from workers.sewing.turned_top import set_upright
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

    `work`, `size` and `seams` are those of the first of its `piles`; copies on one pile are made alike.
    """

    work: Work
    count: int
    size: StageSize
    seams: tuple[PressedSeam, ...]
    meets_others: bool
    piles: tuple[Pile, ...]

    @property
    def ways(self) -> tuple[tuple[int, tuple[PressedSeam, ...]], ...]:
        """The ways its copies are pressed in: how many copies, and their seams."""
        counts: dict[int, int] = {}
        seams = {pile.way: pile.seams for pile in reversed(self.piles)}
        for pile in self.piles:
            counts[pile.way] = counts.get(pile.way, 0) + pile.count
        return tuple((counts[way], seams[way]) for way in sorted(counts))

    @property
    def other_way(self) -> int:
        """How many copies are pressed another way than the first."""
        return self.count - self.ways[0][0]

    @property
    def id(self) -> str:
        """The stage's id, the same as long as what it is about stands."""
        return self.work.stage

    @property
    def needs(self) -> list[str]:
        """The ids of the stages that come first, each once."""
        return list(dict.fromkeys(inner.stage for inner in self.work.needed))

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
    model: ErrorModel

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
        return note_stages(self.project, works, (crossing.work for crossing in self.crossings), self.model)

    @property
    def failing(self) -> Iterator[Crossing]:
        """The crossings whose seams do not nest."""
        return iter(self.nested.failing)


def plan_sewing(project: Project, *, model: ErrorModel | None = None) -> SewingPlan:
    """Plan the sewing of a project's top; a `CannotMake` names a unit that nobody can sew yet."""
    names = ClothNames(project.fabrics, project.measure)
    try:
        top = set_upright(assemble(project, names))
    except NotSewn as kind:
        raise CannotMake(str(kind), pointer="/top", right="one of the kinds of unit in the guide") from kind
    nested = find_nesting(top, lambda seam, bulk: weigh_sides(seam, bulk, project.fabrics))
    meeting = {seam[0] for crossing in nested.crossings for seam in crossing.met}
    model = model or ErrorModel(project.accuracy)
    measure = _Measurer(project, model)
    stages = [
        Stage(
            piles[0].work,
            sum(pile.count for pile in piles),
            measure.size(piles[0].work),
            piles[0].seams,
            any(pile.work.id in meeting for pile in piles),
            piles,
        )
        for piles in sort_into_piles(nested, project.fabrics).values()
    ]
    titles = tell_apart([stage.work for stage in stages], names)
    stages = [replace(stage, work=replace(stage.work, title=titles[stage.id])) for stage in stages]
    return SewingPlan(project, names, replace(top, piece=nested.top), tuple(stages), nested, model)


def measure_for(plan: SewingPlan, accuracy: Accuracy) -> SewingPlan:
    """The same plan with the limits of its stages and its points at risk for somebody who works that exactly."""
    model = replace(plan.model, accuracy=accuracy)
    if model == plan.model:
        return plan
    measure = _Measurer(plan.project, model)
    stages = tuple(replace(stage, size=measure.size(stage.work)) for stage in plan.stages)
    return replace(plan, stages=stages, model=model)


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
