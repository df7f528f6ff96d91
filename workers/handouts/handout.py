"""A track's handout: cover, what is needed, cutting tables, steps, machine files, words, sources."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from service.craft.cutting_words import ROTARY_CAUTION
from service.craft.document import Project
from service.craft.drawing import (
    CrossView,
    draw_cloth_legend,
    draw_cloth_swatch,
    draw_key,
    draw_top,
    used_cloths,
)
from service.craft.finish import CHAPTERS, OWN, SHARED, VIEWER, Source
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from service.craft.tracks import Equipment, Track
from workers.handouts.cloth_plans import ClothPlan, plan_cloths
from workers.handouts.finishing import list_finishing
from workers.handouts.finishing_pictures import draw_finishing
from workers.handouts.hoopings import HoopingView, list_hoopings
from workers.handouts.inputs import Inputs
from workers.handouts.machine_files import CutFiles, CutFileView, list_cut_files, name_files
from workers.handouts.pages import print_page
from workers.handouts.papers import COVER_TOP_MM
from workers.handouts.pictures import draw_stages
from workers.handouts.piece_cloth import list_piece_cloth, say_web
from workers.handouts.placing import PlacedPiece, list_placed
from workers.handouts.release_code import draw_release_code, shorten_address
from workers.handouts.seam_test import draw_seam_test
from workers.handouts.sizes import Shown
from workers.handouts.split_pieces import find_splits
from workers.handouts.steps import (
    APPLIQUE,
    CUTTING,
    FINISHING,
    PIECING,
    PartSection,
    group_steps,
    list_tools,
    name_chapter,
)
from workers.handouts.times import say_time
from workers.handouts.trips import list_trips
from workers.handouts.words import (
    CHILDREN_CAUTION,
    FUSIBLE_CAUTION,
    HOOP_CAUTION,
    IRON_CAUTION,
    LEAD_CAUTION,
    find_terms,
)

PLACEMENT_MM = 112.0
"""How high the top is drawn where its pieces are laid: numbers as large as ours leave small pieces to be seen."""

RIGHTS_WORDS = {
    OWN: mark("drawn by the studio."),
    SHARED: mark("may be shared."),
    VIEWER: mark("belongs to somebody else; not in your files, bring your own."),
}


@dataclass(frozen=True)
class Entry:
    """A line of the contents, or a file with what it is."""

    title: str
    anchor: str


@dataclass(frozen=True)
class FileNote:
    """A file that comes with the handout, or one in several forms, and what it is."""

    names: tuple[str, ...]
    what: str


@dataclass(frozen=True)
class Brought:
    """A piece whose outline viewers bring: its name, its size on the top, where it comes from."""

    name: str
    size: Shown
    source: str


@dataclass(frozen=True)
class Handout:
    """What a track's handout is filled with, before it is printed: the page's fields, and its pictures by name."""

    track: Track
    title: str
    fields: Mapping[str, Any]
    assets: Mapping[str, bytes]


def print_handout(handout: Handout) -> bytes:
    """A handout as PDF."""
    return print_page(
        "handout.html",
        f"handout {handout.title}",
        handout.fields,
        handout.assets,
        track=handout.track,
    )


def plan_handout(inputs: Inputs) -> Handout:
    """The handout of the job's track."""
    project, track = inputs.project, inputs.track
    hoopings, cut_files = list_hoopings(inputs, track), list_cut_files(inputs, track)
    steps = [_with_files(step, hoopings, cut_files) for step in inputs.steps(track)]
    pictures = draw_stages(project, inputs.sewing) | draw_finishing(project, inputs.cutting)
    pictures |= draw_seam_test(project)
    parts = group_steps(steps, project, inputs.sewing, pictures)
    cloths = plan_cloths(project, inputs.cutting, track)
    fields: dict[str, Any] = {
        **_cover(inputs, track),
        **_needs(inputs, track, cloths, steps, hoopings, cut_files),
        "parts": parts,
        "legend": _draw_legend(inputs),
        "key": Markup(draw_key()),  # noqa: S704 - our own drawing
        "legend_chapter": PIECING,
        "trips": list_trips(inputs.sewing),
        "placement": _draw_placement(inputs, hoopings),
        "placement_chapter": APPLIQUE,
        "cutting_cautions": (phrase(ROTARY_CAUTION), phrase(CHILDREN_CAUTION)),
        "chapter_cautions": _list_cautions(track, steps),
        "seam_words": _say_seam(project),
        "hoopings": hoopings,
        "cut_files": cut_files,
        "cloth_names": {key: cloth.name for key, cloth in inputs.top.cloths.items()},
        "sources": [_view_source(source) for source in project.sources],
    }
    fields["terms"] = find_terms(_list_texts(track, steps, cloths, fields))
    fields["contents"] = list(_list_contents(parts, fields))
    assets = {hooping.picture: hooping.drawing for hooping in hoopings if hooping.drawing}
    return Handout(track, f"{project.title} {track.name}", fields, assets)


def _with_files(
    step: Mapping[str, Any], hoopings: Sequence[HoopingView], cut_files: CutFiles
) -> Mapping[str, Any]:
    named = [
        name
        for pattern in step.get("files") or ()
        for name in name_files(str(pattern), step.get("pieces") or (), hoopings, cut_files)
    ]
    return {**step, "files": list(dict.fromkeys(named))}


def describe_track(track: Track) -> str:
    """What a track's viewers have, and what they are new to, in a sentence or two."""
    has = [_say_equipment(equipment) for equipment in track.equipment]
    said = [
        phrase("For you if you have {equipment}.", equipment=phrase(" and ").join(has))
        if has
        else phrase("For you if you cut and sew without special machines.")
    ]
    if track.reading:
        said.append(phrase("Written for somebody {reading}.", reading=track.reading))
        done = [name_chapter(chapter) for chapter in CHAPTERS if track.has_done(chapter)]
        if done:
            said.append(phrase("In short, because done before: {chapters}.", chapters=", ".join(done)))
    return " ".join(said)


def _say_equipment(equipment: Equipment) -> str:
    size = equipment.label.replace("x", " × ")
    if equipment.kind == "hoop":
        return phrase("a hoop machine with a sewing field of {size} mm", size=size)
    return phrase("a cutting machine with a mat of {size} mm", size=size)


def _cover(inputs: Inputs, track: Track) -> dict[str, Any]:
    project = inputs.project
    drawing = draw_top(inputs.top, max_height_mm=COVER_TOP_MM[track.paper])
    return {
        "title": f"{project.title}, {track.name}",
        "kicker": phrase("Handout for the track: {name}", name=track.name),
        "project_title": project.title,
        "summary": project.summary,
        "drawing": Markup(drawing),  # noqa: S704 - our own drawing, escaped by the sheet
        "for_whom": describe_track(track),
        "code": Markup(draw_release_code(project.page)),  # noqa: S704 - our own drawing
        "address": shorten_address(project.page),
        "time": say_time(inputs.sewing, track),
    }


def _needs(
    inputs: Inputs,
    track: Track,
    cloths: Sequence[ClothPlan],
    steps: Sequence[Mapping[str, Any]],
    hoopings: Sequence[HoopingView],
    cut_files: CutFiles,
) -> dict[str, Any]:
    placed = list_placed(inputs)
    swatches = {key: Markup(draw_cloth_swatch(cloth)) for key, cloth in inputs.top.cloths.items()}  # noqa: S704
    return {
        "cloths": cloths,
        "swatches": swatches,
        "finishing": list_finishing(inputs.project, inputs.cutting),
        "brought": list(_list_brought(inputs, placed)),
        "pieces": placed,
        "cloth_for_pieces": list_piece_cloth(inputs.project, inputs.cutting),
        "web": say_web(inputs.project, inputs.cutting, track),
        "tools": list_tools(steps),
        "files": list(_list_files(inputs, track, hoopings, cut_files)),
        "lead_caution": phrase(LEAD_CAUTION),
    }


def _list_brought(inputs: Inputs, placed: Iterable[PlacedPiece]) -> Iterable[Brought]:
    sizes = {piece.name: piece.size for piece in placed}
    for piece in inputs.brought:
        names = [
            s.name for s in inputs.project.sources if not s.may_leave and s.covers_outline(piece.outline)
        ]
        yield Brought(piece.name, sizes[piece.name], ", ".join(names))


def _list_files(
    inputs: Inputs, track: Track, hoopings: Iterable[HoopingView], cut_files: CutFiles
) -> Iterable[FileNote]:
    if inputs.project.needs_templates(track):
        yield FileNote(
            (f"templates-{track.slug}.pdf",),
            phrase("templates at true size, printed separately at 100 %, with squares to measure"),
        )
    for sheet in cut_files.sheets:
        yield FileNote(sheet.names, _say_cut_file(sheet))
    if cut_files.test_square:
        yield FileNote(cut_files.test_square, phrase("a square to cut first and measure"))
    sewn: dict[str, list[str]] = {}
    for hooping in hoopings:
        sewn.setdefault(hooping.file_name, []).extend(hooping.titles or hooping.pieces)
    for name, pieces in sewn.items():
        yield FileNote((name,), phrase("stitch file for {pieces}", pieces=", ".join(pieces)))


def _say_cut_file(sheet: CutFileView) -> str:
    if len(sheet.pieces) == 1:
        return phrase("one cut file in two forms, for {piece}", piece=sheet.words)
    return phrase(
        "one cut file in two forms, for {count} pieces; their names stand under Cut files",
        count=len(sheet.pieces),
    )


def _draw_legend(inputs: Inputs) -> Markup:
    keys = [patch.cloth for patch in inputs.top.patches]
    cloths = used_cloths(keys, inputs.top.cloths)
    return Markup(draw_cloth_legend(cloths, max_width_mm=172.0))  # noqa: S704 - our own drawing


def _draw_placement(inputs: Inputs, hoopings: Sequence[HoopingView] = ()) -> Markup:
    crosses = [
        CrossView(hooping.centre_mm, hooping.top_turned_degrees, f"H{n}")
        for n, hooping in enumerate(hoopings, start=1)
        if hooping.centre_mm
    ]
    splits = find_splits(inputs, (hooping.parts for hooping in hoopings))
    drawing = draw_top(
        inputs.top, max_height_mm=PLACEMENT_MM, legend=False, numbered=True, crosses=crosses, splits=splits
    )
    return Markup(drawing)  # noqa: S704 - our own drawing, escaped by the sheet


def _list_cautions(track: Track, steps: Iterable[Mapping[str, Any]]) -> dict[str, list[str]]:
    """Cautions for chapters whose steps carry none of their own."""
    careful = {step.get("chapter") for step in steps if step.get("caution")}
    cautions = {
        PIECING: [phrase(IRON_CAUTION)],
        APPLIQUE: ([phrase(HOOP_CAUTION)] if track.hoop else []) + [phrase(FUSIBLE_CAUTION)],
    }
    return {chapter: words for chapter, words in cautions.items() if chapter not in careful}


def _say_seam(project: Project) -> str:
    return phrase(
        "Sizes include a seam allowance of {allowance} on every side.",
        allowance=format_length(project.seam_allowance, project.measure),
    )


def _view_source(source: Source) -> dict[str, Any]:
    return {
        "name": source.name,
        "covers": source.covers,
        "words": phrase(RIGHTS_WORDS[source.rights]),
        "credit": source.credit,
        "licence": source.licence,
    }


def _list_texts(
    track: Track, steps: Iterable[Mapping[str, Any]], cloths: Iterable[ClothPlan], fields: Mapping[str, Any]
) -> Iterable[str]:
    """What is told to those who are new to it: its words stand in the glossary."""
    for step in steps:
        if not track.has_done(str(step.get("chapter"))):
            yield from (str(step.get(key) or "") for key in ("text", "why", "caution", "if_not"))
    if not track.has_done(CUTTING):
        for plan in cloths:
            yield from plan.notes
            yield from (row.then for row in plan.rows)
        yield phrase("usable width, selvedge, cut size, seam allowance, strips")
    if not track.has_done(FINISHING):
        yield from (row.title for row in fields["finishing"])
    if fields["hoopings"] and not track.has_done(APPLIQUE):
        yield phrase("hooping, sewing field")


def _list_contents(parts: Sequence[PartSection], fields: Mapping[str, Any]) -> Iterable[Entry]:
    yield Entry(phrase("What you need"), "need")
    if fields["cloths"]:
        yield Entry(phrase("Cutting tables"), "cutting-tables")
    for number, part in enumerate(parts, start=1):
        yield Entry(part.title, f"part-{number}")
    if fields["hoopings"]:
        yield Entry(phrase("Stitch files"), "stitch-files")
    if fields["cut_files"].sheets:
        yield Entry(phrase("Cut files"), "cut-files")
    if fields["terms"]:
        yield Entry(phrase("Words used here"), "terms")
