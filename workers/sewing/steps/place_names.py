"""What the places of the parts of a work are called: by number where they lie in a line, else by where they lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from workers.sewing.names import listed
from workers.sewing.steps.seam_names import FROM_LEFT, FROM_TOP, say_place
from workers.sewing.works import Laid, Work, walk_patches

LEVEL = 1e-6
ROWS = ("diagonal rows joined", "setting corners")


@dataclass(frozen=True)
class PlaceNames:
    """What the places of a work are called, in the order of its parts; `counted` says from where numbers run."""

    names: tuple[str, ...]
    word: str = ""
    counted: str = ""

    def say(self, at: Sequence[int]) -> str:
        """Some places in a sentence."""
        said = listed(dict.fromkeys(self.names[i] for i in at))
        if not self.word:
            return said
        counted = f", {self.counted}," if self.counted else ""
        return f"{self.word}{'s' if len(at) > 1 else ''} {said}{counted}"


def name_places(work: Work) -> PlaceNames:
    """The places of a work's parts: by number where they lie in a line, else by where they lie in its drawing."""
    items = work.items
    if work.kind in ROWS:
        return PlaceNames(tuple(str(i + 1) for i in range(len(items))), "diagonal row")
    middles = [_middle(item) for item in items]
    if len(items) == 1:
        return PlaceNames(("the middle",))
    for level, along, counted in (
        ([m.imag for m in middles], [m.real for m in middles], FROM_LEFT),
        ([m.real for m in middles], [m.imag for m in middles], FROM_TOP),
    ):
        if max(level) - min(level) < LEVEL:
            order = sorted(range(len(items)), key=along.__getitem__)
            return PlaceNames(tuple(str(order.index(i) + 1) for i in range(len(items))), "place", counted)
    size = complex(float(work.width), float(work.height))
    return PlaceNames(tuple(f"the {say_place(middle - size / 2, size)}" for middle in middles))


def _middle(item: Laid) -> complex:
    """The middle of the box round a part where it lies."""
    corners = [corner for cut in walk_patches(item) for corner in cut.corners]
    xs, ys = [c.real for c in corners], [c.imag for c in corners]
    return complex(min(xs) + max(xs), min(ys) + max(ys)) / 2
