"""The square of dots that a telephone reads as the address of the release page (QR code, ISO/IEC 18004)."""

from __future__ import annotations

import segno

from service.craft.drawing import Sheet
from service.look.palette import LIGHT

SIDE_MM = 26.0
QUIET = 4
"""Light modules all round, as ISO/IEC 18004 asks for."""

OVERLAP_MM = 0.04
"""Dark modules reach this far into the next ones: no light hair between them on a screen."""

CORRECTION = "m"
"""About 15 % of it may be smudged."""


def draw_release_code(address: str) -> str:
    """The code of an address as SVG, 26 mm wide with the light margin round it; empty for no address."""
    if not address:
        return ""
    rows = [list(row) for row in segno.make_qr(address, error=CORRECTION, boost_error=False).matrix]
    module = SIDE_MM / (len(rows) + 2 * QUIET)
    sheet = Sheet(SIDE_MM, SIDE_MM, title=f"Code of the release page: {address}")
    side = f"{module + OVERLAP_MM:.3f}"
    path = "".join(
        f"M{(QUIET + x) * module:.3f} {(QUIET + y) * module:.3f}h{side}v{side}h-{side}z"
        for y, row in enumerate(rows)
        for x, dark in enumerate(row)
        if dark
    )
    sheet.path(path, fill=LIGHT["earth"])
    return sheet.to_svg()


def shorten_address(address: str) -> str:
    """An address as it is typed.

    >>> shorten_address("https://allotment.example/leeks")
    'allotment.example/leeks'
    """
    return address.removeprefix("https://").rstrip("/")
