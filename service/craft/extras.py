"""Reads what stands round the top in a document: cloth, pieces, finish, colourways, tracks, parts, sources."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.fabric import TRIM_IN_PLACE, WHITE, Fabric, StashPiece, Thread
from service.craft.faults import show, suggest
from service.craft.finish import (
    BINDING_CUTS,
    CHAPTERS,
    RIGHTS,
    STRAIGHT,
    Backing,
    Binding,
    Colourway,
    Finish,
    Part,
    Source,
)
from service.craft.pieces import EDGES, Piece
from service.craft.reading import Reader, at
from service.craft.stacking import find_circle
from service.craft.tracks import Track, parse_equipment

FABRIC_FIELDS = frozenset(
    ["name", "colour", "usable_width", "directional", "shrinkage", "price_per_length", "stash", "cut"]
)
PIECE_FIELDS = frozenset(
    ["name", "outline", "fabric", "at", "turn", "mirror", "scale", "above", "edge", "thread"]
)
DEFAULT_WIDTH = Fraction(40)
"""Usable width in inches where a cloth gives none: the safe one.

Sources: onceuponaquilt.blogspot.com; sylviasquiltdepot.com.
"""

MOST_PIECES = 2000
MOST_FABRICS = 500
DEFAULT_STRIP = Fraction(9, 4)
DEFAULT_BACKING_OVERHANG = Fraction(4)
DEFAULT_BATTING_OVERHANG = Fraction(4)
BY_HAND = Track("by hand", ())
"""The one track of a document that names none."""


def read_fabrics(raw: Mapping[str, Any], reader: Reader) -> dict[str, Fabric]:
    """The cloths by key. A cloth that is faulty is still known by its key, so that its uses are not faults too."""
    listed = reader.mapping(
        raw.get("fabrics"), "/fabrics" if "fabrics" in raw else "", 'the list of "fabrics"'
    )
    reader.fabric_keys = tuple(listed or ())
    if listed and len(listed) > MOST_FABRICS:
        reader.fault("/fabrics", f"there are more than {MOST_FABRICS} cloths", "the cloths of one project")
        listed = {}
    read = {key: _read_fabric(key, value, reader) for key, value in (listed or {}).items()}
    return {key: fabric for key, fabric in read.items() if fabric is not None}


def _read_fabric(key: str, raw: Any, reader: Reader) -> Fabric | None:
    where = at("/fabrics", key)
    fields = reader.mapping(raw, where, "a cloth")
    if fields is None:
        return None
    reader.known_fields(fields, where, FABRIC_FIELDS)
    cut = reader.choice(fields, "cut", where, (TRIM_IN_PLACE, "on the mat"), "on the mat")
    width = reader.optional_length(fields, "usable_width", where, "the usable width", DEFAULT_WIDTH)
    shrinkage = reader.number(
        fields, "shrinkage", where, default=Fraction(0), least=Fraction(0), most=Fraction(1, 2)
    )
    return Fabric(
        key=key,
        name=reader.text(fields, "name", where, default=key, longest=200) or key,
        colour=reader.colour(fields, where),
        usable_width=width,
        directional=reader.flag(fields, "directional", where),
        shrinkage=shrinkage,
        price=_read_price(fields, where, reader),
        stash=_read_stash(fields, where, reader),
        trim_in_place=cut == TRIM_IN_PLACE,
    )


def _read_price(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[Fraction, Fraction] | None:
    if raw.get("price_per_length") is None:
        return None
    where = at(pointer, "price_per_length")
    fields = reader.mapping(raw["price_per_length"], where, "the price")
    if fields is None:
        return None
    amount = reader.number(
        fields, "amount", where, default=Fraction(0), least=Fraction(0), most=Fraction(100_000)
    )
    per = reader.length(fields.get("per"), at(where, "per"), "the length the price is for")
    return None if per is None else (amount, per)


def _read_stash(raw: Mapping[str, Any], pointer: str, reader: Reader) -> tuple[StashPiece, ...]:
    where = at(pointer, "stash")
    pieces = []
    for i, entry in enumerate(reader.sequence(raw.get("stash", []), where, 'the list "stash"') or []):
        fields = reader.mapping(entry, at(where, i), "a stash piece")
        if fields is None:
            continue
        width = reader.length(fields.get("width"), at(where, i, "width"), "the width of the stash piece")
        length = reader.length(fields.get("length"), at(where, i, "length"), "the length of the stash piece")
        count = reader.number(
            fields, "count", at(where, i), default=Fraction(1), least=Fraction(1), most=Fraction(10_000)
        )
        if count.denominator != 1:
            reader.fault(
                at(where, i, "count"), f'"count" is {show(fields["count"])}', "a whole number of pieces"
            )
        if width is not None and length is not None:
            pieces.append(StashPiece(width, length, int(count)))
    return tuple(pieces)


def read_pieces(raw: Mapping[str, Any], reader: Reader) -> tuple[Piece, ...]:
    """The applique pieces in the document's order."""
    listed = reader.sequence(raw.get("pieces", []), "/pieces", 'the list "pieces"') or []
    if len(listed) > MOST_PIECES:
        reader.fault(
            "/pieces", f"there are more than {MOST_PIECES} pieces", "fewer pieces, or several projects"
        )
        return ()
    pieces = [
        p for p in (_read_piece(entry, at("/pieces", i), reader) for i, entry in enumerate(listed)) if p
    ]
    _check_names(pieces, reader)
    return tuple(pieces)


def _read_piece(raw: Any, pointer: str, reader: Reader) -> Piece | None:
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
    edge = reader.choice(fields, "edge", pointer, EDGES, EDGES[0])
    above = reader.texts(fields.get("above", []), at(pointer, "above"), 'the list "above"')
    thread = _read_thread(fields, pointer, reader)
    if name is None or outline is None or fabric is None or place is None:
        return None
    return Piece(pointer, name, outline, fabric, place, turn, mirror, scale, above, edge, thread)


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


def _check_names(pieces: list[Piece], reader: Reader) -> None:
    """Names are given once, `above` names other pieces, and nothing lies above itself by way of others."""
    names = dict.fromkeys(p.name for p in pieces)
    seen: set[str] = set()
    for piece in pieces:
        if piece.name in seen:
            reader.fault(
                at(piece.pointer, "name"),
                f'two pieces are called "{piece.name}"',
                "a name of its own for each",
            )
        seen.add(piece.name)
        for j, other in enumerate(piece.above):
            if other not in names:
                detail = f"the piece lies above {show(other)}, which is not among the pieces"
                reader.fault(
                    at(piece.pointer, "above", j),
                    detail,
                    suggest(other, [n for n in names if n != piece.name]),
                )
    circle = find_circle({p.name: p.above for p in pieces})
    if circle:
        first = next(p for p in pieces if p.name == circle[0])
        detail = "these pieces lie above each other in a circle: " + ", ".join(f'"{n}"' for n in circle)
        reader.fault(at(first.pointer, "above"), detail, "an order from the lowest piece up")


def read_finish(raw: Mapping[str, Any], reader: Reader) -> Finish:
    """Binding, backing and batting, each only where the document has it."""
    fields = reader.mapping(raw.get("finish", {}), "/finish", 'the "finish"')
    if fields is None:
        return Finish()
    reader.known_fields(fields, "/finish", ("binding", "backing", "batting"))
    batting = _optional(fields, "batting", reader)
    overhang = None
    if batting is not None:
        overhang = reader.optional_length(
            batting, "overhang", "/finish/batting", "the overhang", DEFAULT_BATTING_OVERHANG, zero=True
        )
    return Finish(_read_binding(fields, reader), _read_backing(fields, reader), overhang)


def _optional(raw: Mapping[str, Any], key: str, reader: Reader) -> Mapping[str, Any] | None:
    return None if raw.get(key) is None else reader.mapping(raw[key], at("/finish", key), f'the "{key}"')


def _read_binding(raw: Mapping[str, Any], reader: Reader) -> Binding | None:
    fields, where = _optional(raw, "binding", reader), "/finish/binding"
    if fields is None:
        return None
    reader.known_fields(fields, where, ("fabric", "strip", "cut"))
    fabric = reader.fabric(fields, "fabric", where, "the binding")
    strip = reader.optional_length(fields, "strip", where, "the width of the binding strip", DEFAULT_STRIP)
    cut = reader.choice(fields, "cut", where, BINDING_CUTS, STRAIGHT)
    return None if fabric is None else Binding(fabric, strip, cut)


def _read_backing(raw: Mapping[str, Any], reader: Reader) -> Backing | None:
    fields, where = _optional(raw, "backing", reader), "/finish/backing"
    if fields is None:
        return None
    reader.known_fields(fields, where, ("fabric", "overhang"))
    fabric = reader.fabric(fields, "fabric", where, "the backing")
    overhang = reader.optional_length(
        fields, "overhang", where, "the overhang", DEFAULT_BACKING_OVERHANG, zero=True
    )
    return None if fabric is None else Backing(fabric, overhang)


def read_colourways(raw: Mapping[str, Any], reader: Reader) -> tuple[Colourway, ...]:
    """Other colours for the same cloths."""
    found = []
    for i, entry in enumerate(
        reader.sequence(raw.get("colourways", []), "/colourways", 'the list "colourways"') or []
    ):
        where = at("/colourways", i)
        fields = reader.mapping(entry, where, "a colourway")
        if fields is None:
            continue
        name = reader.name(fields, "name", where)
        changes = (
            reader.mapping(fields.get("fabrics"), at(where, "fabrics"), "the cloths of the colourway") or {}
        )
        colours, names = {}, {}
        for key, value in changes.items():
            inside = at(where, "fabrics", key)
            change = reader.mapping(value, inside, "the changed cloth")
            if reader.fabric_name(key, inside, "the colourway") and change is not None:
                colours[key] = reader.colour(change, inside)
                names[key] = reader.text(change, "name", inside, default="") or ""
        if name:
            found.append(Colourway(name, colours, names))
    return tuple(found)


def read_tracks(raw: Mapping[str, Any], reader: Reader) -> tuple[Track, ...]:
    """The tracks; one by hand where the document names none. Names differ also as file names."""
    found: list[Track] = []
    for i, entry in enumerate(reader.sequence(raw.get("tracks", []), "/tracks", 'the list "tracks"') or []):
        track = _read_track(entry, at("/tracks", i), reader)
        if track is None:
            continue
        if track.slug in [t.slug for t in found]:
            reader.fault(
                at("/tracks", i, "name"),
                f'two tracks are called "{track.name}"',
                "a name of its own for each",
            )
        found.append(track)
    return tuple(found) or (BY_HAND,)


def _read_track(raw: Any, pointer: str, reader: Reader) -> Track | None:
    fields = reader.mapping(raw, pointer, "a track")
    if fields is None:
        return None
    reader.known_fields(fields, pointer, ("name", "has", "reading"))
    name, equipment = reader.name(fields, "name", pointer), []
    reading = reader.text(fields, "reading", pointer, default="") or ""
    for i, text in enumerate(
        reader.sequence(fields.get("has", []), at(pointer, "has"), 'the list "has"') or []
    ):
        try:
            equipment.append(parse_equipment(text if isinstance(text, str) else ""))
        except ValueError as right:
            reader.fault(at(pointer, "has", i), f"no path serves a track that has {show(text)}", str(right))
    return None if name is None else Track(name.strip(), tuple(equipment), reading)


def read_parts(raw: Mapping[str, Any], reader: Reader) -> tuple[Part, ...]:
    """The parts; one with every chapter where the document names none."""
    found, taken = [], set()
    for i, entry in enumerate(reader.sequence(raw.get("parts", []), "/parts", 'the list "parts"') or []):
        where = at("/parts", i)
        fields = reader.mapping(entry, where, "a part")
        if fields is None:
            continue
        title = reader.name(fields, "title", where)
        covers = reader.sequence(fields.get("covers"), at(where, "covers"), 'the list "covers"') or []
        for j, chapter in enumerate(covers):
            if chapter not in CHAPTERS:
                reader.fault(
                    at(where, "covers", j),
                    f"there is no chapter {show(chapter)}",
                    suggest(chapter if isinstance(chapter, str) else "", CHAPTERS),
                )
            elif chapter in taken:
                reader.fault(
                    at(where, "covers", j), f'"{chapter}" is covered twice', "each chapter in one part"
                )
            else:
                taken.add(chapter)
        if title:
            found.append(Part(title, tuple(c for c in CHAPTERS if c in covers)))
    missing = tuple(c for c in CHAPTERS if c not in taken)
    if not found:
        return (Part("The whole project", CHAPTERS),)
    # a chapter no part names comes with the last one: nothing is left out of the steps
    return (*found[:-1], Part(found[-1].title, (*found[-1].covers, *missing)))


def read_sources(raw: Mapping[str, Any], reader: Reader) -> tuple[Source, ...]:
    """Where outlines come from and who may pass them on."""
    found = []
    for i, entry in enumerate(
        reader.sequence(raw.get("sources", []), "/sources", 'the list "sources"') or []
    ):
        where = at("/sources", i)
        fields = reader.mapping(entry, where, "a source")
        if fields is None:
            continue
        name = reader.name(fields, "name", where)
        covers = reader.texts(fields.get("covers"), at(where, "covers"), 'the list "covers"')
        if "rights" not in fields:
            reader.fault(where, 'the "rights" of the source are not stated', suggest("", RIGHTS))
            continue
        rights = reader.choice(fields, "rights", where, RIGHTS, "own")
        if name:
            found.append(Source(name, covers, rights))
    return tuple(found)
