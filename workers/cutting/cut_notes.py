"""What the cutting list says of cloth with a print or a pile that runs one way."""

from __future__ import annotations

from service.craft.fabric import Fabric
from service.craft.units import Need
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from workers.cutting.cuts import STRIP

UPRIGHT = "these strips keep {kept}, so nothing is turned on the mat"
SCATTERED = "the triangles come out in different directions; lay them out before sewing"
IN_A_STAR = "the diamonds lie in different directions in the star; lay them out before sewing"
IN_A_RING = "lay the template with the {what} along the blade; it turns with the blades"
ALONG_PRINT = "lay the template as its patch lies in the block, with {kept}"


def note_direction(need: Need, fabric: Fabric) -> tuple[str, ...]:
    """What becomes of the direction of a cloth in what is cut for a need; nothing for plain cloth."""
    words = _find_words(need) if fabric.one_way else ""
    if not words:
        return ()
    if fabric.directional:
        return ("directional cloth: " + words.format(what="print", kept="the print upright"),)
    return ("napped cloth: " + words.format(what="pile", kept="the pile running down"),)


def _find_words(need: Need) -> str:
    if need.template:
        return IN_A_RING if need.all_ways else ALONG_PRINT
    if need.then in (ONCE, TWICE) or need.method:
        return SCATTERED
    if need.then == DIAMONDS:
        return IN_A_STAR
    return UPRIGHT if need.shape == STRIP else ""
