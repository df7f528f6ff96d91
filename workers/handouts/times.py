"""How long a project takes, in words: for a track's handout, and for the studio's day."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.craft.language import phrase
from service.craft.tracks import Track
from workers.sewing.stage_notes import say_hours

PIECING = "piecing"
SAID_FROM = 10
"""Minutes from which a take names the sewing that goes on beside it."""


def say_time(sewing: Mapping[str, Any], track: Track) -> str:
    """The time for cutting and piecing at the pace of a track's viewers, as a sentence; empty where it is not known."""
    total = (sewing.get("minutes") or {}).get("total") or {}
    beginner = track.is_new_to(PIECING)
    minutes = total.get("beginner" if beginner else "practised")
    if not isinstance(minutes, int) or not minutes:
        return ""
    hours = say_hours(minutes)
    if beginner:
        return phrase(
            "Cutting and piecing take {hours} for somebody new to it, by our own estimate. Applique, quilting and "
            "binding come on top.",
            hours=hours,
        )
    return phrase(
        "Cutting and piecing take {hours} for somebody practised, by our own estimate. Applique, quilting and binding "
        "come on top.",
        hours=hours,
    )


def say_sewing(stage: Mapping[str, Any]) -> str:
    """How long the sewing of a stage takes somebody practised, or an empty text where it is hardly worth a plan."""
    minutes = (stage.get("minutes") or {}).get("practised")
    return say_hours(minutes) if isinstance(minutes, int) and minutes >= SAID_FROM else ""
