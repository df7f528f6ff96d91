"""Pieces too large for the sewing field: the edge sewn part by part, a hooping each, the cloth left whole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.craft.language import mark, phrase
from service.craft.outlines.split_parts import find_split_ends
from workers.sewing.steps.applique_in_hoop import MACHINE, is_cut
from workers.sewing.steps.applique_last_pass import say_last_pass, why_beyond
from workers.sewing.steps.applique_turned import press_turned
from workers.sewing.steps.hazards import FUMES, HOOP, IRON, NEEDLE, SCISSORS
from workers.sewing.steps.hoopings import file_of, find_hoopings_of, say_hooped, say_place
from workers.sewing.steps.pieces import PieceLesson
from workers.sewing.steps.step import Step
from workers.stitches.part_words import MATCHES_MM
from workers.stitches.pieces import Hooping, SplitPart

PARTS = {
    "left part": mark("the left part of the {name}"),
    "right part": mark("the right part of the {name}"),
    "upper part": mark("the upper part of the {name}"),
    "lower part": mark("the lower part of the {name}"),
}
"""A part in words, by what it is called where there are two."""


@dataclass(frozen=True)
class PartLesson:
    """A part of a piece, its hooping, and the steps that sew it."""

    one: PieceLesson
    part: SplitPart
    hooping: Hooping

    def step(self, what: str, text: str, why: str = "", **more: object) -> Step:
        """A step about this part: its own id, and the files of its own hooping."""
        return self.one.step(f"part-{self.part.number}.{what}", text, why, **more)

    @property
    def files(self) -> tuple[str, ...]:
        """The file of its hooping."""
        return (file_of(self.hooping),)

    @property
    def name(self) -> str:
        """The part in words: the left part of the leek."""
        if self.part.name in PARTS:
            return phrase(PARTS[self.part.name], name=self.one.name)
        return phrase(
            "the part {number} of {of} of the {name}",
            number=self.part.number,
            of=self.part.of,
            name=self.one.name,
        )

    def hoop(self) -> Iterator[Step]:
        """The top hooped for this part, and its placement line."""
        name, first = self.one.name, self.part.number == 1
        if not first:
            yield self.step(
                "fold",
                phrase(
                    "Take the top out of the hoop. Fold the loose cloth of the {name} back over what is sewn, and pin "
                    "it there.",
                    name=name,
                ),
                phrase("The next placement line is sewn on the top alone."),
                tools=("pins",),
            )
        yield self.step(
            "rehoop",
            phrase(
                "Hoop the stabiliser and the top for {part}: {hooped}.",
                part=self.name,
                hooped=say_hooped(self.one, self.hooping),
            ),
            phrase("All middles were marked on one flat top, so the parts meet."),
            more=phrase("Bring the needle over the crossing lines before you start."),
            hazards=(HOOP, NEEDLE),
            tools=(*MACHINE, "stabiliser"),
            files=self.files,
        )
        yield self.step(
            "placement",
            phrase("Sew the placement line of {part}.", part=self.name)
            if first
            else phrase(
                "Sew the placement line of {part}. It meets the sewn edge at the split: where it lies more than {mm} "
                "mm beside it, unpick it and hoop again.",
                part=self.name,
                mm=MATCHES_MM,
            ),
            phrase("The line shows where the cloth goes.")
            if first
            else phrase(
                "Nothing is lost by unpicking a line of long stitches; an edge is not so easily undone."
            ),
            hazards=(HOOP,),
            tools=MACHINE,
            files=self.files,
        )

    def lay(self) -> Iterator[Step]:
        """All of the cloth laid on the first placement line, what reaches beyond it kept from the needle."""
        one = self.one
        yield self._off()
        yield self.step(
            "lay",
            phrase(
                "Lay the {name} over the placement line, edges along the line. Fold what reaches beyond the split "
                "back, and pin it out of the needle's way.",
                name=one.name,
            )
            if is_cut(one)
            else phrase(
                "Lay a piece of {cloth}, large enough for all of the {name}, over the placement line, right side up, a "
                "thumb's width to spare all round. Fold what reaches beyond the split back, and pin it out of the "
                "needle's way.",
                cloth=one.cloth,
                name=one.name,
            ),
            phrase(
                "The cloth is one piece; the part that lies beyond the split is sewn in the next hooping."
            ),
            tools=("pins",),
        )
        yield from self._fuse()

    def lay_rest(self) -> Iterator[Step]:
        """What was folded away laid on the line of the next part."""
        yield self._off()
        yield self.step(
            "lay",
            phrase(
                "Unpin the loose cloth of the {name} and smooth it down from the split outwards, its edge along the "
                "placement line. Fold what reaches beyond the next split back.",
                name=self.one.name,
            )
            if self.part.number < self.part.of
            else phrase(
                "Unpin the loose cloth of the {name} and smooth it down from the split outwards, its edge along the "
                "placement line.",
                name=self.one.name,
            ),
            phrase("Smoothed away from what is sewn, it lies without a ripple."),
        )
        yield from self._fuse()

    def sew(self) -> Iterator[Step]:
        """Tack-down, trimming where the cloth is not cut yet, and the edge."""
        one = self.one
        yield self._on("hoop-on")
        yield self.step(
            "tack-down",
            phrase("Sew the tack-down of {part}.", part=self.name),
            phrase("It holds the cloth just inside the edge, as far as this part goes."),
            hazards=(HOOP,),
            tools=MACHINE,
            files=self.files,
        )
        if not is_cut(one):
            yield self._off()
            yield self.step(
                "trim",
                phrase(
                    "Trim the {cloth} close outside the tack-down of this part, and no farther than the split.",
                    cloth=one.cloth,
                ),
                phrase("What lies beyond the split is trimmed once it is sewn down."),
                hazards=(SCISSORS,),
                tools=("small curved scissors",),
            )
            yield self._on("hoop-on-again")
        yield self.step(
            "finish",
            say_last_pass(one, self.name),
            why_beyond(one),
            hazards=(HOOP,),
            tools=MACHINE,
            files=self.files,
        )

    def _fuse(self) -> Iterator[Step]:
        one = self.one
        if is_cut(one) and not one.piece.turned_under:
            yield self.step(
                "fuse",
                phrase(
                    "Peel the paper off this part of the {name} and fuse it down with the tip of the iron, "
                    "and not near the hoop.",
                    name=one.name,
                ),
                phrase("Fused, the piece cannot shift under the needle."),
                hazards=(IRON, FUMES),
                tools=("iron",),
            )

    def _off(self) -> Step:
        return self.step(
            "hoop-off",
            phrase("When the machine has stopped, take the hoop off, but leave the work in it."),
            phrase("So the work keeps its place under the needle."),
            hazards=(HOOP,),
        )

    def _on(self, what: str) -> Step:
        return self.step(
            what,
            phrase("Put the hoop back on the machine."),
            phrase("It clicks in where it was, and the needle goes on where it stopped."),
            hazards=(HOOP,),
            tools=MACHINE,
        )


def find_parts(one: PieceLesson) -> list[PartLesson]:
    """The parts that a piece is sewn in on the lesson's track, in order; none where it is sewn whole."""
    found = [
        PartLesson(one, sewn.piece.part, hooping)
        for hooping in find_hoopings_of(one)
        for sewn in hooping.sewn
        if sewn.piece.name == one.name and sewn.piece.part is not None
    ]
    return sorted(found, key=lambda lesson: lesson.part.number)


def teach_in_parts(one: PieceLesson, parts: list[PartLesson]) -> Iterator[Step]:
    """One piece in full, part by part."""
    if one.piece.turned_under:
        yield from press_turned(one)
    yield _mark(one, parts)
    for lesson in parts:
        yield from lesson.hoop()
        yield from lesson.lay() if lesson.part.number == 1 else lesson.lay_rest()
        yield from lesson.sew()


def _mark(one: PieceLesson, parts: list[PartLesson]) -> Step:
    """Where the split lies on the top, and the middles of the hoopings."""
    lines = find_split_ends(one.piece, one.lesson.outlines[one.name])
    said = phrase("; another ").join(
        phrase("begins {start}, and ends {end}", start=say_place(one, start), end=say_place(one, end))
        for start, end in lines
    )
    return one.step(
        "mark-split",
        phrase(
            "Draw the split of the {name} on the top: a straight line that {said}. Mark the middles of its {count} "
            "hoopings now too; the drawing of places shows all of it.",
            name=one.name,
            said=said,
            count=len(parts),
        ),
        phrase(
            "The {name} is larger than the sewing field: its edge is sewn in {count} hoopings, its cloth stays in one "
            "piece. Once a part is sewn, the top no longer lies as flat.",
            name=one.name,
            count=len(parts),
        ),
        tools=("washable marker", "ruler"),
    )
