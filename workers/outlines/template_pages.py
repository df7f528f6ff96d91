"""Which template stands on which page: small ones together, large ones in sheets to be joined.

The room for shapes is what both A4 and Letter can print at true size, less the strip with the squares.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from service.craft.drawing.lettering import fit_words, measure_words
from service.craft.language import phrase
from workers.outlines.template_plan import Template
from workers.recipe import CannotMake


@dataclass(frozen=True)
class PageSettings:
    """Sizes of a template page in mm.

    190 x 259 is the part that an A4 page (210 x 297) and a Letter page (215.9 x 279.4) both print with
    margins of about 10 mm, the page centred. Shapes keep `edge_mm` away from its rim, so that no line is halved.
    """

    width_mm: float = 190.0
    height_mm: float = 259.0
    header_mm: float = 12.0
    strip_mm: float = 57.0
    overlap_mm: float = 10.0
    edge_mm: float = 1.0
    gap_mm: float = 8.0
    caption_width_mm: float = 57.0
    letter_mm: float = 3.8
    line_mm: float = 4.9
    sheets_at_most: int = 60

    @property
    def room_mm(self) -> float:
        """The height that shapes may take: 190 mm, so that a sheet of a large template is square."""
        return self.height_mm - self.header_mm - self.strip_mm

    @property
    def whole_mm(self) -> float:
        """The width of a shape that a page holds whole."""
        return self.width_mm - 2 * self.edge_mm


@dataclass(frozen=True)
class Placed:
    """A small template on a page: the upper left corner of its box, and its caption below."""

    template: Template
    x: float
    y: float
    caption: tuple[str, ...]


@dataclass(frozen=True)
class SmallPage:
    """A page of whole templates."""

    placed: tuple[Placed, ...]


@dataclass(frozen=True)
class SheetPage:
    """One sheet of a template too large for a page with its caption; the sheet's window begins at (x, y) of its box."""

    template: Template
    column: int
    row: int
    columns: int
    rows: int
    x: float
    y: float


def arrange_pages(templates: Sequence[Template], settings: PageSettings) -> list[SmallPage | SheetPage]:
    """Pages for all templates: small ones packed by falling height, then each large one.

    `CannotMake` for a template that would need more sheets than anybody joins.
    """
    measured = [(template, *_cell(template, settings)) for template in templates]
    small = [m for m in measured if m[1] <= settings.whole_mm and m[2] <= settings.room_mm]
    large = [m[0] for m in measured if m not in small]
    pages: list[SmallPage | SheetPage] = [*_pack(small, settings)]
    for template in large:
        pages += _split(template, settings)
    return pages


def wrap_words(text: str, size_mm: float, width_mm: float) -> list[str]:
    """Lines of a text, none wider than `width_mm`; a word that is wider is broken, and no-break spaces hold."""
    lines: list[str] = []
    for word in text.split(" "):
        if lines and measure_words(f"{lines[-1]} {word}", size_mm) <= width_mm:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines += _break_word(word, size_mm, width_mm)
    return lines


def _break_word(word: str, size_mm: float, width_mm: float) -> list[str]:
    parts = [""]
    for letter in word:
        if parts[-1] and measure_words(parts[-1] + letter, size_mm) > width_mm:
            parts.append("")
        parts[-1] += letter
    return parts


def write_caption(template: Template, width_mm: float, settings: PageSettings) -> tuple[str, ...]:
    """Title (the first line), count and cloth, which way round, and pieces, in lines of `width_mm`."""
    size = f"{template.outline.width_mm:.0f}\u00a0×\u00a0{template.outline.height_mm:.0f}\u00a0mm"
    title = fit_words(template.title, settings.letter_mm, width_mm, weight=600)
    texts = [phrase("Cut {cloths}. {size}.", cloths=template.cloth_words, size=size), *template.words]
    texts += [phrase("For {pieces}.", pieces=template.pieces)] if template.pieces else []
    return title, *(line for text in texts for line in wrap_words(text, settings.letter_mm, width_mm))


def _cell(template: Template, settings: PageSettings) -> tuple[float, float, tuple[str, ...]]:
    """Width and height that a template takes with its caption."""
    width = max(template.outline.width_mm, settings.caption_width_mm)
    caption = write_caption(template, min(width, settings.whole_mm), settings)
    return width, template.outline.height_mm + 3.0 + len(caption) * settings.line_mm, caption


def _pack(
    cells: list[tuple[Template, float, float, tuple[str, ...]]], settings: PageSettings
) -> list[SmallPage]:
    """Shelves: side by side while there is width, a new shelf below while there is height, then a new page."""
    pages: list[list[Placed]] = []
    x = y = shelf = 0.0
    for template, width, height, caption in sorted(cells, key=lambda cell: -cell[2]):
        if pages and x + width > settings.whole_mm:
            x, y = 0.0, y + shelf + settings.gap_mm
        if not pages or y + height > settings.room_mm:
            pages.append([])
            x = y = 0.0
        if x == 0.0:
            shelf = height
        pages[-1].append(Placed(template, x, y, caption))
        x += width + settings.gap_mm
    return [SmallPage(tuple(page)) for page in pages]


def _split(template: Template, settings: PageSettings) -> list[SheetPage]:
    columns = _sheets(
        template.outline.width_mm + 2 * settings.edge_mm, settings.width_mm, settings.overlap_mm
    )
    rows = _sheets(template.outline.height_mm + 2 * settings.edge_mm, settings.room_mm, settings.overlap_mm)
    if columns * rows > settings.sheets_at_most:
        raise CannotMake(
            f'"{template.title}" is {template.outline.width_mm:.0f} x {template.outline.height_mm:.0f} mm'
            f" and would take {columns * rows} sheets",
            pointer=template.pointer if template.letter else f"{template.pointer}/scale",
            right=f"a piece that {settings.sheets_at_most} sheets can hold",
        )
    return [
        SheetPage(
            template,
            column,
            row,
            columns,
            rows,
            column * (settings.width_mm - settings.overlap_mm) - settings.edge_mm,
            row * (settings.room_mm - settings.overlap_mm) - settings.edge_mm,
        )
        for row in range(rows)
        for column in range(columns)
    ]


def _sheets(length: float, window: float, overlap: float) -> int:
    return max(1, math.ceil((length - overlap - 1e-6) / (window - overlap)))
