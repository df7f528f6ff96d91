"""The `templates` recipe: a PDF of true-size templates, for whoever draws round something.

Patches that no ruler cuts are on it for every track. Applique pieces are for tracks without a cutting machine; with
one only those that are pressed over a card, and without a hoop those whose cloth is trimmed in place, for their
placement line is drawn by hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from service.craft.audience import current_audience
from service.craft.document import Project
from service.craft.drawing.lettering import write_words
from service.craft.drawing.sheet import Sheet
from service.craft.language import mark, phrase
from service.craft.tracks import Track
from service.look.printing import render_pdf
from workers.in_their_words import in_their_words
from workers.outlines.asked import AskedPiece, read_pieces, read_project, read_track
from workers.outlines.patch_plan import plan_patch_templates
from workers.outlines.template_drawing import (
    BIG_TITLE_MM,
    begin_page,
    draw_page,
    draw_square,
    write_lines,
)
from workers.outlines.template_marks import read_crossings
from workers.outlines.template_pages import PageSettings, arrange_pages, wrap_words
from workers.outlines.template_plan import Template, list_own, plan_templates
from workers.recipe import JobInput, MadeFile

PAGE_CSS = """
@page { size: A4; margin: 19mm 10mm }
html, body { margin: 0 }
section { break-after: page; height: 259mm }
section:last-child { break-after: auto }
svg { display: block }
"""

LIST_TOP_MM = 128.0
LIST_ROW_MM = 5.4

BEFORE_YOU_CUT = (
    mark(
        "Print this first page alone and measure the large square: 100 mm from line to line, both ways."
        " If it is not, look for a setting such as “actual size” or “scale 100 %” and print again."
    ),
    mark(
        "Every page carries a square of 50 mm and one of 1 in."
        " They are there to catch a page that was printed otherwise."
    ),
    mark("The pages fit A4 and Letter paper alike."),
    mark(
        "Scissors, iron and fusible web: follow the makers' instructions, and let fresh air in while you iron."
    ),
)


@in_their_words
def make_templates(job: JobInput) -> list[MadeFile]:
    """The templates of one track as a PDF; `CannotMake` where an outline is missing or too large to print."""
    project = read_project(job)
    track = read_track(job, project)
    pieces = read_pieces(job, project)
    settings = PageSettings()
    job.progress(0.2, "Laying templates on pages")
    crossings = read_crossings(job, track, [asked.piece.name for asked in pieces if not asked.public])
    pieces = _drawn_round(pieces, project, track)
    templates = [
        *plan_patch_templates(project),
        *plan_templates(pieces, project.applique, project.measure, crossings),
    ]
    pages = arrange_pages(templates, settings)
    own = list_own(project, pieces)
    lists = _list_pages(project, templates, own, settings)
    total = len(lists) + len(pages)
    sheets = [_first_page(project, lists[0], total, settings)]
    sheets += [_list_page(project, lines, n, total, settings) for n, lines in enumerate(lists[1:], start=2)]
    for n, page in enumerate(pages, start=len(lists) + 1):
        sheets.append(draw_page(page, _say_page(n, total), project.title, settings))
    job.progress(0.5, f"Printing {total} pages")
    name = f"templates-{track.slug}.pdf"
    data = render_pdf(
        _to_html(phrase("{project}: templates for {track}", project=project.title, track=track.name), sheets),
        lang=current_audience().language,
        identifier=f"{project.title}/{name}",
        css=PAGE_CSS,
        true_size=True,
    )
    job.progress(1.0, f"{len(templates)} templates on {total} pages")
    return [MadeFile(name, "application/pdf", data, "templates")]


def _drawn_round(pieces: list[AskedPiece], project: Project, track: Track) -> list[AskedPiece]:
    """The pieces that viewers of a track draw round."""
    if track.cutter is None:
        return pieces
    drawn = [*project.drawn_in_place(track), *project.pressed_over(track)]
    return [asked for asked in pieces if asked.piece in drawn]


def _to_html(title: str, sheets: Sequence[Sheet]) -> str:
    pages = "".join(f"<section>{sheet.to_svg()}</section>" for sheet in sheets)
    head = f"<head><title>{escape(title)}</title></head>"
    return f'<!DOCTYPE html><html lang="{current_audience().language}">{head}<body>{pages}</body></html>'


def _list_lines(project: Project, templates: Sequence[Template], own: Sequence[str]) -> list[str]:
    if not project.pieces and not templates:
        return [phrase("This project has no applique pieces, so there is nothing to trace.")]
    lines = [_list_line(template) for template in templates]
    if not templates:
        lines = [phrase("None of the outlines may be passed on, so there is nothing to trace here.")]
    for words in own:
        lines.append(
            phrase(
                "Bring your own: {outlines}. That outline belongs to somebody else and is not printed here.",
                outlines=words,
            )
        )
    return lines


def _list_line(template: Template) -> str:
    words = phrase("{title}: cut {cloths}", title=template.title, cloths=template.cloth_words)
    return f"{words} ({template.pieces})" if template.pieces else words


def _list_pages(
    project: Project, templates: Sequence[Template], own: Sequence[str], settings: PageSettings
) -> list[list[str]]:
    """The list, cut into what the first page holds below its square and what further pages hold."""
    wrapped = [
        line
        for text in _list_lines(project, templates, own)
        for line in _indented(wrap_words(text, settings.letter_mm, settings.width_mm - 4))
    ]
    bottom = settings.height_mm - settings.strip_mm
    first = int((bottom - LIST_TOP_MM) / LIST_ROW_MM)
    more = int((bottom - settings.header_mm - 8) / LIST_ROW_MM)
    rest = wrapped[first:]
    return [wrapped[:first], *(rest[i : i + more] for i in range(0, len(rest), more))]


def _indented(lines: list[str]) -> list[str]:
    return lines[:1] + [f"   {line}" for line in lines[1:]]


def _say_page(number: int, total: int) -> str:
    return phrase("page {number} of {total}", number=number, total=total)


def _first_page(project: Project, lines: Sequence[str], total: int, settings: PageSettings) -> Sheet:
    sheet = begin_page(
        phrase("{project}: test square of 100 mm", project=project.title),
        _say_page(1, total),
        project.title,
        settings,
    )
    draw_square(sheet, (1.0, 13.0), 100.0, phrase("test square, 100 mm: measure before you cut"))
    write_words(sheet, (108, 22), phrase("Templates"), BIG_TITLE_MM, weight=600)
    y = 32.0
    for text in BEFORE_YOU_CUT:
        lines_here = wrap_words(phrase(text), settings.letter_mm, settings.width_mm - 108)
        y = write_lines(sheet, (108, y), lines_here, settings, titled=False) + 2.5
    _write_list(sheet, lines, LIST_TOP_MM, settings)
    return sheet


def _list_page(project: Project, lines: Sequence[str], n: int, total: int, settings: PageSettings) -> Sheet:
    title = phrase("{project}: list of templates", project=project.title)
    sheet = begin_page(title, _say_page(n, total), project.title, settings)
    _write_list(sheet, lines, settings.header_mm + 8, settings)
    return sheet


def _write_list(sheet: Sheet, lines: Sequence[str], top: float, settings: PageSettings) -> None:
    write_words(sheet, (0, top - 5), phrase("On the pages of this file"), 4.2, weight=600)
    for i, line in enumerate(lines):
        at = (6.0 if line.startswith(" ") else 2.0, top + 1 + i * LIST_ROW_MM)
        write_words(sheet, at, line.strip(), settings.letter_mm)
