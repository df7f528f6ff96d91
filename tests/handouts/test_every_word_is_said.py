"""Nothing that viewers read escapes the catalogues: in a language of brackets, no word stands outside of them.

Every message is translated into itself in brackets. What is left outside is the maker's own, a number, a file's name,
or a word that no translator would ever see.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from service.craft.language import words
from service.craft.outlines import read_svg, to_json
from service.craft.sections import publishing
from workers.cutting.recipe import make_cutting_plan
from workers.handouts import pages
from workers.handouts.recipe import make_colourways, make_handout, make_run_sheet
from workers.outlines import templates
from workers.outlines.cut_files import make_cut_files
from workers.outlines.templates import make_templates
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.sewing.steps.terms import EXPLANATIONS
from workers.stitches.recipe import make_stitches

MONTHS = sorted((Path(__file__).parents[2] / "seed_data").glob("2027-*"))
OPEN, CLOSE = "\N{MATHEMATICAL LEFT WHITE SQUARE BRACKET}", "\N{MATHEMATICAL RIGHT WHITE SQUARE BRACKET}"
BRACKETS = "eo"
"""A language of the Unicode CLDR that has no catalogue here."""

WORD = re.compile(r"[A-Za-z]{3,}")
FILE_OR_PAGE = re.compile(r"\S+\.(?:svg|dxf|dst|pdf|png|json|txt|zip)\b|\S+\.example/\S+")
BLOCKS = re.compile(
    r"<(style|title)\b.*?</\1>|</?(?:p|li|td|th|div|h\d|section|figcaption|dt|dd|br)\b[^>]*>", re.DOTALL
)
LINES = re.compile(r"</?text\b[^>]*>")
TAGS = re.compile(r"<[^>]*?\balt=\"([^\"]*)\"[^>]*>|<[^>]*>", re.DOTALL)
PLACE = re.compile(r"{\w+[^}]*}")
PATTERNS = {looks for looks, _ in EXPLANATIONS.values()}
"""What finds trade words in texts is read by nobody."""


class Brackets:
    """A catalogue that says every message with a word in it in brackets; patterns stay what they are."""

    def gettext(self, message: str) -> str:
        has_words = WORD.search(PLACE.sub("", message))
        return f"{OPEN}{message}{CLOSE}" if has_words and message not in PATTERNS else message

    def ngettext(self, one: str, many: str, number: int) -> str:
        return self.gettext(one if number == 1 else many)


@pytest.fixture
def printed(monkeypatch: pytest.MonkeyPatch) -> list[bytes]:
    """What is printed, as HTML, and every picture in it; nothing is rendered."""
    seen: list[bytes] = []

    def keep(page: str, *, assets: dict[str, bytes] | None = None, **_: Any) -> bytes:
        seen.append(page.encode())
        seen.extend(data for name, data in (assets or {}).items() if name.endswith(".svg"))
        return b"%PDF"

    translate = words._translate
    monkeypatch.setattr(words, "_translate", lambda tag: Brackets() if tag == BRACKETS else translate(tag))
    monkeypatch.setattr(publishing, "LANGUAGES", (*words.LANGUAGES, BRACKETS))
    for room in (pages, templates):
        monkeypatch.setattr(room, "render_pdf", keep)
    return seen


def load(month: Path) -> tuple[dict[str, Any], dict[str, Any]]:
    document = json.loads((month / "project.json").read_text())
    return {**document, "language": BRACKETS}, {
        p.name: to_json(read_svg(p.read_bytes(), p.name)) for p in month.glob("*.svg")
    }


def own_words(value: Any) -> Iterator[str]:
    """Every text and every key of the maker's document, a name also as a title begins."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from (key, *own_words(inner))
    elif isinstance(value, list):
        for inner in value:
            yield from own_words(inner)
    elif isinstance(value, str):
        yield from (value, value[:1].upper() + value[1:])


def outside(text: str, own: list[str]) -> set[str]:
    """The words of a text that stand in no brackets and are not the maker's, each with what stands beside it."""
    deep, left = 0, []
    for sign in text:
        deep += (sign == OPEN) - (sign == CLOSE)
        left.append(sign if not deep and sign != CLOSE else "\n")
    assert deep == 0
    rest = FILE_OR_PAGE.sub("\n", "".join(left))
    for said in own:
        rest = rest.replace(said, "\n")
    return {line.strip() for line in rest.split("\n") if WORD.search(line)}


def read(data: bytes) -> str:
    """The text of a page or a picture, with what is read aloud in place of pictures; wrapped lines as one."""
    parted = LINES.sub(" ", BLOCKS.sub("\n", " ".join(data.decode().split())))
    return re.sub(" +", " ", html.unescape(TAGS.sub(lambda tag: f"\n{tag[1]}\n" if tag[1] else "", parted)))


@pytest.mark.parametrize("month", MONTHS, ids=lambda month: month.name)
def test_no_word_of_what_is_printed_escapes_the_catalogues(month: Path, printed: list[bytes]) -> None:
    document, outlines = load(month)
    job = JobInput("any", document, outlines)
    made = {
        file.name: file.data
        for recipe in (make_cutting_plan, make_sewing_plan, make_stitches, make_cut_files)
        for file in recipe(job)
    }
    for track in document["tracks"]:
        for recipe in (make_templates, make_handout):
            recipe(JobInput("any", document, outlines, inputs=made, track=track["name"]))
    texts = [
        file.data.decode()
        for recipe in (make_run_sheet, make_colourways)
        for file in recipe(JobInput("any", document, outlines, inputs=made))
        if file.media_type == "text/plain"
    ]
    texts += [read(data) for data in printed]
    own = sorted({said for said in own_words([document, outlines]) if len(said) > 2}, key=len, reverse=True)
    assert sum(text.count(OPEN) for text in texts) > 1000
    assert {left for text in texts for left in outside(text, own)} == set()
