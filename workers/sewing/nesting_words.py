"""Why two seams do not nest, and what helps."""

from __future__ import annotations

from collections.abc import Collection

from service.craft.language import mark, phrase
from workers.sewing.crossings import Crossing, SeamKey

COPIES = mark(
    "Copies of one unit meet here so that both allowances lie on the same side, and pressing every second copy the "
    "other way does not serve the whole."
)
OPENED = mark(
    "Copies of one unit meet here, and whichever side the seam takes, both lie on the same: so it is pressed open."
)
BOUND = mark(
    "Other crossings decide how these two seams are pressed, and no way of pressing serves them all."
)
TURN_SEAM = mark(
    "Before joining here, close one of the two seams, press it flat, and press it the other way at this place."
)
PIN = mark(
    "Push a pin through both seam lines where they meet, set a pin on either side, and take the first one out."
)


def are_copies(crossing: Crossing) -> bool:
    """Whether seams of one work meet outside it: copies of it lie side by side."""
    return crossing.met[0][0] == crossing.met[1][0] != crossing.work


def why_not_nesting(crossing: Crossing, opened: Collection[SeamKey] = ()) -> str:
    """The reason, in a sentence. `opened` are seams pressed open since no side serves them."""
    if crossing.first in opened:
        return phrase(OPENED)
    return phrase(COPIES if are_copies(crossing) else BOUND)


def help_nesting(crossing: Crossing, opened: Collection[SeamKey] = ()) -> str:
    """What a maker can do about it."""
    return phrase(PIN if crossing.first in opened else TURN_SEAM)
