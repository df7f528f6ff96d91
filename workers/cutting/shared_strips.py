"""Strips of one border or sashing out of one long joined strip: fewer strips than when each is joined for itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import reduce
from math import ceil

from service.craft.cutting_choices import ALONG
from service.craft.cutting_words import NEXT, and_then
from service.craft.document import Project
from service.craft.joining import Joined, Part
from service.craft.language import phrase
from service.craft.measure import format_length, round_down
from workers.cutting.cuts import STRIP, Cut


def share_strips(cuts: Sequence[Cut], project: Project) -> tuple[Cut, ...]:
    """The same cuts; those of one cloth, height and use come out of one joined strip where that takes fewer strips.

    So makers reckon the strips of a border: the whole way round over the width of the cloth, up to whole strips
    ("Can you figure the amount of yardage to buy?", school slides, slideserve.com); here with what the joins take.
    """
    groups: dict[tuple[object, ...], list[Cut]] = {}
    for cut in cuts:
        if _may_share(cut, project):
            groups.setdefault(
                (cut.fabric, cut.height, cut.uses, cut.notes, cut.grain, _say_rest(cut)), []
            ).append(cut)
    shared = list(cuts)
    for group in groups.values():
        together = _put_together(group, project)
        if together is not None:
            shared[shared.index(group[0])] = together
            shared = [cut for cut in shared if cut not in group]
    return tuple(shared)


def _may_share(cut: Cut, project: Project) -> bool:
    """Long strips that lie across the cloth and are only cut to length: joined, or more than half its width."""
    if cut.shape != STRIP or cut.serves != "patches" or cut.grain == ALONG or cut.width < cut.height:
        return False
    long = cut.width > project.fabrics[cut.fabric].usable_width / 2
    return cut.joined is not None or (long and not cut.then)


def _put_together(group: Sequence[Cut], project: Project) -> Cut | None:
    """One cut for the whole group, or None where that saves no strip."""
    joins = [cut.joined for cut in group if cut.joined is not None]
    if not joins:
        return None
    join, first, rest = joins[0], group[0], _say_rest(group[0])
    whole = round_down(project.fabrics[first.fabric].usable_width, project.rules.round_to)
    parts = [_find_part(cut) for cut in group]
    wanted = sum((part.count * part.length for part in parts), Fraction(0))
    pieces = ceil((wanted - join.loss) / (whole - join.loss))
    if pieces >= sum(cut.count for cut in group):
        return None
    total = pieces * whole - (pieces - 1) * join.loss
    long = Joined(pieces, whole, total, join.loss, join.seams, wanted, parts=tuple(parts))
    how = phrase("{how}, then cut {pieces}", how=long.say(), pieces=_say_parts(parts, project.measure))
    return replace(
        first,
        width=whole,
        count=pieces,
        makes=sum(cut.makes for cut in group),
        wanted=sum(cut.wanted for cut in group),
        then=and_then(how, rest),
        together=True,
        may_turn=False,
        joined=long,
    )


def _say_rest(cut: Cut) -> str:
    """What is done with a strip once it is long enough."""
    return cut.then.partition(NEXT)[2] if cut.joined else cut.then


def _say_parts(parts: Sequence[Part], measure: str) -> str:
    """How many strips of every length."""
    said = (
        phrase("{count} of {length}", count=part.count, length=format_length(part.length, measure))
        for part in parts
    )
    return reduce(lambda first, last: phrase("{first} and {last}", first=first, last=last), said)


def _find_part(cut: Cut) -> Part:
    """How many strips a cut is for, and how long each of them is."""
    if cut.joined is None:
        return Part(cut.count, cut.width, cut.makes)
    return Part(cut.count // cut.joined.pieces, cut.joined.wanted, cut.makes)
