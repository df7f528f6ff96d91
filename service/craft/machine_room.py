"""What machines of the tracks reach: sewing fields and cutting mats, and whether something fits on them."""

from __future__ import annotations

import math

from service.craft.tracks import Equipment, Track

SLACK_MM = 0.01
"""A hair, so that a piece drawn exactly to the edge counts as inside."""


def list_equipment(tracks: tuple[Track, ...], kind: str) -> dict[Equipment, str]:
    """The hoops or cutters ("hoop", "cutter") the tracks work with, the largest of each; and which tracks, in words."""
    names: dict[Equipment, list[str]] = {}
    for track in tracks:
        used = track.hoop if kind == "hoop" else track.cutter
        if used is not None:
            names.setdefault(used, []).append(f'"{track.name}"')
    return {
        used: f"the {'track' if len(who) == 1 else 'tracks'} {' and '.join(who)}"
        for used, who in names.items()
    }


def fits_into(sides: tuple[float, float], into: Equipment, *, may_turn: bool = True) -> bool:
    """Whether a box (mm) fits upright, or also turned a quarter."""
    room = float(into.width_mm) + SLACK_MM, float(into.height_mm) + SLACK_MM
    ways = (sides, sides[::-1]) if may_turn else (sides,)
    return any(width <= room[0] and height <= room[1] for width, height in ways)


def say_whole(sides: tuple[float, float]) -> str:
    """Sides in whole millimetres, rounded up: `131 x 180`."""
    return " x ".join(str(math.ceil(side - SLACK_MM)) for side in sides)
