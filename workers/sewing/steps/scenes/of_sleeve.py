"""Scenes of the hanging sleeve."""

from __future__ import annotations

from service.craft.drawing.scenes import Scene
from service.craft.language import phrase
from workers.sewing.steps.scenes.shapes import rect, seam


def show_sleeve(a: str, b: str) -> dict[str, Scene]:
    """What is done with the sleeve."""
    return _strip(b) | _tube(a, b)


def _strip(b: str) -> dict[str, Scene]:
    """The strip before it is a tube."""
    strip = rect(0, 0, 20, 5, b)
    return {
        "sleeve.join": Scene(
            phrase("Two strips end to end, the seam dashed"),
            (strip,),
            (("sew", ((10, 0), (10, 5))),),
            labels=(((10, 2), phrase("sew")),),
        ),
        "sleeve.trim": Scene(
            phrase("The long strip with the line to cut"),
            (strip,),
            (("cut", ((17, 0), (17, 5))),),
            labels=(((17, 2), phrase("cut")),),
        ),
        "sleeve.fold": Scene(
            phrase("The ends of the strip folded in twice, dotted"),
            (strip,),
            (
                ("fold", ((1, 0), (1, 5))),
                ("fold", ((2, 0), (2, 5))),
                ("fold", ((19, 0), (19, 5))),
                ("fold", ((18, 0), (18, 5))),
            ),
            labels=(((19, 2), phrase("fold twice")),),
        ),
        "sleeve.hem": Scene(
            phrase("A seam along the folded ends"),
            (strip,),
            (("sew", ((1, 0), (1, 5))), ("sew", ((19, 0), (19, 5)))),
            labels=(((19, 2), phrase("sew")),),
        ),
    }


def _tube(a: str, b: str) -> dict[str, Scene]:
    """The tube, and where it goes."""
    strip, tube = rect(0, 0, 20, 5, b), rect(1, 1, 18, 3, b)
    back = rect(0, 0, 20, 12, a)
    return {
        "sleeve.tube": Scene(
            phrase("The strip doubled, its long edges sewn to each other"),
            (strip,),
            (seam(4.4), ("fold", ((0, 0), (20, 0)))),
            labels=(((19, 4.4), phrase("sew")), ((19, 0), phrase("fold"))),
        ),
        "sleeve.press": Scene(
            phrase("The tube with its seam pressed open in the middle of one side"),
            (strip,),
            (seam(2.5),),
            wedges=(((10, 2.5), (0, 1)), ((10, 2.5), (0, -1))),
            labels=(((16, 2.5), phrase("open")),),
        ),
        "sleeve.pin": Scene(
            phrase("The tube pinned along the upper edge of the back"),
            (back, tube),
            pins=((3, 1), (10, 1), (17, 1)),
            labels=(((18, 2.5), phrase("tube, its seam inside")), ((19, 10), phrase("back"))),
        ),
        "sleeve.sew": Scene(
            phrase("Both long edges of the tube to sew down"),
            (back, tube),
            (seam(1.2, 1, 19), seam(3.8, 1, 19)),
            labels=(((18, 1.2), phrase("sew by hand")), ((18, 3.8), phrase("sew by hand"))),
        ),
    }
