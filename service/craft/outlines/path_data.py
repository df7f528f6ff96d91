"""Path data: the `d` of a path, all twenty commands (SVG 2, 9.3).

Where SVG would draw up to the first fault and stop, a fault here refuses the path: half an outline is
worse than none.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from service.craft.outlines.affine import Point
from service.craft.outlines.contours import TOO_MANY, Pen
from service.craft.outlines.lengths import NUMBER, check_number, read_numbers

_COMMAND = re.compile(r"([MmZzLlHhVvCcSsQqTtAa])([^MmZzLlHhVvCcSsQqTtAa]*)")
_BEFORE_COMMAND = re.compile(r"[\s,]*(?=[MmZzLlHhVvCcSsQqTtAa]|$)")
_ARC = re.compile(
    rf"[\s,]*({NUMBER})[\s,]*({NUMBER})[\s,]*({NUMBER})[\s,]*([01])[\s,]*([01])[\s,]*({NUMBER})[\s,]*({NUMBER})"
)

NUMBERS_OF = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2}


def draw_path(data: str, pen: Pen, *, segments_left: int) -> int:
    """Draw path data and return how many segments it took; a `ValueError` says what is wrong where."""
    drawing = _PathDrawing(pen)
    taken = 0
    for letter, numbers in _commands(data):
        taken += 1
        if taken > segments_left:
            raise ValueError(TOO_MANY)
        drawing.draw(letter, numbers)
    return taken


def _commands(data: str) -> Iterator[tuple[str, list[float]]]:
    """Each command with one set of numbers: repeated sets are told apart, and M goes on as L."""
    start = _BEFORE_COMMAND.match(data)
    if not start:
        raise ValueError(f'path data starts with a command letter, not with "{data[:20]}"')
    first = data[start.end() : start.end() + 1]
    if first and first not in "Mm":
        raise ValueError(f"path data starts with M, not with {first}")
    for found in _COMMAND.finditer(data, start.end()):
        letter = found[1]
        for i, numbers in enumerate(_sets(letter, found[2], found.start())):
            yield {"M": "L", "m": "l"}.get(letter, letter) if i else letter, numbers


def _sets(letter: str, text: str, position: int) -> Iterator[list[float]]:
    if letter in "Aa":
        yield from _arc_sets(text, f"{letter} takes", position)
        return
    size, count, numbers = NUMBERS_OF.get(letter.upper(), 0), 0, list[float]()
    try:
        for number in read_numbers(text):
            count += 1
            numbers.append(number)
            if len(numbers) == size:
                yield numbers
                numbers = []
            elif not size:
                break
    except ValueError as error:
        raise ValueError(f"{error}, after {letter} (character {position + 1} of the path data)") from None
    if numbers or bool(size) != bool(count):
        raise ValueError(
            f"{letter} takes {size} numbers, not {count} (character {position + 1} of the path data)"
        )
    if not size:
        yield []


def _arc_sets(text: str, takes: str, position: int) -> Iterator[list[float]]:
    """Arcs apart from the rest: their two flags may be written without anything between them."""
    here = 0
    while found := _ARC.match(text, here):
        yield [check_number(number) for number in found.groups()]
        here = found.end()
    if not here or text[here:].strip(" \t\r\n\f,"):
        raise ValueError(
            f"{takes} two radii, a turn, two flags (0 or 1) and a point"
            f" (character {position + 1} of the path data)"
        )


class _PathDrawing:
    """The state SVG keeps between commands: the control point that a smooth command mirrors."""

    def __init__(self, pen: Pen) -> None:
        self.pen = pen
        self.mirrored: tuple[str, Point] | None = None
        self.acts: dict[str, Callable[[list[Point]], None]] = {
            "M": lambda points: pen.move(points[0]),
            "L": lambda points: pen.line(points[0]),
            "C": lambda points: self._cubic(points[0], points[1], points[2]),
            "S": lambda points: self._cubic(self._reflected("C"), points[0], points[1]),
            "Q": lambda points: self._quadratic(points[0], points[1]),
            "T": lambda points: self._quadratic(self._reflected("Q"), points[0]),
        }

    def draw(self, letter: str, numbers: list[float]) -> None:
        upper = letter.upper()
        from_x, from_y = self.pen.here if letter.islower() else (0.0, 0.0)
        kept, self.mirrored = self.mirrored, None
        if upper == "Z":
            self.pen.close()
        elif upper == "H":
            self.pen.line((from_x + numbers[0], self.pen.here[1]))
        elif upper == "V":
            self.pen.line((self.pen.here[0], from_y + numbers[0]))
        elif upper == "A":
            rx, ry, turn, large, sweep, x, y = numbers
            self.pen.arc((rx, ry), turn, bool(large), bool(sweep), (from_x + x, from_y + y))
        else:
            self.mirrored = kept if upper in "ST" else None
            self.acts[upper](
                [(from_x + x, from_y + y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
            )

    def _cubic(self, control_1: Point, control_2: Point, end: Point) -> None:
        self.pen.cubic(control_1, control_2, end)
        self.mirrored = ("C", control_2)

    def _quadratic(self, control: Point, end: Point) -> None:
        self.pen.quadratic(control, end)
        self.mirrored = ("Q", control)

    def _reflected(self, kind: str) -> Point:
        """The last control point mirrored at the pen, or the pen itself after a command of another kind."""
        x, y = self.pen.here
        if self.mirrored is None or self.mirrored[0] != kind:
            return x, y
        return 2 * x - self.mirrored[1][0], 2 * y - self.mirrored[1][1]
