"""Faults: what is wrong with a document, where, and what would be right."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass


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
    """Which of the known words was meant, in words; else all of them."""
    words = list(known)
    if not words:
        return "none is defined yet"
    close = difflib.get_close_matches(word, words, n=1, cutoff=0.6)
    return f'did you mean "{close[0]}"?' if close else "one of: " + ", ".join(words[:20])
