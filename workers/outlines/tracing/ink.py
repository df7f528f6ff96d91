"""Ink against paper: the level between them, and the edge of each shape at its own level."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workers.outlines.tracing.points import Points, normals

Grey = NDArray[np.float32]

LEVELS = (0.3, 0.85)
"""The first level always lies between these shares of the paper's light."""

LEAST_CONTRAST = 0.15
"""Ink that is not this much darker than the paper cannot be told from it."""

REACH_PX = 4.0
"""How far to both sides of an edge its ink and its paper are looked for."""

STEP_PX = 0.5

OWN_BLUR_PX = 1.0
"""Sigma of the blur that `soften` puts on."""


STEPPED_SHARE, BETWEEN = 0.2, 0.12
"""Where fewer pixels than this share of the places where ink meets paper are between the two, edges go in steps."""

EVERY_ROWS = 8
"""Of so many rows of a picture two tell whether its edges go in steps."""

STEPS_SOFTENED = 2
"""So often again is a stepped picture softened: with a blur of 1.7 pixels its stairs are a slope."""


@dataclass(frozen=True)
class Edge:
    """One closed edge, x and y in pixels, and the sigma of its blur in pixels."""

    points: Points
    blur_px: float


def soften(field: Grey) -> Grey:
    """A small even blur (binomial, 1 4 6 4 1) that takes noise out and moves no straight edge."""
    for axis in (0, 1):
        padded = np.pad(field, [(2, 2) if a == axis else (0, 0) for a in (0, 1)], mode="edge")
        for _ in range(4):
            padded = padded[1:] + padded[:-1] if axis == 0 else padded[:, 1:] + padded[:, :-1]
        field = padded
    field *= np.float32(1 / 256)
    return field


def first_level(field: Grey) -> float | None:
    """The level that parts ink and paper best (Otsu 1979: least variance within both); None without ink."""
    counts, edges = np.histogram(field[::3, ::3], bins=120, range=(0.0, 1.2))
    middles = (edges[1:] + edges[:-1]) / 2
    below, weight = np.cumsum(counts), np.cumsum(counts * middles)
    above = below[-1] - below
    with np.errstate(divide="ignore", invalid="ignore"):
        means = weight / below, (weight[-1] - weight) / above
        spread = np.nan_to_num(below * above * (means[1] - means[0]) ** 2)
    best = int(np.argmax(spread))
    if not spread[best] or means[1][best] - means[0][best] < LEAST_CONTRAST:
        return None
    return float(np.clip((means[0][best] + means[1][best]) / 2, *LEVELS))


def is_stepped(field: Grey, level: float) -> bool:
    """Whether a picture, not softened yet, knows ink and paper and nothing between, as drawings in two colours do."""
    looked_at = field[: len(field) // EVERY_ROWS * EVERY_ROWS].reshape(-1, EVERY_ROWS, field.shape[1])
    field = looked_at[:, :2]
    ink = field < level
    meets = 2 * np.count_nonzero(ink[:, 1:] != ink[:, :-1]) + np.count_nonzero(ink[..., 1:] != ink[..., :-1])
    between = np.count_nonzero(np.abs(field - level) < BETWEEN)
    return bool(between < STEPPED_SHARE * meets)


def soften_steps(field: Grey) -> Grey:
    """A softened picture softened until stairs are a slope."""
    for _ in range(STEPS_SOFTENED):
        field = soften(field)
    return field


def settle_edge(field: Grey, points: Points) -> Edge | None:
    """The edge moved to halfway between its own ink and the paper beside it; None where the two are alike."""
    out = normals(points)
    offsets = np.arange(-REACH_PX, REACH_PX + STEP_PX, STEP_PX)
    profile = sample(field, points[:, None, :] + offsets[None, :, None] * out[:, None, :])
    middle = len(offsets) // 2
    ink = float(np.median(profile[:, : middle + 1].min(axis=1)))
    paper = float(np.median(profile[:, middle:].max(axis=1)))
    if paper - ink < LEAST_CONTRAST:
        return None
    moved = crossing(profile, offsets, (ink + paper) / 2)
    return Edge(points + moved[:, None] * out, blur_of(profile, ink, paper))


def blur_of(profile: NDArray[np.float64], ink: float, paper: float) -> float:
    """The sigma of the blur of an edge in pixels, from how steep its profiles are in the middle."""
    slope = np.gradient(profile, STEP_PX, axis=1)[:, profile.shape[1] // 2]
    steepest = float(np.median(slope))
    blur = (paper - ink) / (max(steepest, 1e-6) * math.sqrt(2 * math.pi))
    return float(np.clip(blur, OWN_BLUR_PX, REACH_PX))


def crossing(profile: NDArray[np.float64], offsets: NDArray[np.float64], level: float) -> Points:
    """How far out along its normal each point must move; 0 where the level is not passed nearby."""
    rising = (profile[:, :-1] < level) & (profile[:, 1:] >= level)
    distance = np.where(rising, np.abs(offsets[:-1] + STEP_PX / 2)[None, :], np.inf)
    at = np.argmin(distance, axis=1)
    rows = np.arange(len(profile))
    low, high = profile[rows, at], profile[rows, at + 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        found = offsets[at] + STEP_PX * (level - low) / (high - low)
    return np.where(np.isfinite(distance[rows, at]), found, 0.0)


def sample(field: Grey, at: NDArray[np.float64]) -> NDArray[np.float64]:
    """The field between its pixels (bilinear); at the rim its last pixel goes on."""
    x = np.clip(at[..., 0], 0, field.shape[1] - 1.001)
    y = np.clip(at[..., 1], 0, field.shape[0] - 1.001)
    column, row = x.astype(np.intp), y.astype(np.intp)
    fx, fy = x - column, y - row
    upper = field[row, column] * (1 - fx) + field[row, column + 1] * fx
    lower = field[row + 1, column] * (1 - fx) + field[row + 1, column + 1] * fx
    return np.asarray(upper * (1 - fy) + lower * fy, dtype=np.float64)
