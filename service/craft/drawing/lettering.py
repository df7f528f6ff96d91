"""Words on a drawing, with true fractions: SVG knows no diagonal fractions everywhere, so they are built."""

from __future__ import annotations

from service.craft.drawing.sheet import Sheet, TextRun
from service.craft.drawing.styles import EARTH
from service.craft.outlines.affine import Point
from service.look.fonts import measure_text
from service.look.fractions import Length, split_lengths

SMALL = 0.64
"""Size of a fraction's figures against the whole number's."""

RAISE = 0.26
"""How far the numerator is raised, of the full size: it ends level with the whole number's top."""

GAP = 0.1
"""Space between whole number and fraction, of the full size."""


def measure_words(text: str, size_mm: float, *, weight: int = 400) -> float:
    """The width in mm of a text with its fractions built."""
    return sum(_run_width(run, weight) for run in _split_runs(text)) * size_mm


def write_words(
    sheet: Sheet,
    at: Point,
    text: str,
    size_mm: float,
    *,
    weight: int = 400,
    colour: str = EARTH,
    anchor: str = "start",
    turned: float = 0.0,
) -> None:
    """Write a line of text, its base line at `at`, fractions as fractions; `turned` clockwise about `at`."""
    width = measure_words(text, size_mm, weight=weight)
    x = at[0] - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
    if turned:
        sheet.open_turned(turned, at)
    sheet.words((x, at[1]), _split_runs(text), size_mm, weight=weight, colour=colour)
    if turned:
        sheet.close_turned()


def fit_words(text: str, size_mm: float, width_mm: float, *, weight: int = 400) -> str:
    """The text, or as much as fits in `width_mm` with an ellipsis behind it; empty where not even that."""
    if measure_words(text, size_mm, weight=weight) <= width_mm:
        return text
    kept = text
    while kept and measure_words(kept + "…", size_mm, weight=weight) > width_mm:
        kept = kept[:-1]
    return kept.rstrip() + "…" if kept else ""


def wrap_words(text: str, size_mm: float, width_mm: float, *, weight: int = 400) -> list[str]:
    """The text in lines that fit in `width_mm`, broken at spaces; a word too long by itself is cut short.

    >>> wrap_words("placement line, tack-down, edge", 3.0, 25.0)
    ['placement line,', 'tack-down, edge']
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and measure_words(longer, size_mm, weight=weight) <= width_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return [fit_words(line, size_mm, width_mm, weight=weight) for line in lines]


def _split_runs(text: str) -> list[TextRun]:
    runs: list[TextRun] = []
    for part in split_lengths(text):
        runs += _length_runs(part) if isinstance(part, Length) else [(part, 1.0, 0.0)]
    return runs


def _length_runs(length: Length) -> list[TextRun]:
    runs: list[TextRun] = []
    if length.whole:
        runs.append((length.whole, 1.0, 0.0))
    if length.numerator:
        if length.whole:
            runs.append((" ", GAP / 0.2, 0.0))
        runs += [(length.numerator, SMALL, RAISE), ("⁄", 1.0, 0.0), (length.denominator, SMALL, 0.0)]
    if length.unit:
        runs.append((f" {length.unit}", 1.0, 0.0))
    return runs


def _run_width(run: TextRun, weight: int) -> float:
    return measure_text(run[0], run[1], weight=weight)
