"""Piles of copies that are made alike: how each looks, and the slip of paper that says its number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.craft.language import join_words, mark, phrase
from workers.sewing.plan import Stage
from workers.sewing.pressed import SPUN, PressedSeam
from workers.sewing.steps.place_names import name_places
from workers.sewing.steps.pressing_words import say_one_way, say_round, say_seam
from workers.sewing.steps.seam_names import SeamNames, name_seams
from workers.sewing.steps.stage_steps import step_of
from workers.sewing.steps.step import Step
from workers.sewing.works import Work

NUMBERS = {2: mark("two"), 3: mark("three"), 4: mark("four"), 5: mark("five"), 6: mark("six")}


def spell_out(count: int) -> str:
    """A small number in words.

    >>> spell_out(2), spell_out(12)
    ('two', '12')
    """
    return phrase(NUMBERS[count]) if count in NUMBERS else str(count)


Stages = Mapping[str, Stage]
"""Stages by their ids."""


def keep_piles(stage: Stage, stages: Stages) -> Step:
    """The copies of a stage sorted by pile once they are pressed, each pile with its number."""
    piles = [
        _say_pile(number, pile.count, say_look(stage, number, stages))
        for number, pile in enumerate(stage.piles, start=1)
    ]
    return step_of(
        stage,
        "piles",
        phrase(
            "Put them on {count} piles, each with its number on a slip of paper: {piles}.",
            count=spell_out(len(piles)),
            piles="; ".join(piles),
        ),
        phrase(
            "From the front they look alike. A later step takes them from their piles, so that their seams "
            "nest."
        ),
        tools=("paper", "pencil"),
    )


def _say_pile(number: int, count: int, look: str) -> str:
    if count == 1:
        return phrase("pile {number} holds the one {look}", number=number, look=look)
    return phrase("pile {number} holds the {count} {look}", number=number, count=count, look=look)


def say_look(stage: Stage, number: int, stages: Stages) -> str:
    """What tells a pile from the others of its stage, seen from the back: its pressing, or that of a part of it."""
    pile = stage.piles[number - 1]
    pressed = _say_pressed(stage, pile.way) if len(stage.ways) > 1 else ""
    if not any(other.way == pile.way for other in stage.piles if other is not pile):
        return pressed
    where, looks = _find_part(stage, number, stages)
    made = phrase("with {part} {look}", part=where, look=looks) if where else ""
    return phrase("{pressed} and {made}", pressed=pressed, made=made) if pressed and made else pressed or made


def _find_part(stage: Stage, number: int, stages: Stages) -> tuple[str, str]:
    """The first part that is of another pile than in the piles pressed alike: where it is, and how it is pressed."""
    pile = stage.piles[number - 1]
    alike = [other for other in stage.piles if other.way == pile.way and other is not pile]
    place = next((i for i, n in enumerate(pile.takes) if any(other.takes[i] != n for other in alike)), None)
    part = None if place is None else pile.work.items[place].piece
    if place is None or not isinstance(part, Work):
        return "", ""
    inner, at = stages[part.stage], phrase("the part at {place}", place=name_places(stage.work).say([place]))
    if len(inner.ways) > 1:
        return at, "".join(_tell_pressed(inner, inner.piles[pile.takes[place] - 1].way))
    where, looks = _find_part(inner, pile.takes[place], stages)
    return phrase("{part} of {whole}", part=where, whole=at), looks


def _say_pressed(stage: Stage, way: int) -> str:
    """The pressing of a way, in as few seams as tell it from the other ways."""
    whole, told = _tell_pressed(stage, way)
    return whole or phrase("with {seams}", seams=told)


def _tell_pressed(stage: Stage, way: int) -> tuple[str, str]:
    """How the whole is pressed, where its seams go one way, else an empty text; and else how some of its seams are."""
    names, ways = name_seams(stage.work), [seams for _, seams in stage.ways]
    seams = ways[way - 1]
    if len(seams) == 1:
        return _say_single(seams[0]), ""
    one = say_one_way(stage, seams) if seams[-1].press != SPUN else ""
    if one:
        return phrase("pressed {way}", way=one), ""
    return "", join_words(_say_seam(names, i, seams[i]) for i in _pick_seams(ways))


def _say_single(seam: PressedSeam) -> str:
    if seam.press == SPUN:
        return phrase("spun {round}", round=say_round(seam))
    return phrase("pressed {way}", way=say_seam(seam))


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
        return phrase("its last seam spun {round}", round=say_round(seam))
    called = names.say([number]) + counted
    return phrase("{seam} pressed {way}", seam=called, way=say_seam(seam))
