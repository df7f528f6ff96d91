"""Views: the page a drawing fills, and the smaller views (nested svg, symbol) inside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from lxml import etree
from numpy.typing import NDArray

from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.lengths import (
    MM_PER_PX,
    Viewport,
    fit_view_box,
    parse_length,
    parse_view_box,
)
from service.craft.outlines.xml_tree import fault_at

NO_SIZE = "the drawing states no size in real units (width and height): its units were taken as 1/96 in"

BEYOND_MM = 0.05
"""What lies beyond a frame by less cannot be seen to."""

DEFAULT_PAGE = Viewport(300.0, 150.0)
"""What percentages refer to where a drawing states nothing at all (CSS 2, 10.3.2)."""


@dataclass(frozen=True)
class View:
    """The map from inside a view to its outside, what percentages inside refer to, and a note.

    `frame` holds the corners of a nested view, in the units outside it: nothing beyond them is shown.
    """

    affine: Affine
    viewport: Viewport
    note: str = ""
    frame: tuple[Point, ...] = ()


def page_view(root: etree._Element) -> View:
    """The root's view, mapped to mm. A size missing on one side follows from the view box."""
    to_mm = Affine.scaling(MM_PER_PX, MM_PER_PX)
    with fault_at(root):
        width, height = (_page_side(root.get(side)) for side in ("width", "height"))
        note = NO_SIZE if width is None and height is None else ""
        if not root.get("viewBox"):
            return View(to_mm, Viewport(width or DEFAULT_PAGE.width, height or DEFAULT_PAGE.height), note)
        box = parse_view_box(root.get("viewBox", ""))
        if width is None:
            width = box[2] if height is None else height * box[2] / box[3]
        height = width * box[3] / box[2] if height is None else height
        fitted = fit_view_box(box, width, height, root.get("preserveAspectRatio", ""))
        return View(to_mm @ fitted, Viewport(box[2], box[3]), note)


def inner_view(element: etree._Element, sized_by: etree._Element, outside: Viewport) -> View:
    """A nested svg or a symbol: its place, and its view box fitted into the size that `sized_by` gives it."""
    with fault_at(element):
        x, y = (parse_length(element.get(axis, "0"), whole=outside.side(axis)) for axis in "xy")
        width, height = (
            parse_length(sized_by.get(name) or element.get(name) or "100%", whole=outside.side(axis))
            for name, axis in (("width", "x"), ("height", "y"))
        )
        place = Affine.moving(x, y)
        frame = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
        if not element.get("viewBox"):
            return View(place, Viewport(width, height), frame=frame)
        box = parse_view_box(element.get("viewBox", ""))
        fitted = fit_view_box(box, width, height, element.get("preserveAspectRatio", ""))
        return View(place @ fitted, Viewport(box[2], box[3]), frame=frame)


def is_beyond(frame: Sequence[Point], points: NDArray[np.float64], *, by_mm: float = BEYOND_MM) -> bool:
    """Whether any of the points (n, 2) lies further than so much outside a frame, turned or mirrored; all in mm.

    >>> [is_beyond(((0, 0), (4, 0), (4, 2), (0, 2)), np.array([point])) for point in ((4, 1), (5, 1))]
    [False, True]
    """
    at = np.array(frame)
    side = np.roll(at, -1, axis=0) - at
    following = np.roll(at, -1, axis=0)
    turn = np.sign((at[:, 0] * following[:, 1] - at[:, 1] * following[:, 0]).sum())
    apart = points[:, None] - at
    inwards = turn * (side[:, 0] * apart[..., 1] - side[:, 1] * apart[..., 0])
    return bool((inwards < -by_mm * np.hypot(side[:, 0], side[:, 1])).any())


def _page_side(text: str | None) -> float | None:
    if text is None or text.strip() in ("", "auto") or text.strip().endswith("%"):
        return None
    side = parse_length(text, whole=0)
    if side <= 0:
        raise ValueError(f'a page side of "{text[:40]}" leaves no room for a drawing')
    return side
