"""What a check found missing."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Finding:
    """One hole: the check that found it, its place (a JSON pointer of the document, or of a file made), what, and how.

    `where` begins with a file's name where the place is in a file: `steps-by-hand.json#/steps/3`.
    """

    check: str
    where: str
    detail: str
    right: str

    def __str__(self) -> str:
        return f"{self.where}: {self.detail}; what would be right: {self.right}"
