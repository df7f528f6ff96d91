"""Print HTML to PDF: our own fonts, nothing fetched from anywhere, the same bytes for the same input.

WeasyPrint sets no dates of its own when the page names none, and numbers its fonts by what they are, so a
fixed identifier is all it takes to make two runs equal.
"""

from __future__ import annotations

import gc
import re
from base64 import b64decode
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from io import BytesIO

import pydyf  # type: ignore[import-untyped]
from fontTools.ttLib import woff2
from weasyprint import CSS, HTML
from weasyprint.css.counters import CounterStyle
from weasyprint.document import Document
from weasyprint.html import UA
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import URLFetcher, URLFetcherResponse

from service.look.fonts import FACES, font_css, read_font
from service.look.pictures import take_pictures

FONT_BASE = "shipped:fonts/"
"""Where `@font-face` rules of printed pages point: served from our own files, by the fetcher below."""

VARIANT = "pdf/ua-1"

NOTES = re.compile(r"^::(?:foot)?note-.*$", re.MULTILINE)
"""Rules of the printer's own style for notes, on every element."""

ASSET_BASE = "shipped:assets/"
"""Where a printed page finds the pictures handed to `render_pdf`."""


PHOTOGRAPH = "data:image/jpeg;base64,"
"""How a photograph that stands in a drawing itself begins; drawings are ours."""


class PrintError(ValueError):
    """A page asked for something that is not shipped with it; `addresses` lists what."""

    def __init__(self, addresses: tuple[str, ...]) -> None:
        super().__init__(
            f"a printed page may use only what comes with it, and asked for {', '.join(addresses)}"
        )
        self.addresses = addresses


class ShippedOnly(URLFetcher):  # type: ignore[misc]  # WeasyPrint has no types
    """Serves our fonts and the pictures given, refuses every other address, and remembers what it refused."""

    def __init__(self, assets: Mapping[str, bytes]) -> None:
        super().__init__(allowed_protocols=("shipped",), allow_redirects=False)
        self._served = {f"{ASSET_BASE}{name}": data for name, data in assets.items()}
        self._fonts = {f"{FONT_BASE}{face.file_name}": face.file_name for face in FACES}
        self.refused: list[str] = []

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
        """The bytes at one of our own addresses; anything else is a `ValueError` and remembered."""
        if url.startswith(PHOTOGRAPH):
            return URLFetcherResponse(url, b64decode(url[len(PHOTOGRAPH) :]), {"Content-Type": "image/jpeg"})
        if url in self._fonts:
            return URLFetcherResponse(url, _unpack_font(self._fonts[url]), {"Content-Type": "font/otf"})
        if url in self._served:
            return URLFetcherResponse(url, self._served[url], {})
        self.refused.append(url)
        raise ValueError(f"refused: {url}")


class _Sheet(HTML):  # type: ignore[misc]  # WeasyPrint has no types
    """A page whose elements have no footnotes, and markers in lists alone.

    The printer's own style gives every element on the page five such things to work out.
    """

    def _ua_stylesheets(self, forms: bool = False) -> list[CSS]:
        return [_read_plain_style()]


@lru_cache(maxsize=1)
def _read_plain_style() -> CSS:
    plain = NOTES.sub("", UA).replace("::marker", "li::marker")
    # a register of its own: in the printer's, its counters stand already, and a second time they are faults
    return CSS(string=plain, counter_style=CounterStyle())


def _lay_out(html: str, css: str, fetcher: ShippedOnly, assets: Mapping[str, bytes]) -> Document:
    fonts = FontConfiguration()
    pictures = {f"{ASSET_BASE}{name}": picture for name, picture in take_pictures(assets, fonts).items()}
    sheets = [
        CSS(string=text, font_config=fonts, url_fetcher=fetcher, base_url=ASSET_BASE)
        for text in (font_css(FONT_BASE), css)
        if text
    ]
    return _Sheet(string=html, url_fetcher=fetcher, base_url=ASSET_BASE).render(
        stylesheets=sheets, font_config=fonts, pdf_variant=VARIANT, cache=pictures
    )


@lru_cache(maxsize=len(FACES))
def _unpack_font(file_name: str) -> bytes:
    """A font without its compression: unpacked once here, instead of once a document by the printer."""
    unpacked = BytesIO()
    woff2.decompress(BytesIO(read_font(file_name)), unpacked)
    return unpacked.getvalue()


def render_pdf(
    html: str,
    *,
    lang: str,
    identifier: str,
    css: str = "",
    assets: Mapping[str, bytes] | None = None,
    true_size: bool = False,
    zoom: float = 1.0,
) -> bytes:
    """A tagged PDF (PDF/UA-1 structure, as far as WeasyPrint goes) of a whole HTML page.

    `html` names its title in `<title>`; `identifier` is what the file is, in words, and becomes the PDF's
    id; `assets` are pictures that the page names as `shipped:assets/<name>`. With `true_size`, readers are
    asked to print without scaling (/PrintScaling /None). `zoom` enlarges the pages with all that is on them. A
    `PrintError` names any other address asked for.
    """
    with _uncollected():
        return _print(html, css, assets or {}, lang, identifier, true_size=true_size, zoom=zoom)


@contextmanager
def _uncollected() -> Iterator[None]:
    """Without looking for garbage in between.

    A page is laid out as hundreds of thousands of objects that all stay until it is printed: looking through them
    again and again took a fifth of the time, and found next to nothing.
    """
    wanted = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if wanted:
            gc.enable()


def _print(
    html: str,
    css: str,
    assets: Mapping[str, bytes],
    lang: str,
    identifier: str,
    *,
    true_size: bool,
    zoom: float,
) -> bytes:
    fetcher = ShippedOnly(assets)
    document = _lay_out(html, css, fetcher, assets)

    def finish(_document: Document, pdf: pydyf.PDF) -> None:
        pdf.catalog["Lang"] = pydyf.String(lang)
        preferences = pydyf.Dictionary({"DisplayDocTitle": "true"})
        if true_size:
            preferences["PrintScaling"] = "/None"
        pdf.catalog["ViewerPreferences"] = preferences

    data: bytes = document.write_pdf(
        zoom=zoom, finisher=finish, pdf_variant=VARIANT, pdf_identifier=identifier.encode()
    )
    if fetcher.refused:
        raise PrintError(tuple(dict.fromkeys(fetcher.refused)))
    return data
