"""Which copies of a stage something is done to: those on a pile, or as many as make one."""

from __future__ import annotations

from collections.abc import Sequence

from service.craft.language import join_words, phrase
from workers.sewing.plan import Stage


def say_by_piles(stage: Stage, said: dict[str, list[int]]) -> str:
    """What is done (without its full stop), by the ways whose copies it is done to: once, or pile by pile."""
    if len(said) == 1:
        (text,) = said
        return f"{text[0].upper()}{text[1:]}."
    found, left = [], stage.count
    for text, ways in said.items():
        count = sum(stage.ways[way - 1][0] for way in ways)
        left -= count
        found.append(f"{which_copies(stage, ways, count, left=left)} {text}.")
    return " ".join(found)


def which_copies(stage: Stage, ways: Sequence[int], count: int, *, left: int) -> str:
    """The copies pressed in some ways: those of a pile that is there, or as many as make one."""
    piles = name_piles([n for n, pile in enumerate(stage.piles, start=1) if pile.way in ways])
    whole = stage.count
    rest = (
        phrase("the other {count}", count=count)
        if count > 1
        else phrase("the last one")
        if whole > 2
        else phrase("the other one")
    )
    which = rest if not left else _say_some(count, whole)
    if any(pile.takes for pile in stage.piles):
        return phrase("In {piles}, {which},", piles=piles, which=which)
    return phrase("In {which}, for {piles},", which=which, piles=piles)


def _say_some(count: int, whole: int) -> str:
    if count == 1:
        return phrase("one of the {whole}", whole=whole)
    return phrase("{count} of the {whole}", count=count, whole=whole)


def name_piles(numbers: Sequence[int]) -> str:
    """Piles by their numbers.

    >>> name_piles([1]), name_piles([1, 3])
    ('pile 1', 'piles 1 and 3')
    """
    if len(numbers) == 1:
        return phrase("pile {number}", number=numbers[0])
    return phrase("piles {numbers}", numbers=join_words(map(str, numbers)))
