"""The finishing chapter: layers, quilting, binding, sleeve, label; each only where the document has it."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.finish import BACKING_SEAM, Backing
from service.craft.language import mark, phrase
from workers.sewing.steps.binding import bind
from workers.sewing.steps.finishing_sleeve import hang
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SHEARS
from workers.sewing.steps.step import FINISHING, Lesson, Step

TOP, LAYERS, LABEL = (mark("The top"), mark("Layers and quilting"), mark("Label"))


def teach_finishing(lesson: Lesson) -> Iterator[Step]:
    """Every step of the chapter."""
    finish = lesson.project.finish
    yield from _press_top()
    if finish.backing is not None:
        yield from _join_backing(lesson, finish.backing)
    if finish.backing is not None or finish.batting_overhang is not None:
        yield from _layer(lesson)
    if finish.binding is not None:
        yield from bind(lesson, finish.binding)
    if finish.sleeve is not None:
        yield from hang(lesson, finish.sleeve)
    yield _label()


def _press_top() -> Iterator[Step]:
    yield Step(
        "finishing.press",
        FINISHING,
        phrase("Press the whole top once more."),
        phrase("It is never as easy to reach again."),
        hazards=(IRON,),
        tools=("iron",),
        heading=phrase(TOP),
    )
    yield Step(
        "finishing.threads",
        FINISHING,
        phrase("Cut off loose threads on its back."),
        phrase("Dark threads shine through a light cloth once the layers are together."),
        hazards=(SHEARS,),
        tools=("scissors",),
        heading=phrase(TOP),
    )


def _join_backing(lesson: Lesson, backing: Backing) -> Iterator[Step]:
    """Panels, where the back may be larger than its cloth is wide: how many, the cutting table says."""
    top = lesson.project.top
    longest = max(top.width, top.height) + 2 * backing.overhang
    if longest <= lesson.project.fabrics[backing.fabric].usable_width:
        return
    yield Step(
        "finishing.backing",
        FINISHING,
        phrase("Cut the backing of {cloth} as its cutting table says.", cloth=lesson.cloth(backing.fabric)),
        phrase("Where its cloth is too narrow, it is cut in panels that are sewn together."),
        more=phrase(
            "Cut the woven edges off first: they are tighter than the cloth and would pucker the seam."
        ),
        hazards=(CUTTER,),
        tools=("rotary cutter", "ruler", "cutting mat"),
        heading=phrase(LAYERS),
    )
    yield Step(
        "finishing.backing-sew",
        FINISHING,
        phrase(
            "Sew its panels side by side with {length} allowance, where it has several.",
            length=lesson.length(BACKING_SEAM),
        ),
        phrase("A wide seam lies flat. Beside the middle, no fold wears it."),
        hazards=(NEEDLE,),
        tools=("sewing machine",),
        heading=phrase(LAYERS),
    )
    yield Step(
        "finishing.backing-press",
        FINISHING,
        phrase("Press these seams open."),
        phrase("Pressed open, they make no ridge under the quilting."),
        hazards=(IRON,),
        tools=("iron",),
        heading=phrase(LAYERS),
    )


def _layer(lesson: Lesson) -> Iterator[Step]:
    yield Step(
        "finishing.layer",
        FINISHING,
        _say_layers(lesson),
        phrase("Quilting draws the layers in a little. What stands out makes up for it."),
        more=phrase(
            "Tape the lowest layer to the floor or the table, flat but not stretched. Smooth each layer from "
            "the middle."
        ),
        tools=("tape",),
        heading=phrase(LAYERS),
    )
    yield Step(
        "finishing.baste",
        FINISHING,
        phrase(
            "Baste the layers together from the middle outwards, with safety pins or long stitches a hand's width "
            "apart."
        ),
        phrase("Basted from the middle, no fold is caught inside."),
        tools=("safety pins", "basting thread"),
        heading=phrase(LAYERS),
    )
    yield Step(
        "finishing.quilt",
        FINISHING,
        phrase(
            "Quilt through all layers, from the middle outwards, beside the seams or in lines of your own."
        ),
        phrase("It holds the batting in place and the layers together."),
        more=phrase(
            "Sew in the groove beside a seam first. These lines hold everything, and hardly show. A walking foot "
            "feeds all layers alike."
        ),
        hazards=(NEEDLE,),
        tools=("sewing machine", "walking foot"),
        heading=phrase(LAYERS),
    )
    yield _trim_layers(lesson)


def _say_layers(lesson: Lesson) -> str:
    """Which layers lie in which order, and how far what lies below stands out; each for itself where they differ."""
    backing, batting = lesson.project.finish.backing, lesson.project.finish.batting_overhang
    if backing is None:
        return phrase(
            "Lay out the batting, then the top, right side up. What lies below stands out {overhang} on every side "
            "of the top.",
            overhang=lesson.length(batting or 0),
        )
    told = {"cloth": lesson.cloth(backing.fabric), "overhang": lesson.length(backing.overhang)}
    if batting is None:
        return phrase(
            "Lay out the backing of {cloth}, wrong side up, then the top, right side up. What lies below stands out "
            "{overhang} on every side of the top.",
            **told,
        )
    if backing.overhang == batting:
        return phrase(
            "Lay out the backing of {cloth}, wrong side up, then the batting, then the top, right side up. What lies "
            "below stands out {overhang} on every side of the top.",
            **told,
        )
    return phrase(
        "Lay out the backing of {cloth}, wrong side up, then the batting, then the top, right side up. The backing "
        "stands out {overhang} and the batting {between} on every side of the top.",
        between=lesson.length(batting),
        **told,
    )


def _trim_layers(lesson: Lesson) -> Step:
    """Level with the top, or as far outside it as the binding is sewn on further in than the seams of the top."""
    binding, s = lesson.project.finish.binding, lesson.project.seam_allowance
    beyond = binding.allowance(s) - s if binding is not None else 0
    if beyond <= 0:
        text = phrase("Trim the layers level with the edge of the top, the corners square.")
        reason = phrase("The binding is sewn along this edge and shows every wave in it.")
    else:
        text = phrase(
            "Trim the layers {beyond} outside the edge of the top, the corners square.",
            beyond=lesson.length(beyond),
        )
        reason = phrase(
            "The binding is sewn along this edge and shows every wave in it. What stands out fills its fold, and no "
            "point of the top is cut off."
        )
    return Step(
        "finishing.square",
        FINISHING,
        text,
        reason,
        hazards=(CUTTER,),
        tools=("rotary cutter", "ruler", "cutting mat"),
        heading=phrase(LAYERS),
    )


def _label() -> Step:
    return Step(
        "finishing.label",
        FINISHING,
        phrase("Sew a label with your name, the place and the year to the lower right of the back."),
        phrase("Whoever finds it in fifty years will want to know."),
        tools=("hand needle", "fabric pen"),
        heading=phrase(LABEL),
    )
