"""Piles of copies that are made alike: how each looks, and the slip of paper that says its number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.pressed import SPUN, PressedSeam
from workers.sewing.steps.place_names import name_places
from workers.sewing.steps.pressing_words import say_round, say_seam, say_way
from workers.sewing.steps.seam_names import SeamNames, name_seams
from workers.sewing.steps.small_units import step_of
from workers.sewing.steps.step import Step
from workers.sewing.works import Work

NUMBERS = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}


def say_number(count: int) -> str:
    """A small number in words.

    >>> say_number(2), say_number(12)
    ('two', '12')
    """
    return NUMBERS.get(count, str(count))


Stages = Mapping[str, Stage]
"""Stages by their ids."""


def keep_piles(stage: Stage, stages: Stages) -> Step:
    """The copies of a stage sorted by pile once they are pressed, each pile with its number."""
    piles = [
        f"pile {number} holds the {'one' if pile.count == 1 else pile.count} "
        f"{say_look(stage, number, stages)}"
        for number, pile in enumerate(stage.piles, start=1)
    ]
    return step_of(
        stage,
        "piles",
        f"Put them on {say_number(len(piles))} piles, each with its number on a slip of paper: {'; '.join(piles)}.",
        "From the front they look alike. A later step takes them from their piles, so that their seams nest.",
        tools=("paper", "pencil"),
    )


def say_look(stage: Stage, number: int, stages: Stages) -> str:
    """What tells a pile from the others of its stage, seen from the back: its pressing, or that of a part of it."""
    pile = stage.piles[number - 1]
    pressed = _say_pressed(stage, pile.way) if len(stage.ways) > 1 else ""
    if not any(other.way == pile.way for other in stage.piles if other is not pile):
        return pressed
    where, looks = _find_part(stage, number, stages)
    made = f"with {where} {looks}" if where else ""
    return f"{pressed} and {made}" if pressed and made else pressed or made


def _find_part(stage: Stage, number: int, stages: Stages) -> tuple[str, str]:
    """The first part that is of another pile than in the piles pressed alike: where it is, and how it is pressed."""
    pile = stage.piles[number - 1]
    alike = [other for other in stage.piles if other.way == pile.way and other is not pile]
    place = next((i for i, n in enumerate(pile.takes) if any(other.takes[i] != n for other in alike)), None)
    part = None if place is None else pile.work.items[place].piece
    if place is None or not isinstance(part, Work):
        return "", ""
    inner, at = stages[part.stage], f"the part at {name_places(stage.work).say([place])}"
    if len(inner.ways) > 1:
        return at, _say_pressed(inner, inner.piles[pile.takes[place] - 1].way).removeprefix("with ")
    where, looks = _find_part(inner, pile.takes[place], stages)
    return f"{where} of {at}", looks


def _say_pressed(stage: Stage, way: int) -> str:
    """The pressing of a way, in as few seams as tell it from the other ways."""
    names, ways = name_seams(stage.work), [seams for _, seams in stage.ways]
    if len(ways[0]) == 1:
        return _say_single(ways[way - 1][0])
    whole = say_way(stage, ways[way - 1], names)
    if whole.startswith("press every seam ") or whole == "press the seams open":
        return "pressed " + whole.removeprefix("press every seam ").removeprefix("press the seams ")
    told = [_say_seam(names, i, ways[way - 1][i]) for i in _pick_seams(ways)]
    return f"with {listed(told)}"


def _say_single(seam: PressedSeam) -> str:
    return f"spun {say_round(seam)}" if seam.press == SPUN else f"pressed {say_seam(seam)}"


def _pick_seams(ways: Sequence[Sequence[PressedSeam]]) -> list[int]:
    """Numbers of the first seams by which the ways can be told apart."""
    chosen: list[int] = []
    for number in range(len(ways[0])):
        if len({_features(seams, chosen) for seams in ways}) == len(ways):
            break
        if len({_features(seams, [*chosen, number]) for seams in ways}) > len(
            {_features(seams, chosen) for seams in ways}
        ):
            chosen.append(number)
    return chosen


def _features(seams: Sequence[PressedSeam], numbers: Sequence[int]) -> tuple[object, ...]:
    return tuple((seams[i].press, seams[i].halves) for i in numbers)


def _say_seam(names: SeamNames, number: int, seam: PressedSeam) -> str:
    counted = f", {names.counted}," if names.counted else ""
    if seam.press == SPUN:
        return f"its last seam spun {say_round(seam)}"
    return f"{names.say([number])}{counted} pressed {say_seam(seam)}"
