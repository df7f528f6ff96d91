"""A picture file as a field of grey, within a budget that is looked at before anything is unpacked."""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFile, ImageOps, UnidentifiedImageError

from service.craft.faults import Fault
from service.craft.tracing import MOST_PIXELS, CannotTrace

Grey = NDArray[np.float32]

COMFORTABLE_PIXELS = 17_000_000
"""Larger pictures are halved: an A4 sheet at 400 dots an inch shows every edge already."""

LEAST_SIDE_PX = 40

HALF_CLEAR, LIGHT = 128, 217
"""Of 255: what is less opaque is ground; what is this light is no ink on white paper (0.85 of its light)."""

ALL_LIGHT, SOME_LIGHT = 0.95, 0.05
"""Shares of the opaque part of a picture."""

FEWER_PIXELS = f"at most {MOST_PIXELS // 1_000_000} million pixels: scan at 300 dots an inch, or crop it"


@dataclass(frozen=True)
class Picture:
    """Grey from 0 (black) to 255, upright. One pixel of it is `reduced` pixels of the file both ways.

    `width` and `height` are those of the file, upright. `dpi` is what the picture itself is known to have.
    `colour` is the picture in red, green and blue, as large as `grey`, where it has colours.
    """

    grey: Grey
    width: int
    height: int
    reduced: int = 1
    notes: tuple[str, ...] = ()
    dpi: float | None = None
    colour: Image.Image | None = None


def open_picture(data: bytes) -> Picture:
    """Read a PNG or JPEG; `CannotTrace` where it is none, is too large, or is cut short."""
    with _faults_of_pictures():
        with Image.open(io.BytesIO(data), formats=("PNG", "JPEG")) as image:
            check_size(*image.size)
            image.load()
            turned = ImageOps.exif_transpose(image)
        notes = ["the picture was turned upright as its camera noted"] if turned.size != image.size else []
        return picture_of(_on_paper(turned, notes), notes)


def picture_of(image: Image.Image, notes: list[str], dpi: float | None = None) -> Picture:
    """The picture of an image in grey or in colours, halved where it is larger than tracing needs."""
    width, height = image.size
    grey = image.convert("L")
    reduced = 2 if width * height > COMFORTABLE_PIXELS else 1
    small = grey.reduce(reduced) if reduced > 1 else grey
    colour = image.reduce(reduced) if image.mode == "RGB" else None
    return Picture(np.asarray(small, dtype=np.float32), width, height, reduced, tuple(notes), dpi, colour)


def check_size(width: int, height: int) -> None:
    """`CannotTrace` for a picture of too many pixels, or too few."""
    size = f"the picture is {width:,} x {height:,} pixels"
    if width * height > MOST_PIXELS:
        raise CannotTrace([Fault("/file", size, FEWER_PIXELS)])
    if min(width, height) < LEAST_SIDE_PX:
        raise CannotTrace([Fault("/file", size, f"at least {LEAST_SIDE_PX} pixels each way")])


def _on_paper(image: Image.Image, notes: list[str]) -> Image.Image:
    """Eight bits of grey, or of each colour; what is transparent shows white paper, or paper round light shapes."""
    if image.mode.startswith("I"):
        deep = np.asarray(image, dtype=np.float64)
        return Image.fromarray(np.clip(deep / 257.0, 0, 255).astype(np.uint8))
    if "A" in image.mode or "transparency" in image.info:
        return _without_alpha(image.convert("RGBA"), notes)
    return image.convert("L" if image.mode in ("L", "1") else "RGB")


def _without_alpha(clear: Image.Image, notes: list[str]) -> Image.Image:
    """White paper where the picture is transparent; where what it shows is all light, that itself as dark ink."""
    shown = Image.alpha_composite(Image.new("RGBA", clear.size, "white"), clear).convert("RGB")
    alpha = clear.getchannel("A")
    solid = np.asarray(alpha) >= HALF_CLEAR
    if solid.all() or not solid.any():
        return shown
    light = float((np.asarray(shown.convert("L"))[solid] >= LIGHT).mean())
    if light >= ALL_LIGHT:
        notes.append(
            "light shapes on a transparent ground: traced along where the picture becomes transparent"
        )
        return ImageOps.invert(alpha)
    if light >= SOME_LIGHT:
        notes.append(
            f"the ground is transparent and was taken for white paper: the light parts of the picture "
            f"({light:.0%} of it) look the same and may be missing"
        )
    return shown


@contextmanager
def _faults_of_pictures() -> Iterator[None]:
    """Whatever Pillow finds wrong with a file, as a fault."""
    Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    right = "a whole PNG or JPEG picture"
    # Another library in this process may have told Pillow to be content with half a picture.
    lenient, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            yield
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as why:
        raise CannotTrace([Fault("/file", "the picture has too many pixels", FEWER_PIXELS)]) from why
    except UnidentifiedImageError as why:
        raise CannotTrace([Fault("/file", "the picture cannot be read", right)]) from why
    except (OSError, SyntaxError, ValueError, EOFError, IndexError, KeyError) as why:
        detail = "the picture is damaged or cut short"
        raise CannotTrace([Fault("/file", detail, right)]) from why
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient
