"""Reads what a project is published with: tracks, parts, sources."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from service.craft.accuracy import BEGINNERS_TIMES, Accuracy
from service.craft.audience import UNITS, USUAL_AUDIENCE, Audience
from service.craft.faults import show, suggest
from service.craft.finish import CHAPTERS, RIGHTS, Part, Source
from service.craft.language import LANGUAGES
from service.craft.reading import Reader, at
from service.craft.sections.accuracy import read_track_accuracy
from service.craft.tracks import PAPERS, PRINTS, Track, parse_equipment

LONGEST_CREDIT = 500

TRACK_FIELDS = ("name", "has", "reading", "accuracy", "paper", "print", "units", "language")

LONGEST_PAGE = 200
PAGE = re.compile(
    r"https://[a-z0-9](?:[a-z0-9.-]*[a-z0-9])?(?::\d{1,5})?(?:/[A-Za-z0-9._~/%+=?&#-]*)?", re.IGNORECASE
)
"""An address that can be typed from paper: plain letters, nothing before the host."""

BY_HAND = Track("by hand", ())
"""The one track of a document that names none."""


def read_page(raw: Mapping[str, Any], reader: Reader) -> str:
    """The address of the page where the project comes out; empty where none is given."""
    page = raw.get("page")
    if page is None or (isinstance(page, str) and len(page) <= LONGEST_PAGE and PAGE.fullmatch(page)):
        return page or ""
    reader.fault(
        "/page",
        f"{show(page)} is no address that can be printed",
        f'"https://studio.example/leeks", of at most {LONGEST_PAGE} plain letters',
    )
    return ""


def read_tracks(
    raw: Mapping[str, Any], reader: Reader, accuracy: Accuracy, seam_allowance: Fraction, audience: Audience
) -> tuple[Track, ...]:
    """The tracks; one by hand where the document names none. Names differ also as file names.

    `accuracy` and `audience` are the document's; viewers who are new to piecing work less exactly, and a track may say
    its own.
    """
    found: list[Track] = []
    for i, entry in enumerate(reader.sequence(raw.get("tracks", []), "/tracks", 'the list "tracks"') or []):
        track = _read_track(entry, at("/tracks", i), reader, audience)
        if track is None:
            continue
        usual = accuracy.times(BEGINNERS_TIMES) if track.is_new_to("piecing") else accuracy
        own, where = entry.get("accuracy", {}), at("/tracks", i, "accuracy")
        track = replace(track, accuracy=read_track_accuracy(own, where, usual, reader, seam_allowance))
        if track.slug in [t.slug for t in found]:
            reader.fault(
                at("/tracks", i, "name"),
                f'two tracks are called "{track.name}"',
                "a name of its own for each",
            )
        found.append(track)
    return tuple(found) or (BY_HAND,)


def _read_track(raw: Any, pointer: str, reader: Reader, audience: Audience) -> Track | None:
    fields = reader.mapping(raw, pointer, "a track", like='{"name": "by hand", "has": []}')
    if fields is None:
        return None
    reader.known_fields(fields, pointer, TRACK_FIELDS)
    name, equipment = reader.name(fields, "name", pointer), []
    reading = reader.text(fields, "reading", pointer, default="") or ""
    for i, text in enumerate(
        reader.sequence(fields.get("has", []), at(pointer, "has"), 'the list "has"') or []
    ):
        try:
            equipment.append(parse_equipment(text if isinstance(text, str) else ""))
        except ValueError as right:
            reader.fault(at(pointer, "has", i), f"no path serves a track that has {show(text)}", str(right))
    paper = reader.choice(fields, "paper", pointer, PAPERS, PAPERS[0])
    size = reader.choice(fields, "print", pointer, PRINTS, PRINTS[0])
    if name is None:
        return None
    own = read_audience(fields, reader, pointer, audience)
    return Track(
        *(name.strip(), tuple(equipment), reading),
        paper=paper,
        print=size,
        audience=own if own != audience else None,
    )


def read_audience(
    raw: Mapping[str, Any], reader: Reader, pointer: str = "", usual: Audience = USUAL_AUDIENCE
) -> Audience:
    """How viewers read: the fields "units" and "language" of a document or a track."""
    return Audience(
        reader.choice(raw, "units", pointer, UNITS, usual.units),
        reader.choice(raw, "language", pointer, LANGUAGES, usual.language),
    )


def read_parts(raw: Mapping[str, Any], reader: Reader) -> tuple[Part, ...]:
    """The parts; one with every chapter where the document names none."""
    found, taken = [], set()
    for i, entry in enumerate(reader.sequence(raw.get("parts", []), "/parts", 'the list "parts"') or []):
        where = at("/parts", i)
        fields = reader.mapping(entry, where, "a part", like='{"title": "Piecing", "covers": ["piecing"]}')
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
        credit, licence = (
            reader.text(fields, key, where, default="", longest=LONGEST_CREDIT) or ""
            for key in ("credit", "licence")
        )
        if name:
            found.append(Source(name, covers, rights, credit.strip(), licence.strip()))
    return tuple(found)
