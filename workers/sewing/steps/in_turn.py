"""Which of their piles the parts of a stage come from, where copies of them are not all made alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.pressed import Pile
from workers.sewing.steps.small_units import step_of
from workers.sewing.steps.step import Step
from workers.sewing.works import Work

COUNTED = {"row": ", counted from the left", "rows": ", counted from the top"}
"""How the places of a stage are counted, by its kind; in others the order of sewing counts them."""

REASON = (
    "Pressed alike, seams of two neighbours would fall to the same side where they meet. So laid, one falls each way "
    "and they nest."
)


def lay_in_turn(stage: Stage, parts: Sequence[Stage]) -> Step:
    """Which piles the parts of each copy of a stage are taken from; the piles have the numbers of their drawings."""
    what = listed(_tell_apart(parts))
    piles = sorted({len(part.piles) for part in parts})
    count = f"{piles[0]} piles" if len(piles) == 1 else f"{piles[0]} to {piles[-1]} piles"
    ways = [_say_places(stage, pile) for pile in stage.piles]
    if len(stage.piles) == 1:
        said = f"{ways[0][0].upper()}{ways[0][1:]}"
    else:
        copies = [pile.count for pile in stage.piles]
        said = "; ".join(
            f"{'In ' if n == 1 else 'in '}{count} of the {stage.count}, which become pile {n}, {way}"
            for n, (count, way) in enumerate(zip(copies, ways, strict=True), start=1)
        )
    return step_of(stage, "in-turn", f"{said}. This is about {what}, which lie in {count}.", REASON)


def _tell_apart(parts: Sequence[Stage]) -> list[str]:
    """What the parts are called; with the titles of their stages, no two of which are alike, where names are."""
    names = Counter(part.work.many for part in parts)
    return [
        f"the {part.work.many}" + (f" ({_in_sentence(part.work.title)})" if names[part.work.many] > 1 else "")
        for part in parts
    ]


def _in_sentence(title: str) -> str:
    return title[0].lower() + title[1:]


def _say_places(stage: Stage, pile: Pile) -> str:
    """Which places take from which pile."""
    works = [i for i, item in enumerate(pile.work.items) if isinstance(item.piece, Work)]
    places: dict[int, list[int]] = {}
    for place, number in enumerate(pile.takes):
        if number:
            places.setdefault(number, []).append(place)
    if not places:
        return "take the parts as they are"
    ((number, only), *more) = sorted(places.items())
    if not more and len(only) == len(works):
        return f"take all from pile {number}"
    said = [f"from pile {number} for {_name_places(only)}" for number, only in sorted(places.items())]
    return f"take {listed(said)}{COUNTED.get(stage.work.kind, '')}"


def _name_places(places: Sequence[int]) -> str:
    return f"place{'s' if len(places) > 1 else ''} {listed(str(place + 1) for place in places)}"
