"""Which templates a track needs: every shape once, with how often it is wanted and from which cloth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass

from service.craft.document import Project
from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine, Point
from workers.outlines.asked import AskedPiece

NAMES_AT_MOST = 12

UP: Point = (0.0, -1.0)


@dataclass(frozen=True)
class Template:
    """One page item: the shape as it is drawn, at true size, its box beginning at (0, 0).

    `title` is the shape's name, and says where its pieces are mirrored; `pieces` names the pieces.
    `cloths` counts the pieces by cloth; `grain` is the direction of the lengthwise grain as drawn, or None
    where pieces of the shape lie at different angles; `pointer` is that of its first piece. A template of a patch has
    its `seam_line` inside the outline, and a `letter`.
    """

    title: str
    pieces: str
    outline: Outline
    cloths: tuple[tuple[str, int], ...]
    words: tuple[str, ...]
    grain: Point | None
    pointer: str
    seam_line: Outline | None = None
    letter: str = ""

    @property
    def count(self) -> int:
        """How many pieces are cut from it."""
        return sum(count for _, count in self.cloths)

    @property
    def cut_words(self) -> str:
        """How many of which cloth, in words."""
        return "Cut " + ", ".join(f"{count} from {cloth}" for cloth, count in self.cloths)


def plan_templates(pieces: Iterable[AskedPiece]) -> list[Template]:
    """The templates of the pieces that may leave the studio, in the order of the project."""
    groups: dict[Hashable, list[AskedPiece]] = {}
    for asked in pieces:
        if asked.public:
            groups.setdefault(_likeness(asked), []).append(asked)
    return [_template(group) for group in groups.values()]


def list_own(project: Project, pieces: Sequence[AskedPiece]) -> list[str]:
    """What a viewer brings: for every source that may not be passed on, its pieces in words."""
    lines = []
    for source in project.sources:
        names = [
            asked.piece.name
            for asked in pieces
            if not asked.public and not source.may_leave and source.covers_outline(asked.piece.outline)
        ]
        if names:
            lines.append(f"{source.name}, for {_listed(names)}")
    return lines


def _likeness(asked: AskedPiece) -> Hashable:
    """Pieces of equal likeness share a template.

    A turned piece is the same shape, unless its cloth has a direction: then its grain arrow differs.
    """
    piece = asked.piece
    turn = piece.turn % 360 if asked.fabric.one_way else None
    return piece.outline, piece.scale, _mirrored(asked), turn, asked.fabric.trim_in_place


def _mirrored(asked: AskedPiece) -> bool:
    return asked.piece.mirror and not asked.symmetrical


def _template(group: Sequence[AskedPiece]) -> Template:
    first = group[0]
    flipped = not first.fabric.trim_in_place
    turns = {asked.piece.turn % 360 for asked in group}
    names = list(dict.fromkeys(asked.piece.name for asked in group))
    cloths = Counter(asked.fabric.name for asked in group)
    return Template(
        title=first.outline.name + (", for mirrored pieces" if _mirrored(first) else ""),
        pieces=_listed(names),
        outline=first.fusible_side if flipped else first.outline,
        cloths=tuple(cloths.items()),
        words=_words(first, one_grain=len(turns) == 1),
        grain=_grain(float(next(iter(turns))), flipped=flipped) if len(turns) == 1 else None,
        pointer=first.piece.pointer,
    )


def _grain(turn: float, *, flipped: bool) -> Point:
    """Up on the top, turned back with the piece, and mirrored where the drawing is."""
    x, y = Affine.turning(-turn).apply(UP)
    return (-x if flipped else x), y


def _words(asked: AskedPiece, *, one_grain: bool) -> tuple[str, ...]:
    if asked.fabric.trim_in_place:
        way = (
            "Trimmed in place: no piece is cut beforehand. Trace this line onto the top, lay the cloth over it with"
            " a thumb's width to spare all round, sew it down on the line, then trim."
        )
    elif asked.symmetrical:
        way = "The same both ways round. No seam allowance: cut on the line."
    else:
        way = (
            "Drawn mirrored: trace it onto the paper side of fusible web, iron that to the back of the cloth,"
            " cut on the line. It then faces the right way. No seam allowance."
        )
    grain = (
        "The arrow follows the lengthwise grain."
        if one_grain
        else "Its pieces lie at several angles, so any way of the grain will do."
    )
    return way, grain


def _listed(names: Sequence[str]) -> str:
    shown = ", ".join(names[:NAMES_AT_MOST])
    return f"{shown} and {len(names) - NAMES_AT_MOST} more" if len(names) > NAMES_AT_MOST else shown
