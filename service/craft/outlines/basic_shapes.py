"""Rectangles, circles, ellipses, lines, polygons and polylines (SVG 2, chapter 10), drawn with a pen."""

from __future__ import annotations

from collections.abc import Mapping

from service.craft.outlines.contours import Pen
from service.craft.outlines.lengths import Viewport, parse_length, read_numbers

Attributes = Mapping[str, str]


def draw_rect(attributes: Attributes, view: Viewport, pen: Pen) -> None:
    """A rectangle, with round corners where it has `rx` or `ry`."""
    x, y = _length(attributes, "x", view, "x"), _length(attributes, "y", view, "y")
    width, height = _size(attributes, "width", view, "x"), _size(attributes, "height", view, "y")
    rx, ry = _corner(attributes, view)
    rx, ry = min(rx, width / 2), min(ry, height / 2)
    right, bottom = x + width, y + height
    if not (width and height):
        return
    pen.move((x + rx, y))
    for line, arc in (
        ((right - rx, y), (right, y + ry)),
        ((right, bottom - ry), (right - rx, bottom)),
        ((x + rx, bottom), (x, bottom - ry)),
        ((x, y + ry), (x + rx, y)),
    ):
        if pen.here != line:
            pen.line(line)
        if rx and ry:
            pen.arc((rx, ry), 0.0, False, True, arc)
    pen.close()


def draw_circle(attributes: Attributes, view: Viewport, pen: Pen) -> None:
    """A circle."""
    radius = _size(attributes, "r", view, "r")
    _draw_oval(attributes, view, pen, radius, radius)


def draw_ellipse(attributes: Attributes, view: Viewport, pen: Pen) -> None:
    """An ellipse; one radius alone stands for both."""
    rx, ry = _corner(attributes, view)
    _draw_oval(attributes, view, pen, rx, ry)


def draw_polygon(attributes: Attributes, view: Viewport, pen: Pen) -> None:
    """A polygon: always closed."""
    draw_polyline(attributes, view, pen)
    pen.close()


def draw_polyline(attributes: Attributes, _view: Viewport, pen: Pen) -> None:
    """A polyline: closed only if its ends meet."""
    numbers = read_numbers(attributes.get("points", ""))
    first = True
    for x in numbers:
        y = next(numbers, None)
        if y is None:
            raise ValueError("points come in pairs, and the last has one number")
        if first:
            pen.move((x, y))
            first = False
        else:
            pen.line((x, y))


def draw_line(attributes: Attributes, view: Viewport, pen: Pen) -> None:
    """A single line: part of an outline where others go on from its ends."""
    (x1, y1), (x2, y2) = (
        (_length(attributes, f"x{n}", view, "x"), _length(attributes, f"y{n}", view, "y")) for n in (1, 2)
    )
    pen.move((x1, y1))
    pen.line((x2, y2))


def _draw_oval(attributes: Attributes, view: Viewport, pen: Pen, rx: float, ry: float) -> None:
    x, y = _length(attributes, "cx", view, "x"), _length(attributes, "cy", view, "y")
    if not (rx and ry):
        return
    pen.move((x + rx, y))
    for to in ((x, y + ry), (x - rx, y), (x, y - ry), (x + rx, y)):
        pen.arc((rx, ry), 0.0, False, True, to)
    pen.close()


def _length(attributes: Attributes, name: str, view: Viewport, axis: str) -> float:
    try:
        return parse_length(attributes.get(name, "0"), whole=view.side(axis))
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from None


def _size(attributes: Attributes, name: str, view: Viewport, axis: str) -> float:
    value = _length(attributes, name, view, axis)
    if value < 0:
        raise ValueError(f"{name}: a size is not negative")
    return value


def _corner(attributes: Attributes, view: Viewport) -> tuple[float, float]:
    """The two radii: where one is missing or `auto`, the other stands for both."""
    given = {name for name in ("rx", "ry") if attributes.get(name, "auto").strip() != "auto"}
    rx = _size(attributes, "rx", view, "x") if "rx" in given else None
    ry = _size(attributes, "ry", view, "y") if "ry" in given else None
    return rx if rx is not None else ry or 0.0, ry if ry is not None else rx or 0.0
