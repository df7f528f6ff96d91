"""Binding, backing, batting and sleeve in a line each, from what the cutting plan says about them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.craft.cutting_choices import STRAIGHT_JOIN
from service.craft.document import Project
from service.craft.drawing import view_cloths
from service.craft.finish import BIAS, CONTINUOUS, HORIZONTAL, SINGLE, VERTICAL
from service.craft.language import mark, phrase, phrase_count
from workers.handouts.sizes import Shown, show_length, show_size

Plan = Mapping[str, Any]

NO_SEAMS, ON_ITS_SIDE = "none", "on its side"
"""What the cutting plan says of a back of one panel, and of batting that is laid the other way round."""

OTHER_WAYS = {
    VERTICAL: mark("With seams along the length instead it would take {length} of cloth"),
    HORIZONTAL: mark("With seams across the width instead it would take {length} of cloth"),
    NO_SEAMS: mark("With no seam instead it would take {length} of cloth"),
}
PANEL_SEAMS = {
    VERTICAL: (mark("with a seam of {seam} along the length"), mark("with seams of {seam} along the length")),
    HORIZONTAL: (
        mark("with a seam of {seam} across the width"),
        mark("with seams of {seam} across the width"),
    ),
}
"""By where the seams of a back lie: one seam, and several."""


@dataclass(frozen=True)
class FinishingRow:
    """One line: what it is, and what to cut or buy in words."""

    title: str
    text: str


def list_finishing(project: Project, cutting: Plan) -> list[FinishingRow]:
    """A line for each of binding, backing, batting and sleeve that the plan has."""
    finishing = cutting.get("finishing") or {}
    return [
        FinishingRow(phrase(title), ". ".join(say(project, finishing[part])) + ".")
        for part, (title, say) in SAYINGS.items()
        if isinstance(finishing.get(part), Mapping) and finishing[part]
    ]


def _say_binding(project: Project, plan: Plan) -> Iterator[str]:
    yield from _say_cloth(project, plan)
    yield from _say_strips(project, plan)
    if plan.get("fold") == SINGLE:
        yield phrase("Folded once, not doubled")
    joined, around = (show_length(plan.get(key), project.measure) for key in ("joined", "around"))
    if joined and around:
        lengths = {"length": _both(joined), "around": _both(around)}
        yield (
            phrase("It is {length} long; {around} go round", **lengths)
            if plan.get("cut") == CONTINUOUS
            else phrase("Joined they are {length} long; {around} go round", **lengths)
        )
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
        yield phrase_count(
            "{number} square of {side}, sewn to a tube and cut round and round into one strip of {strip}",
            "{number} squares of {side}, sewn to a tube and cut round and round into one strip of {strip}",
            count,
            side=_both(show_length(piece.get("width"), project.measure)),
            strip=strip,
        )
    elif plan.get("cut") == BIAS:
        yield phrase(
            "1 piece of {size}, cut on the slant into {count} strips of {strip}",
            size=size,
            count=plan.get("strips"),
            strip=strip,
        )
    elif plan.get("join") == STRAIGHT_JOIN and count != 1:
        yield phrase("{count} strips of {size}, joined with straight seams", count=count, size=size)
    else:
        yield phrase_count("{number} strip of {size}", "{number} strips of {size}", count, size=size)


def _say_backing(project: Project, plan: Plan) -> Iterator[str]:
    yield from _say_cloth(project, plan)
    yield from _say_size(project, plan)
    count = plan.get("panels", 1)
    if isinstance(count, int) and count > 1 and plan.get("panel"):
        yield _say_panels(project, plan, count)
        places = [show_length(place, project.measure) for place in plan.get("seams_at") or ()]
        if len(places) == 1:
            place = places[0].main
            yield (
                phrase("The seam lies {place} from the left or the right edge", place=place)
                if plan.get("seams") == VERTICAL
                else phrase("The seam lies {place} from the upper or the lower edge", place=place)
            )
    other = plan.get("other_way") or {}
    more = show_length(other.get("length"), project.measure)
    if more and (count, more) != (other.get("panels"), show_length(plan.get("length"), project.measure)):
        yield phrase(OTHER_WAYS[other.get("seams", NO_SEAMS)], length=_both(more))


def _say_panels(project: Project, plan: Plan, count: int) -> str:
    panel, measure = plan["panel"], project.measure
    widths = [show_length(width, measure).main for width in plan.get("widths") or ()]
    seam = show_length(plan.get("seam_allowance"), measure).main
    seams = phrase(PANEL_SEAMS[plan["seams"]][count > 2], seam=seam)
    if len(set(widths)) > 1:
        return phrase(
            "Sewn of {count} panels, {widths} wide and {length} long, {seams}",
            count=count,
            widths=phrase(" and ").join(widths),
            length=show_length(panel.get("height"), measure).main,
            seams=seams,
        )
    size = _both(show_size(panel.get("width"), panel.get("height"), measure))
    return phrase("Sewn of {count} panels of {size} {seams}", count=count, size=size, seams=seams)


def _say_batting(project: Project, plan: Plan) -> Iterator[str]:
    yield from _say_size(project, plan)
    sold, perhaps = plan.get("sold_as"), plan.get("perhaps")
    if isinstance(sold, Mapping):
        yield phrase("{packet}, is large enough", packet=_packet(sold, project))
    if isinstance(perhaps, Mapping):
        why = perhaps.get("why") or phrase("not all are alike")
        yield phrase("{packet}, may do, but {why}", packet=_packet(perhaps, project), why=why)


def _packet(sold: Plan, project: Project) -> str:
    name, size = sold.get("name", ""), show_size(sold.get("width"), sold.get("height"), project.measure)
    if sold.get("lies") == ON_ITS_SIDE:
        return phrase("A packet called {name}, {size}, on its side", name=name, size=_both(size))
    return phrase("A packet called {name}, {size}", name=name, size=_both(size))


def _say_sleeve(project: Project, plan: Plan) -> Iterator[str]:
    piece, count, measure = plan.get("piece") or {}, plan.get("pieces"), project.measure
    yield from _say_cloth(project, plan)
    size = _both(show_size(piece.get("height"), piece.get("width"), measure))
    if count and size:
        length = show_length(plan.get("length"), measure).main
        yield (
            phrase("1 strip of {size}", size=size)
            if count == 1
            else phrase(
                "{count} strips of {size}, joined and trimmed to {length}",
                count=count,
                size=size,
                length=length,
            )
        )
    depth = show_length(plan.get("depth"), measure)
    if depth:
        yield phrase("Sewn to a tube {depth} deep", depth=_both(depth))


SAYINGS: Mapping[str, tuple[str, Callable[[Project, Plan], Iterator[str]]]] = {
    "binding": (mark("Binding"), _say_binding),
    "backing": (mark("Backing"), _say_backing),
    "batting": (mark("Batting"), _say_batting),
    "sleeve": (mark("Hanging sleeve"), _say_sleeve),
}


def _say_cloth(project: Project, plan: Plan) -> Iterator[str]:
    cloth = view_cloths(project.fabrics).get(str(plan.get("fabric", "")))
    if cloth is not None:
        yield f"{cloth.letter} · {cloth.name}"


def _say_size(project: Project, plan: Plan) -> Iterator[str]:
    size = show_size(plan.get("width"), plan.get("height"), project.measure)
    if size:
        yield phrase("At least {size}", size=_both(size))


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _both(shown: Shown) -> str:
    return f"{shown.main} ({shown.second})" if shown.second else shown.main
