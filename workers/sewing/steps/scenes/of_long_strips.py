"""Scenes of strips that are joined because they are longer than their cloth is wide."""

from __future__ import annotations

from service.craft.drawing.scenes import Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.of_binding import show_binding_strip
from workers.sewing.steps.scenes.shapes import rect


def show_long_strips(cloth: str, *, slanting: bool) -> dict[str, Scene]:
    """What is done with the strips, by the end of the step's id; `slanting` where they are joined on the diagonal."""
    joins = show_binding_strip(cloth)
    join = ("sewn", ((8.0, 0.0), (12.0, 4.0))) if slanting else ("sewn", ((10.0, 0.0), (10.0, 4.0)))
    pressed = Scene(
        phrase("A strip with its join pressed open, wedges to both sides"),
        (rect(0, 0, 20, 4, cloth),),
        (("sew", ((10, 0), (10, 4))),),
        wedges=(((10, 2), (1, 0)), ((10, 2), (-1, 0))),
        labels=(((11, 2), phrase("open")),),
    )
    return {
        "join": joins["join" if slanting else "join straight"],
        "trim-joins": joins["trim-joins"],
        "press-joins": joins["press-joins"] if slanting else pressed,
        "cut": Scene(
            phrase("The joined strip with a line to cut across it"),
            (rect(0, 0, 20, 4, cloth),),
            (join, ("cut", ((17, -0.8), (17, 4.8)))),
            labels=(((17, 4.4), phrase("cut")), ((10, 2), phrase("join"))),
        ),
    }
