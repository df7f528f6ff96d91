"""Fill the templates and print them: everything escaped, true fractions, our own fonts."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Any

from jinja2 import DictLoader, Environment, StrictUndefined
from markupsafe import Markup, escape

from service.craft.audience import current_audience
from service.craft.drawing import draw_tick_box
from service.craft.language import phrase, phrase_count, say_number
from service.craft.tools import say_tool
from service.craft.tracks import Track
from service.look.fonts import SANS, SERIF
from service.look.fractions import FRACTION_CSS, mark_fractions
from service.look.palette import PRINT, format_css_variables
from service.look.printing import ASSET_BASE, render_pdf
from workers.handouts.papers import style_paper

LENGTH_MARK = '<span class="length">'
DRAWING = re.compile(r"<svg [^>]*?aria-label=(?P<words>\"[^\"]*\"|'[^']*')[^>]*>.*?</svg>\n?", re.DOTALL)


def print_page(
    template: str,
    identifier: str,
    fields: Mapping[str, Any],
    assets: Mapping[str, bytes] | None = None,
    *,
    track: Track | None = None,
) -> bytes:
    """One of our templates, filled and printed; `fields` is what it shows, `assets` the pictures it names.

    A `track` says which paper its readers print on, and how large.
    """
    language = current_audience().language
    html, drawings = lift_drawings(_environment().get_template(template).render(lang=language, **fields))
    pictures = {**drawings, **(assets or {})}
    paper = style_paper(track)
    css = f"{_style()}\n{_say_page()}\n{paper.css}"
    return render_pdf(html, lang=language, identifier=identifier, css=css, assets=pictures, zoom=paper.zoom)


def set_lengths(text: str) -> Markup:
    """The text with its lengths marked, each kept on one line with the word before it.

    The printer breaks a line after its first word where a text that just fills the line ends in a space; so the space
    stands inside the mark.

    >>> print(set_lengths("cut 2 in wide"))
    cut<span class="length"> 2 in</span> wide
    """
    return Markup(str(mark_fractions(text)).replace(f" {LENGTH_MARK}", f"{LENGTH_MARK} "))  # noqa: S704 - escaped there


def lift_drawings(html: str) -> tuple[str, dict[str, bytes]]:
    """The page with every drawing in it named as a picture, and the drawings by their names.

    A drawing that stands in the page itself is read as HTML and styled node by node, which takes longer than all
    the words; as pictures, equal drawings are also read once. Words from a document are escaped, so every `<svg` is
    ours.

    >>> page, drawings = lift_drawings('<p><svg aria-label="a &amp; b"><path/></svg></p>')
    >>> (name,) = drawings
    >>> page == f'<p><img src="shipped:assets/{name}" alt="a &amp; b"></p>'
    True
    """
    drawings: dict[str, bytes] = {}

    def name(found: re.Match[str]) -> str:
        data = found[0].encode()
        key = f"drawing-{hashlib.sha256(data).hexdigest()[:16]}.svg"
        drawings[key] = data
        return f'<img src="{ASSET_BASE}{key}" alt={found["words"]}>'

    return DRAWING.sub(name, html), drawings


@lru_cache(maxsize=1)
def _environment() -> Environment:
    folder = files("workers.handouts") / "templates"
    sources = {
        entry.name: entry.read_text(encoding="utf-8")
        for entry in folder.iterdir()
        if entry.name.endswith(".html")
    }
    environment = Environment(
        loader=DictLoader(sources),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters |= {"fractions": set_lengths, "fill": _fill}
    environment.globals |= {
        "phrase": phrase,
        "phrase_count": phrase_count,
        "say_number": say_number,
        "say_tool": say_tool,
        "tick_box": _tick_box,
    }
    return environment


def _tick_box() -> Markup:
    return Markup(draw_tick_box())  # noqa: S704 - our own drawing


def _fill(said: str, **values: object) -> Markup:
    """What was said, escaped, with its places filled; values that are set already stay as they are."""
    return escape(said).format(**values)


def _say_page() -> str:
    """How the foot of a page counts it, as a rule: only the printer knows how many pages there are."""
    words = phrase("{page} of {pages}", page='" counter(page) "', pages='" counter(pages) "')
    return f'@page {{ @bottom-right {{ content: "{words}"; }} }}'


@lru_cache(maxsize=1)
def _style() -> str:
    sheet = (files("workers.handouts") / "templates" / "print.css").read_text(encoding="utf-8")
    return f":root {{ {format_css_variables(PRINT)} --sans: {SANS}; --serif: {SERIF}; }}\n{FRACTION_CSS}\n{sheet}"
