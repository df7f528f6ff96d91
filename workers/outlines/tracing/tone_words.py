"""What was taken for a shape of its own because of its tone, in words."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from workers.outlines.tracing.flat_tones import Values, grey_of

NEUTRAL = 0.1
"""Red, green and blue that differ by less are a grey."""


def say_tone(tone: Values) -> str:
    """A tone in words: how light a grey is against the paper, or the sRGB of a colour.

    >>> say_tone(np.array([0.4]))
    "grey of 40 % of the paper's light"
    >>> say_tone(np.array([0.8, 0.2, 0.1]))
    'colour #cc331a'
    """
    if np.ptp(tone) < 0.1:
        return f"grey of {100 * grey_of(tone):.0f} % of the paper's light"
    return "colour #" + "".join(f"{round(255 * float(share)):02x}" for share in np.clip(tone, 0, 1))


def say_tones(named: Sequence[tuple[str, str]]) -> list[str]:
    """A note on each shape and its tone, where any was taken by its tone; the others are dark on the paper."""
    if not any(tone for _, tone in named):
        return []
    listed = [f"{name}: {tone or 'dark on the paper, whatever its tone'}" for name, tone in named]
    return ["flat tones that touch were each taken as a shape of its own", *listed]
