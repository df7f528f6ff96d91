"""What to look at where a stage does not measure what it should."""

from __future__ import annotations

from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.step import Lesson
from workers.sewing.trimming import find_room_to_trim
from workers.sewing.turn_of_cloth import FINE_MARKS


class MeasureWriter:
    """Writes what to do outside the limits: in full where a track first measures, shortly after that."""

    def __init__(self, lesson: Lesson) -> None:
        self._lesson = lesson
        self._said = False

    def write(self, stage: Stage) -> str:
        """What smaller and larger ones call for; empty for a stage without seams, where there is nothing to unpick."""
        if not stage.work.seams and not stage.work.works:
            return ""
        first, self._said = not self._said, True
        if find_room_to_trim(stage.work, self._lesson.project.rules) is not None:
            short = phrase(
                "Too small to trim? Its seam took too much: sew the next ones a thread closer to the edge."
            )
        else:
            # what takes cloth away, the commonest first: common practice, no source
            short = phrase("Smaller? Look at seam allowance, pressing, turn of cloth, in this order.")
        return f"{short} {self._explain()}" if first else short

    def _explain(self) -> str:
        closer = self._lesson.length(FINE_MARKS[self._lesson.project.measure])
        return phrase(
            "Seam allowance: measure from the stitches to the edge; it is {allowance} or a thread less. "
            "Pressing: no fold may lie beside a seam. Turn of cloth: every fold uses a little, so sew the "
            "next seams {closer} closer to the edge. Only what lies outside the limits is unpicked. What is "
            "larger has seams that took too little.",
            allowance=self._lesson.allowance,
            closer=closer,
        )
