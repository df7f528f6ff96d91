"""The cutting order in words: one action a line, sizes as the document writes them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from service.craft.fabric import Fabric
from service.craft.measure import format_length, format_size
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from workers.cutting.cuts import POLYGON, SQUARE, STRIP, Cut
from workers.cutting.plan import CutRun, PlannedStrip

MOST_NAMED = 3
"""More uses than this are counted, not named: the cutting table names them all."""

LONGEST_RULER = Fraction(24)
"""Inches: nobody calls what is longer than a ruler a wide strip."""

WAYS = {ONCE: "once on the diagonal", TWICE: "twice on the diagonal, without moving it in between"}
TRIANGLES = {ONCE: 2, TWICE: 4}

IN_SETS, JOINED = "sew into strip sets", "join"
"""How the cutting list speaks of strips that stay long: sewn side by side first, or end to end."""


class OrderWords:
    """Says the actions of one cloth."""

    def __init__(self, measure: str, cuts: Sequence[Cut], fabric: Fabric) -> None:
        self._measure = measure
        self._cuts = cuts
        self._fabric = fabric

    def say_strips(self, numbers: Sequence[int], strip: PlannedStrip, *, whole: bool, folded: bool) -> str:
        """Strips cut off the cloth, and how they are laid aside."""
        many = len(numbers) > 1
        them, they_are = ("them", "they are") if many else ("it", "it is")
        start = "With scissors, cut off" if self._fabric.trim_in_place else "Cut"
        each = "each " if many else ""
        long = strip.height > LONGEST_RULER
        size = f"a length of {self._length(strip.height)}" if long else f"{self._length(strip.height)} wide"
        text = f"{start} {name_strips(numbers)}, {each}{size}"
        if whole:
            use = say_uses(self._cuts[strip.runs[0].cut])
            return f"{text}, for {use}. Leave {them} folded and lay {them} aside whole."
        return (
            f"{text}. Leave {them} folded."
            if folded
            else f"{text}. Open {them} out before {they_are} cut across."
        )

    def say_pieces(self, numbers: Sequence[int], strip: PlannedStrip, run: CutRun, pieces: int) -> str:
        """Pieces cut from strips."""
        cut = self._cuts[run.cut]
        across, along = (cut.height, cut.width) if run.turned else (cut.width, cut.height)
        what = f"{pieces} {say_shape(cut, pieces)} of {self._size(cut)}"
        scissors = "with scissors " if self._fabric.trim_in_place else ""
        way = "along the length " if cut.shape == STRIP and along > across else ""
        text = f"From {name_strips(numbers)} cut {scissors}{way}{what}, for {say_uses(cut)}."
        them, they_are = ("them", "they are") if pieces > 1 else ("it", "it is")
        if along < strip.height:
            text += f" The strip is higher: trim {them} to {self._length(along)}."
        if cut.then.startswith(IN_SETS):
            text += f" Leave {them} whole until the strip set is sewn."
        elif JOINED in cut.then and pieces > 1:
            text += f" Keep them together: {they_are} joined later."
        return text

    def say_diagonal(self, number: int) -> str:
        """All squares of a cut, halved or quartered; or strips cut into diamonds."""
        cut = self._cuts[number]
        shapes = say_shape(cut, cut.count)
        it = (
            f"all {cut.count} {shapes}"
            if cut.count > 2
            else f"both {shapes}"
            if cut.count == 2
            else f"the {shapes}"
        )
        if cut.then == DIAMONDS:
            return f"Cut {it} of {self._size(cut)} {cut.then.removeprefix('cut ')}: {cut.makes} diamonds."
        triangles = cut.count * TRIANGLES[cut.then]
        way = WAYS[cut.then] if cut.count == 1 else WAYS[cut.then].replace("moving it", "moving the pieces")
        return f"Cut {it} of {self._size(cut)} {way}: {triangles} triangles."

    def _length(self, value: Fraction) -> str:
        return format_length(value, self._measure)

    def _size(self, cut: Cut) -> str:
        if cut.width == cut.height:
            return self._length(cut.width)
        return format_size(cut.width, cut.height, self._measure, by="×")


def name_strips(numbers: Sequence[int]) -> str:
    """Strips by the numbers they have in the diagram, which begin with one.

    >>> name_strips((0,)), name_strips((1, 2)), name_strips((3, 4, 5))
    ('strip 1', 'strips 2 and 3', 'strips 4 to 6')
    """
    first, last = numbers[0] + 1, numbers[-1] + 1
    if first == last:
        return f"strip {first}"
    return f"strips {first} {'and' if last == first + 1 else 'to'} {last}"


def say_shape(cut: Cut, count: int) -> str:
    """A cut's shape for so many: a polygon is cut as the box that its template goes on."""
    if cut.shape == POLYGON:
        return f"box{'es' if count > 1 else ''} for template {cut.template}"
    panel = cut.joined is not None and cut.joined.in_panels
    name = "panel" if panel else cut.shape if cut.shape in (SQUARE, STRIP) else "rectangle"
    return f"{name}{'s' if count > 1 else ''}"


def say_uses(cut: Cut) -> str:
    """What a cut is for, as the object of "for".

    Blocks and pieces by their names, parts of the top with their article.
    """
    names = [f"the {name}" for name in cut.uses]
    if len(names) > MOST_NAMED:
        return f"{len(names)} {'pieces' if cut.applique else 'uses'}"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
