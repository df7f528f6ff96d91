"""Words for their readers: whatever a viewer reads is said here, in English or as a catalogue has it."""

from service.craft.audience import ENGLISH
from service.craft.language.words import (
    LANGUAGES,
    decimal_mark,
    join_words,
    mark,
    phrase,
    phrase_count,
    say_number,
)

__all__ = [
    "ENGLISH",
    "LANGUAGES",
    "decimal_mark",
    "join_words",
    "mark",
    "phrase",
    "phrase_count",
    "say_number",
]
