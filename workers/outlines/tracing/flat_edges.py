"""The edges of flat patches, settled between the pixels: halfway between the tones of the two sides."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from workers.outlines.tracing.flat_regions import FlatMap
from workers.outlines.tracing.flat_tones import PAPER, Labels, Tones, Values
from workers.outlines.tracing.ink import REACH_PX, STEP_PX, blur_of, crossing, sample
from workers.outlines.tracing.points import Points, normals, resample, signed_area

RESAMPLED_PX = 0.7

BESIDE_PX = 3.0
"""How far out the tone on the other side of an edge is asked for."""

JOINT_PX = 4.0
"""How far about a joint an edge is not read."""

STEADY = 4
"""Fewer points than this beside a tone are a slip of the map."""

EVENED = 4
"""Rounds of averaging with both neighbours: over about one pixel along the edge."""

KEPT = 0.9
"""An edge that loses more of its area with its loops is not what was meant."""

ROUNDS, MOST_ROUNDS = 2, 4
"""The map's edge lies up to two pixels off: its normals are put right with it, and tips it lacks take longer."""


@dataclass(frozen=True)
class FlatEdge:
    """One closed edge in pixels and its blur; `joints` are where three tones meet, and over `contact_px` another
    tone than the paper lies beside it.
    """

    points: Points
    blur_px: float
    joints: Points
    contact_px: float


def settle_flat_edge(fields: Values, flat: FlatMap, tones: Tones, own: int, line: Points) -> FlatEdge:
    """The edge of a patch of the tone `own`, moved to halfway between it and what lies beside it."""
    offsets = np.arange(-REACH_PX, REACH_PX + STEP_PX, STEP_PX)
    points, blur = line, REACH_PX
    beside, joints = np.zeros(0, dtype=np.uint8), np.zeros((0, 2))
    for turn in range(MOST_ROUNDS):
        points = resample(points, RESAMPLED_PX)
        out = normals(points)
        beside = _beside(flat, own, points, out)
        alone = bool((beside == PAPER).all())
        at = points[:, None, :] + offsets[None, :, None] * out[:, None, :]
        seen = np.stack([sample(fields[..., k], at) for k in range(fields.shape[2])], axis=-1)
        moved = np.zeros(len(points))
        blurs: list[float] = []
        for other in np.unique(beside):
            chosen = beside == other
            way = tones.tone(int(other)) - tones.tone(own)
            profile = (seen - tones.tone(own)) @ way / float(way @ way)
            moved[chosen], steepness = _halfway(_evened(profile)[chosen], offsets, alone=alone)
            blurs += [steepness] * int(chosen.sum())
        points, blur = points + moved[:, None] * out, float(np.median(blurs))
        joints = points[beside != np.roll(beside, 1)]
        points = _untangled(points)
        if turn + 1 >= ROUNDS and not (alone and (moved >= REACH_PX).any()):
            break
    contact = float((beside != PAPER).sum()) * RESAMPLED_PX
    return FlatEdge(_clear_of(points, joints), blur, joints, contact)


def _untangled(points: Points) -> Points:
    """The edge without the small loops that come of points moved past each other, as at a sharp tip."""
    polygon = shapely.Polygon(points)
    if polygon.is_valid:
        return points
    parts = [part for part in shapely.get_parts(polygon.buffer(0)) if isinstance(part, shapely.Polygon)]
    area = signed_area(points)
    largest = max(parts, key=lambda part: float(part.area), default=polygon)
    if largest.area < KEPT * abs(area):
        return points
    ring = np.array(largest.exterior.coords)[:-1]
    return np.asarray(ring if signed_area(ring) * area > 0 else ring[::-1])


def _clear_of(points: Points, joints: Points) -> Points:
    """The edge without what lies next to a joint: three tones mix there, and its sides say more of where it runs."""
    if not len(joints):
        return points
    apart = np.hypot(*(points[:, None] - joints[None]).transpose(2, 0, 1)).min(axis=1)
    return points[apart > JOINT_PX] if (apart > JOINT_PX).sum() > 8 else points


def _evened(profile: NDArray[np.float64]) -> NDArray[np.float64]:
    """Profiles averaged with those of their neighbours along the edge: less contrast shows more grain."""
    for _ in range(EVENED):
        profile = (np.roll(profile, 1, axis=0) + 2 * profile + np.roll(profile, -1, axis=0)) / 4
    return profile


def _halfway(
    profile: NDArray[np.float64], offsets: NDArray[np.float64], *, alone: bool
) -> tuple[Points, float]:
    """How far to move points that lie beside one tone, and the blur of the edge there."""
    middle = len(offsets) // 2
    inner = float(np.median(profile[:, : middle + 1].min(axis=1)))
    outer = float(np.median(profile[:, middle:].max(axis=1)))
    level = (inner + outer) / 2
    moved = crossing(profile, offsets, level)
    if alone:
        # a map knows nothing of tips that are narrower than an edge: there it ends within the patch
        within = (np.abs(profile) < level).all(axis=1)
        moved = np.where(within, REACH_PX, moved)
    return moved, blur_of(profile, inner, outer)


def _beside(flat: FlatMap, own: int, points: Points, out: Points) -> Labels:
    """The tone beside each point; slips of a few points take after their neighbours."""
    found = flat.at(points + BESIDE_PX * out)
    further = flat.at(points + (BESIDE_PX + 2 * flat.every) * out)
    found = np.where(found == own, np.where(further == own, PAPER, further), found).astype(np.uint8)
    return _steadied(found)


def _steadied(labels: Labels) -> Labels:
    changes = np.flatnonzero(labels != np.roll(labels, 1))
    if len(changes) < 3:
        return labels
    steady = labels.copy()
    for first, last in zip(changes, np.append(changes[1:], changes[0] + len(labels)), strict=True):
        if last - first < STEADY:
            steady[np.arange(first, last) % len(labels)] = steady[first - 1]
    return steady
