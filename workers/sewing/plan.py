"""The sewing plan: the works in order, what they measure, which way their seams are pressed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.craft.document import Project
from service.craft.measure import Exact
from workers.recipe import CannotMake
from workers.sewing.assemble import NotSewn, assemble
from workers.sewing.crossings import Crossing, CrossingFinder, Meetings, SeamKey, seam_key
from workers.sewing.liking import name_press, name_towards, weigh_sides
from workers.sewing.lines import LineFinder
from workers.sewing.ordering import count_copies, order_works
from workers.sewing.pressing import Bond, Pressing, solve_pressing
from workers.sewing.simulation import Simulator
from workers.sewing.small_units import ClothNames
from workers.sewing.tolerance import ErrorModel, round_limits
from workers.sewing.works import Laid, SeamLine, Work


@dataclass(frozen=True)
class StageSize:
    """What a stage measures, allowances on, and the smallest and largest that still join: width, height, inches."""

    expected: tuple[Exact, Exact]
    low: tuple[Fraction, Fraction]
    high: tuple[Fraction, Fraction]


@dataclass(frozen=True)
class PressedSeam:
    """A seam of a stage with the way it is pressed, in a word, and what it falls towards, in words."""

    id: str
    line: SeamLine
    press: str
    towards: str


@dataclass(frozen=True)
class Stage:
    """One stage of the work: what is sewn, how many, how large, how pressed, and whether other seams meet its own."""

    work: Work
    count: int
    size: StageSize
    seams: tuple[PressedSeam, ...]
    meets_others: bool

    @property
    def id(self) -> str:
        """The stage's id, the same as long as what it is about stands."""
        return self.work.id

    @property
    def needs(self) -> list[str]:
        """The ids of the stages that come first, each once."""
        return list(dict.fromkeys(inner.id for inner in self.work.works))

    @property
    def makes(self) -> str:
        """What the stage makes, in words."""
        return f"{self.count} {self.work.many}" if self.count > 1 else f"1 {self.work.one}"


@dataclass(frozen=True)
class SewingPlan:
    """The whole plan of one project. `crossings` are looked at once a stage; `pressing` says which of them fail."""

    project: Project
    names: ClothNames
    top: Laid
    stages: tuple[Stage, ...]
    crossings: tuple[Crossing, ...]
    pressing: Pressing[SeamKey]

    @property
    def failing(self) -> Iterator[Crossing]:
        """The crossings whose seams do not nest."""
        return (self.crossings[i] for i in self.pressing.broken)


def plan_sewing(project: Project, *, model: ErrorModel | None = None) -> SewingPlan:
    """Plan the sewing of a project's top; a `CannotMake` names a unit that nobody can sew yet."""
    names = ClothNames(project.fabrics, project.measure)
    try:
        top = assemble(project, names)
    except NotSewn as kind:
        raise CannotMake(str(kind), pointer="/top", right="one of the kinds of unit in the guide") from kind
    assert isinstance(top.piece, Work), "the top is always a work"  # noqa: S101
    works = order_works(top.piece)
    finder = CrossingFinder()
    meetings = {work: finder.meet(work) for work in works}
    crossings = tuple(crossing for work in works for crossing in meetings[work].crossings)
    pressing = _press(project, works, meetings, crossings)
    meeting = {seam[0] for crossing in crossings for seam in (crossing.first, crossing.second)}
    counts = count_copies(works)
    measure = _Measurer(project, model or ErrorModel(project.accuracy))
    stages = tuple(
        Stage(
            work,
            counts[work],
            measure.size(work),
            _pressed(work, pressing),
            work.id in meeting,
        )
        for work in works
    )
    return SewingPlan(project, names, top, stages, crossings, pressing)


def _press(
    project: Project, works: list[Work], meetings: dict[Work, Meetings], crossings: tuple[Crossing, ...]
) -> Pressing[SeamKey]:
    costs = {
        (work.id, number): weigh_sides(seam, bulk, project.fabrics)
        for work in works
        for number, (seam, bulk) in enumerate(zip(work.seams, meetings[work].bulk, strict=True))
        if not seam.fixed and seam.same_as is None
    }
    return solve_pressing(costs, [Bond(c.first, c.second, c.alike) for c in crossings])


def name_seam(seam: SeamKey) -> str:
    """The id of a seam."""
    return f"{seam[0]}.seam-{seam[1] + 1}"


def _pressed(work: Work, pressing: Pressing[SeamKey]) -> tuple[PressedSeam, ...]:
    found = []
    for number, line in enumerate(work.seams):
        side = pressing.sides.get(seam_key(work, number), 0)
        found.append(
            PressedSeam(name_seam((work.id, number)), line, name_press(line, side), name_towards(line, side))
        )
    return tuple(found)


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
