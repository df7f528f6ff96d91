"""What the places of the parts of a work are called: by number where they lie in a line, else by where they lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.craft.language import join_words, mark, phrase
from workers.sewing.steps.seam_names import FROM_LEFT, FROM_TOP, say_place
from workers.sewing.works import Laid, Work, walk_patches

LEVEL = 1e-6
DIAGONAL = (mark("diagonal row {numbers}"), mark("diagonal rows {numbers}"))
NUMBERED = (mark("place {numbers}"), mark("places {numbers}"))
ROWS = ("diagonal rows joined", "setting corners")


@dataclass(frozen=True)
class PlaceNames:
    """What the places of a work are called, in the order of its parts.

    `words` say one and several that are numbered; `counted` says from where the numbers run.
    """

    names: tuple[str, ...]
    words: tuple[str, str] | None = None
    counted: str = ""

    def say(self, at: Sequence[int]) -> str:
        """Some places in a sentence."""
        said = join_words(dict.fromkeys(self.names[i] for i in at))
        if self.words is None:
            return said
        one, many = self.words
        counted = f", {self.counted}," if self.counted else ""
        return phrase(many if len(at) > 1 else one, numbers=said) + counted


def name_places(work: Work) -> PlaceNames:
    """The places of a work's parts: by number where they lie in a line, else by where they lie in its drawing."""
    items = work.items
    if work.kind in ROWS:
        return PlaceNames(tuple(str(i + 1) for i in range(len(items))), DIAGONAL)
    middles = [_middle(item) for item in items]
    if len(items) == 1:
        return PlaceNames((phrase("the middle"),))
    for level, along, counted in (
        ([m.imag for m in middles], [m.real for m in middles], FROM_LEFT),
        ([m.real for m in middles], [m.imag for m in middles], FROM_TOP),
    ):
        if max(level) - min(level) < LEVEL:
            order = sorted(range(len(items)), key=along.__getitem__)
            return PlaceNames(
                tuple(str(order.index(i) + 1) for i in range(len(items))), NUMBERED, phrase(counted)
            )
    size = complex(float(work.width), float(work.height))
    places = (phrase(say_place(middle - size / 2, size)) for middle in middles)
    return PlaceNames(tuple(phrase("the {place}", place=place) for place in places))


def _middle(item: Laid) -> complex:
    """The middle of the box round a part where it lies."""
    corners = [corner for cut in walk_patches(item) for corner in cut.corners]
    xs, ys = [c.real for c in corners], [c.imag for c in corners]
    return complex(min(xs) + max(xs), min(ys) + max(ys)) / 2
