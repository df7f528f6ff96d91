"""What a template of an applique piece says: which way round it is drawn, what its lines mean, how the grain lies."""

from __future__ import annotations

from dataclasses import dataclass

from service.craft.applique import AppliqueRules
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from workers.outlines.asked import AskedPiece

IN_PLACE = mark(
    "Trimmed in place: no piece is cut beforehand. Trace this line onto the top, lay the cloth over it with"
    " a thumb's width to spare all round, sew it down on the line, then trim."
)
FUSED = mark(
    "Drawn mirrored: trace it onto the paper side of fusible web, iron that to the back of the cloth,"
    " cut on the line. It then faces the right way. No seam allowance."
)
EITHER_WAY = mark("The same both ways round. No seam allowance: cut on the line.")
PRESSED = mark(
    "Cut card that stands the iron on the dashed line, lay it on the back of the cloth, and cut the cloth on the"
    " outer line, {turning} beyond. Snip at the short marks, and press the cloth over the card."
)
MIRRORED = mark("Drawn mirrored, as the back of the cloth is seen.")
SAME = mark("The same both ways round.")
UNDER = mark("Dotted: this edge lies under another piece. Cut along it.")
UNDER_FLAT = mark("Dotted: this edge lies under another piece. Cut along it, and leave it flat.")
REACHES = mark(
    "Dotted: this edge lies under another piece, which it reaches under by {underlap}. Cut along it."
)
REACHES_FLAT = mark(
    "Dotted: this edge lies under another piece, which it reaches under by {underlap}. Cut along it, and leave it flat."
)
GRAIN = mark("The arrow follows the lengthwise grain.")
ANY_GRAIN = mark("Its pieces lie at several angles, so any way of the grain will do.")


@dataclass(frozen=True)
class CutWords:
    """The words of templates cut by these rules, their lengths written in `measure`."""

    rules: AppliqueRules
    measure: str

    def say(self, asked: AskedPiece, *, one_grain: bool) -> tuple[str, ...]:
        """Which way round, what dotted lines are, and the grain."""
        under = [self._under(asked)] if asked.under and not asked.fabric.trim_in_place else []
        return self._way(asked), *under, phrase(GRAIN if one_grain else ANY_GRAIN)

    def _way(self, asked: AskedPiece) -> str:
        if asked.fabric.trim_in_place:
            return phrase(IN_PLACE)
        if asked.piece.turned_under:
            turning = format_length(self.rules.turning, self.measure)
            return f"{phrase(SAME if asked.symmetrical else MIRRORED)} {phrase(PRESSED, turning=turning)}"
        return phrase(EITHER_WAY if asked.symmetrical else FUSED)

    def _under(self, asked: AskedPiece) -> str:
        flat = asked.piece.turned_under
        if not asked.underlaps:
            return phrase(UNDER_FLAT if flat else UNDER)
        underlap = format_length(self.rules.underlap, self.measure)
        return phrase(REACHES_FLAT if flat else REACHES, underlap=underlap)
