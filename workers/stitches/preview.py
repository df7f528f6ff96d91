"""The preview of a hooping: true size, every thread at its true width, the field round it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import reduce

import numpy as np
import shapely

from service.craft.drawing.lettering import wrap_words, write_words
from service.craft.drawing.sheet import Sheet, format_number
from service.craft.drawing.styles import EARTH, WITNESS, Stroke
from service.craft.language import mark, phrase, say_number
from service.look.palette import PRINT, WHITE, compute_lightness, mix
from workers.stitches.check_places import Place, failed_places
from workers.stitches.curves import draw_outlines
from workers.stitches.findings import Check, Checked
from workers.stitches.pieces import FINISH, PLACEMENT, TACK_DOWN, UNDERLAY, Points
from workers.stitches.settings import StitchSettings

MARGIN_MM = 8.0
MARKS_MM, LINE_MM = 12.8, 4.8
"""Room below the words for the marks and the scale, and from one line of words to the next."""

TITLE_MM, TEXT_MM = 4.4, 3.4
WORDS_PART = "words"
"""The part of the drawing that holds its words."""

FALLBACK_FONT = 0.85
"""Where our typeface is not at hand another, wider one steps in: words keep this share of their room."""

CLOTH = "#d9d2c3"
"""The cloth in the hoop: pale, and dark enough for white thread to stand out."""

FIELD_EDGE = Stroke(0.3, PRINT["slate"])
KEEP_OUT = Stroke(0.2, PRINT["slate"], dash_mm=(1.0, 1.5))
CROSS = Stroke(0.25, PRINT["slate"])
PLACEMENT_MARK = Stroke(0.22, PRINT["slate"], dash_mm=(1.6, 0.9))
FAILURE = Stroke(0.6, PRINT["rhubarb"])
REST, SPLIT = (
    Stroke(0.2, PRINT["slate"], dash_mm=(0.4, 1.2)),
    Stroke(0.35, PRINT["rhubarb"], dash_mm=(2.4, 1.2)),
)
"""Where a piece is split, and the rest of its outline, which another hooping sews."""

TACK_MARK = Stroke(0.22, PRINT["clay"], dash_mm=(0.5, 0.8))


def trace_path(points: Points) -> str:
    """The `d` of an open polyline."""
    return "M" + "L".join(f"{format_number(x)} {format_number(y)}" for x, y in points.tolist())


def draw_thread(sheet: Sheet, points: Points, colour: str, settings: StitchSettings) -> None:
    """One pass as thread: its shaded side at full width, the colour, and a line of light along each stitch."""
    data = trace_path(points)
    dark = compute_lightness(colour) < 35
    width = settings.thread_mm
    sheet.path(data, stroke=Stroke(width, mix(colour, EARTH, 0.28 if not dark else 0.5), round_ends=True))
    sheet.path(data, stroke=Stroke(width * 0.7, colour, round_ends=True))
    sheet.path(data, stroke=Stroke(width * 0.2, mix(colour, WHITE, 0.25 if dark else 0.55), round_ends=True))


def draw_satin(sheet: Sheet, points: Points, colour: str, settings: StitchSettings) -> None:
    """A dense band as thread. The shade lies under all of it; over it fine lines show how the stitches run."""
    data = trace_path(points)
    dark = compute_lightness(colour) < 35
    shade, light = mix(colour, EARTH, 0.2), mix(colour, WHITE, 0.3 if dark else 0.6)
    sheet.path(data, stroke=Stroke(settings.thread_mm + 0.1, mix(colour, EARTH, 0.45), round_ends=True))
    sheet.path(data, stroke=Stroke(settings.thread_mm, shade, round_ends=True))
    sheet.path(data, stroke=Stroke(settings.thread_mm * 0.25, light, round_ends=True))


def draw_field(sheet: Sheet, checked: Checked) -> None:
    """The cloth, the sewing field's edge, its keep-out and the cross in its middle."""
    field, keep = checked.hooping.field, checked.settings.keep_out_mm
    sheet.box(0, 0, sheet.width_mm, sheet.height_mm, fill=WHITE)
    sheet.box(MARGIN_MM, MARGIN_MM, field.width_mm, field.height_mm, fill=CLOTH, stroke=FIELD_EDGE)
    sheet.box(
        MARGIN_MM + keep,
        MARGIN_MM + keep,
        field.width_mm - 2 * keep,
        field.height_mm - 2 * keep,
        stroke=KEEP_OUT,
    )


def draw_cross(sheet: Sheet, checked: Checked) -> None:
    """The cross in the middle of the field, and short marks on its edges."""
    field = checked.hooping.field
    x, y = MARGIN_MM + field.width_mm / 2, MARGIN_MM + field.height_mm / 2
    right, bottom = MARGIN_MM + field.width_mm, MARGIN_MM + field.height_mm
    for start, end in (
        ((x - 4, y), (x + 4, y)),
        ((x, y - 4), (x, y + 4)),
        ((x, MARGIN_MM - 2), (x, MARGIN_MM + 2)),
        ((x, bottom - 2), (x, bottom + 2)),
        ((MARGIN_MM - 2, y), (MARGIN_MM + 2, y)),
        ((right - 2, y), (right + 2, y)),
    ):
        sheet.line(start, end, CROSS)


def draw_split(sheet: Sheet, checked: Checked, middle: Points) -> None:
    """Of a piece whose edge is sewn in parts: the line of the split, and the rest of its outline in this field."""
    field = checked.hooping.field
    room = shapely.box(-field.width_mm / 2, -field.height_mm / 2, field.width_mm / 2, field.height_mm / 2)
    for piece in (s.piece for s in checked.hooping.sewn):
        if piece.part is None:
            continue
        region, outlines = shapely.Polygon(piece.part.region), draw_outlines(piece.rings)
        shape = shapely.Polygon(piece.rings[0], piece.rings[1:])
        split = shapely.intersection(region.exterior, shapely.intersection(shape, room))
        rest = shapely.intersection(shapely.difference(outlines, region), room)
        for lines, stroke in ((rest, REST), (split, SPLIT)):
            for line in shapely.get_parts(lines):
                if line.geom_type == "LineString":
                    sheet.path(trace_path(shapely.get_coordinates(line) + middle), stroke=stroke)


def draw_scale(sheet: Sheet, at: tuple[float, float]) -> None:
    """A bar of 50 mm with its words: true size can be checked with a ruler."""
    x, y = at
    sheet.line((x, y), (x + 50, y), Stroke(0.35))
    for place in range(0, 51, 10):
        sheet.line((x + place, y - 1.2), (x + place, y + 1.2), WITNESS)
    write_words(sheet, (x + 53, y + 1.1), phrase("50 mm: true size"), TEXT_MM)


UPRIGHT = mark("Pieces: {pieces} (upright in the field).")
TURNED = mark("Pieces: {pieces} (turned a quarter clockwise in the field).")


def words_below(checked: Checked) -> list[str]:
    """What the preview says under the field."""
    hooping, settings = checked.hooping, checked.settings
    stitches = int((checked.reading.kinds == 0).sum())
    minutes = f"{stitches / settings.stitches_a_minute:.0f}"
    threads = reduce(
        lambda first, then: phrase("{first}, then {then}", first=first, then=then),
        (thread.name or thread.colour for thread in hooping.threads),
    )
    lay = phrase(TURNED if hooping.turned else UPRIGHT, pieces="; ".join(s.piece.title for s in hooping.sewn))
    others = [
        phrase(
            "The long dashes are where {piece} is split: it is sewn in {count} hoopings, and this is number {number} of"
            " them.",
            piece=s.piece.name,
            count=s.piece.part.of,
            number=s.piece.part.number,
        )
        for s in hooping.sewn
        if s.piece.part is not None
    ]
    return [
        lay,
        phrase(
            "Thread: {threads}. {count} stitches, about {minutes} min of sewing at {speed} a minute.",
            threads=threads,
            count=stitches,
            minutes=minutes,
            speed=settings.stitches_a_minute,
        ),
        phrase("Order for each piece: placement line, stop, tack-down, stop, edge finish."),
        *others,
    ]


def failing_words(checks: Sequence[Check]) -> list[str]:
    """One sentence a failing check, or none where all hold."""
    return [f"Not released. This check failed: {check.name}." for check in checks if not check.ok]


def set_words(checked: Checked, width_mm: float, more: list[str]) -> list[tuple[str, float, int]]:
    """The words under the field in lines of a sheet so wide: each with its size (mm) and weight."""
    field = checked.hooping.field
    room = (width_mm - 2 * MARGIN_MM) * FALLBACK_FONT
    title = phrase(
        "{hooping}: sewing field {width} × {height} mm",
        hooping=checked.hooping.name,
        width=say_number(field.width_mm),
        height=say_number(field.height_mm),
    )
    heading = [(line, TITLE_MM, 600) for line in wrap_words(title, TITLE_MM, room, weight=600)]
    return heading + [
        (line, TEXT_MM, 400)
        for words in (*more, *words_below(checked))
        for line in wrap_words(words, TEXT_MM, room)
    ]


def draw_legend(sheet: Sheet, checked: Checked, lines: list[tuple[str, float, int]]) -> None:
    """The words, the two marks and the scale bar below the field."""
    y = MARGIN_MM + checked.hooping.field.height_mm + 7.0 - LINE_MM
    for words, size, weight in lines:
        y += LINE_MM
        write_words(sheet, (MARGIN_MM, y), words, size, weight=weight)
    y += 5.2
    for x, stroke, words in (
        (0.0, PLACEMENT_MARK, phrase("placement line")),
        (38.0, TACK_MARK, phrase("tack-down")),
    ):
        sheet.line((MARGIN_MM + x, y - 1.1), (MARGIN_MM + x + 8, y - 1.1), stroke)
        write_words(sheet, (MARGIN_MM + x + 9.5, y), words, TEXT_MM)
    draw_scale(sheet, (MARGIN_MM, y + 4.6))


def take_drawing(preview: bytes, field_height_mm: float) -> bytes:
    """A preview without its words: the field and what is sewn in it. What is no preview of ours stays as it is."""
    drawing, words, _ = preview.decode().partition(f'<g class="{WORDS_PART}">')
    if not words:
        return preview
    height = format_number(field_height_mm + 2 * MARGIN_MM)
    sized = re.sub(
        r'height="[\d.]+mm" viewBox="0 0 ([\d.]+) [\d.]+"',
        rf'height="{height}mm" viewBox="0 0 \1 {height}"',
        drawing,
        count=1,
    )
    paper = re.sub(
        r'(<path d="M0 0L[\d.]+ 0L[\d.]+ )[\d.]+(L0 )[\d.]+Z', rf"\g<1>{height}\g<2>{height}Z", sized, count=1
    )
    return f"{paper}</svg>\n".encode()


def draw_failures(sheet: Sheet, places: tuple[Place, ...]) -> None:
    """A numbered disc at each place that failed a check, beside a short line to the very spot."""
    for number, place in enumerate(places, start=1):
        x, y = (float(v) for v in place.at)
        sheet.line((x + 4, y - 4), (x, y), FAILURE)
        sheet.disc((x + 5, y - 5), 2.4, fill=WHITE, stroke=FAILURE)
        write_words(sheet, (x + 4, y - 3.9), str(number), TEXT_MM)


def draw_preview(checked: Checked, checks: Sequence[Check] = ()) -> bytes:
    """The preview as SVG, drawn from the stitch file as it was read back, with what failed a check."""
    field, hooping = checked.hooping.field, checked.hooping
    width = max(field.width_mm, 86.0) + 2 * MARGIN_MM
    lines = set_words(checked, width, failing_words(checks))
    sheet = Sheet(
        width,
        field.height_mm + 2 * MARGIN_MM + MARKS_MM + LINE_MM * len(lines),
        title=phrase("Stitches of hooping {hooping}", hooping=hooping.name),
        description=" ".join(words_below(checked)),
    )
    draw_field(sheet, checked)
    draw_cross(sheet, checked)
    middle = np.array([MARGIN_MM + field.width_mm / 2, MARGIN_MM + field.height_mm / 2])
    marks: list[tuple[Points, Stroke]] = []
    for number, one in enumerate(hooping.passes):
        points = checked.sewn_in(number) + middle
        draw = draw_satin if one.kind in (FINISH, UNDERLAY) else draw_thread
        draw(sheet, points, one.thread.colour, checked.settings_of(number))
        if one.kind in (PLACEMENT, TACK_DOWN):
            marks.append((points, PLACEMENT_MARK if one.kind == PLACEMENT else TACK_MARK))
    for points, stroke in marks:
        sheet.path(trace_path(points), stroke=stroke)
    draw_split(sheet, checked, middle)
    draw_failures(sheet, tuple(Place(place.at + middle) for place in failed_places(checks)))
    sheet.open_part(WORDS_PART)
    draw_legend(sheet, checked, lines)
    sheet.close_part()
    return sheet.to_svg().encode()
