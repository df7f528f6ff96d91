"""What one make of a project takes: its cuts, and those for stages sewn ahead of filming."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import inf
from typing import Any

from service.craft.document import Project, read_document
from service.craft.fabric import Fabric
from service.craft.faults import DocumentFaults, Fault
from service.craft.joining import join_strips
from service.craft.language import phrase
from service.craft.outlines import OutlineNotFound, find_outline
from service.craft.shopping import CannotShop, ShoppingProject
from service.craft.units import CuttingRules
from workers.cutting.applique import RoughPiece, applique_cuts, rough_out
from workers.cutting.cut_list import list_all_cuts
from workers.cutting.cuts import RECTANGLE, SQUARE, Cut
from workers.cutting.finishing import finishing_cuts, plan_finishing
from workers.cutting.recipe import MOST_PIECES
from workers.handouts.step_outs import ExtraCut, StepOut, list_step_outs
from workers.outlines.asked import AskedPiece, read_pieces
from workers.recipe import CannotMake, JobInput
from workers.sewing.recipe import make_sewing_plan


@dataclass(frozen=True)
class Needs:
    """A project to buy for: as it was asked, as it is read, and what one make of it takes.

    `cuts` holds everything cut from cloth once; `ahead` the cuts of the step-outs, which the studio sews beside
    its sample; `notes` says in words what could not be counted.
    """

    asked: ShoppingProject
    project: Project
    pieces: tuple[AskedPiece, ...]
    step_outs: tuple[StepOut, ...]
    cuts: tuple[Cut, ...]
    ahead: tuple[Cut, ...]
    notes: tuple[str, ...] = ()

    @property
    def rough(self) -> list[RoughPiece]:
        """The rectangles of cloth that the applique pieces take."""
        return rough_out(self.pieces, self.project)

    def on_cloths(self, fabrics: Mapping[str, Fabric]) -> Needs:
        """The same with other cloths under the same keys: a narrower one is cut differently.

        `CannotMake` where that cannot be, or where a patch would get a seam that the project's steps do not know.
        """
        if all(lies(fabric) == lies(fabrics[key]) for key, fabric in self.project.fabrics.items()):
            return replace(self, project=replace(self.project, fabrics=dict(fabrics)))
        project = replace(self.project, fabrics=dict(fabrics))
        pieces = tuple(replace(piece, fabric=fabrics[piece.fabric.key]) for piece in self.pieces)
        cuts, ahead = list_everything(project, pieces), _list_ahead(project, self.step_outs)
        if _panels(cuts) != _panels(self.cuts):
            raise CannotMake(
                "pieces would be sewn of other panels than its steps say", right="a line of its own"
            )
        return replace(self, project=project, pieces=pieces, cuts=cuts, ahead=ahead)


def _panels(cuts: Iterable[Cut]) -> Counter[tuple[str, int]]:
    """How many panels each cloth gives, and how many of them come to one piece: backs are joined as the cloth asks."""
    return Counter(
        (cut.fabric, cut.joined.pieces)
        for cut in cuts
        if cut.joined is not None and cut.joined.in_panels and not cut.finishing
        for _ in range(cut.count)
    )


def lies(fabric: Fabric) -> tuple[object, ...]:
    """What of a cloth decides how its pieces are cut."""
    return fabric.usable_width, fabric.directional, fabric.napped


def read_needs(
    projects: Iterable[ShoppingProject], seconds_left: Callable[[], float] = lambda: inf
) -> list[Needs]:
    """The needs of every project; `CannotShop` with every project's faults where some cannot be cut or sewn.

    Where no time is left, step-outs are not looked for, and the notes say so.
    """
    found: list[Needs] = []
    faults: list[tuple[str, Fault]] = []
    for asked in projects:
        try:
            found.append(_read(asked, hurried=seconds_left() <= 0))
        except DocumentFaults as why:
            faults += [(asked.id, fault) for fault in why.faults]
        except CannotMake as why:
            faults.append((asked.id, Fault(why.pointer, why.detail, why.right)))
    if faults:
        raise CannotShop(faults)
    return found


def list_everything(project: Project, pieces: Iterable[AskedPiece]) -> tuple[Cut, ...]:
    """Everything that is cut from cloth for one make: patches, finishing, applique. `CannotMake` as the rooms say."""
    finishing = finishing_cuts(plan_finishing(project), project)
    applique = applique_cuts(rough_out(pieces, project), project)
    cuts = list_all_cuts(project, [*finishing, *applique])
    if sum(cut.count for cut in cuts) > MOST_PIECES:
        raise CannotMake(
            f"this comes to more than {MOST_PIECES} pieces to cut",
            right="a smaller top, wider cloth, or several projects",
        )
    return tuple(cuts)


def _read(asked: ShoppingProject, *, hurried: bool) -> Needs:
    project = read_document(asked.document)
    pieces, notes = _read_pieces(asked, project)
    step_outs = () if hurried else tuple(_list_step_outs(asked, project))
    if hurried:
        notes = (
            *notes,
            phrase("{project}: step-outs are not counted, since time ran out", project=project.title),
        )
    cuts, ahead = list_everything(project, pieces), _list_ahead(project, step_outs)
    return Needs(asked, project, pieces, step_outs, cuts, ahead, notes)


def _read_pieces(asked: ShoppingProject, project: Project) -> tuple[tuple[AskedPiece, ...], tuple[str, ...]]:
    """The pieces whose outlines are there; cloth is ordered before every outline is drawn, so others are only named."""
    there, missing = [], []
    for piece in project.pieces:
        try:
            find_outline(asked.outlines, piece.outline)
        except OutlineNotFound:
            missing.append(piece.name)
        else:
            there.append(piece)
    job = JobInput("shopping", asked.document, outlines=asked.outlines)
    pieces = tuple(read_pieces(job, replace(project, pieces=tuple(there))))
    if not missing:
        return pieces, ()
    words = phrase(
        "{project}: not counted, since their outlines are not there yet: {pieces}",
        project=project.title,
        pieces=", ".join(missing),
    )
    return pieces, (words,)


def _list_step_outs(asked: ShoppingProject, project: Project) -> Iterator[StepOut]:
    """What is sewn ahead of filming, by the steps of all tracks together."""
    files = {
        file.name: json.loads(file.data) for file in make_sewing_plan(JobInput("sewing", asked.document))
    }
    sewing: Mapping[str, Any] = files.pop("sewing.json")
    shown = {step.get("stage") for steps in files.values() for step in steps["steps"]}
    return list_step_outs(project, sewing, shown)


def _list_ahead(project: Project, step_outs: Iterable[StepOut]) -> tuple[Cut, ...]:
    """The cuts of all step-outs, equal ones together."""
    counts: dict[ExtraCut, int] = {}
    for extra in (cut for out in step_outs for cut in out.cuts):
        one = replace(extra, count=1)
        counts[one] = counts.get(one, 0) + extra.count
    return tuple(
        lay_extra(extra, count, project.fabrics[extra.fabric], project.rules)
        for extra, count in counts.items()
    )


def lay_extra(extra: ExtraCut, count: int, fabric: Fabric, rules: CuttingRules) -> Cut:
    """An extra piece as it lies on its cloth; one longer than the cloth is wide is turned, or joined of equal parts,
    whichever takes less of the roll: so strips are parted and patches are not, unless they fit in no way.
    """
    may_turn = not fabric.one_way and extra.width != extra.height
    sides = (extra.width, extra.height)
    ways = [tuple(sorted(sides, reverse=True)), tuple(sorted(sides))] if may_turn else [sides]
    parted = [(*_part(across, fabric, rules), along) for across, along in ways]
    parts, width, height = min(parted, key=lambda way: (way[0] * way[2], way[0]))
    if parts == 1:
        width, height = ways[0]
    return Cut(
        fabric=extra.fabric,
        width=width,
        height=height,
        count=count * parts,
        makes=count,
        wanted=count,
        shape=SQUARE if width == height else RECTANGLE,
        then=extra.then,
        uses=("step-outs",),
        may_turn=may_turn and parts == 1,
    )


def _part(across: Fraction, fabric: Fabric, rules: CuttingRules) -> tuple[int, Fraction]:
    """Of how many parts a side comes, and how long each is with the allowances of its joins."""
    if across <= fabric.usable_width:
        return 1, across
    joined = join_strips(
        across, fabric.usable_width, seam_allowance=rules.seam_allowance, round_to=rules.round_to
    )
    if joined is None:
        raise CannotMake(f'"{fabric.name}" is too narrow to join a step-out of it', right="a wider cloth")
    return joined.pieces, joined.length
