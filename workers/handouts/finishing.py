"""Binding, backing, batting and sleeve in a line each, from what the cutting plan says about them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.craft.cutting_choices import STRAIGHT_JOIN
from service.craft.document import Project
from service.craft.drawing import view_cloths
from service.craft.finish import BIAS, CONTINUOUS, SINGLE, VERTICAL
from workers.handouts.sizes import Shown, show_length, show_size

Plan = Mapping[str, Any]


@dataclass(frozen=True)
class FinishingRow:
    """One line: what it is, and what to cut or buy in words."""

    title: str
    text: str


def list_finishing(project: Project, cutting: Plan) -> list[FinishingRow]:
    """A line for each of binding, backing, batting and sleeve that the plan has."""
    finishing = cutting.get("finishing") or {}
    return [
        FinishingRow(title, ". ".join(say(project, finishing[part])) + ".")
        for part, (title, say) in SAYINGS.items()
        if isinstance(finishing.get(part), Mapping) and finishing[part]
    ]


def _say_binding(project: Project, plan: Plan) -> Iterator[str]:
    yield from _say_cloth(project, plan)
    yield from _say_strips(project, plan)
    if plan.get("fold") == SINGLE:
        yield "Folded once, not doubled"
    joined, around = (show_length(plan.get(key), project.measure) for key in ("joined", "around"))
    if joined and around:
        they = "It is" if plan.get("cut") == CONTINUOUS else "Joined they are"
        yield f"{they} {_both(joined)} long; {_both(around)} go round"
    usual = plan.get("usual")
    if isinstance(usual, Mapping) and usual.get("why"):
        yield _sentence(str(usual["why"]))


def _say_strips(project: Project, plan: Plan) -> Iterator[str]:
    """What the binding is cut from, and how it becomes strips."""
    piece, count = plan.get("piece") or {}, plan.get("pieces")
    size = _both(show_size(piece.get("height"), piece.get("width"), project.measure))
    if not count or not size:
        return
    strip = _both(show_length(plan.get("strip"), project.measure))
    if plan.get("cut") == CONTINUOUS:
        squares = "1 square" if count == 1 else f"{count} squares"
        side = _both(show_length(piece.get("width"), project.measure))
        yield f"{squares} of {side}, sewn to a tube and cut round and round into one strip of {strip}"
    elif plan.get("cut") == BIAS:
        yield f"1 piece of {size}, cut on the slant into {plan.get('strips')} strips of {strip}"
    else:
        how = ", joined with straight seams" if plan.get("join") == STRAIGHT_JOIN and count != 1 else ""
        yield f"{count} {'strip' if count == 1 else 'strips'} of {size}{how}"


def _say_backing(project: Project, plan: Plan) -> Iterator[str]:
    yield from _say_cloth(project, plan)
    yield from _say_size(project, plan)
    count = plan.get("panels", 1)
    if isinstance(count, int) and count > 1 and plan.get("panel"):
        yield _say_panels(project, plan, count)
        places = [show_length(place, project.measure) for place in plan.get("seams_at") or ()]
        if len(places) == 1:
            edge = "left or the right" if plan.get("seams") == VERTICAL else "upper or the lower"
            yield f"The seam lies {places[0].main} from the {edge} edge"
    other = plan.get("other_way") or {}
    more = show_length(other.get("length"), project.measure)
    if more and (count, more) != (other.get("panels"), show_length(plan.get("length"), project.measure)):
        seams = f"seams {other['seams']}" if other.get("seams") != "none" else "no seam"
        yield f"With {seams} instead it would take {_both(more)} of cloth"


def _say_panels(project: Project, plan: Plan, count: int) -> str:
    panel, measure = plan["panel"], project.measure
    widths = [show_length(width, measure).main for width in plan.get("widths") or ()]
    seam = show_length(plan.get("seam_allowance"), measure).main
    seams = f" with {'a seam' if count == 2 else 'seams'} of {seam}" if seam else ""
    seams += f" {plan['seams']}" if plan.get("seams") else ""
    if len(set(widths)) > 1:
        long = show_length(panel.get("height"), measure).main
        return f"Sewn of {count} panels, {' and '.join(widths)} wide and {long} long,{seams}"
    size = _both(show_size(panel.get("width"), panel.get("height"), measure))
    return f"Sewn of {count} panels of {size}{seams}"


def _say_batting(project: Project, plan: Plan) -> Iterator[str]:
    yield from _say_size(project, plan)
    sold, perhaps = plan.get("sold_as"), plan.get("perhaps")
    if isinstance(sold, Mapping):
        yield f"{_packet(sold, project)} is large enough"
    if isinstance(perhaps, Mapping):
        yield f"{_packet(perhaps, project)} may do, but {perhaps.get('why', 'not all are alike')}"


def _packet(sold: Plan, project: Project) -> str:
    size = _both(show_size(sold.get("width"), sold.get("height"), project.measure))
    lying = ", on its side" if sold.get("lies") == "on its side" else ""
    return f"A packet called {sold.get('name', '')}, {size}{lying},"


def _say_sleeve(project: Project, plan: Plan) -> Iterator[str]:
    piece, count, measure = plan.get("piece") or {}, plan.get("pieces"), project.measure
    yield from _say_cloth(project, plan)
    size = _both(show_size(piece.get("height"), piece.get("width"), measure))
    if count and size:
        joined = (
            f", joined and trimmed to {show_length(plan.get('length'), measure).main}" if count != 1 else ""
        )
        yield f"{count} {'strip' if count == 1 else 'strips'} of {size}{joined}"
    depth = show_length(plan.get("depth"), measure)
    if depth:
        yield f"Sewn to a tube {_both(depth)} deep"


SAYINGS: Mapping[str, tuple[str, Callable[[Project, Plan], Iterator[str]]]] = {
    "binding": ("Binding", _say_binding),
    "backing": ("Backing", _say_backing),
    "batting": ("Batting", _say_batting),
    "sleeve": ("Hanging sleeve", _say_sleeve),
}


def _say_cloth(project: Project, plan: Plan) -> Iterator[str]:
    cloth = view_cloths(project.fabrics).get(str(plan.get("fabric", "")))
    if cloth is not None:
        yield f"{cloth.letter} · {cloth.name}"


def _say_size(project: Project, plan: Plan) -> Iterator[str]:
    size = show_size(plan.get("width"), plan.get("height"), project.measure)
    if size:
        yield f"At least {_both(size)}"


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _both(shown: Shown) -> str:
    return f"{shown.main} ({shown.second})" if shown.second else shown.main
