"""What is done to closed runs of points: even steps, smoothing, areas. Arrays are (n, 2), closed unsaid."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]


def resample(points: Points, step: float) -> Points:
    """The same closed line in even steps of about `step`, at least eight of them."""
    ring = np.vstack([points, points[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    count = max(8, round(along[-1] / step))
    at = np.arange(count) * (along[-1] / count)
    return np.stack([np.interp(at, along, ring[:, 0]), np.interp(at, along, ring[:, 1])], axis=1)


def smooth(points: Points, sigma: float) -> Points:
    """Gaussian smoothing along a closed run, `sigma` in steps, that does not shrink what is round.

    The response g(2 - g) keeps the second order of the curve (Taubin, "A signal processing approach to
    fair surface design", 1995: smoothing and a step back).
    """
    if sigma <= 0:
        return points
    gauss = np.exp(-2.0 * (np.pi * np.fft.fftfreq(len(points)) * sigma) ** 2)
    moved = np.fft.ifft(np.fft.fft(points[:, 0] + 1j * points[:, 1]) * gauss * (2.0 - gauss))
    return np.stack([moved.real, moved.imag], axis=1)


def signed_area(points: Points) -> float:
    """The enclosed area; positive where the run is clockwise on a page whose y points down."""
    x, y = points[:, 0], points[:, 1]
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y) / 2)


def perimeter(points: Points) -> float:
    """The length of the closed run."""
    return float(np.hypot(*(np.roll(points, -1, axis=0) - points).T).sum())


def normals(points: Points) -> Points:
    """Unit normals pointing out of a clockwise run (into the paper, where ink lies to its right)."""
    along = np.roll(points, -2, axis=0) - np.roll(points, 2, axis=0)
    length = np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-12)
    return np.stack([along[:, 1], -along[:, 0]], axis=1) / length[:, None]
