"""Says a text in the language of its audience (`service.craft.audience`).

Catalogues are gettext's: `catalogues/<language>/<room>.po`, a message in English with what stands for it. `make docs`
collects the messages from the code and keeps what is translated. A message that no catalogue has stays English.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from gettext import GNUTranslations, NullTranslations
from importlib.resources import files
from io import BytesIO

from babel import Locale
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from service.craft.audience import ENGLISH, current_audience

CATALOGUES = files("service.craft.language") / "catalogues"
LANGUAGES = (ENGLISH, "nl")
"""What words may be written in, by their tags (RFC 5646); the first is the default."""


def mark(message: str) -> str:
    """The message as it is, for the catalogues: a constant that is said later, with `phrase`."""
    return message


def phrase(message: str, /, **values: object) -> str:
    """The message in the language of who reads, each `{name}` in it filled with its value; nothing stays nothing.

    >>> phrase("Cut {count} strips.", count=3), phrase("")
    ('Cut 3 strips.', '')
    """
    if not message:  # gettext keeps the header of its catalogue there
        return ""
    said = _translate(current_audience().language).gettext(message)
    return said.format(**values) if values else said


def phrase_count(one: str, many: str, number: int, /, **values: object) -> str:
    """One message or the other, by the number and the rules of the language; `{number}` is filled with it.

    >>> phrase_count("{number} strip", "{number} strips", 1), phrase_count("{number} strip", "{number} strips", 3)
    ('1 strip', '3 strips')
    """
    said = _translate(current_audience().language).ngettext(one, many, number)
    return said.format(number=number, **values)


def join_words(words: Iterable[str]) -> str:
    """Several words as a list in a sentence; nothing of none.

    >>> join_words(["leeks"]), join_words(["leeks", "beans"]), join_words(["leeks", "beans", "kale"]), join_words([])
    ('leeks', 'leeks and beans', 'leeks, beans and kale', '')
    """
    listed = list(words)
    if len(listed) < 2:
        return "".join(listed)
    return phrase("{first} and {last}", first=", ".join(listed[:-1]), last=listed[-1])


def decimal_mark() -> str:
    """What stands between whole and tenths: a point, or a comma."""
    return str(Locale.parse(current_audience().language).number_symbols["latn"]["decimal"])


def say_number(value: float, form: str = "g") -> str:
    """A number in figures as `format` writes it by `form`, with the decimal mark of the language.

    >>> say_number(12.0), say_number(2.54, ".1f")
    ('12', '2.5')
    """
    return format(value, form).replace(".", decimal_mark())


@cache
def _translate(language: str) -> NullTranslations:
    """The catalogues of all rooms as one."""
    if language == ENGLISH:
        return NullTranslations()
    whole = Catalog(locale=language)
    for room in sorted((CATALOGUES / language).iterdir(), key=lambda file: file.name):
        with room.open("rb") as stored:
            for message in read_po(stored, locale=language, abort_invalid=True):
                if message.id:
                    whole.add(message.id, message.string)
    compiled = BytesIO()
    write_mo(compiled, whole)
    compiled.seek(0)
    return GNUTranslations(compiled)
