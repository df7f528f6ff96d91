"""The cutting order in words: one action a line, sizes as the document writes them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from service.craft.cutting_words import say_template
from service.craft.fabric import Fabric
from service.craft.language import join_words, mark, phrase, phrase_count
from service.craft.measure import format_length, format_size
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from workers.cutting.cuts import POLYGON, RECTANGLE, SQUARE, STRIP, Cut
from workers.cutting.part_words import say_the_part
from workers.cutting.plan import CutRun, PlannedStrip

MOST_NAMED = 3
"""More uses than this are counted, not named: the cutting table names them all."""

LONGEST_RULER = Fraction(24)
"""Inches: nobody calls what is longer than a ruler a wide strip."""

TRIANGLES = {ONCE: 2, TWICE: 4}

ONE_OF = {
    SQUARE: mark("the square of {size}"),
    RECTANGLE: mark("the rectangle of {size}"),
    STRIP: mark("the strip of {size}"),
}
BOTH_OF = {
    SQUARE: mark("both squares of {size}"),
    RECTANGLE: mark("both rectangles of {size}"),
    STRIP: mark("both strips of {size}"),
}
ALL_OF = {
    SQUARE: mark("all {count} squares of {size}"),
    RECTANGLE: mark("all {count} rectangles of {size}"),
    STRIP: mark("all {count} strips of {size}"),
}


class OrderWords:
    """Says the actions of one cloth."""

    def __init__(self, measure: str, cuts: Sequence[Cut], fabric: Fabric) -> None:
        self._measure = measure
        self._cuts = cuts
        self._fabric = fabric

    def say_strips(self, numbers: Sequence[int], strip: PlannedStrip, *, whole: bool, folded: bool) -> str:
        """Strips cut off the cloth, and how they are laid aside."""
        cut_off = self._say_cut_off(numbers, strip, whole=whole)
        return f"{cut_off} {_say_laid_aside(len(numbers), whole=whole, folded=folded)}"

    def _say_cut_off(self, numbers: Sequence[int], strip: PlannedStrip, *, whole: bool) -> str:
        names, size = name_strips(numbers), self._say_size_of_strips(len(numbers), strip)
        if whole:
            uses = say_uses(self._cuts[strip.runs[0].cut])
            if self._fabric.trim_in_place:
                return phrase(
                    "With scissors, cut off {strips}, {size}, for {uses}.", strips=names, size=size, uses=uses
                )
            return phrase("Cut {strips}, {size}, for {uses}.", strips=names, size=size, uses=uses)
        if self._fabric.trim_in_place:
            return phrase("With scissors, cut off {strips}, {size}.", strips=names, size=size)
        return phrase("Cut {strips}, {size}.", strips=names, size=size)

    def _say_size_of_strips(self, count: int, strip: PlannedStrip) -> str:
        length, many = self._length(strip.height), count > 1
        if strip.height > LONGEST_RULER:
            return phrase(
                mark("each a length of {length}") if many else mark("a length of {length}"), length=length
            )
        return phrase(mark("each {length} wide") if many else mark("{length} wide"), length=length)

    def say_pieces(self, numbers: Sequence[int], strip: PlannedStrip, run: CutRun, pieces: int) -> str:
        """Pieces cut from strips."""
        cut = self._cuts[run.cut]
        across, along = (cut.height, cut.width) if run.turned else (cut.width, cut.height)
        sentences = [
            phrase(
                self._find_way(lengthwise=cut.shape == STRIP and along > across),
                strips=name_strips(numbers),
                pieces=count_pieces(cut, pieces, self._size(cut)),
                uses=say_uses(cut),
            )
        ]
        if along < strip.height:
            sentences.append(_say_trim(pieces, self._length(along)))
        if stays_long(cut):
            sentences.append(
                phrase_count(
                    "Leave it whole until the strip set is sewn.",
                    "Leave them whole until the strip set is sewn.",
                    pieces,
                )
            )
        elif cut.together and pieces > 1:
            sentences.append(phrase("Keep them together: they are joined later."))
        return " ".join(sentences)

    def _find_way(self, *, lengthwise: bool) -> str:
        """The message that says how pieces are cut from strips."""
        if self._fabric.trim_in_place:
            if lengthwise:
                return mark("From {strips} cut with scissors along the length {pieces}, for {uses}.")
            return mark("From {strips} cut with scissors {pieces}, for {uses}.")
        if lengthwise:
            return mark("From {strips} cut along the length {pieces}, for {uses}.")
        return mark("From {strips} cut {pieces}, for {uses}.")

    def say_diagonal(self, number: int) -> str:
        """All squares of a cut, halved or quartered; or strips cut into diamonds."""
        cut = self._cuts[number]
        pieces = all_pieces(cut, self._size(cut))
        if cut.then == DIAMONDS:
            return phrase(
                "Cut {pieces} at 45 degrees into diamonds, each as wide as the short side: {count} diamonds.",
                pieces=pieces,
                count=cut.makes,
            )
        triangles = cut.count * TRIANGLES[cut.then]
        if cut.then == ONCE:
            message = mark("Cut {pieces} once on the diagonal: {count} triangles.")
        elif cut.count == 1:
            message = mark(
                "Cut {pieces} twice on the diagonal, without moving it in between: {count} triangles."
            )
        else:
            message = mark(
                "Cut {pieces} twice on the diagonal, without moving the pieces in between: {count} triangles."
            )
        return phrase(message, pieces=pieces, count=triangles)

    def _length(self, value: Fraction) -> str:
        return format_length(value, self._measure)

    def _size(self, cut: Cut) -> str:
        if cut.width == cut.height:
            return self._length(cut.width)
        return format_size(cut.width, cut.height, self._measure, by="×")


def stays_long(cut: Cut) -> bool:
    """Whether a strip stays as it is cut until it is sewn into its set."""
    return cut.in_sets and cut.joined is None


def name_strips(numbers: Sequence[int]) -> str:
    """Strips by the numbers they have in the diagram, which begin with one.

    >>> name_strips((0,)), name_strips((1, 2)), name_strips((3, 4, 5))
    ('strip 1', 'strips 2 and 3', 'strips 4 to 6')
    """
    first, last = numbers[0] + 1, numbers[-1] + 1
    if first == last:
        return phrase("strip {number}", number=first)
    if last == first + 1:
        return phrase("strips {first} and {last}", first=first, last=last)
    return phrase("strips {first} to {last}", first=first, last=last)


def count_pieces(cut: Cut, count: int, size: str) -> str:
    """So many pieces of a cut with their size: a polygon is cut as the box that its template goes on."""
    if cut.shape == POLYGON:
        return phrase_count(
            "{number} box for template {template} of {size}",
            "{number} boxes for template {template} of {size}",
            count,
            template=say_template(cut.template),
            size=size,
        )
    if cut.joined is not None and cut.joined.in_panels:
        return phrase_count("{number} panel of {size}", "{number} panels of {size}", count, size=size)
    if cut.shape == SQUARE:
        return phrase_count("{number} square of {size}", "{number} squares of {size}", count, size=size)
    if cut.shape == STRIP:
        return phrase_count("{number} strip of {size}", "{number} strips of {size}", count, size=size)
    return phrase_count("{number} rectangle of {size}", "{number} rectangles of {size}", count, size=size)


def all_pieces(cut: Cut, size: str) -> str:
    """All the pieces of a cut that is cut again, as the object of that."""
    messages = ONE_OF if cut.count == 1 else BOTH_OF if cut.count == 2 else ALL_OF
    return phrase(messages[cut.shape], count=cut.count, size=size)


def say_uses(cut: Cut) -> str:
    """What a cut is for, as the object of "for".

    Blocks and pieces by their names, parts of the top with their article.
    """
    if len(cut.uses) > MOST_NAMED:
        counted = mark("{count} pieces") if cut.applique else mark("{count} uses")
        return phrase(counted, count=len(cut.uses))
    if cut.applique:
        return join_words(phrase("the {name}", name=name) for name in cut.uses)
    return join_words(map(say_the_part, cut.uses))


def _say_laid_aside(count: int, *, whole: bool, folded: bool) -> str:
    if whole:
        return phrase_count(
            "Leave it folded and lay it aside whole.", "Leave them folded and lay them aside whole.", count
        )
    if folded:
        return phrase_count("Leave it folded.", "Leave them folded.", count)
    return phrase_count(
        "Open it out before it is cut across.", "Open them out before they are cut across.", count
    )


def _say_trim(count: int, length: str) -> str:
    return phrase_count(
        "The strip is higher: trim it to {length}.",
        "The strip is higher: trim them to {length}.",
        count,
        length=length,
    )
