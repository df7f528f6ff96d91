"""The applique chapter: each piece from the lowest up, by what the track has at home.

With a hoop the machine sews placement line, tack-down and edge. With a cutting machine the pieces come from its mat.
With neither they are drawn round a template. Cloth to be trimmed in place is laid on its line and cut back there on
every track. A piece whose outline the viewer must own names no file: the step says what to bring.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from service.craft.pieces import Piece
from service.craft.stacking import stack
from service.craft.tracks import slug
from workers.sewing.names import label
from workers.sewing.steps.hazards import FUMES, HOOP, IRON, MAT_MACHINE, NEEDLE, SCISSORS
from workers.sewing.steps.step import APPLIQUE, Lesson, Step

RAW, SATIN, ZIGZAG, BLANKET = ("raw", "satin", "zigzag", "blanket")
STITCH = {
    SATIN: "close satin stitches",
    ZIGZAG: "a zigzag stitch",
    BLANKET: "a blanket stitch",
    RAW: "a straight stitch just inside the edge",
}
"""How the edge is sewn by machine where there is no hoop."""


@dataclass(frozen=True)
class PieceLesson:
    """One piece and what its steps are written for. `owned` says that its outline may not be passed on."""

    piece: Piece
    lesson: Lesson
    owned: bool

    @property
    def name(self) -> str:
        """The piece's name."""
        return self.piece.name

    @property
    def cloth(self) -> str:
        """The name of its cloth."""
        return self.lesson.cloth(self.piece.fabric)

    @property
    def trims(self) -> bool:
        """Whether its cloth is cut back where it lies."""
        return self.lesson.project.fabrics[self.piece.fabric].trim_in_place

    def step(self, what: str, text: str, why: str = "", **more: object) -> Step:
        """A step about the piece; what is owned by others names no file."""
        made = Step(f"applique.piece.{label(self.name)}.{what}", APPLIQUE, text, why, **more)  # type: ignore[arg-type]
        return replace(made, files=()) if self.owned else made


def teach_applique(lesson: Lesson) -> Iterator[Step]:
    """Every step of the chapter; none where there is no piece."""
    pieces = {piece.name: piece for piece in lesson.project.pieces}
    if not pieces:
        return
    taught = [
        PieceLesson(pieces[name], lesson, not lesson.project.may_leave(pieces[name]))
        for name in stack({name: piece.above for name, piece in pieces.items()})
    ]
    if lesson.track.hoop is not None:
        yield _hoop_step(lesson, taught)
    for one in taught:
        yield from _teach_piece(one)
    yield _look_step(lesson)


def _teach_piece(one: PieceLesson) -> Iterator[Step]:
    if one.owned:
        yield _bring(one)
    if one.lesson.track.hoop is not None:
        yield from _in_the_hoop(one)
    elif one.trims:
        yield from _trimmed_by_hand(one)
    else:
        yield from _cut_and_stitched(one)


def _bring(one: PieceLesson) -> Step:
    sources = [
        s.name for s in one.lesson.project.sources if one.piece.outline_file in s.covers and not s.may_leave
    ]
    return one.step(
        "bring",
        f"Bring your own pattern for the {one.name}: {', '.join(sources)}.",
        "Its outline belongs to somebody else. It may be sewn from, and may not be passed on, so no file here "
        "holds it.",
        more=f"Have it ready at the size the drawing of the top gives, for {_way_of(one.lesson)}.",
    )


def _way_of(lesson: Lesson) -> str:
    if lesson.track.hoop is not None:
        return "your hoop machine"
    return "your cutting machine" if lesson.track.cutter is not None else "tracing by hand"


def _hoop_step(lesson: Lesson, taught: list[PieceLesson]) -> Step:
    hoop = lesson.track.hoop
    assert hoop is not None, "asked only where the track has a hoop"  # noqa: S101
    field = hoop.label.replace("x", " × ") + " mm"
    shared = any(not one.owned for one in taught)
    return Step(
        "applique.hoop",
        APPLIQUE,
        f"Hoop the stabiliser with the top on it, taut and flat, for the sewing field of {field}. Do this "
        "again for "
        "each stitch file.",
        "The stabiliser keeps the stitches from pulling the cloth together.",
        more="Mark the middle of the hooping on the top with two crossing lines, and bring the needle over "
        "them first.",
        hazards=(HOOP, NEEDLE),
        tools=("embroidery machine", f"hoop with a field of {field}", "stabiliser", "washable marker"),
        files=(f"stitch-{hoop.label}-*",) if shared else (),
    )


def _place_words(one: PieceLesson) -> str:
    """Where the middle of a piece lies, from the cut edges of the top."""
    s = one.lesson.project.seam_allowance
    x, y = (one.lesson.length(place + s) for place in one.piece.at)
    return (
        f"The middle of the {one.name} lies {x} from the left cut edge of the top and {y} from the upper one."
    )


def _in_the_hoop(one: PieceLesson) -> Iterator[Step]:
    hoop, cutter = one.lesson.track.hoop, one.lesson.track.cutter
    assert hoop is not None, "asked only where the track has a hoop"  # noqa: S101
    files = (f"stitch-{hoop.label}-*",)
    ready = cutter is not None and not one.trims
    if ready:
        yield _cut_on_mat(one)
    yield one.step(
        "placement",
        f"Sew the placement line of the {one.name}. {_place_words(one)}",
        "The line shows where the cloth goes.",
        hazards=(HOOP,),
        tools=("embroidery machine",),
        files=files,
    )
    yield _lay_in_hoop(one, ready=ready)
    yield one.step(
        "tack-down",
        f"Sew the tack-down of the {one.name}.",
        "It holds the cloth just inside the edge.",
        more="Stop as soon as the cloth moves or folds, unpick, and lay it again.",
        hazards=(HOOP,),
        tools=("embroidery machine",),
        files=files,
    )
    if not ready:
        yield _trim_in_hoop(one)
    yield _finish_in_hoop(one, files)


def _lay_in_hoop(one: PieceLesson, *, ready: bool) -> Step:
    if ready:
        return one.step(
            "lay",
            f"Take the hoop off the machine. Lay the cut {one.name} of {one.cloth} inside its placement line, "
            "edges along "
            "the line, and fuse it down with the tip of the iron.",
            "The edge that is sewn later covers both the line and the cut edge.",
            hazards=(IRON, FUMES),
            tools=("iron",),
        )
    return one.step(
        "lay",
        f"Lay {one.cloth} right side up over the placement line of the {one.name}, with a thumb's width to "
        "spare all round.",
        "It is cut back to the line after it is sewn down, so it need not be cut to shape now."
        + (" Fluffy cloth stays off the cutting mat." if one.trims else ""),
    )


def _trim_in_hoop(one: PieceLesson) -> Step:
    return one.step(
        "trim",
        f"Stop the machine and take the hoop off, but leave the work in it. Trim the {one.cloth} close outside "
        "the "
        "tack-down.",
        "What sticks out further would show past the edge. Taken out of the hoop, the work never lies quite "
        "the same again.",
        hazards=(SCISSORS,),
        tools=("small curved scissors",),
    )


def _finish_in_hoop(one: PieceLesson, files: tuple[str, ...]) -> Step:
    if one.piece.edge == RAW:
        text, why = (
            f"Put the hoop back and sew the last pass of the {one.name}. Its edge stays raw.",
            "The seam holds it; the edge is meant to fray a little.",
        )
    else:
        text, why = (
            f"Put the hoop back and sew the {one.piece.edge} edge of the {one.name} in "
            f"{one.piece.thread.name}.",
            "The stitches cover the cut edge all round.",
        )
    return one.step("finish", text, why, hazards=(HOOP,), tools=("embroidery machine",), files=files)


def _cut_on_mat(one: PieceLesson) -> Step:
    """The cut files lie mirrored, for cloth with the web on its back."""
    name = f"cut-{slug(one.piece.fabric)}"
    source = "your own pattern" if one.owned else f"the files that begin with {name}"
    return one.step(
        "cut",
        f"Fuse the web to the back of the {one.cloth}, lay it on the machine's mat with the web up, and cut "
        f"the {one.name} "
        f"from {source}.",
        "Cut from the back, the outline has to be mirrored."
        + ("" if one.owned else " In these files it is."),
        more="Cut the test square from paper first and measure it both ways: 100 mm.",
        hazards=(MAT_MACHINE, IRON, FUMES),
        tools=("cutting machine", "mat of the cutting machine", "iron", "fusible web"),
        files=(f"{name}-*",),
    )


def _draw_round(one: PieceLesson) -> Iterator[Step]:
    name = f"templates-{one.lesson.track.slug}.pdf"
    source = "your own pattern" if one.owned else f"the template in {name}, printed at 100 percent"
    yield one.step(
        "trace",
        f"Draw the outline of the {one.name} onto the paper side of fusible web from {source}.",
        "The web is on the back of the cloth, so the outline has to be mirrored."
        + ("" if one.owned else " The template is."),
        more="Measure the test square on the first page before you trace. If it is off, print again at full "
        "size.",
        tools=("pencil", "fusible web"),
        files=(name,),
    )
    yield one.step(
        "cut",
        f"Fuse the web to the back of the {one.cloth}, let it cool, and cut the {one.name} on the line.",
        "The web keeps the cut edge from fraying.",
        hazards=(IRON, FUMES),
        tools=("iron", "scissors"),
    )


def _cut_and_stitched(one: PieceLesson) -> Iterator[Step]:
    if one.lesson.track.cutter is not None:
        yield _cut_on_mat(one)
    else:
        yield from _draw_round(one)
    yield one.step(
        "lay",
        f"Lay the {one.name} in its place. {_place_words(one)} Peel off the paper and fuse it down, or baste "
        "it.",
        _over(one) or "It must not move while its edge is sewn.",
        hazards=(IRON, FUMES),
        tools=("iron", "ruler"),
    )
    yield _stitch_round(one)


def _stitch_round(one: PieceLesson) -> Step:
    return one.step(
        "finish",
        f"Sew round the {one.name} by machine with {STITCH[one.piece.edge]} in {one.piece.thread.name} thread.",
        "The stitches hold the edge down."
        if one.piece.edge != RAW
        else "The edge stays raw and may fray a little.",
        more="At a corner stop with the needle down on the outside of the shape, lift the foot, turn, and go "
        "on.",
        hazards=(NEEDLE,),
        tools=("sewing machine", "stabiliser"),
    )


def _over(one: PieceLesson) -> str:
    below = [f"the {name}" for name in one.piece.above]
    return f"It lies over {' and '.join(below)}, and its edge covers theirs." if below else ""


def _trimmed_by_hand(one: PieceLesson) -> Iterator[Step]:
    """Cloth laid over a line that is drawn and sewn, sewn down on it, cut back."""
    name = f"templates-{one.lesson.track.slug}.pdf"
    source = "your own pattern" if one.owned else f"the template in {name}, printed at 100 percent"
    yield one.step(
        "placement",
        f"Draw the placement line of the {one.name} on the top from {source}, and sew along it with long "
        "stitches. "
        f"{_place_words(one)}",
        "Sewn, the line shows on the back as well.",
        hazards=(NEEDLE,),
        tools=("washable marker", "ruler", "sewing machine"),
        files=(name,),
    )
    yield one.step(
        "lay",
        f"Lay {one.cloth} right side up over the line, with a thumb's width to spare all round, and pin it.",
        "It is cut back after it is sewn down. Fluffy cloth stays off the cutting mat.",
        tools=("pins",),
    )
    yield one.step(
        "tack-down",
        "Turn the top over and sew along the same line from the back with short stitches: this tacks down the "
        f"{one.name}.",
        "In front the cloth hides the line; from the back you see it.",
        hazards=(NEEDLE,),
        tools=("sewing machine",),
    )
    yield one.step(
        "trim",
        f"Trim the {one.cloth} close outside the stitches.",
        "What sticks out further would show past the edge.",
        hazards=(SCISSORS,),
        tools=("small curved scissors",),
    )
    yield _stitch_round(one)


def _look_step(lesson: Lesson) -> Step:
    return Step(
        "applique.look",
        APPLIQUE,
        "Press the top from the back, on a soft towel, and look along every edge for a place the stitches have "
        "missed.",
        "A gap is quickly sewn now, and hard to reach once the layers are together.",
        hazards=(IRON,),
        tools=("iron", "towel"),
    )
