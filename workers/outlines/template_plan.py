"""Which templates a track needs: every shape once, with how often it is wanted and from which cloth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from service.craft.applique import USUAL_APPLIQUE, AppliqueRules
from service.craft.document import Project
from service.craft.language import phrase
from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.cut_shapes import Run
from workers.outlines.asked import FROM_BACK, AskedPiece
from workers.outlines.template_marks import Crossing, mark_template
from workers.outlines.template_snips import find_snips
from workers.outlines.template_words import CutWords

NAMES_AT_MOST = 12

UP: Point = (0.0, -1.0)

NO_HOOPINGS: Mapping[str, Sequence[Crossing]] = {}


@dataclass(frozen=True)
class Template:
    """One page item: the shape as it is drawn, at true size, its box beginning at (0, 0).

    `title` is the shape's name, and says where its pieces are mirrored; `pieces` names the pieces.
    `cloths` counts the pieces by cloth; `grain` is the direction of the lengthwise grain as drawn, or None
    where pieces of the shape lie at different angles; `pointer` is that of its first piece. A template of a patch has
    its `seam_line` inside the outline, and a `letter`; one with a turned edge has its finished shape there, and the
    `snips` into its allowance. `under` are the stretches of the outline that lie under other pieces; `marks` are
    laid on lines drawn on the top, `split` is where hoopings part its edge.
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
    under: tuple[Run, ...] = ()
    snips: tuple[Run, ...] = ()
    marks: tuple[Run, ...] = ()
    split: tuple[Run, ...] = ()

    @property
    def count(self) -> int:
        """How many pieces are cut from it."""
        return sum(count for _, count in self.cloths)

    @property
    def cloth_words(self) -> str:
        """How many of which cloth, in words."""
        return ", ".join(
            phrase("{count} from {cloth}", count=count, cloth=cloth) for cloth, count in self.cloths
        )


def plan_templates(
    pieces: Iterable[AskedPiece],
    rules: AppliqueRules = USUAL_APPLIQUE,
    measure: str = "in",
    crossings: Mapping[str, Sequence[Crossing]] = NO_HOOPINGS,
) -> list[Template]:
    """The templates of the pieces that may leave the studio, in the order of the project.

    `rules` are those that the pieces were cut by, written in `measure`; `crossings` the hoopings of the track by piece.
    """
    groups: dict[Hashable, list[AskedPiece]] = {}
    for asked in pieces:
        if asked.public:
            groups.setdefault(_likeness(asked), []).append(asked)
    words = CutWords(rules, measure)
    return [_template(group, words, crossings) for group in groups.values()]


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
            lines.append(phrase("{source}, for {pieces}", source=source.name, pieces=_listed(names)))
    return lines


def _likeness(asked: AskedPiece) -> Hashable:
    """Pieces of equal likeness share a template.

    A turned piece is the same shape, unless its cloth has a direction: then its grain arrow differs.
    """
    piece = asked.piece
    turn = piece.turn % 360 if asked.fabric.one_way else None
    ways = _mirrored(asked), turn, asked.fabric.trim_in_place, piece.turned_under
    return piece.outline, piece.scale, ways, _describe_cut(asked)


def _describe_cut(asked: AskedPiece) -> Hashable:
    """What is added to the finished shape, and what lies under others: to a tenth of a millimetre."""
    if asked.cut is asked.outline and not asked.under:
        return None
    ends = [point for ring in asked.cut.rings for _, segment in ring.pairs() for point in segment.points]
    return tuple((round(x, 1), round(y, 1)) for x, y in [*ends, *(p for run in asked.under for p in run)])


def _mirrored(asked: AskedPiece) -> bool:
    return asked.piece.mirror and not asked.symmetrical


def _template(
    group: Sequence[AskedPiece], words: CutWords, crossings: Mapping[str, Sequence[Crossing]]
) -> Template:
    first = group[0]
    flipped = not first.fabric.trim_in_place
    turns = {asked.piece.turn % 360 for asked in group}
    shape_name = first.outline.name
    names = list(dict.fromkeys(asked.piece.name for asked in group))
    cloths = Counter(asked.fabric.name for asked in group)
    # What is trimmed in place is traced as it shows; its cloth is cut later, and further out.
    shape = first.cut if flipped else first.outline
    way = FROM_BACK if flipped else Affine()
    left, top, _, _ = shape.moved(way).box_mm
    lay = Affine.moving(-left, -top) @ way
    finished = first.outline.moved(lay) if first.piece.turned_under else None
    marks = mark_template(group, lay, crossings)
    return Template(
        title=phrase("{shape}, for mirrored pieces", shape=shape_name) if _mirrored(first) else shape_name,
        pieces=_listed(names),
        outline=shape.moved(lay),
        cloths=tuple(cloths.items()),
        words=(*words.say(first, one_grain=len(turns) == 1), *marks.words),
        grain=_grain(float(next(iter(turns))), flipped=flipped) if len(turns) == 1 else None,
        pointer=first.piece.pointer,
        seam_line=finished,
        under=_moved(first.under, lay) if flipped else (),
        snips=find_snips(finished, words.rules.turning_mm) if finished else (),
        marks=marks.lines,
        split=marks.split,
    )


def _moved(runs: Sequence[Run], by: Affine) -> tuple[Run, ...]:
    return tuple(tuple(by.apply(point) for point in run) for run in runs)


def _grain(turn: float, *, flipped: bool) -> Point:
    """Up on the top, turned back with the piece, and mirrored where the drawing is."""
    x, y = Affine.turning(-turn).apply(UP)
    return (-x if flipped else x), y


def _listed(names: Sequence[str]) -> str:
    shown = ", ".join(names[:NAMES_AT_MOST])
    if len(names) <= NAMES_AT_MOST:
        return shown
    return phrase("{names} and {count} more", names=shown, count=len(names) - NAMES_AT_MOST)
