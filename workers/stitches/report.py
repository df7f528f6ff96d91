"""The report beside a stitch file: counts, thread, time, passes and checks, all measured on the file read back."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

import numpy as np

from service.craft.audience import Audience, writing_for
from service.craft.fabric import Thread
from service.craft.language import mark, phrase
from workers.stitches.findings import Check
from workers.stitches.pieces import Hooping, StitchPiece, Stop
from workers.stitches.reading import Reading
from workers.stitches.record import STITCH, STOP
from workers.stitches.settings import StitchSettings
from workers.stitches.stop_words import say_stop

CAUTION = mark(
    "Lay and trim cloth only when the needle stands still, and keep fingers and face away while the hoop moves. "
    "Follow the instructions of the machine's maker."
)
"""Said wherever hands go under the needle (school rules for machine sewing; the moving hoop from memory)."""

THREAD_RATIO = mark(
    "A balanced lockstitch (ISO 4915, type 301) takes 2.5 times the length of its seam, half on top and half in the "
    "bobbin (apparelscience.com, stitch classes 300 to 400). Here each stitch takes its length and "
    "a way down into the layers and up again; running stitches of 2.5 mm then come to 2.5 times their seam."
)
"""Said in every report. For type 304 the same source gives 5.5:1 of a zigzag seam; here its stitches are summed."""


def thread_used_m(reading: Reading, settings: StitchSettings) -> float:
    """Metres of one of the two threads of a balanced lockstitch (ISO 4915, type 301): the way along the cloth,
    and at every stitch once down to the middle of the layers and up again (`take_up_mm`).
    """
    lengths = reading.stitch_lengths_mm
    return float(lengths.sum() + settings.take_up_mm * len(lengths)) / 1000


def thread_by_colour(
    hooping: Hooping, reading: Reading, ranges: tuple[tuple[int, int], ...], settings: StitchSettings
) -> list[dict[str, Any]]:
    """Each thread in the order it first goes through the needle, with its metres on top and in the bobbin."""
    lengths = np.linalg.norm(reading.points_mm - reading.starts_mm, axis=1)
    used: dict[Thread, float] = {}
    for one, (first, last) in zip(hooping.passes, ranges, strict=True):
        along = float(lengths[first : last + 1].sum()) + settings.take_up_mm * (last + 1 - first)
        used[one.thread] = used.get(one.thread, 0.0) + along / 1000
    return [
        {"name": t.name, "colour": t.colour, "top_m": round(m, 2), "bobbin_m": round(m, 2)}
        for t, m in used.items()
    ]


def extents_mm(reading: Reading) -> list[float]:
    """Width and height of what the needle touches, millimetres: stitches alone, jumps left out."""
    stitch = reading.kinds == STITCH
    if not stitch.any():
        return [0.0, 0.0]
    points = np.vstack([reading.points_mm[stitch], reading.starts_mm[stitch]])
    return [round(float(side), 1) for side in np.ptp(points, axis=0)]


def list_stops(hooping: Hooping, reading: Reading, languages: Sequence[str] = ()) -> list[dict[str, Any]]:
    """Each stop of the file with its record and what to do there; `do_in` says it in the `languages` besides."""
    reasons = [p.then_stop for p in hooping.passes if p.then_stop]
    records = np.flatnonzero(reading.kinds == STOP)
    return [
        {"record": int(i), "do": say_stop(stop)} | _say_besides(stop, languages)
        for i, stop in zip(records, reasons, strict=False)
    ]


def _say_besides(stop: Stop, languages: Sequence[str]) -> dict[str, Any]:
    said = {}
    for language in languages:
        with writing_for(Audience(language=language)):
            said[language] = say_stop(stop)
    return {"do_in": said} if said else {}


def build_report(
    hooping: Hooping,
    reading: Reading,
    ranges: tuple[tuple[int, int], ...],
    checks: Sequence[Check],
    notes: list[str],
    settings: StitchSettings,
    languages: Sequence[str] = (),
) -> dict[str, Any]:
    """The report as plain JSON, its stops also in the `languages` of tracks that do not read the document's.

    `from` and `to` of a pass are its first and last record, both included; `minutes` is sewing time at the stated
    speed, without stops.
    """
    stitches = int((reading.kinds == STITCH).sum())
    return {
        "hooping": hooping.name,
        "field_mm": [hooping.field.width_mm, hooping.field.height_mm],
        "extents_mm": extents_mm(reading),
        "turned": hooping.turned,
        "hoopings": _count_hoopings(hooping),
        **say_repeats(hooping),
        "centre_mm": [round(place, 2) for place in hooping.centre_mm],
        "pieces": [sewn.piece.name for sewn in hooping.sewn],
        "parts": list_parts(hooping),
        "stitches": stitches,
        "stops": int((reading.kinds == STOP).sum()),
        "trims": reading.trims,
        "caution": phrase(CAUTION),
        "at_stops": list_stops(hooping, reading, languages),
        "colours": thread_by_colour(hooping, reading, ranges, settings),
        "thread_order": [{"name": t.name, "colour": t.colour} for t in hooping.threads],
        "thread_changes": len(hooping.threads) - 1,
        "thread_ratio": phrase(THREAD_RATIO),
        "minutes": round(stitches / settings.stitches_a_minute, 1),
        "stitches_a_minute": settings.stitches_a_minute,
        "passes": [
            {"kind": p.kind, "piece": p.piece, "from": first, "to": last}
            for p, (first, last) in zip(hooping.passes, ranges, strict=True)
        ],
        "checks": [asdict(check) for check in checks],
        "released": all(check.ok for check in checks),
        "notes": notes,
        "piece_settings": {sewn.piece.name: say_settings(sewn.piece) for sewn in hooping.sewn},
        "settings": {
            **asdict(settings),
            "spacing": phrase("between needle points on the same, longer side of the band"),
        },
    }


def _count_hoopings(hooping: Hooping) -> dict[str, Any]:
    fewest = hooping.of == hooping.at_least
    return {"of": hooping.of, "at_least": hooping.at_least, "proved": fewest}


def list_parts(hooping: Hooping) -> dict[str, Any]:
    """Of the pieces whose edge is sewn in several hoopings: which part of how many this one sews."""
    parts = {sewn.piece.name: sewn.piece.part for sewn in hooping.sewn}
    return {
        name: {"part": part.number, "of": part.of, "name": part.name} for name, part in parts.items() if part
    }


def say_repeats(hooping: Hooping) -> dict[str, Any]:
    """`same_as` names the hooping whose file serves here too; `also_sews` are those that this one's file serves."""

    def place(centre: tuple[float, float], turned: float) -> dict[str, Any]:
        return {"centre_mm": [round(one, 2) for one in centre], "top_turned_degrees": round(turned, 2)}

    same = {"hooping": hooping.same_as, **place(hooping.same_centre_mm, hooping.top_turned_degrees)}
    return {
        "same_as": same if hooping.same_as else None,
        "also_sews": [
            {
                "hooping": one.hooping,
                "pieces": list(one.pieces),
                **place(one.centre_mm, one.top_turned_degrees),
            }
            for one in hooping.again
        ],
    }


def say_settings(piece: StitchPiece) -> dict[str, Any]:
    """What a piece is sewn with, by the names a document uses; lengths in millimetres."""
    chosen = piece.settings
    return {
        "edge": piece.edge,
        "width": chosen.width_of(piece.edge),
        "spacing": chosen.spacing_of(piece.edge),
        "pull": chosen.pull_mm,
        "stitch": chosen.running_mm,
        "inside": chosen.inside_share,
        "underlay": chosen.underlay_of(chosen.width_of(piece.edge)),
        "tack_down": chosen.tack_down,
    }


def format_report(report: dict[str, Any]) -> bytes:
    """The report as UTF-8 JSON, one field a line at the outer level kept readable."""
    return (json.dumps(report, ensure_ascii=False, indent=1) + "\n").encode()
