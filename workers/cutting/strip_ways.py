"""The ways a long strip may be cut: across the cloth, joined where it is longer, or along the length in one piece."""

from __future__ import annotations

from dataclasses import dataclass, replace

from service.craft.cutting_choices import ACROSS, ALONG, DIAGONAL_JOIN
from service.craft.cutting_words import and_then
from service.craft.document import Project
from service.craft.fabric import Fabric
from service.craft.joining import Joined, join_on_the_diagonal, join_strips
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from service.craft.panels import Panels, cut_panels, least_width
from workers.cutting.cuts import Cut
from workers.cutting.panel_cuts import piece_of_panels

ALONG_THE_ROLL = mark("cut along the length of the cloth")
IN_ONE_PIECE = mark("cut along the length of the cloth, in one piece: no join, and no more cloth")

PRINT_RUNS = {
    ALONG: mark("cut along the length as asked: the print runs along the strip"),
    ACROSS: mark("cut across the width as asked: the print runs across the strip"),
}
PILE_RUNS = {
    ALONG: mark("cut along the length as asked: the pile runs along the strip"),
    ACROSS: mark("cut across the width as asked: the pile runs across the strip"),
}


@dataclass(frozen=True)
class StripCutter:
    """What cutting strips of a cloth depends on."""

    project: Project
    fabric: Fabric

    def list_ways(self, cut: Cut, lay: str) -> tuple[Cut, ...]:
        """Every way a strip may be cut, the one across the cloth first; none where it fits in no way.

        Where nothing is asked for, a strip that fits is left as it lies, cloth with a direction is not turned, and
        a strip that is too long for plain cloth may be joined or lie along the length.
        """
        if lay == ALONG:
            along = self._along(cut, ALONG_THE_ROLL, grain=ALONG)
            return self._asked(lay, along or self._in_panels(replace(cut, grain=ALONG)))
        if lay == ACROSS:
            across = replace(cut, may_turn=False, grain=ACROSS)
            return self._asked(lay, (across,) if self._fits(across) else self._joined(across))
        if self._fits(cut):
            return (cut,)
        if cut.height > cut.width:
            return self._in_panels(cut)
        return (*self._joined(cut), *(self._along(cut, IN_ONE_PIECE) if cut.may_turn else ()))

    def _fits(self, cut: Cut) -> bool:
        return cut.width <= self.fabric.usable_width

    def _asked(self, lay: str, ways: tuple[Cut, ...]) -> tuple[Cut, ...]:
        """Cloth with a direction is cut as asked too, and the cutting list says how its print or pile comes to lie."""
        if not self.fabric.one_way:
            return ways
        runs = PRINT_RUNS if self.fabric.directional else PILE_RUNS
        notes = (phrase(runs[lay]),)
        return tuple(replace(way, notes=notes) for way in ways)

    def _along(self, cut: Cut, note: str, *, grain: str = "") -> tuple[Cut, ...]:
        short, long = sorted((cut.width, cut.height))
        lying = replace(
            cut, width=short, height=long, may_turn=False, grain=grain, notes=(*cut.notes, phrase(note))
        )
        return (lying,) if self._fits(lying) else ()

    def _in_panels(self, cut: Cut) -> tuple[Cut, ...]:
        """A strip that runs along the cloth and is wider than it, out of panels side by side."""
        rules = self.project.rules
        joined = cut_panels(cut.width, self.fabric, rules) if self._has_room() else None
        if joined is None:
            return ()
        return (piece_of_panels(cut, Panels(cut.width, cut.height, joined), self.project),)

    def _has_room(self) -> bool:
        return self.fabric.usable_width >= least_width(self.project.rules)

    def _joined(self, cut: Cut) -> tuple[Cut, ...]:
        """The strip out of equal strips joined end to end; nothing where joins eat the cloth up."""
        joined = self._find_join(cut)
        if joined is None:
            return ()
        then = joined.say()
        if joined.total > cut.width:
            length = format_length(cut.width, self.project.measure)
            then = phrase("{how}, then trim to {length}", how=then, length=length)
        may_turn = cut.may_turn and joined.length != cut.height
        piece = replace(
            cut,
            width=joined.length,
            count=cut.count * joined.pieces,
            then=and_then(then, cut.then),
            together=True,
            may_turn=may_turn,
            joined=joined,
        )
        return (piece,)

    def _find_join(self, cut: Cut) -> Joined | None:
        rules, usable = self.project.rules, self.fabric.usable_width
        if self.project.cutting.join == DIAGONAL_JOIN:
            slanting = join_on_the_diagonal(cut.width, usable, strip=cut.height, round_to=rules.round_to)
            if slanting is not None:
                return slanting
        # a strip as wide as its cloth leaves nothing of a diagonal join: it gets straight ones
        return join_strips(cut.width, usable, seam_allowance=rules.seam_allowance, round_to=rules.round_to)
