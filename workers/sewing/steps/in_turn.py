"""Which of their piles the parts of a stage come from, where copies of them are not all made alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from workers.sewing.plan import Stage
from workers.sewing.pressed import Pile
from workers.sewing.steps.pile_words import Stages, say_look, say_number
from workers.sewing.steps.place_names import PlaceNames, name_places
from workers.sewing.steps.pressing_words import name_piles
from workers.sewing.steps.small_units import step_of
from workers.sewing.steps.step import Step
from workers.sewing.works import Work

REASON = (
    "Pressed alike, seams of two neighbours would fall to the same side where they meet. So laid, one falls each way "
    "and they nest."
)


def lay_in_turn(stage: Stage, stages: Stages) -> Iterator[Step]:
    """Which piles the parts of each copy of a stage are taken from, one step for each of its own piles.

    `stages` are those whose copies lie on several piles.
    """
    ways: dict[str, list[int]] = {}
    for number, pile in enumerate(stage.piles, start=1):
        ways.setdefault(_say_takes(stage, pile, stages), []).append(number)
    for n, (said, numbers) in enumerate(ways.items()):
        count = sum(stage.piles[number - 1].count for number in numbers)
        copies = "one" if count == 1 else str(count)
        which = f"For the {copies} of {name_piles(numbers)} take" if len(ways) > 1 else "Take"
        yield step_of(stage, f"in-turn-{n + 1}" if n else "in-turn", f"{which} {said}.", REASON)


def _say_takes(stage: Stage, pile: Pile, stages: Stages) -> str:
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
    return ". Take ".join(said) if said else "the parts as they are"


def _say_part(
    part: Stage, called: str, taken: dict[int, list[int]], places: PlaceNames, stages: Stages
) -> str:
    piles = {number: f"pile {number} ({say_look(part, number, stages)})" for number in taken}
    if len(taken) == 1:
        ((number, at),) = taken.items()
        return f"{called} for {places.say(at)} from {piles[number]}"
    (first, at), *others = sorted(taken.items())
    later = replace(places, counted="")
    ways = [f"for {places.say(at)} from {piles[first]}"]
    ways += [f"for {later.say(at)} from {piles[number]}" for number, at in others]
    return f"{called} from their {say_number(len(part.piles))} piles: {'; '.join(ways)}"


def _tell_apart(parts: Sequence[Stage]) -> list[str]:
    """What the parts are called; with the titles of their stages, no two of which are alike, where names are."""
    names = Counter(part.work.many for part in parts)
    return [
        f"the {part.work.many}" + (f" ({_in_sentence(part.work.title)})" if names[part.work.many] > 1 else "")
        for part in parts
    ]


def _in_sentence(title: str) -> str:
    return title[0].lower() + title[1:]
