"""The project document: read whole, or answered with every fault in it at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any

from service.craft.accuracy import USUAL, Accuracy
from service.craft.applique import USUAL_APPLIQUE, AppliqueRules
from service.craft.audience import USUAL_AUDIENCE, Audience, name_in
from service.craft.cutting_choices import CuttingChoices
from service.craft.fabric import Fabric
from service.craft.faults import DocumentFaults, Fault, suggest
from service.craft.finish import Colourway, Finish, Part, Source
from service.craft.measure import parse_length
from service.craft.measure.lengths import MEASURES
from service.craft.pace import USUAL_PACE, Pace
from service.craft.patch_templates import Use, count_templates
from service.craft.pieces import Piece
from service.craft.plain_text import find_unprintable
from service.craft.reading import Reader, at
from service.craft.sections import (
    read_accuracy,
    read_applique,
    read_audience,
    read_colourways,
    read_cutting,
    read_fabrics,
    read_finish,
    read_fusible,
    read_pace,
    read_page,
    read_parts,
    read_pieces,
    read_sources,
    read_tracks,
)
from service.craft.sections.finish import check_sleeve
from service.craft.sections.fusible import DEFAULT_WEB_WIDTH
from service.craft.tracks import Track
from service.craft.units import READERS, CuttingRules, Unit, UnitReader

FIELDS = frozenset(
    {
        *(
            "id",
            "series",
            "release",
            "page",
            "title",
            "summary",
            "measure",
            "seam_allowance",
            "round_to",
            "fabrics",
        ),
        *("blocks", "top", "pieces", "finish", "colourways", "tracks", "parts", "sources", "fusible"),
        *("cutting", "accuracy", "pace", "applique", "stitching", "units", "language"),
    }
)

DEFAULTS = {
    "in": ("1/4 in", "1/8 in"),
    "mm": ("7.5 mm", "1 mm"),
    "cm": ("7.5 mm", "1 mm"),
}
"""Seam allowance and rounding where a document gives none. 7.5 mm: reginasquiltblog.blogspot.com."""

FINEST_ROUNDING = {"in": Fraction(1, 64), "mm": Fraction(1, 254), "cm": Fraction(1, 254)}
COARSEST_ROUNDING = Fraction(1)


@dataclass(frozen=True)
class Project:
    """A project that can be sewn. Lengths in inches, exact.

    `measure` is what lengths are written in for people (in, mm or cm); `web_width` is how wide fusible web is sold,
    `applique` says how far pieces are cut beyond their finished shape;
    `page` is the address where it comes out; `unread` names fields that nobody knows.
    """

    title: str
    summary: str
    measure: str
    rules: CuttingRules
    fabrics: dict[str, Fabric]
    blocks: dict[str, Unit]
    top: Unit
    pieces: tuple[Piece, ...]
    finish: Finish
    colourways: tuple[Colourway, ...]
    tracks: tuple[Track, ...]
    parts: tuple[Part, ...]
    sources: tuple[Source, ...]
    cutting: CuttingChoices
    accuracy: Accuracy = USUAL
    pace: Pace = USUAL_PACE
    web_width: Fraction = DEFAULT_WEB_WIDTH
    applique: AppliqueRules = USUAL_APPLIQUE
    unread: tuple[Fault, ...] = ()
    page: str = ""
    audience: Audience = USUAL_AUDIENCE

    @property
    def seam_allowance(self) -> Fraction:
        """The seam allowance in inches."""
        return self.rules.seam_allowance

    def track(self, name: str) -> Track:
        """The track of that name; `KeyError` where there is none."""
        return {t.name: t for t in self.tracks}[name]

    def accuracy_of(self, track: Track) -> Accuracy:
        """How exactly the viewers of a track work."""
        return track.accuracy or self.accuracy

    def audience_of(self, track: Track) -> Audience:
        """How the viewers of a track read."""
        return track.audience or self.audience

    @property
    def other_audiences(self) -> tuple[Audience, ...]:
        """The audiences of tracks that read in another way than the document says, each once, in their order."""
        return tuple(dict.fromkeys(a for t in self.tracks if (a := self.audience_of(t)) != self.audience))

    def name_for(self, audience: Audience, name: str) -> str:
        """The name of a project's file with words for an audience: `cutting.json`, or `cutting-metric.json`."""
        stem, dot, ending = name.rpartition(".")
        return name if audience == self.audience else f"{stem}-{audience.slug}{dot}{ending}"

    @property
    def other_languages(self) -> tuple[str, ...]:
        """The languages of tracks that do not read the document's, each once, in their order."""
        languages = dict.fromkeys(audience.language for audience in self.other_audiences)
        return tuple(language for language in languages if language != self.audience.language)

    def name_in_words_of(self, track: Track, name: str) -> str:
        """The name of a project's file with words and no lengths, as the viewers of a track read it."""
        language = self.audience_of(track).language
        return name if language == self.audience.language else name_in(language, name)

    @cached_property
    def cloths_of_top(self) -> tuple[str, ...]:
        """The keys of the cloths that the patches of the top are of, in the order of the patches."""
        return tuple(dict.fromkeys(patch.fabric for patch in self.top.patches()))

    @cached_property
    def patch_templates(self) -> dict[Use, int]:
        """How many patches are cut with each template from each cloth; none where a ruler does it all."""
        return count_templates(self.top)

    def needs_templates(self, track: Track) -> bool:
        """Whether viewers of a track draw round anything: pieces without a cutting machine, patches that no ruler cuts,
        cloth that is trimmed in place without a hoop to sew its placement line, or a card to press an edge over.
        """
        by_hand = track.cutter is None and bool(self.pieces)
        with_machine = self.drawn_in_place(track) or self.pressed_over(track)
        return by_hand or bool(self.patch_templates) or bool(with_machine)

    def drawn_in_place(self, track: Track) -> list[Piece]:
        """The pieces of a track whose placement line is drawn by hand, though the track has a cutting machine."""
        if track.cutter is None or track.hoop is not None:
            return []
        return [p for p in self.pieces if self.fabrics[p.fabric].trim_in_place and self.may_leave(p)]

    def pressed_over(self, track: Track) -> list[Piece]:
        """The pieces of a track whose edge is pressed over a card drawn by hand, though a machine cuts the pieces."""
        if track.cutter is None:
            return []
        return [p for p in self.pieces if p.turned_under and self.may_leave(p)]

    def is_fused(self, piece: Piece) -> bool:
        """Whether web holds the piece down: not where its cloth is trimmed in place, nor where its edge is turned."""
        return not (self.fabrics[piece.fabric].trim_in_place or piece.turned_under)

    def may_leave(self, piece: Piece) -> bool:
        """Whether the piece's outline may stand in a public bundle."""
        return all(s.may_leave for s in self.sources if s.covers_outline(piece.outline))


def read_document(raw: Any) -> Project:
    """The project a document describes; raises `DocumentFaults` with all its faults.

    `raw` is plain JSON. Outlines are not looked at: a document may be stored before they are there.
    """
    reader = Reader()
    fields = _open(raw, reader)
    title, summary = reader.name(fields, "title", ""), reader.text(fields, "summary", "", default="")
    reader.measure = reader.choice(fields, "measure", "", MEASURES, "in")
    rules = _read_rules(fields, reader)
    cutting = read_cutting(fields, reader)
    accuracy, pace = read_accuracy(fields, reader, rules.seam_allowance), read_pace(fields, reader)
    reader.fabrics = read_fabrics(fields, reader, cutting)
    blocks, top = _read_units(fields, reader)
    pieces, applique = read_pieces(fields, reader), read_applique(fields, reader)
    finish, web_width = read_finish(fields, reader), read_fusible(fields, reader)
    if top is not None:
        check_sleeve(finish, top.width, top.height, reader)
    colourways = read_colourways(fields, reader)
    audience = read_audience(fields, reader)
    tracks = read_tracks(fields, reader, accuracy, rules.seam_allowance, audience)
    parts = read_parts(fields, reader)
    sources, page = read_sources(fields, reader), read_page(fields, reader)
    if reader.faults or title is None or top is None:
        raise DocumentFaults(_in_order(reader.faults))
    return Project(
        title=title.strip(),
        summary=summary or "",
        measure=reader.measure,
        rules=rules,
        fabrics=reader.fabrics,
        blocks=blocks,
        top=top,
        pieces=pieces,
        finish=finish,
        colourways=colourways,
        tracks=tracks,
        parts=parts,
        sources=sources,
        unread=tuple(reader.unread),
        page=page,
        audience=audience,
        cutting=cutting,
        accuracy=accuracy,
        pace=pace,
        web_width=web_width,
        applique=applique,
    )


def _open(raw: Any, reader: Reader) -> Mapping[str, Any]:
    """The document's fields; raises `DocumentFaults` where it has none, or text that nobody can print."""
    if unprintable := list(find_unprintable(raw)):
        raise DocumentFaults(unprintable)
    fields = reader.mapping(raw, "", "the document")
    if fields is None:
        raise DocumentFaults(reader.faults)
    reader.known_fields(fields, "", FIELDS)
    return fields


def _read_rules(raw: Mapping[str, Any], reader: Reader) -> CuttingRules:
    seam, step = (parse_length(text, reader.measure) for text in DEFAULTS[reader.measure])
    seam = reader.optional_length(raw, "seam_allowance", "", "the seam allowance", seam)
    read_step = reader.optional_length(raw, "round_to", "", "the rounding", step)
    if not FINEST_ROUNDING[reader.measure] <= read_step <= COARSEST_ROUNDING:
        reader.fault("/round_to", "no ruler shows steps of that size", '"1/8" or "1/16" in, or "1 mm"')
        read_step = step
    if seam > 2:
        reader.fault("/seam_allowance", "the seam allowance is more than 2 in", '"1/4" in, or "7.5 mm"')
    return CuttingRules(seam, read_step)


def _read_units(raw: Mapping[str, Any], reader: Reader) -> tuple[dict[str, Unit], Unit | None]:
    """Every block and the top. A block nobody uses is checked as well."""
    blocks = reader.mapping(raw.get("blocks", {}), "/blocks", 'the list of "blocks"') or {}
    for name in [n for n in blocks if n in reader.fabrics]:
        reader.fault(at("/blocks", name), f'"{name}" is also the name of a cloth', "a name of its own")
    units = UnitReader(reader, blocks, READERS)
    read = {name: units.block(name) for name in blocks}
    top = None
    if "top" in raw:
        top = units.unit(raw["top"], "/top")
    else:
        reader.fault("", 'there is no "top"', f"a unit, or the name of a block ({suggest('', blocks)})")
    return {name: unit for name, unit in read.items() if unit is not None}, top


def _in_order(faults: list[Fault]) -> list[Fault]:
    """Each fault once, in the order found."""
    return list(dict.fromkeys(faults))
