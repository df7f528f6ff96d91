"""Whose the outlines are: what a release needs to know before anything of it leaves the studio."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from service.craft.faults import Fault
from service.craft.finish import RIGHTS, Source
from service.craft.pieces import Piece

STATE_IT = "an entry in `sources` that covers it, with its rights: " + ", ".join(
    f'"{word}"' for word in RIGHTS
)


def find_unstated(pieces: Iterable[Piece], sources: Iterable[Source]) -> Iterator[Fault]:
    """Outline files that no source covers, each once, at the first piece that uses it.

    >>> list(find_unstated([], []))
    []
    """
    sources, named = tuple(sources), set()
    for piece in pieces:
        name = piece.outline_file.removesuffix(".svg")
        if name in named or any(source.covers_outline(piece.outline) for source in sources):
            continue
        named.add(name)
        yield Fault(
            f"{piece.pointer}/outline",
            f'no source says whose outline "{piece.outline_file}" is; nothing is released before one does',
            STATE_IT,
        )


def find_held_back(pieces: Iterable[Piece], then: Iterable[Source], now: Iterable[Source]) -> Iterator[Piece]:
    """The pieces that might leave by the sources `then`, and that viewers must own by those of `now`."""
    then, now = tuple(then), tuple(now)
    return (piece for piece in pieces if _may_leave(piece, then) and not _may_leave(piece, now))


def _may_leave(piece: Piece, sources: Iterable[Source]) -> bool:
    return all(source.may_leave for source in sources if source.covers_outline(piece.outline))
