"""Which of their piles the parts of a stage come from, where copies of them are not all made alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from service.craft.language import mark, phrase
from workers.sewing.plan import Stage
from workers.sewing.pressed import Pile
from workers.sewing.steps.copy_words import name_piles
from workers.sewing.steps.pile_words import Stages, say_look, spell_out
from workers.sewing.steps.place_names import PlaceNames, name_places
from workers.sewing.steps.stage_steps import step_of
from workers.sewing.steps.step import Step, sentences
from workers.sewing.works import Work

REASON = mark(
    "Pressed alike, seams of two neighbours would fall to the same side where they meet. So laid, one falls "
    "each way and they nest."
)


def lay_in_turn(stage: Stage, stages: Stages) -> Iterator[Step]:
    """Which piles the parts of each copy of a stage are taken from, one step for each of its own piles.

    `stages` are those whose copies lie on several piles.
    """
    ways: dict[tuple[str, ...], list[int]] = {}
    for number, pile in enumerate(stage.piles, start=1):
        ways.setdefault(tuple(_list_takes(stage, pile, stages)), []).append(number)
    for n, (taken, numbers) in enumerate(ways.items()):
        count = sum(stage.piles[number - 1].count for number in numbers)
        first, *others = taken or (phrase("the parts as they are"),)
        begin = _say_for(count, name_piles(numbers), first) if len(ways) > 1 else _say_take(first)
        text = sentences(begin, *map(_say_take, others))
        yield step_of(stage, f"in-turn-{n + 1}" if n else "in-turn", text, phrase(REASON))


def _say_take(parts: str) -> str:
    return phrase("Take {parts}.", parts=parts)


def _say_for(count: int, piles: str, parts: str) -> str:
    """What is taken for the copies of some piles alone."""
    if count == 1:
        return phrase("For the one of {piles} take {parts}.", piles=piles, parts=parts)
    return phrase("For the {count} of {piles} take {parts}.", count=count, piles=piles, parts=parts)


def _list_takes(stage: Stage, pile: Pile, stages: Stages) -> list[str]:
    """Part by part, from which of their piles they come for which places."""
    parts = [stages[need] for need in stage.needs if need in stages]
    places = name_places(stage.work)
    said: list[str] = []
    for part, called in zip(parts, _tell_apart(parts), strict=True):
        taken: dict[int, list[int]] = {}
        for place, (item, number) in enumerate(zip(pile.work.items, pile.takes, strict=False)):
            if number and isinstance(item.piece, Work) and item.piece.stage == part.id:
                taken.setdefault(number, []).append(place)
        if taken:
            counted = replace(places, counted="") if said else places
            said.append(_say_part(part, called, taken, counted, stages))
    return said


def _say_part(
    part: Stage, called: str, taken: dict[int, list[int]], places: PlaceNames, stages: Stages
) -> str:
    piles = {number: _say_pile(part, number, stages) for number in taken}
    if len(taken) == 1:
        ((number, at),) = taken.items()
        return phrase(
            "{parts} for {places} from {pile}", parts=called, places=places.say(at), pile=piles[number]
        )
    (first, at), *others = sorted(taken.items())
    later = replace(places, counted="")
    said = [(places.say(at), piles[first]), *((later.say(at), piles[number]) for number, at in others)]
    ways = [phrase("for {places} from {pile}", places=where, pile=pile) for where, pile in said]
    return phrase(
        "{parts} from their {count} piles: {ways}",
        parts=called,
        count=spell_out(len(part.piles)),
        ways="; ".join(ways),
    )


def _say_pile(part: Stage, number: int, stages: Stages) -> str:
    return phrase("pile {number} ({look})", number=number, look=say_look(part, number, stages))


def _tell_apart(parts: Sequence[Stage]) -> list[str]:
    """What the parts are called; with the titles of their stages, no two of which are alike, where names are."""
    names = Counter(part.work.many for part in parts)
    return [
        phrase("the {parts}", parts=part.work.many)
        + (f" ({_in_sentence(part.work.title)})" if names[part.work.many] > 1 else "")
        for part in parts
    ]


def _in_sentence(title: str) -> str:
    return title[0].lower() + title[1:]
