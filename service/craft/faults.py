"""Faults: what is wrong with a document, where, and what would be right."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

LONGEST_SHOWN = 80
LONGEST_COMPARED = 80
MOST_COMPARED = 200
"""Beyond these nobody is helped by a guess at what was meant, and guessing costs time."""


@dataclass(frozen=True)
class Fault:
    """One fault. `pointer` is a JSON pointer (RFC 6901) into the document; `right` says what would be right."""

    pointer: str
    detail: str
    right: str = ""

    def to_json(self) -> dict[str, str]:
        """The fault as it stands in an answer."""
        return {"pointer": self.pointer, "detail": self.detail, "right": self.right}


class DocumentFaults(Exception):
    """A document that cannot be sewn as it stands, with every fault found in it."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(f"{f.pointer or '/'}: {f.detail}" for f in self.faults))


def escape_token(token: str) -> str:
    """A key as one step of a JSON pointer (RFC 6901, section 3).

    >>> escape_token("a/b~c")
    'a~1b~0c'
    """
    return token.replace("~", "~0").replace("/", "~1")


def suggest(word: str, known: Iterable[str]) -> str:
    """Which of the known words was meant, in words; else all of them.

    >>> suggest("Patch", ["patch", "half-square triangle"]), suggest("HST", ["patch", "half-square triangle"])
    ('did you mean "patch"?', 'did you mean "half-square triangle"?')
    """
    words = list(known)[:MOST_COMPARED]
    if not words:
        return "none is defined yet"
    meant = _find_meant(word[:LONGEST_COMPARED], words)
    return f'did you mean "{meant}"?' if meant else "one of: " + ", ".join(w[:80] for w in words[:20])


def _find_meant(word: str, words: list[str]) -> str | None:
    """The known word that is nearest, capitals aside, or whose first letters are the word ("hst")."""
    lowered = {w.lower(): w for w in reversed(words)}
    close = difflib.get_close_matches(word.lower(), lowered, n=1, cutoff=0.6)
    if close:
        return lowered[close[0]]
    initials = {"".join(part[0] for part in re.split("[ -]+", w) if part).lower(): w for w in reversed(words)}
    return initials.get(word.lower()) if len(word) > 1 else None


def describe(raw: Any) -> str:
    """What kind of JSON value it is, in words.

    >>> describe([]), describe(None), describe(1.5)
    ('a list', 'missing', 'a number')
    """
    kinds: tuple[tuple[Any, str], ...] = (
        (bool, "true or false"),
        (str, "text"),
        (int | float, "a number"),
        (list, "a list"),
        (Mapping, "an object"),
    )
    for kind, words in kinds:
        if isinstance(raw, kind):
            return words
    return "missing" if raw is None else "something else"


def show(raw: Any) -> str:
    """A JSON value in a sentence: text in quotes and cut short, numbers as they are, the rest by its kind.

    >>> show("leek"), show(True), show({"a": 1}), show(None)
    ('"leek"', 'true', 'an object', 'nothing')
    """
    if isinstance(raw, str):
        return f'"{raw}"' if len(raw) <= LONGEST_SHOWN else f'"{raw[:LONGEST_SHOWN]}…"'
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, int) and abs(raw) >= 10**LONGEST_SHOWN:
        return "a number beyond measure"
    if isinstance(raw, int | float):
        return repr(raw)
    return "nothing" if raw is None else describe(raw)
