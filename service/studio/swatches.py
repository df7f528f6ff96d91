"""Photographs of cloth: looked at once when they come in; what is kept is a picture of our own making.

The picture is turned upright, cut to the cloth, brought to sRGB and written anew, so that nothing of the file that was
sent is kept: not its place, its day or its camera.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO

from PIL import Image
from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.faults import Fault
from service.craft.swatches import LEAST_MM, MOST_MM, SIDES, Swatch
from service.storage.models import Project
from service.storage.models import Swatch as Kept
from service.storage.times import uuid7
from service.studio.photographs import NoPhotograph, open_photograph

LEAST_PIXELS = 64
"""Of a side: fewer show no print."""

KEPT_PIXELS = 1600
"""Of the longer side as it is kept: enough for 200 dots an inch on paper, at half the size of the cloth."""

QUALITY = 88
LEAST_BETWEEN = 20.0
"""Pixels between two marks: nearer together, a pixel beside a mark is 5 % of the scale."""

TWO_WAYS = "width, how wide the whole picture is on the cloth; or known_length, how far the marks of between are apart"
NO_SCALE = Fault("", "nothing says how large the cloth in the picture is", TWO_WAYS)

Pixel = tuple[float, float]
TURNS = {
    "top": None,
    "right": Image.Transpose.ROTATE_90,
    "bottom": Image.Transpose.ROTATE_180,
    "left": Image.Transpose.ROTATE_270,
}
"""What brings a side to the top."""


@dataclass(frozen=True)
class SwatchAsked:
    """A photograph and what the maker says of it: points in pixels of the picture as it is seen upright.

    The scale comes from `width_mm`, how wide the whole picture is on the cloth, or from `known_length_mm` and
    `between`. `part` are two opposite corners of the cloth in it; `up` is the side that is up in the print.
    """

    data: bytes
    name: str
    width_mm: float | None = None
    known_length_mm: float | None = None
    between: tuple[Pixel, Pixel] | None = None
    part: tuple[Pixel, Pixel] | None = None
    up: str = SIDES[0]


class SwatchUnreadable(Exception):
    """A photograph that cannot be used, with every fault; pointers are to the fields of the form."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(fault.detail for fault in self.faults))


def read_swatch(asked: SwatchAsked) -> tuple[Swatch, bytes]:
    """What is kept of a photograph, and the picture (JPEG); `SwatchUnreadable` with what is wrong."""
    try:
        picture = open_photograph(asked.data)
    except NoPhotograph as why:
        raise SwatchUnreadable([Fault("/file", why.detail, why.right)]) from why
    faults = list(_find_faults(asked, picture.size))
    if faults:
        raise SwatchUnreadable(faults)
    mm_per_pixel = _scale(asked, picture.width)
    if asked.part is not None:
        picture = picture.crop(_box(asked.part))
    if (turn := TURNS[asked.up]) is not None:
        picture = picture.transpose(turn)
    size = f"{picture.width * mm_per_pixel:.0f} × {picture.height * mm_per_pixel:.0f} mm"
    if not all(LEAST_MM <= side * mm_per_pixel <= MOST_MM for side in picture.size):
        right = f"the length on the cloth itself; between {LEAST_MM:g} and {MOST_MM:g} mm of cloth each way"
        pointer = "/width" if asked.width_mm is not None else "/known_length"
        raise SwatchUnreadable([Fault(pointer, f"the cloth in the picture comes to {size}", right)])
    shrunk = _shrink(picture)
    mm_per_pixel *= picture.width / shrunk.width
    written = _write(shrunk)
    swatch = Swatch(
        name=asked.name,
        sha256=hashlib.sha256(written).hexdigest(),
        width_px=shrunk.width,
        height_px=shrunk.height,
        mm_per_pixel=round(mm_per_pixel, 6),
        colour=find_median(shrunk),
    )
    return swatch, written


def _find_faults(asked: SwatchAsked, size: tuple[int, int]) -> Iterator[Fault]:
    width, height = size
    within = f"points within its {width} × {height} pixels"
    for name, points in (("between", asked.between), ("part", asked.part)):
        for x, y in points or ():
            if not (0 <= x <= width and 0 <= y <= height):
                yield Fault(f"/{name}", f"the point {x:g}, {y:g} lies outside the picture", within)
    yield from _find_scale_faults(asked)
    left, top, right, bottom = _box(asked.part) if asked.part else (0, 0, width, height)
    if min(right - left, bottom - top) < LEAST_PIXELS:
        pointer = "/part" if asked.part else "/file"
        detail = f"{right - left} × {bottom - top} pixels show no print"
        yield Fault(pointer, detail, f"{LEAST_PIXELS} pixels or more each way")


def _find_scale_faults(asked: SwatchAsked) -> Iterator[Fault]:
    length, marks = asked.known_length_mm, asked.between
    if asked.width_mm is not None and (length is not None or marks is not None):
        yield Fault("/width", "the scale is said twice", TWO_WAYS)
    elif asked.width_mm is None and length is None and marks is None:
        yield NO_SCALE
    elif asked.width_mm is None and length is None:
        yield Fault("/known_length", "it is not said how far the two marks are apart", 'as "100 mm"')
    elif asked.width_mm is None and marks is None:
        yield Fault("/between", "it is not said where the two marks are", "[[x, y], [x, y]] in pixels")
    if marks is not None and math.dist(*marks) < LEAST_BETWEEN:
        yield Fault("/between", "the two marks are too near together", f"{LEAST_BETWEEN:g} pixels or more")


def _scale(asked: SwatchAsked, width_px: int) -> float:
    """Millimetres on the cloth of one pixel."""
    if asked.width_mm is not None:
        return asked.width_mm / width_px
    if asked.known_length_mm is None or asked.between is None:
        raise SwatchUnreadable([NO_SCALE])
    return asked.known_length_mm / math.dist(*asked.between)


def _box(corners: tuple[Pixel, Pixel]) -> tuple[int, int, int, int]:
    (x0, y0), (x1, y1) = corners
    left, right = sorted((round(x0), round(x1)))
    top, bottom = sorted((round(y0), round(y1)))
    return left, top, right, bottom


def _shrink(picture: Image.Image) -> Image.Image:
    longest = max(picture.size)
    if longest <= KEPT_PIXELS:
        return picture
    width, height = (max(1, round(side * KEPT_PIXELS / longest)) for side in picture.size)
    return picture.resize((width, height), Image.Resampling.LANCZOS)


def _write(picture: Image.Image) -> bytes:
    out = BytesIO()
    Image.frombytes("RGB", picture.size, picture.tobytes()).save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()


def find_median(picture: Image.Image) -> str:
    """The median of each channel, as `#rrggbb`: the ground of a print rather than the mean of its colours."""
    counts, half = picture.histogram(), (picture.width * picture.height + 1) // 2
    return "#" + "".join(f"{_middle(counts[start : start + 256], half):02x}" for start in (0, 256, 512))


def _middle(counts: list[int], half: int) -> int:
    passed = 0
    for level, count in enumerate(counts):
        passed += count
        if passed >= half:
            return level
    return len(counts) - 1


def keep_swatch(session: Session, project: Project, swatch: Swatch, *, now: datetime) -> bool:
    """Keep a photograph that was read; True where it took the place of one with the same name."""
    kept = find_swatch(session, project.id, swatch.name)
    replaced = kept is not None
    if kept is None:
        kept = Kept(id=uuid7(now), project_id=project.id, name=swatch.name)
        session.add(kept)
    kept.sha256, kept.stored, kept.created_at = swatch.sha256, swatch.to_json(), now
    session.flush()
    return replaced


def find_swatch(session: Session, project_id: str, name: str) -> Kept | None:
    """A project's photograph of that name."""
    return session.scalar(select(Kept).where(Kept.project_id == project_id, Kept.name == name))


def stored_swatches(session: Session, project_id: str) -> dict[str, Swatch]:
    """A project's photographs by name."""
    kept = session.scalars(select(Kept).where(Kept.project_id == project_id).order_by(Kept.name))
    return {one.name: Swatch(**one.stored) for one in kept}
