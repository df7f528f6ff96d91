"""The spare units of corner squares: what is cut off, sewn together before it is cut."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from service.craft.document import Project
from service.craft.measure import length_object
from service.craft.units.corner_squares import find_spare_side
from workers.sewing.plan import Stage


@dataclass(frozen=True)
class SpareUnits:
    """How many half-square triangle units a stage leaves, and their side in inches, allowances on."""

    count: int
    side: Fraction


def find_spare(stage: Stage, project: Project) -> SpareUnits | None:
    """The spare units of a stage; None where none are wanted or the corners are too small."""
    facts = stage.work.facts
    if not facts.get("spare leg"):
        return None
    side = find_spare_side(Fraction(facts["spare leg"]), project.rules)
    return None if side is None else SpareUnits(stage.count * int(facts["corners"]), side)


def spare_object(stage: Stage, project: Project) -> dict[str, Any] | None:
    """The spare units as they stand in `sewing.json`: how many, their size unfinished and finished."""
    spare = find_spare(stage, project)
    if spare is None:
        return None
    finished = spare.side - 2 * project.seam_allowance
    return {
        "count": spare.count,
        "size": length_object(spare.side, project.measure),
        "finished": length_object(finished, project.measure),
    }
