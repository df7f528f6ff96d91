"""The preview as a picture in dots, for whoever has no program for the drawing: every thread at its true width."""

from __future__ import annotations

from io import BytesIO
from math import ceil

import numpy as np
from PIL import Image, ImageDraw

from service.craft.drawing.styles import EARTH
from service.look.palette import PRINT, compute_lightness, mix
from workers.stitches.check_places import Place
from workers.stitches.findings import Checked
from workers.stitches.pieces import Points
from workers.stitches.preview import CLOTH

DOTS_A_MM = 8
"""Two hundred dots an inch: a thread is three dots wide."""


def draw_png(checked: Checked, places: tuple[Place, ...] = ()) -> bytes:
    """The field with all that is sewn in it, and rings round places that failed a check."""
    field = checked.hooping.field
    size = (round(field.width_mm * DOTS_A_MM), round(field.height_mm * DOTS_A_MM))
    picture = Image.new("RGB", size, CLOTH)
    draw = ImageDraw.Draw(picture)
    middle = np.array([field.width_mm, field.height_mm]) / 2
    for number, one in enumerate(checked.hooping.passes):
        dots = to_dots(checked.sewn_in(number) + middle)
        width = checked.settings_of(number).thread_mm * DOTS_A_MM
        draw.line(dots, fill=mix(one.thread.colour, EARTH, 0.35), width=ceil(width))
        lighter = compute_lightness(one.thread.colour) < 35
        draw.line(
            dots, fill=mix(one.thread.colour, "#ffffff", 0.3 if lighter else 0.0), width=round(width / 2)
        )
    for place in places:
        x, y = (place.at + middle) * DOTS_A_MM
        draw.ellipse((x - 24, y - 24, x + 24, y + 24), outline=PRINT["rhubarb"], width=5)
    data = BytesIO()
    picture.quantize(64).save(data, "PNG", dpi=(DOTS_A_MM * 25.4,) * 2)
    return data.getvalue()


def to_dots(points: Points) -> list[tuple[float, float]]:
    """Needle points as places in the picture."""
    return [(x, y) for x, y in (points * DOTS_A_MM).tolist()]
