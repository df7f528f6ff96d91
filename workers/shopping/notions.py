"""What is bought beside cloth: batting, fusible web, and the thread of the edge finishes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from service.craft.fabric import Thread
from service.craft.outlines import flatten
from service.craft.outlines.model import Ring
from workers.cutting.applique_lengths import Web, measure_applique
from workers.cutting.batting import BattingPlan, plan_batting
from workers.outlines.asked import AskedPiece
from workers.patience import nothing_left
from workers.shopping.needs import Needs
from workers.stitches.choosing import choose_settings
from workers.stitches.settings import StitchSettings

LEAST_RUNS, RUNS = 2, {"raw": 3, "triple run": 5, "satin": 4}
"""How often a line is run along the outline: placement and tack-down; the finish of a raw edge; two under satin."""


@dataclass(frozen=True)
class BattingNeed:
    """The batting of one make of a project."""

    needs: Needs
    plan: BattingPlan


@dataclass(frozen=True)
class FusibleWeb:
    """Fusible web for one make, counted for the tracks that use it."""

    needs: Needs
    web: Web


@dataclass(frozen=True)
class ThreadNeed:
    """Thread of one colour for one make of each project, by project: how many pieces, and about how many metres."""

    thread: Thread
    uses: tuple[tuple[Needs, int, float], ...]


def list_batting(needs: Sequence[Needs]) -> list[BattingNeed]:
    """The batting of every project that has some."""
    found = []
    for one in needs:
        project, overhang = one.project, one.project.finish.batting_overhang
        if overhang is not None:
            plan = plan_batting(project.top.width, project.top.height, overhang, project.rules)
            found.append(BattingNeed(one, plan))
    return found


def list_webs(needs: Sequence[Needs]) -> list[FusibleWeb]:
    """The web of every project, a line for each way of counting it that its tracks use.

    Somebody waits for the list, and it may be of many projects: pieces for a cutting machine are counted in rows of
    boxes, which takes no less web than by their shapes.
    """
    return [
        FusibleWeb(one, web)
        for one in needs
        for web in measure_applique(one.rough, one.project, nothing_left).webs
    ]


def list_threads(needs: Sequence[Needs]) -> list[ThreadNeed]:
    """Thread by name and colour, in the order in which each comes first."""
    uses: dict[Thread, list[tuple[Needs, int, float]]] = {}
    for one in needs:
        for thread, pieces in _by_thread(one):
            fabrics = one.project.fabrics
            metres = sum(
                estimate_thread_m(p, choose_settings(p.piece, fabrics[p.piece.fabric])) for p in pieces
            )
            uses.setdefault(thread, []).append((one, len(pieces), metres))
    return [ThreadNeed(thread, tuple(listed)) for thread, listed in uses.items()]


def _by_thread(needs: Needs) -> Iterator[tuple[Thread, list[AskedPiece]]]:
    groups: dict[Thread, list[AskedPiece]] = {}
    for piece in needs.pieces:
        groups.setdefault(piece.piece.thread, []).append(piece)
    yield from groups.items()


def estimate_thread_m(piece: AskedPiece, settings: StitchSettings | None = None) -> float:
    """About how many metres of upper thread a piece takes in the hoop: runs along its outline, then its edge finish.

    There and back across the band for every step of a satin or zigzag edge, out and back for every stitch of a
    blanket edge, along the line for a raw one; at every needle point the way into the cloth and up again. The stitch
    files of the demo series take up to a sixth more: bends and corners need more stitches than straight edges.
    """
    sewn, edge = settings or StitchSettings(), piece.piece.hoop_edge
    around = sum(_measure_round(ring) for ring in piece.outline.rings)
    again = sewn.tack_down == "double"
    runs = (RUNS.get(edge, LEAST_RUNS) + again) * around * (1 + sewn.take_up_mm / sewn.running_mm)
    return (runs + _measure_finish(edge, around, sewn)) / 1000


def _measure_finish(edge: str, around: float, sewn: StitchSettings) -> float:
    """Millimetres of thread in the finish of an edge `around` mm long; a raw edge is finished by a run alone."""
    if edge in ("raw", "triple run"):
        return 0.0
    if edge == "blanket":
        stitch = sewn.blanket_pitch_mm + 2 * sewn.blanket_bite_mm + 3 * sewn.take_up_mm
        return around / sewn.blanket_pitch_mm * stitch
    step = sewn.spacing_of(edge)
    across = math.hypot(sewn.inside_mm(edge) + sewn.outside_mm(edge), step / 2)
    return around / step * 2 * (across + sewn.take_up_mm)


def _measure_round(ring: Ring) -> float:
    """Millimetres round a closed curve."""
    points = flatten(ring)
    return float(np.hypot(*(np.roll(points, -1, axis=0) - points).T).sum())
