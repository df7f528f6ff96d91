"""The `stitches` recipe: a stitch file, its preview and its report for every hooping of every sewing field."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults
from service.craft.measure import MM_PER_INCH
from service.craft.measure.lengths import RULER_MARKS
from service.craft.outlines import Outline, OutlineNotFound, find_outline, find_placing, flatten, place
from service.craft.outlines.laid_pieces import lay_pieces
from service.craft.pieces import Piece
from service.craft.stitching import MM, Detail
from workers.recipe import CannotMake, JobInput, MadeFile
from workers.stitches.check import check_hooping
from workers.stitches.check_places import failed_places
from workers.stitches.choosing import choose_settings, in_mm
from workers.stitches.colour_order import sequence_passes
from workers.stitches.colour_sheet import draw_colour_sheet
from workers.stitches.findings import Check, Checked
from workers.stitches.hooping import plan_hoopings, stacking_order
from workers.stitches.marks import Ruler
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import DetailLine, Hooping, StitchPiece
from workers.stitches.preview import draw_preview
from workers.stitches.preview_png import draw_png
from workers.stitches.reading import read_stitch_file
from workers.stitches.record import record_passes
from workers.stitches.report import build_report, format_report
from workers.stitches.settings import USUAL, Field, StitchSettings

NEARER_TACK_MM, MORE_LAP_MM = 0.7, 0.3
"""How a piece is sewn again whose first file failed: of twelve such shapes in an icon set this mends seven."""


def make_stitches(job: JobInput) -> list[MadeFile]:
    """Every hooping's files, field by field; raises `CannotMake` for a document or piece that cannot be sewn.

    A file whose checks fail is made all the same, for looking at, and is not public.
    """
    try:
        project = read_document(job.document)
    except DocumentFaults as faults:
        first = faults.faults[0]
        raise CannotMake(str(faults), pointer=first.pointer, right=first.right) from faults
    settings = USUAL
    pieces = stacking_order(read_all(job, project))
    sewn = []
    for done, piece in enumerate(pieces):
        job.progress(0.5 * done / len(pieces), f"Laying stitches round {piece.name}")
        sewn.append(sew_piece(piece, piece.settings))
    ruler = Ruler(in_mm(RULER_MARKS[project.measure], 1.0), in_mm(project.seam_allowance, 0.0))
    hoopings = [h for field in fields_of(project) for h in plan_hoopings(sewn, field, settings, ruler)]
    made: list[MadeFile] = []
    for done, hooping in enumerate(hoopings):
        job.progress(0.5 + 0.5 * done / len(hoopings), f"Writing and checking {hooping.name}")
        made += make_hooping(hooping, settings)
    job.progress(1.0, f"{len(hoopings)} hoopings are written")
    return made


def fields_of(project: Project) -> list[Field]:
    """The distinct sewing fields of the project's tracks, in the tracks' order.

    Fields of one label differ by less than a millimetre: the smaller sides serve both.
    """
    found: dict[str, Field] = {}
    for track in project.tracks:
        if track.hoop is None:
            continue
        field = Field(float(track.hoop.width_mm), float(track.hoop.height_mm))
        other = found.get(field.label, field)
        found[field.label] = Field(min(field.width_mm, other.width_mm), min(field.height_mm, other.height_mm))
    return list(found.values())


def read_all(job: JobInput, project: Project) -> tuple[StitchPiece, ...]:
    """Every piece, above what it overlaps: what nothing is said of lies there in the order of the document."""
    outlines = {piece.name: find_drawn(job, piece) for piece in project.pieces}
    laid = lay_pieces(project.pieces, outlines)
    return tuple(
        replace(read_piece(job, project, piece, outlines[piece.name]), above=laid.comes_after[piece.name])
        for piece in project.pieces
    )


def find_drawn(job: JobInput, piece: Piece) -> Outline:
    """A piece's outline as drawn; `CannotMake` where it is not there."""
    try:
        return find_outline(job.outlines, piece.outline)
    except OutlineNotFound as missing:
        raise CannotMake(missing.detail, pointer=f"{piece.pointer}/outline", right=missing.right) from missing


def read_piece(job: JobInput, project: Project, piece: Piece, outline: Outline) -> StitchPiece:
    """A piece with its outline placed on the top and flattened."""
    placed = place(piece, outline)
    details = tuple(read_detail(job, piece, detail, outline) for detail in piece.details)
    return StitchPiece(
        name=piece.name,
        rings=tuple(flatten(ring) for ring in placed.rings),
        thread=piece.thread,
        edge=piece.hoop_edge,
        trim_in_place=project.fabrics[piece.fabric].trim_in_place,
        above=piece.above,
        pointer=piece.pointer,
        private=not may_leave_with_details(project, piece),
        settings=choose_settings(piece, project.fabrics[piece.fabric]),
        details=details,
        motif=name_motif(piece),
        turn_degrees=float(piece.turn),
        at_mm=(float(piece.at[0] * MM_PER_INCH), float(piece.at[1] * MM_PER_INCH)),
        turned=piece.turned_under,
    )


def name_motif(piece: Piece) -> str:
    """What makes two pieces the same shape but for their place and turn."""
    details = [replace(detail, pointer="") for detail in piece.details]
    return f"{piece.outline} {piece.scale} {piece.mirror} {details}"


def may_leave_with_details(project: Project, piece: Piece) -> bool:
    """Whether the piece's outline and those of its details may all stand in a public bundle."""
    drawn = [piece, *(replace(piece, outline=detail.outline) for detail in piece.details if detail.outline)]
    return all(project.may_leave(one) for one in drawn)


def read_detail(job: JobInput, piece: Piece, detail: Detail, outline: Outline) -> DetailLine:
    """A detail placed on the top as it lies to the piece's outline."""
    onto = find_placing(piece, outline)
    if detail.outline:
        try:
            drawn = find_outline(job.outlines, detail.outline).moved(onto)
        except OutlineNotFound as missing:
            where = f"{detail.pointer}/outline"
            raise CannotMake(missing.detail, pointer=where, right=missing.right) from missing
        paths = tuple(flatten(ring) for ring in drawn.rings)
    else:
        left, top, right, bottom = outline.box_mm
        middle = ((left + right) / 2, (top + bottom) / 2)
        corners = [(middle[0] + float(x / MM), middle[1] + float(y / MM)) for x, y in detail.points]
        paths = (np.array([onto.apply(corner) for corner in corners]),)
    return DetailLine(
        sew=detail.sew,
        paths=paths,
        closed=detail.closed or bool(detail.outline),
        width_mm=in_mm(detail.width, USUAL.line_width_mm),
        angle_degrees=float(detail.angle),
        thread=detail.thread,
        pointer=detail.pointer,
    )


def write_hooping(hooping: Hooping, settings: StitchSettings) -> tuple[bytes, Checked, list[Check]]:
    """The stitch file of one hooping, read back, and every check of what was read."""
    recorded = record_passes(hooping.passes, settings, label=hooping.name)
    checked = Checked(hooping, read_stitch_file(recorded.data), recorded.ranges, settings)
    return recorded.data, checked, check_hooping(checked)


def sew_again(hooping: Hooping, checks: list[Check]) -> Hooping:
    """The hooping with the pieces that failed a check sewn with more lap and a tack-down nearer to the edge."""
    failed = {str(where["piece"]) for c in checks if not c.ok for where in c.where if "piece" in where}
    sewn = tuple(
        sew_piece(s.piece, replace(s.piece.settings, tack_inset_mm=NEARER_TACK_MM, lap_mm=MORE_LAP_MM))
        if s.piece.name in failed
        else s
        for s in hooping.sewn
    )
    return replace(hooping, sewn=sewn, sequence=sequence_passes(sewn))


def say_same(hooping: Hooping) -> list[str]:
    """That one file serves more than once, and where its middle comes and how the top lies in the hoop each time."""
    said = []
    if hooping.again:
        places = "; ".join(
            f"for {', '.join(one.pieces)} {say_place(one.centre_mm, one.top_turned_degrees)}"
            for one in hooping.again
        )
        said.append(f"sew this file {1 + len(hooping.again)} times: once as it is, then {places}")
    if hooping.same_as:
        where = say_place(hooping.same_centre_mm, hooping.top_turned_degrees)
        said.append(f"hooping {hooping.same_as} sews the same: its file serves here too, {where}")
    return said


def say_place(centre_mm: tuple[float, float], turned: float) -> str:
    """Where the middle of the field comes on the top, and how the top lies in the hoop."""
    way = f"turned {turned:g} degrees clockwise" if turned else "upright"
    x, y = centre_mm
    return f"its middle at {x:.1f}, {y:.1f} mm of the finished top, with the top hooped {way}"


def make_hooping(hooping: Hooping, settings: StitchSettings) -> list[MadeFile]:
    """The files of one hooping. Where its file fails, it is sewn once more; the better of the two is kept."""
    data, checked, checks = write_hooping(hooping, settings)
    if not all(check.ok for check in checks):
        again = write_hooping(sew_again(hooping, checks), settings)
        if sum(not check.ok for check in again[2]) < sum(not check.ok for check in checks):
            data, checked, checks = again
    hooping, reading = checked.hooping, checked.reading
    notes = [note for sewn in hooping.sewn for note in sewn.notes] + say_same(hooping)
    report = build_report(hooping, reading, checked.ranges, checks, notes, settings)
    public = bool(report["released"]) and not hooping.private
    name, places = f"stitch-{hooping.name}", failed_places(checks)
    return [
        MadeFile(f"{name}.dst", "application/octet-stream", data, "stitch file", public),
        MadeFile(f"{name}.svg", "image/svg+xml", draw_preview(checked, checks), "stitch preview", public),
        MadeFile(f"{name}.png", "image/png", draw_png(checked, places), "stitch preview", public),
        MadeFile(f"{name}-colours.svg", "image/svg+xml", draw_colour_sheet(hooping), "colour order", public),
        MadeFile(f"{name}.json", "application/json", format_report(report), "stitch report", public),
    ]
