"""The colourway sheet: the top in its own colours and in each colourway, with what is too close in value."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup
from shapely import STRtree
from shapely.geometry import Polygon

from service.craft.cloth_lie import lay_cloths
from service.craft.document import Project
from service.craft.drawing import Sheet, TopView, draw_top, lay_out_top, put_top
from service.craft.drawing.lettering import write_words
from service.craft.finish import Colourway
from service.craft.language import join_words, mark, phrase
from service.craft.tracks import A4, LETTER
from service.look.colour_vision import KINDS, measure_difference
from service.look.palette import compute_lightness
from workers.handouts.cloth_pictures import photograph_top, turn_grey
from workers.handouts.colourway_notes import ClothNotes
from workers.handouts.inputs import Inputs
from workers.handouts.pages import print_page
from workers.handouts.papers import find_studio_track
from workers.recipe import SwatchPicture

BASE_NAME = mark("As designed")
SIGHT = {
    "without red receptors (protanopia)": mark("without red receptors (protanopia)"),
    "without green receptors (deuteranopia)": mark("without green receptors (deuteranopia)"),
}
"""How the kinds of `service.look.colour_vision` are said."""

LEAST_STEP = 12.0
"""Difference of lightness (L*) below which two neighbours run together from across a room: our own judgement."""

LEAST_DIFFERENCE = 15.0
"""Distance in CIELAB below which two cloths side by side look alike across a room: our own judgement."""

LEAST_SEAM_INCHES = 0.05
PANEL_MM, PANEL_HEIGHT_MM, HEADING_MM, GAP_MM = 172.0, 120.0, 9.0, 8.0

SHOWN_MM, GREYS_MM = {A4: 105.0, LETTER: 92.0}, {A4: 58.0, LETTER: 50.0}
"""How high a colourway and its greys are drawn on paper: both, and what is said of them, share a page."""


@dataclass(frozen=True)
class ColourwayView:
    """One colourway: its name, the top in it, the pairs of neighbours that are close in value, and those that merge
    for people who tell red and green apart badly.
    """

    name: str
    top: TopView
    close: tuple[str, ...]
    merging: tuple[str, ...] = ()


def view_colourways(
    project: Project, top: TopView, pictures: Mapping[str, SwatchPicture] | None = None
) -> list[ColourwayView]:
    """The top as designed, then in each colourway in the document's order.

    `pictures` are photographs by name: cloths that have one are shown by it.
    """
    neighbours = list(find_neighbours(top))
    views = [
        _judge(phrase(BASE_NAME), top, neighbours),
        *(_judge(one.name, _show_in(top, one), _merge(neighbours, one)) for one in project.colourways),
    ]
    if not pictures:
        return views
    laid = _Photographer(project, top, pictures)
    return [laid.show(view, one) for view, one in zip(views, (None, *project.colourways), strict=True)]


class _Photographer:
    """Lays photographs into the tops of a project's colourways."""

    def __init__(self, project: Project, top: TopView, pictures: Mapping[str, SwatchPicture]) -> None:
        self._project = project
        self._pictures = pictures
        self._lies = lay_cloths(project.top, project.fabrics, project.rules)
        room = lay_out_top(top, max_width_mm=PANEL_MM, max_height_mm=PANEL_HEIGHT_MM)
        self._scale = room.fit.scale

    def show(self, view: ColourwayView, colourway: Colourway | None) -> ColourwayView:
        """The colourway (None for the design) with the photographs of its cloths."""
        names = {key: fabric.swatch for key, fabric in self._project.fabrics.items()}
        names |= colourway.swatches if colourway else {}
        found = {
            key: self._pictures[name]
            for key, name in names.items()
            if name in self._pictures and key in view.top.cloths
        }
        return replace(view, top=photograph_top(view.top, self._lies, found, self._scale))


def _judge(name: str, top: TopView, neighbours: Sequence[tuple[str, str]]) -> ColourwayView:
    return ColourwayView(
        name, top, tuple(_list_close(top, neighbours)), tuple(_list_merging(top, neighbours))
    )


def _merge(neighbours: Sequence[tuple[str, str]], colourway: Colourway) -> list[tuple[str, str]]:
    """The neighbours where one cloth may stand for another: two that are the same are none."""
    same = colourway.same_as
    pairs = {tuple(sorted((same.get(one, one), same.get(other, other)))) for one, other in neighbours}
    return sorted((one, other) for one, other in pairs if one != other)


def find_neighbours(top: TopView) -> Iterable[tuple[str, str]]:
    """Pairs of different cloths whose patches share a seam, each once, by the cloths' order."""
    shapes = [Polygon(patch.points, [patch.hole] if patch.hole else []) for patch in top.patches]
    found: set[tuple[str, str]] = set()
    if shapes:
        for one, other in STRtree(shapes).query(shapes, predicate="intersects").T:
            pair = (top.patches[one].cloth, top.patches[other].cloth)
            if pair[0] < pair[1] and pair not in found and _share_seam(shapes[one], shapes[other]):
                found.add(pair)
    return sorted(found)


def draw_colourways(colourways: Iterable[ColourwayView], title: str) -> str:
    """All colourways under each other on one sheet that stands alone, as SVG."""
    colourways = list(colourways)
    placed, y = [], 2.0
    for colourway in colourways:
        layout = lay_out_top(
            colourway.top, at=(0.0, y + HEADING_MM), max_width_mm=PANEL_MM, max_height_mm=PANEL_HEIGHT_MM
        )
        placed.append((colourway, layout, y))
        y += HEADING_MM + layout.height_mm + GAP_MM
    sheet = Sheet(
        PANEL_MM,
        y,
        title=phrase("Colourways of {title}", title=title),
        description=", ".join(c.name for c in colourways),
    )
    for colourway, layout, top in placed:
        write_words(sheet, (1.0, top + 5.5), colourway.name, 5.5, weight=600)
        put_top(sheet, colourway.top, layout, public=False)
    return sheet.to_svg(embed_fonts=True)


def print_colourways(
    inputs: Inputs, colourways: Iterable[ColourwayView], notes: Sequence[ClothNotes]
) -> bytes:
    """The colourway sheet as PDF: each in colour and in greys, with a word on neighbours close in value, on what is
    bought otherwise and on cloth at home that comes near.
    """
    colourways, track = list(colourways), find_studio_track(inputs.project.tracks)
    paper = track.paper if track else A4
    views = [
        {
            "name": colourway.name,
            "close": colourway.close,
            "merging": colourway.merging,
            "cloth": note,
            "drawing": _as_markup(draw_top(colourway.top, public=False, max_height_mm=SHOWN_MM[paper])),
            "greys": _as_markup(
                draw_top(
                    _grey(colourway.top),
                    public=False,
                    legend=False,
                    dimensions=False,
                    max_width_mm=80.0,
                    max_height_mm=GREYS_MM[paper],
                )
            ),
        }
        for colourway, note in zip(colourways, notes, strict=True)
    ]
    title = inputs.project.title
    fields = {
        "title": phrase("Colourways of {title}", title=title),
        "project_title": title,
        "colourways": views,
        "least_step": f"{LEAST_STEP:g}",
        "photographs": any(colourway.top.ground for colourway in colourways),
    }
    return print_page("colourways.html", f"colourways {title}", fields, track=track)


def _show_in(top: TopView, colourway: Colourway) -> TopView:
    """The top in a colourway: a cloth that is the same as another one there is drawn and listed as that one."""
    same = colourway.same_as
    cloths = {
        key: replace(
            cloth,
            colour=colourway.colours.get(key, cloth.colour),
            name=colourway.names.get(key) or cloth.name,
        )
        for key, cloth in top.cloths.items()
        if key not in same
    }
    return replace(
        top,
        title=f"{top.title}: {colourway.name}",
        cloths=cloths,
        patches=tuple(replace(patch, cloth=same.get(patch.cloth, patch.cloth)) for patch in top.patches),
        pieces=tuple(replace(piece, cloth=same.get(piece.cloth, piece.cloth)) for piece in top.pieces),
    )


def _share_seam(one: Polygon, other: Polygon) -> bool:
    return bool(one.buffer(0.001).intersection(other.buffer(0.001)).length > 2 * LEAST_SEAM_INCHES)


def _list_close(top: TopView, neighbours: Iterable[tuple[str, str]]) -> Iterator[str]:
    for keys in neighbours:
        if not set(keys) <= top.cloths.keys():
            continue
        one, other = (top.cloths[key] for key in keys)
        values = [round(compute_lightness(cloth.colour)) for cloth in (one, other)]
        if abs(compute_lightness(one.colour) - compute_lightness(other.colour)) < LEAST_STEP:
            yield join_words(
                f"{cloth.letter} {cloth.name} ({value})"
                for cloth, value in zip((one, other), values, strict=True)
            )


def _list_merging(top: TopView, neighbours: Iterable[tuple[str, str]]) -> Iterator[str]:
    """Neighbours that most people tell apart by their hue, and that come close without it."""
    for keys in neighbours:
        if not set(keys) <= top.cloths.keys():
            continue
        one, other = (top.cloths[key] for key in keys)
        if measure_difference(one.colour, other.colour) < LEAST_DIFFERENCE:
            continue
        kinds = [k for k in KINDS if measure_difference(one.colour, other.colour, k) < LEAST_DIFFERENCE]
        if kinds:
            pair = join_words(f"{cloth.letter} {cloth.name}" for cloth in (one, other))
            sight = phrase(" and ").join(phrase(SIGHT[kind]) for kind in kinds)
            yield f"{pair}: {sight}"


def _grey(top: TopView) -> TopView:
    """The same top in plain greys of the same lightness."""
    cloths = {
        key: replace(cloth, colour=_grey_of(cloth.colour), hatched=False) for key, cloth in top.cloths.items()
    }
    ground = turn_grey(top.ground) if top.ground else b""
    return replace(top, title=phrase("{title} in greys", title=top.title), cloths=cloths, ground=ground)


def _grey_of(colour: str) -> str:
    lightness = compute_lightness(colour)
    level = min(
        range(256),
        key=lambda value: abs(compute_lightness(f"#{value:02x}{value:02x}{value:02x}") - lightness),
    )
    return f"#{level:02x}{level:02x}{level:02x}"


def _as_markup(svg: str) -> Markup:
    return Markup(svg)  # noqa: S704 - our own drawing, escaped by the sheet
