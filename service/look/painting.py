"""Our own drawings as what a PDF page is painted with: operators, and words to set.

A drawing of ours (`service.craft.drawing.sheet`) uses little of SVG: paths of straight lines and cubic curves,
circles, lines of words, all in the even-odd rule and in millimetres. That little is turned into PDF operators here,
once a drawing, which is many times quicker than a reader of all SVG that styles every shape anew. A drawing that
uses anything else is `NotOurs`, and is left to the printer.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import cos, radians, sin
from xml.etree.ElementTree import Element, ParseError, fromstring

SVG = "{http://www.w3.org/2000/svg}"
SPACE = "{http://www.w3.org/XML/1998/namespace}space"

COMMANDS = re.compile(r"([MLCZ])([^MLCZ]*)")
OPERATORS = {"M": "m", "L": "l", "C": "c"}
PATH = re.compile(r"(?:[MLC][-\d. ]+|Z)*")
COLOUR = re.compile(r"#[0-9a-f]{6}")
TURNED = re.compile(r"rotate\((\S+) (\S+) (\S+)\)")

ROOT = {"fill": "none", "fill-rule": "evenodd", "stroke-linejoin": "round"}
"""What a drawing of ours says on the whole; what it says on each shape stands below."""

PAINT = {"fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap"}
WORDS = {"x", "y", "font-size", "font-weight", "fill", SPACE}

ROUND_CORNER = 0.5522847498307936
"""How far the handles of a quarter of a circle reach, for a radius of 1: 4/3 of the square root of 2, less 1."""


class NotOurs(ValueError):
    """The drawing uses more of SVG than ours do."""


@dataclass(frozen=True)
class Run:
    """Words of one size, moved down by `drop` from where the run before ended; millimetres."""

    text: str
    size: float
    drop: float = 0.0


@dataclass(frozen=True)
class Words:
    """A line of words that begins with its base line at a point; `fill` is a PDF colour."""

    x: float
    y: float
    runs: tuple[Run, ...]
    weight: int
    family: tuple[str, ...]
    fill: str


@dataclass(frozen=True)
class Painting:
    """A drawing: its size, its own unit as a length on paper, and what paints it in order."""

    width_mm: float
    height_mm: float
    across: float
    down: float
    marks: tuple[str | Words, ...]


@dataclass(frozen=True)
class Pen:
    """What is said of a path before it is painted, so that it is said again only where it changes."""

    fill: str = ""
    stroke: str = ""
    width: str = ""
    dash: str = ""
    cap: str = "0 J"

    def changes_from(self, before: Pen) -> Iterator[str]:
        """The operators that differ from those said before."""
        for name in ("fill", "stroke", "width", "dash", "cap"):
            if getattr(self, name) != getattr(before, name):
                yield getattr(self, name)


def read_painting(data: bytes) -> Painting:
    """A drawing of ours, ready to be painted; `NotOurs` where it is more than that."""
    try:
        root = fromstring(data)  # noqa: S314 - written by our own jobs
        if root.tag != f"{SVG}svg" or any(root.get(key) != value for key, value in ROOT.items()):
            raise NotOurs("another root")
        _, _, across, down = (float(part) for part in root.attrib["viewBox"].split())
        family = tuple(name.strip() for name in root.attrib["font-family"].split(","))
        width, height = (_read_mm(root.attrib[side]) for side in ("width", "height"))
        return Painting(width, height, across, down, tuple(_Painter(family).paint(root)))
    except (ParseError, KeyError, ValueError) as error:
        raise NotOurs(str(error)) from error


def _read_mm(text: str) -> float:
    if not text.endswith("mm"):
        raise NotOurs(text)
    return float(text[:-2])


class _Painter:
    def __init__(self, family: tuple[str, ...]) -> None:
        self._family = family
        self._pen = Pen()

    def paint(self, parent: Element) -> Iterator[str | Words]:
        """The marks of everything inside, in order."""
        for node in parent:
            kind = node.tag.removeprefix(SVG)
            if kind == "path":
                yield from self._stroke(node, _trace(node.attrib["d"]), {"d"})
            elif kind == "circle":
                yield from self._stroke(node, _trace_circle(node), {"cx", "cy", "r"})
            elif kind == "text":
                yield self._set_words(node)
            elif kind == "g":
                yield from self._group(node)
            elif kind not in ("title", "desc"):
                raise NotOurs(kind)

    def _group(self, node: Element) -> Iterator[str | Words]:
        if "transform" not in node.attrib:
            _only(node, {"class"})
            yield from self.paint(node)
            return
        found = TURNED.fullmatch(node.attrib["transform"])
        if not found:
            raise NotOurs(node.attrib["transform"])
        before = self._pen
        yield f"q {_turn(*(float(part) for part in found.groups()))} cm"
        yield from self.paint(node)
        yield "Q"
        self._pen = before

    def _stroke(self, node: Element, path: str, shape: set[str]) -> Iterator[str]:
        _only(node, PAINT | shape)
        fill, stroke = (_colour(node.get(key, "none")) for key in ("fill", "stroke"))
        pen = self._pen
        if fill:
            pen = replace(pen, fill=f"{fill} rg")
        if stroke:
            dash = " ".join(_number(part) for part in node.get("stroke-dasharray", "").split())
            cap = {"butt": "0 J", "round": "1 J"}[node.get("stroke-linecap", "butt")]
            width = f"{_number(node.attrib['stroke-width'])} w"
            pen = replace(pen, stroke=f"{stroke} RG", width=width, dash=f"[{dash}] 0 d", cap=cap)
        if fill or stroke:
            yield " ".join(
                (*pen.changes_from(self._pen), path, "B*" if fill and stroke else "f*" if fill else "S")
            )
        self._pen = pen

    def _set_words(self, node: Element) -> Words:
        _only(node, WORDS)
        size = float(node.attrib["font-size"])
        runs = [Run(node.text, size)] if node.text else []
        for span in node:
            if span.tag != f"{SVG}tspan":
                raise NotOurs(span.tag)
            _only(span, {"dy", "font-size"})
            runs.append(Run(span.text or "", float(span.get("font-size", size)), float(span.get("dy", 0))))
            if span.tail:
                runs.append(Run(span.tail, size))
        x, y = float(node.attrib["x"]), float(node.attrib["y"])
        weight, fill = int(node.attrib["font-weight"]), _colour(node.attrib["fill"])
        return Words(x, y, tuple(runs), weight, self._family, f"{fill} rg")


def _only(node: Element, known: set[str]) -> None:
    more = node.attrib.keys() - known
    if more:
        raise NotOurs(", ".join(sorted(more)))


def _number(text: str) -> str:
    """A number that is one: it goes to the page as it stands."""
    float(text)
    return text


def _colour(text: str) -> str:
    """A colour as PDF says it, nothing for none.

    >>> _colour("#ff0033"), _colour("none")
    ('1 0 0.2', '')
    """
    if text == "none":
        return ""
    if not COLOUR.fullmatch(text):
        raise NotOurs(text)
    return " ".join(f"{int(text[at : at + 2], 16) / 255:.4g}" for at in (1, 3, 5))


def _trace(data: str) -> str:
    """A path as PDF says it.

    >>> _trace("M0 1L2 3Z")
    '0 1 m 2 3 l h'
    """
    if not PATH.fullmatch(data):
        raise NotOurs("a path of other letters")
    return " ".join(
        "h" if letter == "Z" else f"{numbers.strip()} {OPERATORS[letter]}"
        for letter, numbers in COMMANDS.findall(data)
    )


def _trace_circle(node: Element) -> str:
    x, y, radius = (float(node.attrib[key]) for key in ("cx", "cy", "r"))
    near = radius * ROUND_CORNER
    quarters = [
        ((radius, near), (near, radius), (0.0, radius)),
        ((-near, radius), (-radius, near), (-radius, 0.0)),
        ((-radius, -near), (-near, -radius), (0.0, -radius)),
        ((near, -radius), (radius, -near), (radius, 0.0)),
    ]
    curves = (" ".join(f"{x + dx:.4f} {y + dy:.4f}" for dx, dy in quarter) + " c" for quarter in quarters)
    return f"{x + radius:.4f} {y:.4f} m {' '.join(curves)} h"


def _turn(degrees: float, x: float, y: float) -> str:
    """The matrix that turns by degrees clockwise about a point, as PDF says it."""
    across, down = cos(radians(degrees)), sin(radians(degrees))
    moved = (x - x * across + y * down, y - x * down - y * across)
    return " ".join(f"{value:.6f}" for value in (across, down, -down, across, *moved))
