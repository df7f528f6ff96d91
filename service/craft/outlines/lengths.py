"""Lengths, number lists, transforms and view boxes as SVG writes them.

Source of the units: W3C CSS Values, "Absolute lengths": 1 in = 2.54 cm = 96 px = 72 pt = 6 pc,
1 Q = 1/4 mm.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from service.craft.outlines.affine import Affine
from service.craft.outlines.limits import LARGEST_NUMBER

MM_PER_PX = 25.4 / 96

PX_PER_UNIT = {
    "": 1.0,
    "px": 1.0,
    "in": 96.0,
    "mm": 96 / 25.4,
    "cm": 96 / 2.54,
    "q": 96 / 101.6,
    "pt": 96 / 72,
    "pc": 16.0,
}

NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"

MOST_TRANSFORMS = 1000
"""Far more in one list than any program writes."""

_NEXT_NUMBER = re.compile(rf"[\s,]*({NUMBER})")
_LENGTH = re.compile(rf"\s*({NUMBER})\s*([A-Za-z]*|%)\s*")
_TRANSFORM = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)")


@dataclass(frozen=True)
class Viewport:
    """What percentages refer to: the width and height of the nearest view, in user units."""

    width: float
    height: float

    def side(self, axis: str) -> float:
        """The length that 100 % means along `x`, along `y`, or for radii (`r`): SVG 2, 8.9."""
        sides = {"x": self.width, "y": self.height, "r": math.hypot(self.width, self.height) / math.sqrt(2)}
        return sides[axis]


def parse_length(text: str, *, whole: float) -> float:
    """A length in user units; a percentage is of `whole`. A `ValueError` says what would be right.

    >>> parse_length("25.4mm", whole=0), parse_length("50%", whole=30), parse_length(" 3 ", whole=0)
    (96.0, 15.0, 3.0)
    """
    found = _LENGTH.fullmatch(text)
    unit = found[2].lower() if found else ""
    if not found or (unit != "%" and unit not in PX_PER_UNIT):
        raise ValueError(
            f'"{text[:40]}" is no length: write a number with mm, cm, Q, in, pt, pc, px, % or no unit'
        )
    value = check_number(found[1])
    return value * whole / 100 if unit == "%" else value * PX_PER_UNIT[unit]


def check_number(text: str) -> float:
    """A number that a sum can bear; a `ValueError` for one beyond a thousand million."""
    value = float(text)
    if not abs(value) <= LARGEST_NUMBER:
        raise ValueError(f"the number {text[:40]} is too large to be meant")
    return value


def read_numbers(text: str) -> Iterator[float]:
    """Numbers with commas or spaces between them, one by one, so that who counts them can stop.

    A `ValueError` names what is no number.

    >>> list(read_numbers("1,-2.5.5 3e1")), list(read_numbers(""))
    ([1.0, -2.5, 0.5, 30.0], [])
    """
    here = 0
    while found := _NEXT_NUMBER.match(text, here):
        yield check_number(found[1])
        here = found.end()
    stray = text[here:].replace(",", " ").split(maxsplit=1)
    if stray:
        raise ValueError(f'"{stray[0][:40]}" stands where a number should')


def parse_transform(text: str) -> Affine:
    """The map a transform list means: the rightmost transform acts first. A `ValueError` says what is wrong.

    >>> parse_transform("translate(10) rotate(90, 1, 0)").apply((2.0, 0.0))
    (11.0, 1.0)
    """
    total, here, count = Affine(), 0, 0
    while found := _TRANSFORM.match(text, here):
        count += 1
        if count > MOST_TRANSFORMS:
            raise ValueError(f"more than {MOST_TRANSFORMS:,} transforms stand in one list")
        numbers = list(islice(read_numbers(found[2]), 7))
        total, here = total @ _one_transform(found[1], numbers), found.end()
    rest = text[here:].strip(" \t\r\n,")
    if rest and rest != "none":
        raise ValueError(
            f'"{rest[:40]}" is no transform: matrix, translate, scale, rotate, skewX and skewY are'
        )
    return total


def _one_transform(name: str, numbers: list[float]) -> Affine:
    match name, numbers:
        case "matrix", [a, b, c, d, e, f]:
            return Affine(a, b, c, d, e, f)
        case "translate", [x, *rest] if len(rest) <= 1:
            return Affine.moving(x, rest[0] if rest else 0.0)
        case "scale", [x, *rest] if len(rest) <= 1:
            return Affine.scaling(x, rest[0] if rest else x)
        case "rotate", [degrees]:
            return Affine.turning(degrees)
        case "rotate", [degrees, x, y]:
            return Affine.moving(x, y) @ Affine.turning(degrees) @ Affine.moving(-x, -y)
        case "skewX", [degrees]:
            return Affine(c=math.tan(math.radians(degrees)))
        case "skewY", [degrees]:
            return Affine(b=math.tan(math.radians(degrees)))
    count = f"{len(numbers)} numbers" if len(numbers) < 7 else "more than 6 numbers"
    raise ValueError(f"{name[:20]}() with {count} is no transform")


def parse_view_box(text: str) -> tuple[float, float, float, float]:
    """Left, top, width and height of a view box; a `ValueError` where it is not four numbers with a size."""
    numbers = list(islice(read_numbers(text), 5))
    if len(numbers) != 4 or not (numbers[2] > 0 and numbers[3] > 0):
        raise ValueError(
            f'the viewBox "{text[:40]}" is not left, top, width and height with a size of its own'
        )
    return numbers[0], numbers[1], numbers[2], numbers[3]


def fit_view_box(box: tuple[float, float, float, float], width: float, height: float, fitting: str) -> Affine:
    """The map from a view box into a view of `width` x `height`, by `preserveAspectRatio` (SVG 2, 8.6)."""
    left, top, box_width, box_height = box
    x_scale, y_scale = width / box_width, height / box_height
    words = (fitting.split() or ["xMidYMid"])[:2]
    align = re.fullmatch(r"x(Min|Mid|Max)Y(Min|Mid|Max)", words[0])
    if words[0] != "none" and (not align or words[1:] not in ([], ["meet"], ["slice"])):
        raise ValueError(f'preserveAspectRatio "{fitting[:40]}" is not one that SVG knows')
    if not align:
        return Affine.scaling(x_scale, y_scale) @ Affine.moving(-left, -top)
    scale = max(x_scale, y_scale) if words[1:] == ["slice"] else min(x_scale, y_scale)
    share = {"Min": 0.0, "Mid": 0.5, "Max": 1.0}
    move = Affine.moving(
        share[align[1]] * (width - box_width * scale), share[align[2]] * (height - box_height * scale)
    )
    return move @ Affine.scaling(scale, scale) @ Affine.moving(-left, -top)
