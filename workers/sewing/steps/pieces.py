"""An applique piece as the steps speak of it: its names, its place, what sets its way of sewing apart."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from service.craft.language import join_words, phrase, say_number
from service.craft.outlines import Outline
from service.craft.pieces import Piece
from service.craft.stacking import stack
from workers.sewing.names import label
from workers.sewing.steps.step import APPLIQUE, Lesson, Step

RAW, SATIN, ZIGZAG, BLANKET, TURNED = ("raw", "satin", "zigzag", "blanket", "turned")

Way = tuple[bool, bool, str]
"""What decides how a piece is sewn: whether viewers own its outline, whether its cloth is trimmed, its edge."""


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
    def heading(self) -> str:
        """The name as the heading of its steps."""
        return f"{self.name[:1].upper()}{self.name[1:]}"

    @property
    def cloth(self) -> str:
        """The name of its cloth."""
        return self.lesson.cloth(self.piece.fabric)

    @property
    def thread(self) -> str:
        """Its thread in words."""
        return phrase("{thread} thread", thread=self.piece.thread.name)

    @property
    def trims(self) -> bool:
        """Whether its cloth is cut back where it lies."""
        return self.lesson.project.fabrics[self.piece.fabric].trim_in_place

    @property
    def way(self) -> Way:
        """What pieces that are sewn in the same way have in common, on every track."""
        return self.owned, self.trims, self.piece.edge

    @property
    def measured(self) -> tuple[Fraction, Fraction]:
        """Inches of its middle from the left and from the upper cut edge of the sewn top."""
        project = self.lesson.project
        return self.piece.measure_place(project.seam_allowance, project.measure)

    def find_lower(self) -> list[tuple[Piece, Outline]]:
        """The pieces it lies on, with their outlines; none that viewers must own, and none without an outline."""
        below, lesson = self.lesson.rests_on.get(self.name, self.piece.above), self.lesson
        return [
            (piece, lesson.outlines[piece.name])
            for piece in lesson.project.pieces
            if piece.name in below and piece.name in lesson.outlines and lesson.project.may_leave(piece)
        ]

    @property
    def place(self) -> str:
        """Where its middle lies, from the cut edges of the sewn top."""
        x, y = map(self.lesson.length, self.measured)
        return phrase(
            "The middle of the piece lies {x} from the left cut edge of the top and {y} from the upper one.",
            x=x,
            y=y,
        )

    @property
    def turned(self) -> str:
        """How it is turned, as a sentence with a space before it; empty where it stands upright."""
        degrees = float(self.piece.turn)
        if not degrees:
            return ""
        shown = say_number(abs(degrees))
        turn = (
            phrase("Turn the piece {degrees} degrees clockwise, as the drawing shows.", degrees=shown)
            if degrees > 0
            else phrase(
                "Turn the piece {degrees} degrees anticlockwise, as the drawing shows.", degrees=shown
            )
        )
        return f" {turn}"

    @property
    def over(self) -> str:
        """What it lies over, as a sentence, or an empty text."""
        below = [
            phrase("the {piece}", piece=name)
            for name in self.lesson.rests_on.get(self.name, self.piece.above)
        ]
        return (
            phrase("It lies over {pieces}, so that the lower cut edge is hidden.", pieces=join_words(below))
            if below
            else ""
        )

    @property
    def covered(self) -> str:
        """What lies on its edge, as a sentence with a space before it; empty where nothing does."""
        rests_on = self.lesson.rests_on
        tops = [
            phrase("the {piece}", piece=p.name)
            for p in self.lesson.project.pieces
            if self.name in rests_on.get(p.name, p.above)
        ]
        if not tops:
            return ""
        flat = phrase("Leave its edge flat under {pieces}.", pieces=join_words(tops))
        return f" {flat}"

    def step(self, what: str, text: str, why: str = "", **more: object) -> Step:
        """A step about the piece; what is owned by others names no file."""
        told: dict[str, object] = {"heading": self.heading, "pieces": (self.name,), **more}
        made = Step(f"applique.piece.{label(self.name)}.{what}", APPLIQUE, text, why, **told)  # type: ignore[arg-type]
        return replace(made, files=()) if self.owned else made


def list_pieces(lesson: Lesson) -> list[PieceLesson]:
    """Every piece, from the lowest up."""
    pieces = {piece.name: piece for piece in lesson.project.pieces}
    return [
        PieceLesson(pieces[name], lesson, not lesson.project.may_leave(pieces[name]))
        for name in stack({name: piece.above for name, piece in pieces.items()})
    ]


def count_off(pieces: Iterable[PieceLesson]) -> str:
    """Pieces by name as the object of a sentence, so that none is forgotten.

    One piece is "the leaf"; more are "all 2 pieces: left leaf and right leaf".
    """
    names = [one.name for one in pieces]
    return (
        phrase("the {piece}", piece=names[0])
        if len(names) == 1
        else phrase("all {count} pieces: {pieces}", count=len(names), pieces=join_words(names))
    )


def group_by_cloth(pieces: Iterable[PieceLesson]) -> list[list[PieceLesson]]:
    """Pieces of one cloth together, in the order in which each cloth first comes."""
    groups: dict[str, list[PieceLesson]] = {}
    for one in pieces:
        groups.setdefault(one.piece.fabric, []).append(one)
    return list(groups.values())
