"""The cutting plan of a project: cutting list, strips, finishing. Pure; the same bytes for the same document."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from service.craft.audience import writing_for
from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults
from workers.cutting.answer import answer
from workers.cutting.applique import RoughPiece, applique_cuts, rough_out
from workers.cutting.applique_lengths import measure_applique
from workers.cutting.check import check_pieces, check_plan
from workers.cutting.cut_list import list_all_cuts
from workers.cutting.cuts import Cut
from workers.cutting.finishing import FinishingPlan, finishing_cuts, plan_finishing
from workers.cutting.plan import ClothPlan, plan_cloth
from workers.cutting.public_answer import leave_out_private
from workers.cutting.rewording import reword
from workers.cutting.stacked.check import check_stacks
from workers.cutting.stacked.stacked_plan import plan_stacks
from workers.cutting.stock.check import check_stocks
from workers.cutting.stock.stock_plan import plan_stocks
from workers.outlines.asked import read_pieces
from workers.patience import Left, endless, share
from workers.recipe import CannotMake, JobInput, MadeFile

KIND = "cutting plan"
PUBLIC, STUDIO = "cutting.json", "cutting-studio.json"
MOST_PIECES = 100_000
"""Pieces of one project. Nobody cuts as many by hand; a slip of the pen comes to as many easily."""


def make_cutting_plan(job: JobInput) -> list[MadeFile]:
    """`cutting.json` for the job's document, and the same with stash, costs and leftovers for the studio.

    Raises `CannotMake` for a document that cannot be sewn, a piece that fits on no cloth, or a plan that does
    not stand its own check.
    """
    project = _read(job)
    with writing_for(project.audience):
        job.progress(0.1, "Counting what every unit needs")
        listed = _list(job, project)
        answer_in_words = _plan(job, project, listed)
        whole = answer_in_words(finishing=listed.finishing, cuts=listed.cuts)
    made = [_write(PUBLIC, leave_out_private(whole)), _write(STUDIO, whole, public=False)]
    for audience in project.other_audiences:
        with writing_for(audience):
            again = _list(job, project)
            whole = answer_in_words(finishing=again.finishing, cuts=reword(listed.cuts, again.cuts))
        made.append(_write(project.name_for(audience, PUBLIC), leave_out_private(whole)))
    return made


@dataclass(frozen=True)
class _Listed:
    """What is cut, in words for one audience."""

    finishing: FinishingPlan
    rough: list[RoughPiece]
    cuts: list[Cut]


def _list(job: JobInput, project: Project) -> _Listed:
    finishing = plan_finishing(project)
    rough = rough_out(read_pieces(job, project), project)
    beside = [*finishing_cuts(finishing, project), *applique_cuts(rough, project)]
    return _Listed(finishing, rough, list_all_cuts(project, beside, share(job.left, 0.25)))


def _plan(job: JobInput, project: Project, listed: _Listed) -> Callable[..., dict[str, Any]]:
    """How the cuts lie on their cloths, which is the same for everybody: what it gives waits for the words alone."""
    cuts = listed.cuts
    job.progress(0.3, "Laying applique pieces on mats")
    pieces = measure_applique(listed.rough, project, share(job.left, 0.6))
    job.progress(0.4, "Laying pieces in strips")
    plans = plan_cloths(project, cuts, share(job.left, 0.6))
    job.progress(0.6, "Looking what the stash gives")
    stocks = plan_stocks(project, cuts, share(job.left, 0.6))
    job.progress(0.7, "Looking what stacking saves")
    stacks = plan_stacks(project, plans, cuts, share(job.left, 0.6))
    job.progress(0.8, "Checking the plan")
    wrong = check_plan(project, cuts, plans) + check_pieces(project, job.outlines, cuts)
    wrong += check_stocks(project, cuts, plans, stocks) + check_stacks(cuts, stacks)
    if wrong:
        raise CannotMake("the cutting plan does not stand its own check: " + "; ".join(wrong[:5]))
    return partial(answer, project, plans=plans, applique=pieces, stocks=stocks, stacks=stacks)


def plan_cloths(project: Project, cuts: list[Cut], left: Left = endless) -> list[ClothPlan]:
    """A plan for every cloth that something is cut from, in the document's order; what is `left` is shared out."""
    if sum(cut.count for cut in cuts) > MOST_PIECES:
        raise CannotMake(
            f"this comes to more than {MOST_PIECES} pieces to cut",
            right="a smaller top, wider cloth, or several projects",
        )
    own = {key: {n: cut for n, cut in enumerate(cuts) if cut.fabric == key} for key in project.fabrics}
    some = [(project.fabrics[key], numbered) for key, numbered in own.items() if numbered]
    return [
        plan_cloth(fabric, numbered, wanted=project.cutting.plan, left=share(left, 1 / (len(some) - i)))
        for i, (fabric, numbered) in enumerate(some)
    ]


def _write(name: str, plan: dict[str, Any], *, public: bool = True) -> MadeFile:
    text = json.dumps(plan, ensure_ascii=False, indent=1) + "\n"
    return MadeFile(name, "application/json", text.encode(), KIND, public=public)


def _read(job: JobInput) -> Project:
    try:
        return read_document(job.document)
    except DocumentFaults as found:
        first = found.faults[0]
        raise CannotMake(str(found), pointer=first.pointer, right=first.right) from found
