"""Reads how fusible web is sold: the one thing about it that a plan needs."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.reading import Reader

DEFAULT_WEB_WIDTH = Fraction(17)
"""Inches: rolls are sold from 12 to 36 in wide, and this is a narrow one. Common practice, no source."""
LEAST_WEB_WIDTH = Fraction(4)
"""Inches: what is narrower is tape."""


def read_fusible(raw: Mapping[str, Any], reader: Reader) -> Fraction:
    """The width of the fusible web in inches; the default where the document says nothing of it."""
    fields = reader.mapping(raw.get("fusible", {}), "/fusible", 'the "fusible" web')
    if fields is None:
        return DEFAULT_WEB_WIDTH
    reader.known_fields(fields, "/fusible", ("width",))
    what = "the width of the fusible web"
    width = reader.optional_length(fields, "width", "/fusible", what, DEFAULT_WEB_WIDTH)
    if width >= LEAST_WEB_WIDTH:
        return width
    reader.fault("/fusible/width", f"{what} is less than 4 in", 'the width it is sold in, for example "17"')
    return DEFAULT_WEB_WIDTH
