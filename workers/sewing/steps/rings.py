"""Steps for parts that go round a middle: the first seam part of the way, the others whole, the first one finished."""

from __future__ import annotations

from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE
from workers.sewing.steps.pressing_words import press_seams, shows_dark
from workers.sewing.steps.stage_steps import MACHINE, PRESSING, grade_step, make_copies, step_of
from workers.sewing.steps.step import Lesson, Step, sentences

PINNED = (*MACHINE, "pins")


def teach_ring(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out; sew the first seam half-way; sew the others one by one; sew the rest of the first."""
    around = len(stage.seams)
    steps = [
        step_of(
            stage,
            "lay",
            sentences(
                phrase(
                    "Lay the {count} parts as the drawing shows: parts 1 to {last} go round the middle.",
                    count=around + 1,
                    last=around,
                ),
                make_copies(stage),
            ),
            phrase("Laid out first, a part that is turned the wrong way shows before it is sewn in."),
        ),
        step_of(
            stage,
            "half-seam",
            phrase(
                "Sew part 1 to the middle with {allowance} allowance: from the corner where part 2 comes, "
                "half-way along the middle, and no further.",
                allowance=lesson.allowance,
            ),
            phrase(
                "A partial seam: no seam runs straight through here, so the first one waits for the last "
                "part."
            ),
            more=phrase(
                "Lay the two right sides together with this corner level. Sew two stitches back where you "
                "stop."
            ),
            hazards=(NEEDLE,),
            tools=PINNED,
        ),
        _press_one(stage, 0),
    ]
    for number in range(1, around):
        steps += [_sew_whole(stage, number, lesson.allowance), _press_one(stage, number)]
    grade = [grade_step(stage)] if shows_dark(stage) else []
    return [*steps, _close(stage, around), *grade, _press_last(stage)]


def _sew_whole(stage: Stage, number: int, s: str) -> Step:
    """A part sewn on along the edge that the part before has made straight."""
    last = number == len(stage.seams) - 1
    free = phrase("Keep the free end of part 1 out of the way.") if last else ""
    return step_of(
        stage,
        f"part-{number + 1}",
        sentences(
            phrase(
                "Sew part {number} along the whole straight edge of the middle and part {before}, with "
                "{allowance} allowance.",
                number=number + 1,
                before=number,
                allowance=s,
            ),
            free,
        ),
        phrase("The part before has made this edge straight, so the seam runs from end to end."),
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _press_one(stage: Stage, number: int) -> Step:
    """A seam pressed before the next one crosses its end."""
    why = phrase("Press as far as it is sewn: what is pressed flat now lets the next part lie level.")
    return step_of(
        stage,
        f"press-{number + 1}",
        press_seams(stage, slice(number, number + 1)),
        why if number == 0 else phrase("Flat, it lets the next part lie level."),
        hazards=(IRON,),
        tools=PRESSING,
    )


def _close(stage: Stage, around: int) -> Step:
    return step_of(
        stage,
        "close",
        phrase(
            "Sew the rest of the first seam: part 1 to the middle and to part {last}, from where you "
            "stopped to the edge.",
            last=around,
        ),
        phrase("The two edges lie level now, and the ring is closed."),
        more=phrase("Begin over the last few stitches, so that no gap is left."),
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _press_last(stage: Stage) -> Step:
    """The first seam, now whole, pressed the way in which it was begun."""
    return step_of(
        stage,
        "press",
        press_seams(stage, slice(1)),
        phrase("All of it falls to the side to which its first half was pressed."),
        hazards=(IRON,),
        tools=PRESSING,
        measured=True,
    )
