"""Binding, backing and batting in a line each, from what the cutting plan says about them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.craft.document import Project
from service.craft.drawing import view_cloths
from workers.handouts.sizes import Shown, show_length, show_size


@dataclass(frozen=True)
class FinishingRow:
    """One line: what it is, and what to cut or buy in words."""

    title: str
    text: str


def list_finishing(project: Project, cutting: Mapping[str, Any]) -> list[FinishingRow]:
    """A line for each of binding, backing and batting that the plan has."""
    finishing = cutting.get("finishing") or {}
    return [
        FinishingRow(part.capitalize(), ". ".join(say(project, finishing[part])) + ".")
        for part, say in SAYINGS.items()
        if isinstance(finishing.get(part), Mapping) and finishing[part]
    ]


def _say_binding(project: Project, plan: Mapping[str, Any]) -> Iterator[str]:
    piece = plan.get("piece") or {}
    size = _both(show_size(piece.get("height"), piece.get("width"), project.measure))
    bias = plan.get("cut") == "bias"
    yield from _say_cloth(project, plan)
    if plan.get("pieces") and size:
        what = "cut into strips on the bias" if bias else "strips"
        yield f"{plan['pieces']} {'squares' if bias else what} of {size}" + (f", {what}" if bias else "")
    strip = show_length(plan.get("strip"), project.measure)
    if strip and bias:
        yield f"Strips {_both(strip)} wide"
    joined, around = (show_length(plan.get(key), project.measure) for key in ("joined", "around"))
    if joined and around:
        yield f"Joined they are {_both(joined)} long; {_both(around)} go round"


def _say_backing(project: Project, plan: Mapping[str, Any]) -> Iterator[str]:
    yield from _say_cloth(project, plan)
    yield from _say_size(project, plan)
    panel, count = plan.get("panel") or {}, plan.get("panels", 1)
    if isinstance(count, int) and count > 1 and panel:
        size = _both(show_size(panel.get("width"), panel.get("height"), project.measure))
        seam = show_length(plan.get("seam_allowance"), project.measure).main
        yield f"Sewn of {count} panels of {size}" + (f" with seams of {seam}" if seam else "")


def _say_batting(project: Project, plan: Mapping[str, Any]) -> Iterator[str]:
    yield from _say_size(project, plan)
    sold = plan.get("sold_as")
    if isinstance(sold, Mapping):
        size = _both(show_size(sold.get("width"), sold.get("height"), project.measure))
        yield f"A packet called {sold.get('name', '')}, {size}, is large enough"


SAYINGS: Mapping[str, Callable[[Project, Mapping[str, Any]], Iterator[str]]] = {
    "binding": _say_binding,
    "backing": _say_backing,
    "batting": _say_batting,
}


def _say_cloth(project: Project, plan: Mapping[str, Any]) -> Iterator[str]:
    cloth = view_cloths(project.fabrics).get(str(plan.get("fabric", "")))
    if cloth is not None:
        yield f"{cloth.letter} · {cloth.name}"


def _say_size(project: Project, plan: Mapping[str, Any]) -> Iterator[str]:
    size = show_size(plan.get("width"), plan.get("height"), project.measure)
    if size:
        yield f"At least {_both(size)}"


def _both(shown: Shown) -> str:
    return f"{shown.main} ({shown.second})" if shown.second else shown.main
