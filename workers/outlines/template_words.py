"""What a template of an applique piece says: which way round it is drawn, what its lines mean, how the grain lies."""

from __future__ import annotations

from dataclasses import dataclass

from service.craft.applique import AppliqueRules
from service.craft.measure import format_length
from workers.outlines.asked import AskedPiece

IN_PLACE = (
    "Trimmed in place: no piece is cut beforehand. Trace this line onto the top, lay the cloth over it with"
    " a thumb's width to spare all round, sew it down on the line, then trim."
)
FUSED = (
    "Drawn mirrored: trace it onto the paper side of fusible web, iron that to the back of the cloth,"
    " cut on the line. It then faces the right way. No seam allowance."
)
EITHER_WAY = "The same both ways round. No seam allowance: cut on the line."
PRESSED = (
    "Cut card that stands the iron on the dashed line, lay it on the back of the cloth, and cut the cloth on the"
    " outer line, {turning} beyond. Snip at the short marks, and press the cloth over the card."
)
MIRRORED = "Drawn mirrored, as the back of the cloth is seen. "
SAME = "The same both ways round. "
UNDER = "Dotted: this edge lies under another piece{reach}. Cut along it{flat}."
GRAIN = "The arrow follows the lengthwise grain."
ANY_GRAIN = "Its pieces lie at several angles, so any way of the grain will do."


@dataclass(frozen=True)
class CutWords:
    """The words of templates cut by these rules, their lengths written in `measure`."""

    rules: AppliqueRules
    measure: str

    def say(self, asked: AskedPiece, *, one_grain: bool) -> tuple[str, ...]:
        """Which way round, what dotted lines are, and the grain."""
        under = [self._under(asked)] if asked.under and not asked.fabric.trim_in_place else []
        return self._way(asked), *under, GRAIN if one_grain else ANY_GRAIN

    def _way(self, asked: AskedPiece) -> str:
        if asked.fabric.trim_in_place:
            return IN_PLACE
        if asked.piece.turned_under:
            turning = format_length(self.rules.turning, self.measure)
            return (SAME if asked.symmetrical else MIRRORED) + PRESSED.format(turning=turning)
        return EITHER_WAY if asked.symmetrical else FUSED

    def _under(self, asked: AskedPiece) -> str:
        underlap = format_length(self.rules.underlap, self.measure)
        reach = f", which it reaches under by {underlap}" if asked.underlaps else ""
        return UNDER.format(reach=reach, flat=", and leave it flat" if asked.piece.turned_under else "")
