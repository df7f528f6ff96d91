"""The finishing chapter: layers, quilting, binding, sleeve, label; each only where the document has it."""

from __future__ import annotations

from collections.abc import Iterator

from service.craft.finish import BACKING_SEAM, Backing, Sleeve
from workers.sewing.steps.binding import bind, measure_long
from workers.sewing.steps.hazards import CUTTER, IRON, NEEDLE, SHEARS
from workers.sewing.steps.step import FINISHING, Lesson, Step

TOP, LAYERS, SLEEVE, LABEL = ("The top", "Layers and quilting", "Hanging sleeve", "Label")


def teach_finishing(lesson: Lesson) -> Iterator[Step]:
    """Every step of the chapter."""
    finish = lesson.project.finish
    layers = [
        words
        for words in (
            f"the backing of {lesson.cloth(finish.backing.fabric)}" if finish.backing else "",
            "the batting" if finish.batting_overhang is not None else "",
        )
        if words
    ]
    yield from _press_top()
    if finish.backing is not None:
        yield from _join_backing(lesson, finish.backing)
    if layers:
        yield from _layer(lesson, layers)
    if finish.binding is not None:
        yield from bind(lesson, finish.binding)
    if finish.sleeve is not None:
        yield from _hang(lesson, finish.sleeve)
    yield _label()


def _press_top() -> Iterator[Step]:
    yield Step(
        "finishing.press",
        FINISHING,
        "Press the whole top once more.",
        "It is never as easy to reach again.",
        hazards=(IRON,),
        tools=("iron",),
        heading=TOP,
    )
    yield Step(
        "finishing.threads",
        FINISHING,
        "Cut off loose threads on its back.",
        "Dark threads shine through a light cloth once the layers are together.",
        hazards=(SHEARS,),
        tools=("scissors",),
        heading=TOP,
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
        f"Cut the backing of {lesson.cloth(backing.fabric)} as its cutting table says.",
        "Where its cloth is too narrow, it is cut in panels that are sewn together.",
        more="Cut the woven edges off first: they are tighter than the cloth and would pucker the seam.",
        hazards=(CUTTER,),
        tools=("rotary cutter", "ruler", "cutting mat"),
        heading=LAYERS,
    )
    yield Step(
        "finishing.backing-sew",
        FINISHING,
        f"Sew its panels side by side with {lesson.length(BACKING_SEAM)} allowance, where it has several.",
        "A wide seam lies flat. Beside the middle, no fold wears it.",
        hazards=(NEEDLE,),
        tools=("sewing machine",),
        heading=LAYERS,
    )
    yield Step(
        "finishing.backing-press",
        FINISHING,
        "Press these seams open.",
        "Pressed open, they make no ridge under the quilting.",
        hazards=(IRON,),
        tools=("iron",),
        heading=LAYERS,
    )


def _layer(lesson: Lesson, layers: list[str]) -> Iterator[Step]:
    finish = lesson.project.finish
    order = ", then ".join(
        [
            f"{layers[0]}, wrong side up" if finish.backing else layers[0],
            *layers[1:],
            "the top, right side up",
        ]
    )
    yield Step(
        "finishing.layer",
        FINISHING,
        f"Lay out {order}. {_say_overhang(lesson)} on every side of the top.",
        "Quilting draws the layers in a little. What stands out makes up for it.",
        more="Tape the lowest layer to the floor or the table, flat but not stretched. Smooth each layer from "
        "the middle.",
        tools=("tape",),
        heading=LAYERS,
    )
    yield Step(
        "finishing.baste",
        FINISHING,
        "Baste the layers together from the middle outwards, with safety pins or long stitches a hand's width apart.",
        "Basted from the middle, no fold is caught inside.",
        tools=("safety pins", "basting thread"),
        heading=LAYERS,
    )
    yield Step(
        "finishing.quilt",
        FINISHING,
        "Quilt through all layers, from the middle outwards, beside the seams or in lines of your own.",
        "It holds the batting in place and the layers together.",
        more="Sew in the groove beside a seam first. These lines hold everything, and hardly show. A walking foot "
        "feeds all layers alike.",
        hazards=(NEEDLE,),
        tools=("sewing machine", "walking foot"),
        heading=LAYERS,
    )
    yield _trim_layers(lesson)


def _say_overhang(lesson: Lesson) -> str:
    """How far what lies below stands out; backing and batting each for itself where they differ."""
    backing, batting = lesson.project.finish.backing, lesson.project.finish.batting_overhang
    if backing is not None and batting is not None and backing.overhang != batting:
        below, between = lesson.length(backing.overhang), lesson.length(batting)
        return f"The backing stands out {below} and the batting {between}"
    overhang = backing.overhang if backing is not None else batting
    return f"What lies below stands out {lesson.length(overhang or 0)}"


def _trim_layers(lesson: Lesson) -> Step:
    """Level with the top, or as far outside it as the binding is sewn on further in than the seams of the top."""
    binding, s = lesson.project.finish.binding, lesson.project.seam_allowance
    beyond = binding.allowance(s) - s if binding is not None else 0
    where = "level with" if beyond <= 0 else f"{lesson.length(beyond)} outside"
    reason = "The binding is sewn along this edge and shows every wave in it."
    if beyond > 0:
        reason += " What stands out fills its fold, and no point of the top is cut off."
    return Step(
        "finishing.square",
        FINISHING,
        f"Trim the layers {where} the edge of the top, the corners square.",
        reason,
        hazards=(CUTTER,),
        tools=("rotary cutter", "ruler", "cutting mat"),
        heading=LAYERS,
    )


def _hang(lesson: Lesson, sleeve: Sleeve) -> Iterator[Step]:
    """A tube of cloth along the upper edge of the back, sewn down by hand."""
    yield from _join_sleeve(lesson, sleeve)
    yield from _sew_sleeve(lesson, sleeve)
    yield from _sew_sleeve_on(lesson)


def _join_sleeve(lesson: Lesson, sleeve: Sleeve) -> Iterator[Step]:
    """One long strip, where the cloth is narrower than the sleeve is long."""
    cloth, s = lesson.cloth(sleeve.fabric), lesson.allowance
    long, _ = sleeve.strip(lesson.project.top.width, lesson.project.seam_allowance)
    if long > lesson.project.fabrics[sleeve.fabric].usable_width:
        yield _sleeve_step(
            "join",
            f"Join the {cloth} strips for the sleeve end to end with {s} allowance.",
            "One strip is too short for the whole edge.",
            NEEDLE,
            "sewing machine",
        )
        yield _sleeve_step(
            "trim",
            f"Trim the long strip to {measure_long(lesson, long)}.",
            "What is over would stand out at the sides.",
            CUTTER,
            *("rotary cutter", "ruler", "cutting mat"),
        )


def _sew_sleeve(lesson: Lesson, sleeve: Sleeve) -> Iterator[Step]:
    """A strip hemmed at both ends and sewn to a tube."""
    cloth, s = lesson.cloth(sleeve.fabric), lesson.allowance
    yield _sleeve_step(
        "fold",
        f"Fold both short ends of the {cloth} strip for the sleeve in by {s}, twice, under the iron.",
        "The raw edge disappears inside.",
        IRON,
        "iron",
    )
    yield _sleeve_step(
        "hem",
        "Sew along these folds.",
        "A rod slides in without catching on a raw edge.",
        NEEDLE,
        "sewing machine",
    )
    yield _sleeve_step(
        "tube",
        f"Sew the long edges of the strip to each other with {s} allowance, wrong sides together.",
        "The right side is outside already, so the tube is not turned.",
        NEEDLE,
        "sewing machine",
    )
    yield _sleeve_step(
        "press",
        f"Press the seam open in the middle of one side of the tube, {lesson.length(sleeve.depth)} deep.",
        "With that side against the back, nobody sees the seam.",
        IRON,
        "iron",
    )


def _sew_sleeve_on(lesson: Lesson) -> Iterator[Step]:
    """Pinned below the upper edge, and sewn to the back by hand."""
    below = "the binding" if lesson.project.finish.binding else "the edge"
    yield _sleeve_step(
        "pin",
        f"Pin the tube to the back along the upper edge, close below {below}, middle on middle, its seam inside.",
        "Pinned along a straight edge, the whole hangs straight.",
        "",
        "pins",
    )
    yield _sleeve_step(
        "sew",
        "Sew both long edges down by hand, through backing and batting only.",
        "So no stitch shows on the front.",
        NEEDLE,
        "hand needle",
        more="Push the lower edge up a little before you sew it: the front of the tube then stands off, and the rod "
        "makes no ridge in the quilt. The ends of its back layer are sewn down too.",
    )


def _sleeve_step(name: str, text: str, why: str, hazard: str, *tools: str, more: str = "") -> Step:
    return Step(
        f"finishing.sleeve.{name}",
        FINISHING,
        text,
        why,
        more=more,
        hazards=(hazard,) if hazard else (),
        tools=tools,
        heading=SLEEVE,
    )


def _label() -> Step:
    return Step(
        "finishing.label",
        FINISHING,
        "Sew a label with your name, the place and the year to the lower right of the back.",
        "Whoever finds it in fifty years will want to know.",
        tools=("hand needle", "fabric pen"),
        heading=LABEL,
    )
