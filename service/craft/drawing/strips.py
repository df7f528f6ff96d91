"""Strip diagrams: what is cut from each strip across the cloth, to scale, one small drawing for equal strips.

Cuts lie from left to right in the order they are cut; what is left over is cross-hatched.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Sheet
from service.craft.drawing.signs import draw_arrow, draw_tag
from service.craft.drawing.strip_columns import draw_columns
from service.craft.drawing.strip_lanes import (
    GAP_MM,
    LABEL_MM,
    LETTER_MM,
    Lane,
    draw_lane,
    gap_below,
    say_run,
)
from service.craft.drawing.styles import WITNESS
from service.craft.drawing.top import PAGE_WIDTH_MM
from service.craft.drawing.views import ClothView, StripView
from service.craft.language import phrase, say_number

RIGHT_MM = 13.0
"""Room on the right for the word at the second selvedge."""

SHEET_HEIGHT_MM = 150.0
"""A drawing is no higher, so that it finds room on a page."""

LOW_MM, TALLEST_MM = 36.0, 80.0
"""A strip is drawn no higher than the first, for a backing would fill the page and has little to show; but up to the
second where its pieces would be too narrow for their letters."""

NARROWEST_MM = 4.0
"""A piece this wide on paper shows its letter."""

HEAD_MM = 12.0
"""Room above the first strip: the cloth's letter, the scale, and the usable width."""

SCALES: tuple[float, ...] = (
    *(n / 2 for n in range(2, 21)),
    *range(11, 21),
    22,
    25,
    28,
    30,
    35,
    40,
    45,
    50,
    60,
    70,
    80,
    100,
)
"""How many times smaller than life a drawing may be."""

CLOSE = 1.3
"""A strip that would need up to so much more is drawn at the scale of the others."""

MM = 25.4


@dataclass(frozen=True)
class Group:
    """Equal strips that follow each other: the number of the first, from one, and how many."""

    strip: StripView
    first: int
    count: int

    @property
    def name(self) -> str:
        """The numbers as the cutting order has them."""
        if self.count == 1:
            return phrase("Strip {number}", number=self.first)
        return phrase("Strips {first}–{last}", first=self.first, last=self.first + self.count - 1)


@dataclass(frozen=True)
class Frame:
    """What the strips of one scale share: the cloth, its width on paper, the scale, and whether its edges are woven."""

    cloth: ClothView
    usable: float
    width_text: str
    scale: float
    sheet_mm: float
    selvedges: bool

    @property
    def mm_an_inch(self) -> float:
        """Millimetres on paper for an inch of cloth."""
        return MM / self.scale

    @property
    def usable_mm(self) -> float:
        """The usable width on paper."""
        return self.usable * self.mm_an_inch


def draw_strips(
    cloth: ClothView,
    usable_width: float,
    width_text: str,
    strips: Sequence[StripView],
    *,
    max_width_mm: float = PAGE_WIDTH_MM,
    max_height_mm: float = SHEET_HEIGHT_MM,
    selvedges: bool = True,
) -> list[str]:
    """The strips of one cloth as SVG, a drawing for each set of equal strips, so that a page may break between them.

    `usable_width` in inches gives the scale, which stands over the first drawing; strips too high for it come first,
    at a scale of their own. No strips give no drawing. Without `selvedges` the cloth's sides are cut edges.
    """
    groups = _group(strips)
    longest = max([usable_width, *(sum(c.count * c.along for c in s.cuts) for s in strips)])
    common = _find_scale(longest, max_width_mm - LABEL_MM - RIGHT_MM)
    most = max_height_mm - HEAD_MM - GAP_MM
    drawings: list[str] = []
    for scale, same in groupby(groups, key=lambda g: _choose_scale(g.strip, common, most)):
        frame = Frame(cloth, usable_width, width_text, scale, max_width_mm, selvedges)
        drawings += [_draw_group(frame, group, head=n == 0) for n, group in enumerate(same)]
    return drawings


def _group(strips: Iterable[StripView]) -> list[Group]:
    groups, first = [], 1
    for strip, same in groupby(strips):
        count = len(list(same))
        groups.append(Group(strip, first, count))
        first += count
    return groups


def _find_scale(inches: float, room_mm: float) -> float:
    """The least reduction of the list at which so many inches find room; beyond the list, what it takes."""
    needed = inches * MM / room_mm
    return next((float(scale) for scale in SCALES if scale >= needed), needed)


def _scale_for_height(strip: StripView, most_mm: float) -> float:
    """The least reduction at which a strip is low enough, and yet as wide as its narrowest pieces need."""
    low, high = (_find_scale(strip.height, min(mm, most_mm)) for mm in (LOW_MM, TALLEST_MM))
    cuts = [*strip.cuts, *(cut for column in strip.columns for cut in column.cuts)]
    narrowest = min((cut.along for cut in cuts), default=strip.height)
    wide_enough = [scale for scale in SCALES if narrowest * MM / scale >= NARROWEST_MM]
    return max(high, min([low, *wide_enough[-1:]]))


def _choose_scale(strip: StripView, common: float, most_mm: float) -> float:
    """The scale of the other strips, unless this one is much too high for it."""
    own = _scale_for_height(strip, most_mm)
    return common if own <= common * CLOSE and strip.height * MM / common <= most_mm else own


def _draw_group(frame: Frame, group: Group, *, head: bool) -> str:
    strip = group.strip
    top = HEAD_MM if head else 1.0
    high = strip.height * frame.mm_an_inch
    lane = Lane(top, high, frame.usable_mm, frame.mm_an_inch)
    height = top + high + gap_below(strip, lane, frame.sheet_mm)
    title = phrase("{strips} of {cloth}", strips=group.name, cloth=frame.cloth.name)
    sheet = Sheet(frame.sheet_mm, height, title=title, description=describe_group(frame, group))
    if head:
        _draw_head(sheet, frame)
    _name_group(sheet, group, lane)
    (draw_columns if strip.columns else draw_lane)(sheet, strip, frame.cloth, lane)
    return sheet.to_svg()


def describe_group(frame: Frame, group: Group) -> str:
    """One set of equal strips in words."""
    cuts = [*group.strip.cuts, *(cut for column in group.strip.columns for cut in column.cuts)]
    runs = ", ".join(say_run(cut) for cut in cuts) or phrase("kept whole")
    return phrase(
        "Usable width {width}. {count} of {height} high: {cuts}. Drawn {scale}.",
        width=frame.width_text,
        count=group.count,
        height=group.strip.text,
        cuts=runs,
        scale=say_scale(frame.scale),
    )


def say_scale(scale: float) -> str:
    """How much smaller than life.

    >>> say_scale(8.0), say_scale(7.5)
    ('1 : 8', '1 : 7.5')
    """
    return f"1 : {say_number(scale, '.3g')}"


def _draw_head(sheet: Sheet, frame: Frame) -> None:
    """The cloth's letter and the scale; under it the usable width from selvedge to selvedge."""
    left, right, y = LABEL_MM, LABEL_MM + frame.usable_mm, 8.6
    draw_tag(sheet, (left + 1.6, 2.6), frame.cloth.letter, LETTER_MM + 0.6)
    words = phrase(
        "drawn {scale}, cut from left to right; cross-hatched: left over", scale=say_scale(frame.scale)
    )
    write_words(sheet, (left + 5.0, 3.8), words, LETTER_MM - 0.4)
    for x in (left, right):
        sheet.line((x, y - 2.2), (x, y + 2.2), WITNESS)
    text = phrase("usable width {width}", width=frame.width_text)
    middle, half = (left + right) / 2, measure_words(text, LETTER_MM) / 2 + 2.0
    if middle - half < left:
        # too narrow on paper for the words: they stand beside it
        beside = text
        if frame.selvedges:
            beside = phrase("usable width {width}, selvedge to selvedge", width=frame.width_text)
        draw_arrow(sheet, (middle, y), (left, y), WITNESS)
        draw_arrow(sheet, (middle, y), (right, y), WITNESS)
        write_words(sheet, (right + 2.0, y + 1.2), beside, LETTER_MM)
        return
    if middle - half > left + 3.0:
        draw_arrow(sheet, (middle - half, y), (left, y), WITNESS)
        draw_arrow(sheet, (middle + half, y), (right, y), WITNESS)
    write_words(sheet, (middle, y + 1.2), text, LETTER_MM, anchor="middle")
    if frame.selvedges:
        write_words(sheet, (left - 1.0, y + 1.2), phrase("selvedge"), LETTER_MM - 0.4, anchor="end")
        write_words(sheet, (right + 1.0, y + 1.2), phrase("selvedge"), LETTER_MM - 0.4)


def _name_group(sheet: Sheet, group: Group, lane: Lane) -> None:
    """Left of the strips: their numbers, how many, how high."""
    middle = lane.top + max(lane.height / 2, 3.0)
    write_words(sheet, (0.3, middle - 0.8), group.name, LETTER_MM, weight=700)
    height = group.strip.text
    if group.count > 1:
        height = phrase("× {count}, each {height}", count=group.count, height=height)
    write_words(sheet, (0.3, middle + 3.4), height, LETTER_MM)
