"""Is a project ready for a batch? The document can be sewn; here its outlines are held against it.

Everything that stands in the way is a fault; what may be meant so is a warning.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.craft.cut_check import check_cuts
from service.craft.document import Project
from service.craft.fabric import Fabric
from service.craft.faults import Fault
from service.craft.hoop_check import check_hoops, check_spacing, look_at_split
from service.craft.machine_room import SLACK_MM, fits_into, list_equipment, say_whole
from service.craft.measure import format_length
from service.craft.outlines import (
    OpenLine,
    Outline,
    OutlineFile,
    OutlineNotFound,
    find_detail,
    find_lines,
    find_outline,
)
from service.craft.outlines.affine import Affine
from service.craft.outlines.cut_shapes import make_cut_shapes
from service.craft.outlines.model import Box
from service.craft.pieces import Piece
from service.craft.rights import find_unstated
from service.craft.rough_cloth import find_rectangle, find_room, fits_on, lay_box
from service.craft.seam_check import check_seams
from service.craft.stack_check import look_at_stack
from service.craft.stitching import LINE_KINDS
from service.craft.tracks import MM_PER_INCH, Track
from service.craft.warnings import find_warnings

MAT_MARGIN_MM = 6.0
"""Kept free all round on a cutting mat; common practice, no source."""


@dataclass(frozen=True)
class Readiness:
    """What stands in the way (`faults`), and what to look at (`warnings`)."""

    faults: tuple[Fault, ...]
    warnings: tuple[Fault, ...]

    @property
    def ready(self) -> bool:
        """Whether a batch can be made."""
        return not self.faults

    def to_json(self) -> dict[str, Any]:
        """As it stands in an answer."""
        return {
            "ready": self.ready,
            "faults": [fault.to_json() for fault in self.faults],
            "warnings": [fault.to_json() for fault in self.warnings],
        }


@dataclass(frozen=True)
class Laid:
    """A piece with its outline as drawn and as it lies on the top, and the shape it is cut in, as it lies there."""

    piece: Piece
    outline: Outline
    on_top: Outline
    cut: Outline

    @property
    def sides_mm(self) -> tuple[float, float]:
        """Width and height of its box on the top."""
        return self.on_top.width_mm, self.on_top.height_mm

    def cut_sides_mm(self, *, as_placed: bool) -> tuple[float, float]:
        """Width and height of the shape it is cut in, as it lies on the top or before it is turned."""
        back = Affine() if as_placed else Affine.turning(-float(self.piece.turn))
        cut = self.cut.moved(back)
        return cut.width_mm, cut.height_mm


def check_readiness(project: Project, outlines: Mapping[str, OutlineFile]) -> Readiness:
    """Hold a project against the outline files that are there, by name."""
    faults: list[Fault] = []
    warnings: list[Fault] = []
    laid_pieces, missing = _lay_pieces(project, outlines)
    faults += missing
    for laid in laid_pieces:
        faults += _check_place(laid, project)
        faults += check_hoops(laid.piece, laid.outline, laid.sides_mm, project)
        faults += check_spacing(laid.piece, project)
        faults += _check_mats(laid, project.tracks, project.fabrics)
        faults += _check_cloth(laid, project)
        warnings += _look_at_edge(laid, project)
        warnings += _look_at_lines(laid.piece, outlines)
        warnings += look_at_split(laid.piece, laid.sides_mm, project)
    warnings += look_at_stack(project.pieces, {laid.piece.name: laid.on_top for laid in laid_pieces})
    warnings += _look_at_sources(project, outlines)
    for check in (check_seams, check_cuts):
        found, looks = check(project)
        faults, warnings = faults + found, warnings + looks
    warnings += [*find_warnings(project), *project.unread]
    return Readiness(tuple(faults), tuple(warnings))


def _lay_pieces(project: Project, outlines: Mapping[str, OutlineFile]) -> tuple[list[Laid], list[Fault]]:
    """Every piece whose outline is there, and a fault for each whose is not."""
    found: dict[str, Outline] = {}
    faults = []
    for piece in project.pieces:
        try:
            found[piece.name] = find_outline(outlines, piece.outline)
        except OutlineNotFound as why:
            faults.append(Fault(f"{piece.pointer}/outline", why.detail, why.right))
        faults += _missing_details(piece, outlines)
    shapes = make_cut_shapes(project.pieces, found, project.applique)
    there = [piece for piece in project.pieces if piece.name in found]
    return [
        Laid(piece, found[piece.name], shapes[piece.name].finished, shapes[piece.name].outline)
        for piece in there
    ], faults


def _missing_details(piece: Piece, outlines: Mapping[str, OutlineFile]) -> Iterator[Fault]:
    """Details whose shape is in no drawing."""
    for detail in piece.details:
        if detail.outline:
            where = f"{detail.pointer}/outline"
            try:
                found = find_detail(outlines, detail.outline)
            except OutlineNotFound as why:
                yield Fault(where, why.detail, why.right)
                continue
            if isinstance(found, OpenLine) and detail.sew == "fill":
                yield Fault(where, f'"{detail.outline}" is an open line: a fill has an area', LINE_KINDS)


def _look_at_lines(piece: Piece, outlines: Mapping[str, OutlineFile]) -> Iterator[Fault]:
    """Lines that are drawn in the piece's shape and that no detail asks for: they are not sewn."""
    asked = {detail.outline for detail in piece.details}
    left = [f"{piece.outline_file}#{line.name}" for line in find_lines(outlines, piece.outline)]
    left = [name for name in left if name not in asked]
    if left:
        yield Fault(
            piece.pointer,
            f'the shape of "{piece.name}" has lines drawn in it that are not sewn: {", ".join(left)}',
            f'nothing, or `details` such as {{"sew": "triple run", "outline": "{left[0]}"}}',
        )


def _check_place(laid: Laid, project: Project) -> Iterator[Fault]:
    """A piece lies on the finished top with all of its outline."""
    over = [(side, mm) for side, mm in _room_mm(laid.on_top.box_mm, project).items() if mm < -SLACK_MM]
    if over:
        far = " and ".join(f"{-mm:.1f} mm over the {side} edge" for side, mm in over)
        yield Fault(
            laid.piece.pointer,
            f'the piece "{laid.piece.name}" reaches {far} of the finished top',
            "move it with `at`, or make it smaller with `scale`",
        )


def _room_mm(box: Box, project: Project) -> dict[str, float]:
    """How far a box stays inside each edge of the top; less than nothing where it reaches over."""
    width, height = (float(side * MM_PER_INCH) for side in (project.top.width, project.top.height))
    left, top, right, bottom = box
    return {"left": left, "upper": top, "right": width - right, "lower": height - bottom}


def _check_mats(laid: Laid, tracks: tuple[Track, ...], fabrics: Mapping[str, Fabric]) -> Iterator[Fault]:
    """A piece that goes on a cutting mat fits on it with the margin; cloth with a direction is not turned there."""
    fabric = fabrics[laid.piece.fabric]
    if fabric.trim_in_place:
        return
    width, height = laid.cut_sides_mm(as_placed=fabric.one_way)
    need = (width + 2 * MAT_MARGIN_MM, height + 2 * MAT_MARGIN_MM)
    for mat, names in list_equipment(tracks, "cutter").items():
        if not fits_into(need, mat, may_turn=not fabric.one_way):
            yield Fault(
                laid.piece.pointer,
                f'the piece "{laid.piece.name}" is too large for the cutting mat {mat.label} mm of {names}: '
                f"with {MAT_MARGIN_MM:g} mm kept free it needs {say_whole(need)} mm",
                f"a mat of {say_whole(need)} mm, a smaller `scale`, or the shape in two pieces",
            )


def _check_cloth(laid: Laid, project: Project) -> Iterator[Fault]:
    """A piece fits on its cloth with room all round."""
    fabric = project.fabrics[laid.piece.fabric]
    box = lay_box(*laid.cut_sides_mm(as_placed=fabric.one_way), fabric)
    rectangle = find_rectangle(box, find_room(fabric, project.tracks), project.measure)
    if not fits_on(rectangle, fabric):
        size = " by ".join(format_length(side, project.measure) for side in rectangle)
        usable = format_length(fabric.usable_width, project.measure)
        yield Fault(
            laid.piece.pointer,
            f'the piece "{laid.piece.name}" takes {size} of "{fabric.name}", which is {usable} wide',
            "a smaller `scale`, or a wider cloth",
        )


def _look_at_edge(laid: Laid, project: Project) -> Iterator[Fault]:
    """A piece very near to the edge of the top gets under the binding."""
    seam_mm = float(project.seam_allowance * MM_PER_INCH)
    nearest = min(_room_mm(laid.on_top.box_mm, project).values())
    if -SLACK_MM <= nearest < seam_mm and project.finish.binding is not None:
        yield Fault(
            laid.piece.pointer,
            f'the piece "{laid.piece.name}" comes as near as {nearest:.1f} mm to the edge of the top',
            "leave a seam allowance more between it and the binding",
        )


def _look_at_sources(project: Project, outlines: Mapping[str, OutlineFile]) -> Iterator[Fault]:
    """Whose the outlines are, and files nobody asks for."""
    yield from find_unstated(project.pieces, project.sources)
    wanted = {piece.outline_file.removesuffix(".svg") for piece in project.pieces}
    for name in outlines:
        if name.removesuffix(".svg") not in wanted:
            yield Fault(
                "/pieces", f'no piece uses the outline file "{name}"', "a piece that uses it, or delete it"
            )
