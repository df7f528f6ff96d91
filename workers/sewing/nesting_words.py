"""Why two seams do not nest, and what helps."""

from __future__ import annotations

from workers.sewing.crossings import Crossing

SAME_SEAM = (
    "Copies of one unit meet here, and all copies are pressed alike, so both allowances lie on the same side."
)
TURN_COPIES = "Press every second copy the other way: its seam then nests with its neighbour's."
BOUND = "Other crossings decide how these two seams are pressed, and no way of pressing serves them all."
TURN_SEAM = "Before joining here, close one of the two seams, press it flat, and press it the other way at this place."


def are_copies(crossing: Crossing) -> bool:
    """Whether seams of one work meet outside it: copies of it lie side by side."""
    return crossing.first[0] == crossing.second[0] != crossing.work


def why_not_nesting(crossing: Crossing) -> str:
    """The reason, in a sentence."""
    return SAME_SEAM if are_copies(crossing) else BOUND


def help_nesting(crossing: Crossing) -> str:
    """What a maker can do about it."""
    return TURN_COPIES if are_copies(crossing) else TURN_SEAM
