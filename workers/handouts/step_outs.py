"""Step-outs: the stages to sew ahead of filming, and the cloth they cost."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import Any

from service.craft.cutting_words import say_then
from service.craft.document import Project
from service.craft.drawing import view_cloths
from service.craft.language import phrase
from service.craft.measure import length_object, round_up
from service.craft.units import Unit
from workers.handouts.on_the_table import Stages, reckon_minutes
from workers.handouts.pictures import find_unit, index_units
from workers.handouts.sizes import Shown, show_length, show_size
from workers.sewing.stage_notes import say_hours

FINENESS = 64
"""Parts of an inch in which patches of a drawing are told apart: finer than any ruler."""


@dataclass(frozen=True)
class ExtraCut:
    """Cuts for one step-out: the cloth's key, sides in inches, how many, what is done then."""

    fabric: str
    width: Fraction
    height: Fraction
    count: int
    then: str


@dataclass(frozen=True)
class StepOut:
    """One extra of a stage to sew ahead: its title, its cuts, the cuts in words, and the whole minutes it takes."""

    title: str
    cuts: tuple[ExtraCut, ...]
    words: tuple[str, ...]
    minutes: int = 0

    @property
    def time(self) -> str:
        """How long it takes somebody practised, in words; empty where it is not known."""
        return say_hours(self.minutes) if self.minutes else ""


def list_step_outs(project: Project, sewing: Mapping[str, Any], shown: Iterable[Any]) -> Iterator[StepOut]:
    """One extra of each stage that is made more than once, that a later stage builds on, and that is `shown`.

    Such a stage is shown half-way, and then a finished one takes its place. What is made once is filmed as
    it is made.
    """
    shown = set(shown)
    stages = sewing.get("stages", [])
    needed = {need for stage in stages for need in stage.get("needs", [])}
    by_id = {stage.get("id"): stage for stage in stages}
    units = index_units(project)
    for stage in stages:
        if stage.get("id") in needed & shown and int(stage.get("count") or 0) > 1:
            cuts = tuple(_add_up(_list_cuts(project, stage, by_id, units)))
            minutes = ceil(reckon_minutes(stage, by_id))
            words = tuple(_say_cut(project, cut) for cut in cuts)
            yield StepOut(str(stage.get("title", "")), cuts, words, minutes)


def _list_cuts(
    project: Project, stage: Mapping[str, Any], stages: Stages, units: Mapping[str, Unit]
) -> Iterator[ExtraCut]:
    """The cuts of one more of a stage: of the units it names, or else of its parts and of the rectangles it adds."""
    made = find_made(stage, units)
    if made:
        yield from list_extra_cuts(project, made)
        return
    inside = Counter(_list_rectangles(stage))
    for part in stage.get("parts") or ():
        if part.get("stage") in stages:
            inside -= Counter(_list_rectangles(stages[part["stage"]]))
            yield from _list_cuts(project, stages[part["stage"]], stages, units)
    both, step = 2 * project.seam_allowance, project.rules.round_to
    for (fabric, *sides), count in inside.items():
        short, long = (round_up(Fraction(side) / FINENESS + both, step) for side in sides)
        yield ExtraCut(fabric, long, short, count, "")


def _list_rectangles(stage: Mapping[str, Any]) -> Iterator[tuple[str, int, int]]:
    """The upright rectangles among a stage's patches: cloth, short and long side in sixty-fourths of an inch."""
    for patch in stage.get("patches") or ():
        xs, ys = ({round(point[axis] * FINENESS) for point in patch["points"]} for axis in (0, 1))
        if len(patch["points"]) == 4 and len(xs) == len(ys) == 2:
            short, long = sorted((max(xs) - min(xs), max(ys) - min(ys)))
            yield str(patch.get("fabric", "")), short, long


def _add_up(cuts: Iterable[ExtraCut]) -> Iterator[ExtraCut]:
    """Cuts that are alike as one, in the order in which they first come."""
    counts: dict[ExtraCut, int] = defaultdict(int)
    for cut in cuts:
        counts[replace(cut, count=0)] += cut.count
    for cut, count in counts.items():
        yield replace(cut, count=count)


def find_made(stage: Mapping[str, Any], units: Mapping[str, Unit]) -> list[Unit]:
    """The units that a stage sews together: the whole one it names, or the row with its patches in what it is of."""
    whole = find_unit(stage, units)
    if whole is not None:
        return [whole]
    cloths = sorted(str(patch.get("fabric", "")) for patch in stage.get("patches", []))
    for row in getattr(units.get(str(stage.get("part_of", ""))), "rows", ()):
        if sorted(patch.fabric for inner in row for patch in inner.patches()) == cloths:
            return list(row)
    return []


def list_extra_cuts(project: Project, units: Iterable[Unit]) -> Iterator[ExtraCut]:
    """The cuts that one more of these units needs, those of everything inside them added up."""
    pieces: dict[tuple[str, Fraction, Fraction, int, str], int] = defaultdict(int)
    for inner in (inner for unit in units for inner in unit.walk()):
        for need in inner.needs(project.rules):
            pieces[need.fabric, need.width, need.height, need.makes, need.then] += need.pieces
    for (fabric, width, height, makes, then), count in pieces.items():
        yield ExtraCut(fabric, width, height, ceil(count / makes), then)


def measure_extra_cloth(project: Project, outs: Iterable[StepOut]) -> dict[str, Shown]:
    """By cloth, about how much more length all step-outs take: their area across the usable width, rounded up."""
    areas: dict[str, Fraction] = defaultdict(Fraction)
    for out in outs:
        for cut in out.cuts:
            areas[cut.fabric] += cut.width * cut.height * cut.count
    step = project.rules.round_to
    return {
        key: show_length(
            length_object(round_up(area / project.fabrics[key].usable_width, step), project.measure),
            project.measure,
        )
        for key, area in areas.items()
    }


def _say_cut(project: Project, cut: ExtraCut) -> str:
    cloth = view_cloths(project.fabrics)[cut.fabric]
    across, along = (length_object(side, project.measure) for side in (cut.width, cut.height))
    size = show_size(across, along, project.measure).main
    named = f"{cloth.letter} · {cloth.name}"
    words = phrase("{cloth}: {count} of {size}", cloth=named, count=cut.count, size=size)
    return f"{words}, {say_then(cut.then)}" if cut.then else words
