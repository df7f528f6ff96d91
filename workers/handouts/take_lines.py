"""What is said in a take: the steps of all tracks in one order, each once, with the maker's own tips."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from service.craft.language import phrase
from workers.handouts.inputs import Inputs

PLACES = ("before", "after")

FILMED_REPEATS, REPEAT_ENDING = 2, ".sew"
"""Up to so many pieces sewn in one way are filmed one by one; how the ids of their steps end."""

TaggedStep = tuple[Mapping[str, Any], tuple[str, ...]]
"""A step, and the tracks it is for."""


@dataclass(frozen=True)
class MakersTip:
    """A tip in the maker's own words, `place` before or after its step; `tracks` where it is not for all of them."""

    text: str
    place: str
    tracks: tuple[str, ...] = ()


@dataclass(frozen=True)
class TakeLine:
    """One step of a take in words; `tracks` names those it is for, where it is not for all. The maker's tips stand with
    it.
    """

    text: str
    tracks: tuple[str, ...]
    before: tuple[MakersTip, ...] = ()
    after: tuple[MakersTip, ...] = ()


def merge_steps(inputs: Inputs) -> Iterator[TaggedStep]:
    """Every step of every track once, with the tracks it is for; where tracks part, in the tracks' order.

    Steps are one where both id and text agree: a step may be said in another way to another track.
    """
    lists = {track.name: inputs.steps(track) for track in inputs.project.tracks}
    tracks_of: dict[tuple[str, str], list[str]] = {}
    merged: list[Mapping[str, Any]] = []
    for name, steps in lists.items():
        for step in steps:
            tracks_of.setdefault(_identify(step), []).append(name)
        merged = _merge(merged, steps)
    tips = _gather_tips(lists)
    for step in merged:
        one = _identify(step)
        yield {**step, "tips": tips.get(one, ())}, tuple(dict.fromkeys(tracks_of[one]))


def _gather_tips(
    lists: Mapping[str, Sequence[Mapping[str, Any]]],
) -> dict[tuple[str, str], tuple[MakersTip, ...]]:
    """The tips of each step, with the tracks it stands on: what stands before it first."""
    found: dict[tuple[str, str], dict[tuple[str, str], list[str]]] = defaultdict(lambda: defaultdict(list))
    for place in PLACES:
        for name, steps in lists.items():
            for step in steps:
                for text in step.get(f"tips_{place}") or ():
                    found[_identify(step)][place, str(text)].append(name)
    return {
        step: tuple(MakersTip(text, place, tuple(names)) for (place, text), names in tips.items())
        for step, tips in found.items()
    }


def _identify(step: Mapping[str, Any]) -> tuple[str, str]:
    return str(step.get("id", "")), str(step.get("text", ""))


def _merge(known: list[Mapping[str, Any]], more: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """Put steps not known yet right behind the step that comes before them."""
    result = list(known)
    names = [_identify(step) for step in result]
    place = 0
    for step in more:
        name = _identify(step)
        if name in names:
            place = names.index(name) + 1
        else:
            result.insert(place, step)
            names.insert(place, name)
            place += 1
    return result


def list_lines(inside: Sequence[TaggedStep], every: int) -> Iterator[TakeLine]:
    """The steps of a take in words. Where many pieces are sewn in one way, one is filmed and the others are named.

    `every` is how many tracks there are.
    """
    for (tracks, again), some in groupby(inside, key=lambda item: (item[1], _is_repeat(item[0]))):
        steps = [step for step, _ in some]
        filmed = steps if not again or len(steps) <= FILMED_REPEATS else steps[:1]
        yield from (_tag_step(step, tracks, every) for step in filmed)
        names = [str(name) for step in steps[len(filmed) :] for name in step["pieces"]]
        if names:
            words = phrase(
                "Sew {count} more off camera, each in its place: {pieces}.",
                count=len(names),
                pieces=", ".join(names),
            )
            tips = [tip for step in steps[len(filmed) :] for tip in step.get("tips", ())]
            yield _say(words, tracks, tips, every)


def _is_repeat(step: Mapping[str, Any]) -> bool:
    return str(step.get("id", "")).endswith(REPEAT_ENDING) and bool(step.get("pieces"))


def _tag_step(step: Mapping[str, Any], tracks: tuple[str, ...], every: int) -> TakeLine:
    return _say(str(step.get("text", "")), tracks, step.get("tips", ()), every)


def _say(text: str, tracks: tuple[str, ...], tips: Iterable[MakersTip], every: int) -> TakeLine:
    """A line, and its tips with the tracks they are for where the line itself is for more."""
    told = [replace(tip, tracks=() if set(tip.tracks) >= set(tracks) else tip.tracks) for tip in tips]
    before, after = (tuple(tip for tip in told if tip.place == place) for place in PLACES)
    return TakeLine(text, tracks if len(tracks) < every else (), before, after)
