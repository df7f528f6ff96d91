"""Fill the templates and print them: everything escaped, true fractions, our own fonts."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Any

from jinja2 import DictLoader, Environment, StrictUndefined
from markupsafe import Markup

from service.craft.drawing import draw_tick_box
from service.look.fonts import SANS, SERIF
from service.look.fractions import FRACTION_CSS, mark_fractions
from service.look.palette import PRINT, format_css_variables
from service.look.printing import render_pdf

LANGUAGE = "en"


def print_page(
    template: str, identifier: str, fields: Mapping[str, Any], assets: Mapping[str, bytes] | None = None
) -> bytes:
    """One of our templates, filled and printed; `fields` is what it shows, `assets` the pictures it names."""
    html = _environment().get_template(template).render(**fields)
    return render_pdf(html, lang=LANGUAGE, identifier=identifier, css=_style(), assets=assets)


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
    environment.filters["fractions"] = mark_fractions
    environment.globals["tick_box"] = Markup(draw_tick_box())  # noqa: S704 - our own drawing
    environment.globals["lang"] = LANGUAGE
    return environment


@lru_cache(maxsize=1)
def _style() -> str:
    sheet = (files("workers.handouts") / "templates" / "print.css").read_text(encoding="utf-8")
    return f":root {{ {format_css_variables(PRINT)} --sans: {SANS}; --serif: {SERIF}; }}\n{FRACTION_CSS}\n{sheet}"
