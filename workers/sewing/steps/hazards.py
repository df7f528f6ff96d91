"""What can hurt, in words for the step where it can.

Basis: extension-service and school safety sheets for rotary cutter, iron and needle; the artists' studio safety sheet
of a quilters' association for heated synthetics and fusibles; the line on moving hoops is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable

from service.craft.cutting_words import ROTARY_CAUTION
from service.craft.language import mark, phrase

CUTTER, IRON, NEEDLE, HOOP, FUMES, SCISSORS, SHEARS, MAT_MACHINE, RIPPER, BULK = (
    "cutter",
    "iron",
    "needle",
    "hoop",
    "fumes",
    "scissors",
    "shears",
    "mat machine",
    "seam ripper",
    "bulk",
)

FULL = {
    CUTTER: ROTARY_CAUTION,
    IRON: mark(
        "Hot iron: rest it on its heel, keep your hands out of the steam and the cord out of the way, and unplug "
        "it when you leave it."
    ),
    NEEDLE: mark(
        "Needle: keep fingers and face away from its path, take out pins before it reaches them, and unplug the "
        "machine to change it."
    ),
    HOOP: mark("Moving hoop: keep your hands away from the frame and the needle while it runs."),
    FUMES: mark(
        "Fusible web, sprays and synthetic cloth can give off fumes when they are heated or sprayed: open a "
        "window, keep to the heat the maker names, and stop if you cough or wheeze."
    ),
    SCISSORS: mark("Scissors: stop the machine and take the work out of its reach before you trim."),
    SHEARS: mark(
        "Scissors: cut away from the hand that holds the piece, and close them before you put them down."
    ),
    MAT_MACHINE: mark(
        "Cutting machine: keep fingers and hair away while it moves, and mind the blade when you change it."
    ),
    RIPPER: mark("Seam ripper: point it away from your hands and lift one stitch at a time."),
    BULK: mark(
        "Many layers lie at this point. When you sew over it later, go slowly or turn the wheel by hand: a needle "
        "that strikes a hard place can break."
    ),
}

SHORT = {
    HOOP: mark("Keep your hands away from the hoop whenever it runs."),
    FUMES: mark("Keep the window open."),
    CUTTER: mark("Close the guard after every cut."),
    SCISSORS: mark("Stop the machine before you trim."),
}
"""What is said again where it comes up again in a chapter; the rest has been said."""

ALWAYS = mark("Follow the instructions of the makers of your tools, and the rules of the place you work in.")


class CautionWriter:
    """Writes the caution of each step of one chapter: in full where a hazard first comes up.

    After that it is said shortly, once in each group of steps that belong together: a caution at every step is read
    at none.
    """

    def __init__(self) -> None:
        self._said: set[str] = set()
        self._group = ""
        self._said_here: set[str] = set()

    def write(self, hazards: Iterable[str], group: str) -> str:
        """The caution for these hazards in a step of this group, or an empty text."""
        if group != self._group:
            self._group, self._said_here = group, set()
        fresh = [hazard for hazard in hazards if hazard not in self._said]
        again = [hazard for hazard in hazards if hazard in SHORT and hazard not in {*fresh, *self._said_here}]
        first = not self._said and bool(fresh)
        self._said.update(fresh)
        self._said_here.update(fresh, again)
        words = [*(phrase(FULL[hazard]) for hazard in fresh), *(phrase(SHORT[hazard]) for hazard in again)]
        return " ".join([*words, *([phrase(ALWAYS)] if first else [])])
