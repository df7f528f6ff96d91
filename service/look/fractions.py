"""Set lengths as the trade writes them: 3 7/8 with a true fraction, in print and on a page.

Only the fraction is marked for diagonal fractions, never the whole number before it: with the mark on
both, or with a face that knows only ½, "3 7/8" comes out as 37/8, and somebody cuts that. The space between
stays a plain space, set thin, so that copied and searched text still reads "3 7/8".
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from unicodedata import normalize

from markupsafe import Markup, escape

FRACTION_CSS = (
    ".length, .mixed { white-space: nowrap; } .mixed { word-spacing: -0.07em; } "
    ".fraction { font-variant-numeric: diagonal-fractions; }"
)
"""The style that the marked-up lengths need."""

_VULGAR = re.compile(r"(\d?)([¼½¾⅐-⅞])")

_LENGTH = re.compile(
    r"(?<![\d./⁄])"
    r"(?:(?:(?P<whole>\d+)[ \u00a0\u2009-])?(?P<top>\d{1,2})/(?P<bottom>2|3|4|5|6|8|10|16|32|64)"
    r"|(?P<plain>\d+(?:[.,]\d+)?))"
    r"(?![\d/⁄]|[.,]\d)"
    r"(?:[ \u00a0](?P<unit>inch|in|mm|cm|yd|m)\b)?"
)


@dataclass(frozen=True)
class Length:
    """A length in running text: whole number, numerator and denominator, unit; empty where not written."""

    whole: str
    numerator: str
    denominator: str
    unit: str


def split_lengths(text: str) -> Iterator[str | Length]:
    """The text in order, as plain strings and the lengths between them; ⅞ is read as 7/8.

    Numbers without a fraction count as lengths only with a unit behind them. Tenths may stand behind a comma, and
    inches be written out, as some languages have it.

    >>> list(split_lengths("Cut 3 7/8 in wide"))
    ['Cut ', Length(whole='3', numerator='7', denominator='8', unit='in'), ' wide']
    >>> list(split_lengths("on 20/01/2027, 4 of them"))
    ['on 20/01/2027, 4 of them']
    >>> [length.whole + length.unit for length in split_lengths("31,8 cm")]
    ['31,8cm']
    """
    text = _VULGAR.sub(_spell_vulgar, text)
    done = 0
    for found in _LENGTH.finditer(text):
        if found["plain"] and not found["unit"]:
            continue
        if found.start() > done:
            yield text[done : found.start()]
        whole = found["plain"] or found["whole"] or ""
        yield Length(whole, found["top"] or "", found["bottom"] or "", found["unit"] or "")
        done = found.end()
    if done < len(text):
        yield text[done:]


def mark_fractions(text: str) -> Markup:
    """The text as HTML, escaped, with every length kept on one line and its fraction set as one.

    >>> print(mark_fractions("3 7/8 in"))
    <span class="length"><span class="mixed">3 <span class="fraction">7/8</span></span> in</span>
    """
    return Markup("").join(
        _mark_length(part) if isinstance(part, Length) else escape(part) for part in split_lengths(str(text))
    )


def _mark_length(length: Length) -> Markup:
    number = escape(length.whole)
    if length.numerator:
        fraction = Markup('<span class="fraction">{}/{}</span>').format(length.numerator, length.denominator)
        number = (
            Markup('<span class="mixed">{} {}</span>').format(length.whole, fraction)
            if length.whole
            else fraction
        )
    unit = Markup(" {}").format(length.unit) if length.unit else Markup("")
    return Markup('<span class="length">{}{}</span>').format(number, unit)


def _spell_vulgar(found: re.Match[str]) -> str:
    spelt = normalize("NFKC", found[2]).replace("⁄", "/")
    return f"{found[1]} {spelt}" if found[1] else spelt
