"""The cutting chapter: the cloths that go on the cutting mat, in their cutting order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.craft.cutting_words import (
    ACROSS_HINT,
    FIRST_REASON,
    FOLLOW,
    FOLLOW_FIRST,
    LATER_REASON,
    ROUGH,
    ROUGH_REASON,
    STRAIGHTEN_REASON,
)
from service.craft.fabric import Fabric
from service.craft.language import join_words, phrase, say_number
from service.craft.patch_templates import count_templates
from service.craft.planar.round_shapes import ROUND, BladeTemplate
from workers.sewing.names import label
from workers.sewing.steps.hazards import CUTTER, IRON, SHEARS
from workers.sewing.steps.step import CUTTING, Lesson, Step, sentences
from workers.sewing.works import walk_patches

TOOLS = ("rotary cutter", "ruler", "cutting mat")


def teach_cutting(lesson: Lesson) -> Iterator[Step]:
    """Prepare the cloth, cut one cloth after the other, keep the cuts apart."""
    cloths = list_mat_cloths(lesson)
    if not cloths:
        return
    yield from _prepare()
    for number, fabric in enumerate(cloths):
        direction = _say_direction(lesson.project.fabrics[fabric])
        yield Step(
            f"cutting.cloth.{label(fabric)}",
            CUTTING,
            sentences(phrase(FOLLOW if number else FOLLOW_FIRST, cloth=lesson.cloth(fabric)), direction),
            phrase(FIRST_REASON if number == 0 else LATER_REASON),
            more=phrase(ACROSS_HINT),
            hazards=(CUTTER,),
            tools=TOOLS,
        )
    yield from _teach_templates(lesson)
    rough = [phrase("the {cloth}", cloth=lesson.cloth(fabric)) for fabric in list_rough_cloths(lesson)]
    if rough:
        yield Step(
            "cutting.pieces",
            CUTTING,
            phrase(ROUGH, cloths=join_words(rough)),
            phrase(ROUGH_REASON),
            hazards=(SHEARS,),
            tools=("scissors",),
        )
    yield Step(
        "cutting.label",
        CUTTING,
        phrase("Put each size of each cloth on a heap of its own, with its size on a slip of paper."),
        phrase("Sizes that differ by little look alike once they are mixed."),
        tools=("paper", "pencil"),
    )


def _prepare() -> Iterator[Step]:
    """What is done to every cloth before its first strip."""
    yield Step(
        "cutting.prepare",
        CUTTING,
        phrase("Iron every cloth flat."),
        phrase("A fold under the ruler makes a crooked strip."),
        hazards=(IRON,),
        tools=("iron",),
    )
    yield Step(
        "cutting.straighten",
        CUTTING,
        phrase("Cut one end of each cloth straight before its first strip."),
        phrase(STRAIGHTEN_REASON),
        more=phrase(
            "Fold the cloth selvedge to selvedge, hold the ruler square to the fold, and cut off as little "
            "as you can."
        ),
        hazards=(CUTTER,),
        tools=TOOLS,
    )


def _say_direction(fabric: Fabric) -> str:
    if fabric.napped:
        return phrase("Its pile runs one way: mark which on the back, and lay every piece along it.")
    return phrase("Keep its print upright.") if fabric.directional else ""


def list_mat_cloths(lesson: Lesson) -> list[str]:
    """The cloths of the patches and of what finishes them, in the document's order.

    Trim-in-place cloth never goes on the mat.
    """
    project = lesson.project
    used = {patch.fabric for patch in walk_patches(lesson.plan.top)}
    finish = project.finish
    used |= {part.fabric for part in (finish.binding, finish.backing, finish.sleeve) if part is not None}
    return [key for key, fabric in project.fabrics.items() if key in used and not fabric.trim_in_place]


def list_rough_cloths(lesson: Lesson) -> list[str]:
    """The cloths that pieces alone are cut from, by hand, in the document's order.

    With a cutting machine the others are fused and go on its mat whole.
    """
    project, on_mat = lesson.project, set(list_mat_cloths(lesson))
    used = {piece.fabric for piece in project.pieces} - on_mat
    machine = lesson.track.cutter is not None
    return [
        key
        for key, fabric in project.fabrics.items()
        if key in used and (fabric.trim_in_place or not machine)
    ]


def _teach_templates(lesson: Lesson) -> Iterator[Step]:
    """Patches that no ruler cuts: templates of card, drawn round on the boxes of the cutting table."""
    counts = count_templates(lesson.project.top)
    if not counts:
        return
    name = f"templates-{lesson.track.slug}.pdf"
    letters = list(dict.fromkeys(template.letter for template, _, _ in counts))
    yield Step(
        "cutting.templates",
        CUTTING,
        _say_trace(letters, name),
        phrase("Card keeps its edge when you draw round it many times."),
        more=phrase(
            "Measure the test square on the first page first. If it is off, print again at full size."
        ),
        tools=("card", "pencil"),
        files=(name,),
    )
    yield Step(
        "cutting.templates-cut",
        CUTTING,
        phrase("Cut the card on the solid line."),
        phrase("The solid line holds the seam allowance; the dashed one is where the seam runs."),
        hazards=(SHEARS,),
        tools=("scissors",),
    )
    yield from _draw_round(name, turned_over=any(turned_over for _, _, turned_over in counts))
    for template in dict.fromkeys(template for template, _, _ in counts):
        if isinstance(template, BladeTemplate) and template.tips != ROUND:
            yield _teach_blades(template, lesson)


def _say_trace(letters: Sequence[str], file: str) -> str:
    if len(letters) == 1:
        return phrase(
            "Trace the template {letter} onto card from {file}, printed at 100 percent.",
            letter=letters[0],
            file=file,
        )
    return phrase(
        "Trace the templates {letters} onto card from {file}, printed at 100 percent.",
        letters=join_words(letters),
        file=file,
    )


def _draw_round(name: str, *, turned_over: bool) -> Iterator[Step]:
    """Every patch drawn round its card and cut."""
    yield Step(
        "cutting.template-patches",
        CUTTING,
        sentences(
            phrase(
                "Draw round the template, face up on the right side of the piece that the table cuts for it, "
                "its arrow along the woven edge."
            ),
            phrase("Where the table says turned over, it lies face down.") if turned_over else "",
        ),
        phrase("The piece is the box round the patch. Along the threads, the patch keeps its shape."),
        tools=("pencil",),
        files=(name,),
    )
    yield Step(
        "cutting.template-patches-cut",
        CUTTING,
        phrase("Cut each patch on its line."),
        phrase("The line runs close round the card, so cut on it and not beside it."),
        hazards=(SHEARS,),
        tools=("scissors",),
    )


def _teach_blades(template: BladeTemplate, lesson: Lesson) -> Step:
    """A wedge with straight ends can as well be cut from a strip."""
    project, angle = lesson.project, _say_degrees(template.angle)
    strip = lesson.length(template.box(project.seam_allowance, project.rules.round_to)[1])
    return Step(
        f"cutting.blades.{template.letter.lower()}",
        CUTTING,
        phrase(
            "In place of template {letter} a ruler with an angle of {angle} serves as well: cut strips "
            "{strip} wide, lay the template on the ruler once to find its marks, and cut blade after blade, "
            "turned head to tail.",
            letter=template.letter,
            angle=angle,
            strip=strip,
        ),
        phrase(
            "Head to tail, the slanting cut of one blade is that of the next, and less cloth is left over."
        ),
        hazards=(CUTTER,),
        tools=TOOLS,
    )


def _say_degrees(angle: Fraction) -> str:
    """An angle in words, to a hundredth of a degree."""
    return phrase("{number} degrees", number=say_number(round(float(angle), 2)))
