"""A sheet collects shapes in millimetres on paper and writes them as SVG, the same text for the same shapes.

Nothing in a sheet needs an `id`: several drawings stand in one page, and ids would meet. So hatches are real
lines, cut to their shape here, and look the same in print, in a browser and in any other reader.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape, quoteattr

from service.craft.drawing.styles import EARTH, Stroke
from service.craft.outlines.affine import Point
from service.craft.outlines.model import Line, Ring
from service.look.fonts import FACES, read_font

Polygon = Sequence[Point]
"""A closed polygon's corners; the last is joined to the first."""

TextRun = tuple[str, float, float]
"""Text, its size and how far it is raised, both in shares of the line's size."""


def format_number(value: float) -> str:
    """A coordinate to a hundredth of a millimetre, without needless zeros.

    >>> format_number(1.0), format_number(-0.001), format_number(2.345)
    ('1', '0', '2.35')
    """
    text = f"{value + 0.0:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def trace_polygon(points: Polygon) -> str:
    """The `d` of a closed polygon."""
    return "M" + "L".join(_pair(point) for point in points) + "Z"


def trace_ring(ring: Ring) -> str:
    """The `d` of a ring of lines and cubic curves."""
    parts = [f"M{_pair(ring.start)}"]
    for segment in ring.segments:
        letter = "L" if isinstance(segment, Line) else "C"
        parts.append(letter + " ".join(_pair(point) for point in segment.points))
    return "".join(parts) + "Z"


def trace_lines(lines: Iterable[tuple[Point, Point]]) -> str:
    """The `d` of separate straight lines."""
    return "".join(f"M{_pair(start)}L{_pair(end)}" for start, end in lines)


def trace_runs(lines: Iterable[tuple[Point, Point]]) -> str:
    """The `d` of straight lines, each begun where the one before ended drawn on from there: dashes go on evenly.

    >>> trace_runs([((0, 0), (1, 0)), ((1, 0), (1, 1)), ((1, 1), (0, 0)), ((5, 5), (6, 5))])
    'M0 0L1 0L1 1ZM5 5L6 5'
    """
    runs: list[list[Point]] = []
    for start, end in lines:
        if runs and runs[-1][-1] == start != runs[-1][0]:
            runs[-1].append(end)
        else:
            runs.append([start, end])
    return "".join(_trace_run(run) for run in runs)


def _trace_run(run: Sequence[Point]) -> str:
    closed = len(run) > 3 and run[0] == run[-1]
    return trace_polygon(run[:-1]) if closed else "M" + "L".join(_pair(point) for point in run)


class Sheet:
    """A drawing in the making: `width_mm` x `height_mm`, x right, y down, and words for who cannot see it."""

    def __init__(self, width_mm: float, height_mm: float, *, title: str, description: str = "") -> None:
        self.width_mm = width_mm
        self.height_mm = height_mm
        self.title = title
        self.description = description
        self._parts: list[str] = []

    def path(self, data: str, *, fill: str | None = None, stroke: Stroke | None = None) -> None:
        """Add a path by its `d`; filled by the even-odd rule. An empty `d` adds nothing."""
        if data:
            self._parts.append(f'<path d="{data}"{_paint(fill, stroke)}/>')

    def polygon(self, points: Polygon, *, fill: str | None = None, stroke: Stroke | None = None) -> None:
        """Add a closed polygon."""
        self.path(trace_polygon(points), fill=fill, stroke=stroke)

    def box(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        fill: str | None = None,
        stroke: Stroke | None = None,
    ) -> None:
        """Add an upright rectangle by its upper left corner."""
        self.polygon(
            ((x, y), (x + width, y), (x + width, y + height), (x, y + height)), fill=fill, stroke=stroke
        )

    def line(self, start: Point, end: Point, stroke: Stroke) -> None:
        """Add a straight line."""
        self.path(trace_lines([(start, end)]), stroke=stroke)

    def picture(self, x: float, y: float, width: float, height: float, jpeg: bytes) -> None:
        """Add a photograph (JPEG) that fills an upright rectangle."""
        sides = zip(("x", "y", "width", "height"), (x, y, width, height), strict=True)
        placed = " ".join(f'{name}="{format_number(value)}"' for name, value in sides)
        data = b64encode(jpeg).decode()
        self._parts.append(
            f'<image {placed} preserveAspectRatio="none" href="data:image/jpeg;base64,{data}"/>'
        )

    def disc(
        self, centre: Point, radius: float, *, fill: str | None = None, stroke: Stroke | None = None
    ) -> None:
        """Add a circle."""
        x, y = (format_number(value) for value in centre)
        self._parts.append(f'<circle cx="{x}" cy="{y}" r="{format_number(radius)}"{_paint(fill, stroke)}/>')

    def words(
        self,
        at: Point,
        runs: Sequence[TextRun],
        size_mm: float,
        *,
        weight: int = 400,
        colour: str = EARTH,
    ) -> None:
        """Add a line of text that begins with its base line at `at`.

        The runs follow each other wherever the one before ends, so that no face of another width makes
        them overlap.
        """
        x, y = (format_number(value) for value in at)
        spans, lifted = [], 0.0
        for text, size, lift in runs:
            move = f' dy="{format_number((lifted - lift) * size_mm)}"' if lift != lifted else ""
            spans.append(
                f'<tspan{move} font-size="{format_number(size * size_mm)}">{escape(text)}</tspan>'
                if move or size != 1.0
                else escape(text)
            )
            lifted = lift
        if "".join(spans).strip():
            self._parts.append(
                f'<text x="{x}" y="{y}" font-size="{format_number(size_mm)}" '
                f'font-weight="{weight}" fill="{colour}" xml:space="preserve">{"".join(spans)}</text>'
            )

    def open_part(self, name: str) -> None:
        """Gather everything until `close_part` under a name (a class), so that readers can tell it from the rest."""
        self._parts.append(f"<g class={quoteattr(name)}>")

    def close_part(self) -> None:
        """End what `open_part` began."""
        self._parts.append("</g>")

    def open_turned(self, degrees: float, about: Point) -> None:
        """Turn everything until `close_turned` by `degrees` clockwise about a point."""
        x, y = (format_number(value) for value in about)
        self._parts.append(f'<g transform="rotate({format_number(degrees)} {x} {y})">')

    def close_turned(self) -> None:
        """End what `open_turned` began."""
        self._parts.append("</g>")

    def to_svg(self, *, embed_fonts: bool = False) -> str:
        """The drawing as SVG text, with its size in millimetres and its words first.

        `embed_fonts` is for files that stand alone; inside our pages the fonts are there already.
        """
        width, height = format_number(self.width_mm), format_number(self.height_mm)
        words = f"<title>{escape(self.title)}</title>"
        if self.description:
            words += f"<desc>{escape(self.description)}</desc>"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
            f'viewBox="0 0 {width} {height}" role="img" aria-label={quoteattr(self.title)} {SHARED_STYLE}>\n'
            + "\n".join([words, *([_embedded_fonts()] if embed_fonts else []), *self._parts])
            + "\n</svg>\n"
        )


FONT_FAMILY = "Batchbee Sans, Batchbee Sans Extended, sans-serif"
"""Bare names: inside SVG, quotes round family names are not understood everywhere."""


SHARED_STYLE = f'fill="none" fill-rule="evenodd" stroke-linejoin="round" font-family="{FONT_FAMILY}"'
"""Said once, on the drawing as a whole; every shape says only in what it differs."""


def measure_height_mm(svg: str) -> float:
    """The height in mm that a sheet's SVG says of itself."""
    return float(svg.partition(' height="')[2].partition("mm")[0])


def _embedded_fonts() -> str:
    rules = (
        f"@font-face{{font-family:'{face.family}';font-weight:{face.weight};"
        f"src:url(data:font/woff2;base64,{b64encode(read_font(face.file_name)).decode()}) format('woff2')}}"
        for face in FACES
        if face.family == "Batchbee Sans" and face.style == "normal"
    )
    return f"<style>{''.join(rules)}</style>"


def _pair(point: Point) -> str:
    return f"{format_number(point[0])} {format_number(point[1])}"


def _paint(fill: str | None, stroke: Stroke | None) -> str:
    text = f' fill="{fill}"' if fill else ""
    if stroke is None:
        return text
    text += f' stroke="{stroke.colour}" stroke-width="{format_number(stroke.width_mm)}"'
    if stroke.dash_mm:
        text += f' stroke-dasharray="{" ".join(format_number(part) for part in stroke.dash_mm)}"'
    return text + (' stroke-linecap="round"' if stroke.round_ends else "")
