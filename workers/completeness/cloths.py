"""Every patch and piece has a cut, every cut its place on a cloth, and every cloth a length to buy."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from service.craft.measure import format_length
from service.craft.units.base import Need
from workers.completeness.finding import Finding
from workers.completeness.made import Made

NEAR_INCHES = 1e-4
"""Lengths in JSON are rounded at the sixth decimal."""

Size = tuple[str, float, float]


def find_uncut(made: Made) -> Iterator[Finding]:
    """Patches by their need, piece by piece, and what finishes the top: what no cut of the plan is for."""
    yield from _find_uncut_patches(made)
    cut = {str(name) for row in _cuts(made) if row.get("serves") == "pieces" for name in row.get("for", [])}
    for piece in made.project.pieces:
        if piece.name not in cut:
            yield Finding(
                "cut", piece.pointer, f'the piece "{piece.name}" is in no cut', "a cut for it in cutting.json"
            )
    finishing = made.cutting.get("finishing") or {}
    for name in _finishing(made):
        if not finishing.get(name):
            yield Finding("cut", f"/finish/{name}", f"the {name} has no cut", f"its size under {name}")


def _find_uncut_patches(made: Made) -> Iterator[Finding]:
    """The needs of all units, counted anew from the document, against what the cuts make."""
    rules = made.project.rules
    places: dict[Size, tuple[str, Need]] = {}
    wanted: Counter[Size] = Counter()
    for unit in made.project.top.walk():
        for need in unit.needs(rules):
            size = _size(need.fabric, float(need.width), float(need.height))
            wanted[size] += need.pieces
            places.setdefault(size, (unit.pointer, need))
    have: Counter[Size] = Counter()
    for row in _cuts(made):
        if row.get("serves") == "patches":
            for given in (row.get("join") or {}).get("gives") or [row]:
                size = _size(
                    str(row.get("fabric")), _inches(given.get("width")), _inches(given.get("height"))
                )
                have[size] += int(given.get("makes") or 0)
    for size, count in wanted.items():
        if have[size] < count:
            pointer, need = places[size]
            sides = " by ".join(
                format_length(side, made.project.measure) for side in (need.width, need.height)
            )
            detail = f"{count - have[size]} of {count} patches of {need.fabric} cut from {sides} have no cut"
            yield Finding("cut", pointer, detail, "cuts in cutting.json that make them all")


def find_cloth_holes(made: Made) -> Iterator[Finding]:
    """Cloths with no length, with nothing to buy, not among the materials, or whose drawing leaves out a cut."""
    plans = {str(plan.get("fabric")): plan for plan in made.cutting.get("fabrics", [])}
    listed = {str(row.get("fabric")): row for row in made.materials.get("cloths", [])}
    for key in dict.fromkeys(_used_cloths(made)):
        pointer, plan = f"/fabrics/{key}", plans.get(key, {})
        if not (_inches(plan.get("length")) > 0 and _inches(plan.get("buy")) > 0):
            yield Finding(
                "cloth",
                pointer,
                f'the cloth "{key}" has no length',
                "a length and what to buy in cutting.json",
            )
        if not listed.get(key, {}).get("buy"):
            yield Finding(
                "cloth",
                pointer,
                f'the materials do not say how much "{key}" to buy',
                "a line with its length",
            )
        yield from _find_not_laid(made, key, plan)
    for name in _finishing(made):
        if name not in made.materials.get("finishing", []):
            yield Finding("cloth", f"/finish/{name}", f"the materials leave out the {name}", "a line for it")


def _find_not_laid(made: Made, key: str, plan: Mapping[str, Any]) -> Iterator[Finding]:
    """Cuts that lie in none of the strips of the plan that is followed."""
    laid: Counter[int] = Counter()
    for part in (plan, plan.get(str(plan.get("follow"))) or {}):
        counted = Counter(_count_laid(part))
        laid |= counted
    for number, row in enumerate(_cuts(made)):
        missing = int(row.get("count") or 0) - laid[number]
        if row.get("fabric") == key and laid and missing > 0:
            yield Finding(
                "cloth",
                f"cutting.json#/cuts/{number}",
                f"{missing} cuts for {', '.join(map(str, row.get('for', [])))} lie in no strip of {key}",
                "strips that hold every cut",
            )


def _count_laid(part: Mapping[str, Any]) -> dict[int, int]:
    laid: Counter[int] = Counter()
    for strip in part.get("strips") or []:
        for inside in (strip, *(strip.get("columns") or [])):
            for piece in inside.get("pieces") or []:
                laid[int(piece.get("cut", -1))] += int(piece.get("count") or 0)
    return laid


def _used_cloths(made: Made) -> Iterator[str]:
    yield from (patch.fabric for patch in made.project.top.patches())
    yield from (piece.fabric for piece in made.project.pieces)
    finish = made.project.finish
    yield from (part.fabric for part in (finish.binding, finish.backing, finish.sleeve) if part is not None)


def _finishing(made: Made) -> list[str]:
    finish = made.project.finish
    parts = {
        "binding": finish.binding,
        "backing": finish.backing,
        "batting": finish.batting_overhang,
        "sleeve": finish.sleeve,
    }
    return [name for name, part in parts.items() if part is not None]


def _cuts(made: Made) -> list[Mapping[str, Any]]:
    return list(made.cutting.get("cuts", []))


def _size(fabric: str, width: float, height: float) -> Size:
    low, high = sorted((width, height))
    return fabric, round(low / NEAR_INCHES) * NEAR_INCHES, round(high / NEAR_INCHES) * NEAR_INCHES


def _inches(length: Any) -> float:
    return float(length.get("inches") or 0) if isinstance(length, Mapping) else 0.0
