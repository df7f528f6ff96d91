"""Collects the messages of the code and its templates into the catalogues of words; `make docs` runs it.

What is translated is kept, what nothing says any more is taken out, and what is new stands there empty. A message of
several rooms stands in the catalogue of the first of them.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from service.craft.language import ENGLISH, LANGUAGES

ROOT = Path(__file__).parents[1]
CATALOGUES = ROOT / "service" / "craft" / "language" / "catalogues"
ROOMS = {
    "craft": "service/craft",
    "look": "service/look",
    "outlines": "workers/outlines",
    "stitches": "workers/stitches",
    "cutting": "workers/cutting",
    "shopping": "workers/shopping",
    "scenes": "workers/sewing/steps/scenes",
    "steps": "workers/sewing/steps",
    "sewing": "workers/sewing",
    "completeness": "workers/completeness",
    "handouts": "workers/handouts",
    "studio": "service/studio",
}
"""What has a catalogue of its own, and the folder whose messages it holds."""

KEYWORDS = {"phrase": None, "mark": None, "phrase_count": (1, 2)}
HEADER = """msgid ""
msgstr ""
"Language: {language}\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"Plural-Forms: {plurals}\\n"

"""
METHODS = [("**.py", "python"), ("**.html", "jinja2.ext:babel_extract")]


def collect() -> Iterator[tuple[str, Catalog]]:
    """Every message that the code says, by room, with the files that say it."""
    known: set[object] = set()
    for room, folder in ROOMS.items():
        found = Catalog(charset="utf-8", fuzzy=False)
        for name, _, message, notes, context in extract_from_dir(ROOT / folder, METHODS, keywords=KEYWORDS):
            if message not in known:
                found.add(message, locations=[(f"{folder}/{name}", 0)], auto_comments=notes, context=context)
        known |= {message.id for message in found}
        yield room, found


def read_catalogue(language: str, room: str) -> Catalog:
    """A language's catalogue of a room as it is stored; empty where there is none."""
    path = CATALOGUES / language / f"{room}.po"
    if not path.exists():
        return Catalog(locale=language, charset="utf-8")
    with path.open("rb") as stored:
        return read_po(stored, locale=language)


def read_all(language: str) -> dict[object, object]:
    """What every stored message is in a language, whatever its room."""
    return {
        message.id: message.string
        for room in ROOMS
        for message in read_catalogue(language, room)
        if message.id
    }


def write_catalogue(language: str, room: str, catalogue: Catalog) -> None:
    """Stores a catalogue: the header without dates and names, so that it changes only where words do."""
    with (CATALOGUES / language / f"{room}.po").open("wb") as out:
        out.write(HEADER.format(language=language, plurals=catalogue.plural_forms).encode())
        write_po(out, catalogue, width=110, sort_output=True, include_lineno=False, omit_header=True)


def bring_up_to_date(language: str) -> Iterator[tuple[str, Catalog]]:
    """A language's catalogues with the messages of today; no translation is guessed from one that looks like it."""
    stored = read_all(language)
    for room, found in collect():
        catalogue = Catalog(locale=language, charset="utf-8", fuzzy=False)
        for message in found:
            if message.id:
                said = stored.get(message.id, "")
                catalogue.add(message.id, said, message.locations, auto_comments=message.auto_comments)
        if len(catalogue):
            yield room, catalogue


def main(languages: tuple[str, ...]) -> None:
    """Writes the catalogues of some languages."""
    for language in languages:
        made = dict(bring_up_to_date(language))
        for path in (CATALOGUES / language).glob("*.po"):
            if path.stem not in made:
                path.unlink()
        for room, catalogue in made.items():
            write_catalogue(language, room, catalogue)


if __name__ == "__main__":
    main(tuple(sys.argv[1:]) or tuple(tag for tag in LANGUAGES if tag != ENGLISH))
