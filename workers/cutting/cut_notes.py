"""What the cutting list says of cloth with a print or a pile that runs one way."""

from __future__ import annotations

from service.craft.fabric import Fabric
from service.craft.language import mark, phrase
from service.craft.units import Need
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from workers.cutting.cuts import STRIP

UPRIGHT, SCATTERED, IN_A_STAR, IN_A_RING, ALONG_PRINT = "upright", "scattered", "star", "ring", "along"
"""What becomes of the direction of a cloth in a cut."""

OF_A_PRINT = {
    UPRIGHT: mark("directional cloth: these strips keep the print upright, so nothing is turned on the mat"),
    SCATTERED: mark(
        "directional cloth: the triangles come out in different directions; lay them out before sewing"
    ),
    IN_A_STAR: mark(
        "directional cloth: the diamonds lie in different directions in the star; lay them out before sewing"
    ),
    IN_A_RING: mark(
        "directional cloth: lay the template with the print along the blade; it turns with the blades"
    ),
    ALONG_PRINT: mark(
        "directional cloth: lay the template as its patch lies in the block, with the print upright"
    ),
}
OF_A_PILE = {
    UPRIGHT: mark("napped cloth: these strips keep the pile running down, so nothing is turned on the mat"),
    SCATTERED: mark(
        "napped cloth: the triangles come out in different directions; lay them out before sewing"
    ),
    IN_A_STAR: mark(
        "napped cloth: the diamonds lie in different directions in the star; lay them out before sewing"
    ),
    IN_A_RING: mark("napped cloth: lay the template with the pile along the blade; it turns with the blades"),
    ALONG_PRINT: mark(
        "napped cloth: lay the template as its patch lies in the block, with the pile running down"
    ),
}


def note_direction(need: Need, fabric: Fabric) -> tuple[str, ...]:
    """What becomes of the direction of a cloth in what is cut for a need; nothing for plain cloth."""
    found = _find_direction(need) if fabric.one_way else ""
    return (phrase((OF_A_PRINT if fabric.directional else OF_A_PILE)[found]),) if found else ()


def _find_direction(need: Need) -> str:
    if need.template:
        return IN_A_RING if need.all_ways else ALONG_PRINT
    if need.then in (ONCE, TWICE) or need.method:
        return SCATTERED
    if need.then == DIAMONDS:
        return IN_A_STAR
    return UPRIGHT if need.shape == STRIP else ""
