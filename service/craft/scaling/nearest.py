"""Sizes at which every cut comes out on the ruler's own marks, so that nothing at all is rounded."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults
from service.craft.measure import Exact, Number, exact
from service.craft.scaling.factors import LEAST_FACTOR, MOST_FACTOR
from service.craft.scaling.progressions import Progression
from service.craft.scaling.rewriting import scale_document
from service.craft.units import CuttingRules
from service.craft.units.walking import walk_once

PROBES = (Fraction(1, 2), Fraction(2))
"""A second size, the first that can be written: two points tell how each cut grows."""


@dataclass(frozen=True)
class NearSize:
    """A factor whose cuts need no rounding, and the finished size it gives, in inches, exact."""

    factor: Fraction
    width: Exact
    height: Exact


@dataclass(frozen=True)
class _WatchedRules(CuttingRules):
    """Cutting rules that remember what they were asked to round, in order."""

    seen: list[Exact] = field(default_factory=list)

    def round(self, cut: Number) -> Fraction:
        self.seen.append(exact(cut))
        return super().round(cut)


def nearest_sizes(raw: dict[str, Any], factor: Fraction) -> list[NearSize]:
    """The nearest factors below and above `factor`, and itself where it is one, at which no cut is rounded.

    `raw` is a sound document. Cuts along a diagonal lie on no ruler in any size and are left out of the search, and
    so are cuts by template. An empty list where no factor from 1/100 to 100 will do.
    """
    # pieces are no cuts of a ruler, and their scale has limits of its own
    plain = {name: value for name, value in raw.items() if name != "pieces"}
    project = read_document(plain)
    row = _search(plain, project)
    if row is None:
        return []
    found = [row.below(factor), *([factor] if factor in row else []), row.above(factor)]
    return [
        NearSize(f, project.top.width * f, project.top.height * f)
        for f in found
        if LEAST_FACTOR <= f <= MOST_FACTOR
    ]


def _search(raw: dict[str, Any], project: Project) -> Progression | None:
    for probe in PROBES:
        try:
            probed = read_document(scale_document(raw, probe).document)
        except DocumentFaults:
            continue
        return find_landing(project, probed, probe)
    return None


def find_landing(project: Project, probed: Project, probe: Fraction) -> Progression | None:
    """Every factor at which the cuts of a project land on its rounding grid; `probed` is the same times `probe`.

    A cut is a·f + c: with v at 1 and w at p, a = (v - w)/(1 - p) and c = v - a. It lands where a·f + c is a multiple of
    the grid g: at all f = -c/a + k·g/a. What all cuts have in common is one such row, or nothing.
    """
    grid = project.rules.round_to
    common: Progression | None = None
    for whole, other in dict.fromkeys(zip(_list_cuts(project), _list_cuts(probed), strict=True)):
        growth = (whole - other) / (1 - probe)
        if whole.b or other.b or not growth.a:
            continue
        fixed = whole.a - growth.a
        row = Progression.through(-fixed / growth.a, abs(grid / growth.a))
        common = row if common is None else common.meet(row)
        if common is None:
            return None
    return common


def _list_cuts(project: Project) -> list[Exact]:
    """Every cut size of the top before it is rounded."""
    rules = _WatchedRules(project.seam_allowance, project.rules.round_to)
    for unit in walk_once(project.top):
        unit.needs(rules)
    return rules.seen
