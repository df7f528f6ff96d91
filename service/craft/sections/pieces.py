"""Reads the applique pieces of a document, and which lies above which."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from service.craft.fabric import WHITE, Thread
from service.craft.faults import show, suggest
from service.craft.pieces import EDGES, TURNED, Piece
from service.craft.reading import Reader, at
from service.craft.sections.stitching import read_details, read_split, read_stitching
from service.craft.stacking import find_circle
from service.craft.stitching import Stitching

PIECE_FIELDS = frozenset(
    [
        *("name", "outline", "fabric", "at", "turn", "mirror", "scale", "above", "edge", "thread"),
        *("stitching", "details", "split"),
    ]
)
MOST_PIECES = 2000


@dataclass(frozen=True)
class _NameTag:
    """What a piece is called and which names it lies above (with their place in the list), sound or not."""

    pointer: str
    name: str
    above: tuple[tuple[int, str], ...]


def read_pieces(raw: Mapping[str, Any], reader: Reader) -> tuple[Piece, ...]:
    """The applique pieces in the document's order."""
    listed = reader.sequence(raw.get("pieces", []), "/pieces", 'the list "pieces"') or []
    if len(listed) > MOST_PIECES:
        reader.fault(
            "/pieces", f"there are more than {MOST_PIECES} pieces", "fewer pieces, or several projects"
        )
        return ()
    common = read_stitching(raw, "", reader)
    pieces = [_read_piece(entry, at("/pieces", i), reader, common) for i, entry in enumerate(listed)]
    _check_names([_name_tag(entry, at("/pieces", i)) for i, entry in enumerate(listed)], reader)
    return tuple(piece for piece in pieces if piece is not None)


def _read_piece(raw: Any, pointer: str, reader: Reader, common: Stitching) -> Piece | None:
    fields = reader.mapping(raw, pointer, "a piece")
    if fields is None:
        return None
    reader.known_fields(fields, pointer, PIECE_FIELDS)
    name, outline = reader.name(fields, "name", pointer), reader.name(fields, "outline", pointer)
    fabric = reader.fabric(fields, "fabric", pointer, "the piece")
    place = _read_place(fields, pointer, reader)
    turn = reader.number(
        fields, "turn", pointer, default=Fraction(0), least=Fraction(-360), most=Fraction(360)
    )
    scale = reader.number(
        fields, "scale", pointer, default=Fraction(1), least=Fraction(1, 100), most=Fraction(100)
    )
    mirror = reader.flag(fields, "mirror", pointer)
    edge = _read_edge(fields, fabric, pointer, reader)
    above = reader.texts(fields.get("above", []), at(pointer, "above"), 'the list "above"')
    thread = _read_thread(fields, pointer, reader)
    stitching = read_stitching(fields, pointer, reader).over(common)
    details = read_details(fields, pointer, reader)
    split = read_split(fields, pointer, reader)
    if name is None or outline is None or fabric is None or place is None:
        return None
    return Piece(
        pointer,
        name,
        outline,
        fabric,
        place,
        turn,
        mirror,
        scale,
        above,
        edge,
        thread,
        stitching,
        details,
        split,
    )


def _read_edge(raw: Mapping[str, Any], fabric: str | None, pointer: str, reader: Reader) -> str:
    """How the edge is finished. What is trimmed once it is sewn down has no allowance left to turn under."""
    edge = reader.choice(raw, "edge", pointer, EDGES, EDGES[0])
    cloth = reader.fabrics.get(fabric or "")
    if edge == TURNED and cloth is not None and cloth.trim_in_place:
        detail = f'an edge is not turned on "{cloth.name}", which is trimmed in place'
        words = " or ".join(f'"{other}"' for other in EDGES if other != TURNED)
        reader.fault(at(pointer, "edge"), detail, f"{words}; or a cloth that is cut on the mat")
    return edge


def _read_place(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[Fraction, Fraction] | None:
    pair = raw.get("at")
    if not isinstance(pair, list) or len(pair) != 2:
        where = at(pointer, "at") if "at" in raw else pointer
        reader.fault(
            where,
            'the place "at" is missing or not a pair',
            '[x, y] from the top left corner, for example ["4", "2"]',
        )
        return None
    x = reader.length(pair[0], at(pointer, "at", 0), "the place across", zero=True)
    y = reader.length(pair[1], at(pointer, "at", 1), "the place down", zero=True)
    return None if x is None or y is None else (x, y)


def _read_thread(raw: Mapping[str, Any], pointer: str, reader: Reader) -> Thread:
    where = at(pointer, "thread")
    if raw.get("thread") is None:
        return WHITE
    fields = reader.mapping(raw["thread"], where, "the thread")
    if fields is None:
        return WHITE
    return Thread(reader.name(fields, "name", where) or "", reader.colour(fields, where, "#ffffff"))


def _name_tag(raw: Any, pointer: str) -> _NameTag:
    """The names of a piece as far as they are names: a piece with another fault still has them checked."""
    fields = raw if isinstance(raw, Mapping) else {}
    name, above = fields.get("name"), fields.get("above")
    named = enumerate(above if isinstance(above, list) else [])
    return _NameTag(
        pointer,
        name if isinstance(name, str) and name.strip() else "",
        tuple((j, other) for j, other in named if isinstance(other, str)),
    )


def _check_names(tags: list[_NameTag], reader: Reader) -> None:
    """Names are given once, `above` names other pieces, and nothing lies above itself by way of others."""
    names = dict.fromkeys(tag.name for tag in tags if tag.name)
    seen: set[str] = set()
    for tag in tags:
        if tag.name in seen:
            where = at(tag.pointer, "name")
            reader.fault(where, f"two pieces are called {show(tag.name)}", "a name of its own for each")
        seen |= {tag.name} - {""}
        for j, other in tag.above:
            if other not in names:
                detail = f"the piece lies above {show(other)}, which is not among the pieces"
                others = [name for name in names if name != tag.name]
                reader.fault(at(tag.pointer, "above", j), detail, suggest(other, others))
    _check_circle(tags, reader)


def _check_circle(tags: list[_NameTag], reader: Reader) -> None:
    circle = find_circle({tag.name: [other for _, other in tag.above] for tag in tags if tag.name})
    if circle:
        first = next(tag for tag in tags if tag.name == circle[0])
        detail = "these pieces lie above each other in a circle: " + ", ".join(map(show, circle))
        reader.fault(at(first.pointer, "above"), detail, "an order from the lowest piece up")
