"""Every piece has the file or template by which its track makes it, and every patch that no ruler cuts has one."""

from __future__ import annotations

from collections.abc import Iterator
from fnmatch import fnmatchcase
from typing import Any

from service.craft.audience import writing_for
from service.craft.language import phrase
from service.craft.pieces import Piece
from workers.completeness.finding import Finding
from workers.completeness.made import Made

WITH_STITCHES, COLOURS = (".svg", ".png", ".json"), "-colours.svg"
"""What comes with a stitch file: its picture twice, the order of threads and stops, and its report."""

ALWAYS_SEWN = ("placement", "tack-down")
RAW = "raw"


def find_unmade(made: Made) -> Iterator[Finding]:
    """Pieces without a file or template for the track, and patches without a template."""
    for piece in made.project.pieces:
        if made.project.may_leave(piece):
            yield from _check_piece(made, piece)
        else:
            yield from _check_owned(made, piece)
    for letter in sorted({template.letter for template, *_ in made.project.patch_templates}):
        with writing_for(made.audience):
            title = phrase("Template {letter}", letter=letter)
        if "".join(title.split()) not in made.template_words:
            yield Finding(
                "file",
                "/top",
                f"template {letter} is not in {made.templates_name}",
                "the templates printed anew",
            )


def find_unbundled(made: Made) -> Iterator[Finding]:
    """Files that a step or the handout names and the bundle does not hold."""
    for i, step in enumerate(made.steps):
        for pattern in step.get("files") or []:
            if not _is_bundled(made, str(pattern), step):
                yield Finding(
                    "file",
                    f"{made.steps_name}#/steps/{i}",
                    f"the step names {pattern}, and the bundle holds no such file for what it is about",
                    "a file of that name in the bundle, or a step that names none",
                )
    for name in made.materials.get("files", []):
        if name not in made.bundled:
            yield Finding(
                "file",
                f"{made.materials_name}#/files",
                f"the handout lists {name}, which is not in the bundle",
                "the file in the bundle",
            )


def _check_piece(made: Made, piece: Piece) -> Iterator[Finding]:
    track, trimmed = made.track, made.project.fabrics[piece.fabric].trim_in_place
    if track.hoop is not None:
        yield from _check_stitches(made, piece)
    if track.cutter is not None and not trimmed and not _cut_files(made, piece):
        yield _hole(piece, "is on no mat of a cut file in the bundle", "a cut file that holds it")
    if track.hoop is None and (track.cutter is None or trimmed):
        shape = "".join(made.name_shape(piece).split())
        if made.templates_name not in made.bundled or not shape or shape not in made.template_words:
            yield _hole(piece, f"has no template in {made.templates_name}", "templates with its shape")


def _file_of(name: str, report: Any) -> str:
    """The stitch file that a hooping is sewn with: its own, or that of the hooping that sews the same motif."""
    same = report.get("same_as")
    return f"stitch-{same['hooping']}.dst" if same else name


def _check_stitches(made: Made, piece: Piece) -> Iterator[Finding]:
    """One released hooping sews all of its passes, or one each of its parts; and its file is in the bundle."""
    sewing = {
        part: name
        for name, report in made.hoopings.items()
        if _file_of(name, report) in made.bundled and _list_kinds(report, piece)
        for part in [_part_of(report, piece)]
    }
    for own in sewing.values():
        yield from _check_hooping(made, piece, own)
    if not sewing:
        yield _hole(piece, "is in no released stitch file of the bundle", "a stitch file that sews it")
    for _, of in list(sewing)[:1]:
        for part in {(number, of) for number in range(1, of + 1)} - set(sewing):
            words = f"is sewn in {of} parts, and part {part[0]} is in no released stitch file of the bundle"
            yield _hole(piece, words, "a stitch file that sews that part")


def _part_of(report: Any, piece: Piece) -> tuple[int, int]:
    """Which part of a piece a hooping sews, of how many."""
    part = report.get("parts", {}).get(piece.name, {})
    return int(part.get("part", 1)), int(part.get("of", 1))


def _list_kinds(report: Any, piece: Piece) -> set[str]:
    return {str(one.get("kind")) for one in report.get("passes", []) if one.get("piece") == piece.name}


def _check_hooping(made: Made, piece: Piece, own: str) -> Iterator[Finding]:
    """The passes of a piece in one hooping, and what comes with its file."""
    report = made.hoopings[own]
    name = _file_of(own, report)
    needed = {*ALWAYS_SEWN, *(() if piece.edge == RAW else ("finish",))}
    for kind in sorted(needed - _list_kinds(report, piece)):
        yield _hole(piece, f"has no {kind} in {name}", f"a stitch file with its {kind}")
    stem = name.removesuffix(".dst")
    colours = made.project.name_in_words_of(made.track, f"{stem}{COLOURS}")
    for beside in (*(f"{stem}{ending}" for ending in WITH_STITCHES), colours):
        if beside not in made.bundled:
            yield _hole(piece, f"is sewn by {name}, and the bundle leaves out {beside}", f"{beside} in it")


def _cut_files(made: Made, piece: Piece) -> list[str]:
    """The cut files with the piece for the track, of those of which every form is in the bundle."""
    found = []
    for entry in made.cut_report.get("files", []):
        forms = [str(entry[key]) for key in ("svg", "dxf") if entry.get(key)]
        held = {str(one.get("name")) for one in entry.get("pieces", [])}
        ours = {made.track.name, made.track.slug} & set(entry.get("tracks", []))
        if ours and piece.name in held and forms and made.bundled.issuperset(forms):
            found += forms
    return found


def _check_owned(made: Made, piece: Piece) -> Iterator[Finding]:
    """What viewers must own is brought: a step says so, and no file holds it."""
    told = any(piece.name in (step.get("pieces") or []) and _says_bring(step) for step in made.steps)
    if not told:
        yield _hole(
            piece, "belongs to somebody else, and no step says to bring it", "a step that says what to bring"
        )
    held = [
        _file_of(n, r)
        for n, r in made.hoopings.items()
        if _file_of(n, r) in made.bundled and piece.name in map(str, r.get("pieces", []))
    ]
    held += _cut_files(made, piece)
    for name in held:
        yield _hole(piece, f"belongs to somebody else and is in {name}", "a bundle without that file")


def _says_bring(step: Any) -> bool:
    return str(step.get("id", "")).endswith(".bring")


def _is_bundled(made: Made, pattern: str, step: Any) -> bool:
    """A name itself; of a pattern some file that holds the pieces the step is about, where they may leave."""
    if "*" not in pattern:
        return pattern in made.bundled
    matching = {name for name in made.bundled if fnmatchcase(name, pattern)}
    about = [
        p for p in made.project.pieces if p.name in (step.get("pieces") or []) and made.project.may_leave(p)
    ]
    held: dict[str, set[str]] = {}
    for name, report in made.hoopings.items():
        held.setdefault(_file_of(name, report), set()).update(map(str, report.get("pieces", [])))
    return bool(matching) and all(
        any(piece.name in held.get(name, ()) for name in matching) or matching & set(_cut_files(made, piece))
        for piece in about
    )


def _hole(piece: Piece, what: str, right: str) -> Finding:
    return Finding("file", piece.pointer, f'the piece "{piece.name}" {what}', right)
