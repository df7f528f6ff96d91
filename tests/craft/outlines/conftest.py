"""The page that the tests of this room draw on."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from service.craft.outlines import OutlineFile, read_svg

SHEET = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    ' width="100mm" height="100mm" viewBox="0 0 100 100">{}</svg>'
)
"""A page on which one unit is one millimetre."""


@pytest.fixture
def read() -> Callable[[str], OutlineFile]:
    """Reads what stands on a page of 100 x 100 mm, one unit a millimetre."""
    return lambda inside: read_svg(SHEET.format(inside).encode(), "plot.svg")


@pytest.fixture
def sheet() -> Callable[[str], bytes]:
    """The bytes of such a page."""
    return lambda inside: SHEET.format(inside).encode()
