"""The cutting order: what a maker does to each cloth, one action a line, in the plan that is followed.

All strips before anything is cut across them, the longest and widest first; then the pieces, the largest first;
squares are halved or quartered once they are all there. The rule of thumb is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from service.craft.cutting_words import STRAIGHTEN
from service.craft.document import Project
from service.craft.language import phrase
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from workers.cutting.cuts import Cut
from workers.cutting.order_words import OrderWords, stays_long
from workers.cutting.plan import ClothPlan, CutRun, PlannedStrip

STRAIGHTENING, STRIPS, PIECES, DIAGONAL = "straighten", "strips", "pieces", "diagonal"
"""The kinds of action a line may be."""

NOT_WHOLE = -1


@dataclass(frozen=True)
class OrderLine:
    """One action. `strips` are the strips it is about, by their place in the plan that is followed.

    `cuts` says what comes off the cloth for good here: numbers of the cutting list, with so many pieces.
    `keep_folded`: what the line cuts off is left folded and laid aside.
    """

    fabric: str
    action: str
    text: str
    strips: tuple[int, ...] = ()
    cuts: tuple[tuple[int, int], ...] = ()
    keep_folded: bool = False


def list_order(project: Project, cuts: Sequence[Cut], plans: Sequence[ClothPlan]) -> list[OrderLine]:
    """Every action for every cloth, cloth by cloth in the plan's order."""
    return [line for plan in plans for line in _order_cloth(project, cuts, plan)]


@dataclass(frozen=True)
class StripGroup:
    """Equal strips that follow each other: the number of the first, how many, and one of them."""

    first: int
    count: int
    strip: PlannedStrip

    @property
    def strips(self) -> tuple[int, ...]:
        """All of them by number, from nought."""
        return tuple(range(self.first, self.first + self.count))


def group_strips(strips: Sequence[PlannedStrip]) -> list[StripGroup]:
    """Strips that follow each other and hold the same, together."""
    groups, first = [], 0
    for strip, same in groupby(strips):
        count = len(list(same))
        groups.append(StripGroup(first, count, strip))
        first += count
    return groups


def is_whole(strip: PlannedStrip, cuts: Sequence[Cut], usable_width: Fraction) -> bool:
    """Whether a strip is its one piece: nothing is cut across it."""
    if len(strip.runs) != 1 or strip.runs[0].count != 1:
        return False
    across, along = lie(strip.runs[0], cuts)
    return across == usable_width and along == strip.height


def lie(run: CutRun, cuts: Sequence[Cut]) -> tuple[Fraction, Fraction]:
    """How a piece of a run lies on the cloth: inches across the roll and along it."""
    cut = cuts[run.cut]
    return (cut.height, cut.width) if run.turned else (cut.width, cut.height)


def stays_folded(strip: PlannedStrip, cuts: Sequence[Cut], usable_width: Fraction) -> bool:
    """Whether a strip can be cut across while it is folded selvedge to selvedge, so that each cut makes two pieces.

    Then all its pieces come in pairs, none of them lies over the fold, and there is room for a spare one where
    there is but one size. Common practice, no source.
    """
    if len(strip.runs) > 1 and any(run.count % 2 for run in strip.runs):
        return False
    return 2 * sum((run.count + 1) // 2 * lie(run, cuts)[0] for run in strip.runs) <= usable_width


def _order_cloth(project: Project, cuts: Sequence[Cut], plan: ClothPlan) -> Iterator[OrderLine]:
    fabric, words = plan.fabric, OrderWords(project.measure, cuts, plan.fabric)
    groups = group_strips(plan.followed.strips)
    if not fabric.trim_in_place:
        yield OrderLine(fabric.key, STRAIGHTENING, phrase(STRAIGHTEN, cloth=fabric.name))
    yield from _strip_lines(groups, cuts, plan, words)
    cross = [g for g in groups if not is_whole(g.strip, cuts, fabric.usable_width)]
    largest_first = sorted(
        cross, key=lambda g: -max(cuts[run.cut].area / cuts[run.cut].count for run in g.strip.runs)
    )
    left = {run.cut: cuts[run.cut].count for g in groups for run in g.strip.runs}
    for group in largest_first:
        for run in group.strip.runs:
            pieces = run.count * group.count
            text = words.say_pieces(group.strips, group.strip, run, pieces)
            kept = stays_long(cuts[run.cut])
            yield OrderLine(fabric.key, PIECES, text, group.strips, ((run.cut, pieces),), keep_folded=kept)
            left[run.cut] -= pieces
            if not left[run.cut] and cuts[run.cut].then in (ONCE, TWICE, DIAMONDS):
                yield OrderLine(fabric.key, DIAGONAL, words.say_diagonal(run.cut))


def _strip_lines(
    groups: Sequence[StripGroup], cuts: Sequence[Cut], plan: ClothPlan, words: OrderWords
) -> Iterator[OrderLine]:
    """All strips of a cloth, those of one height that are laid aside alike in one line.

    A strip that is its one piece is done with, and stays folded for its seam.
    """
    width = plan.fabric.usable_width

    def look(group: StripGroup) -> tuple[Fraction, bool, int]:
        whole = is_whole(group.strip, cuts, width)
        folded = whole or stays_folded(group.strip, cuts, width)
        return group.strip.height, folded, group.strip.runs[0].cut if whole else NOT_WHOLE

    for (_, folded, cut), alike in groupby(groups, key=look):
        listed = list(alike)
        numbers = tuple(number for group in listed for number in group.strips)
        whole = cut != NOT_WHOLE
        yield OrderLine(
            plan.fabric.key,
            STRIPS,
            words.say_strips(numbers, listed[0].strip, whole=whole, folded=folded),
            numbers,
            ((cut, len(numbers)),) if whole else (),
            keep_folded=folded,
        )
