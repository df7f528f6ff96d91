"""Photographs as a camera sends them: looked at before they are unpacked, turned upright, in the colours of screens."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO

from PIL import Image, ImageCms, ImageFile, ImageOps, UnidentifiedImageError

FORMATS = ("JPEG", "PNG")
MOST_PIXELS = 50_000_000
"""The photographs of telephones have up to 50 million."""


class NoPhotograph(ValueError):
    """A file that cannot be used as a photograph; `right` says what could."""

    def __init__(self, detail: str, right: str) -> None:
        super().__init__(detail)
        self.detail = detail
        self.right = right


def open_photograph(data: bytes) -> Image.Image:
    """The picture as it is seen upright, in sRGB; `NoPhotograph` where it is none or too large.

    Its size is looked at before it is unpacked.
    """
    right = "a photograph of the cloth as JPEG or PNG"
    try:
        opened = _look(data)
        width, height = opened.size
        if width * height > MOST_PIXELS:
            detail = f"the picture has {width} × {height} pixels"
            raise NoPhotograph(detail, f"{MOST_PIXELS:,} at most; make it smaller")
        with _whole_only():
            return ImageOps.exif_transpose(_to_srgb(opened))
    except (UnidentifiedImageError, Image.DecompressionBombError) as why:
        raise NoPhotograph("the file is no picture that can be read", right) from why
    except (OSError, SyntaxError, ValueError) as why:
        raise NoPhotograph("the picture is damaged or cut short", right) from why


def _look(data: bytes) -> Image.Image:
    """The picture, of which nothing but its head is read yet."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        return Image.open(BytesIO(data), formats=FORMATS)


@contextmanager
def _whole_only() -> Iterator[None]:
    """While a picture is unpacked: one that was cut short is a fault, whatever a printer in this process allows."""
    allowed = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = allowed


def _to_srgb(picture: Image.Image) -> Image.Image:
    """The colours as any reader sees them: cameras write others, and say in a profile which."""
    exif, profile = picture.getexif(), picture.info.get("icc_profile")
    if picture.has_transparency_data:
        whole = picture.convert("RGBA")
        picture = Image.alpha_composite(Image.new("RGBA", whole.size, "white"), whole)
    if profile and picture.mode in ("RGB", "L", "CMYK"):
        try:
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            made = ImageCms.profileToProfile(
                picture, source, ImageCms.createProfile("sRGB"), outputMode="RGB"
            )
            picture = made or picture
        except (ImageCms.PyCMSError, OSError):
            pass  # a profile that cannot be read: the colours are taken as they stand
    plain = picture.convert("RGB")
    plain.info = {"exif": exif.tobytes()} if exif else {}
    return plain
