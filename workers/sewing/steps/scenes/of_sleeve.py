"""Scenes of the hanging sleeve."""

from __future__ import annotations

from service.craft.drawing.scenes import Scene
from workers.sewing.steps.scenes.shapes import rect, seam


def show_sleeve(a: str, b: str) -> dict[str, Scene]:
    """What is done with the sleeve."""
    return _strip(b) | _tube(a, b)


def _strip(b: str) -> dict[str, Scene]:
    """The strip before it is a tube."""
    strip = rect(0, 0, 20, 5, b)
    return {
        "sleeve.join": Scene(
            "Two strips end to end, the seam dashed",
            (strip,),
            (("sew", ((10, 0), (10, 5))),),
            labels=(((10, 2), "sew"),),
        ),
        "sleeve.trim": Scene(
            "The long strip with the line to cut",
            (strip,),
            (("cut", ((17, 0), (17, 5))),),
            labels=(((17, 2), "cut"),),
        ),
        "sleeve.fold": Scene(
            "The ends of the strip folded in twice, dotted",
            (strip,),
            (
                ("fold", ((1, 0), (1, 5))),
                ("fold", ((2, 0), (2, 5))),
                ("fold", ((19, 0), (19, 5))),
                ("fold", ((18, 0), (18, 5))),
            ),
            labels=(((19, 2), "fold twice"),),
        ),
        "sleeve.hem": Scene(
            "A seam along the folded ends",
            (strip,),
            (("sew", ((1, 0), (1, 5))), ("sew", ((19, 0), (19, 5)))),
            labels=(((19, 2), "sew"),),
        ),
    }


def _tube(a: str, b: str) -> dict[str, Scene]:
    """The tube, and where it goes."""
    strip, tube = rect(0, 0, 20, 5, b), rect(1, 1, 18, 3, b)
    back = rect(0, 0, 20, 12, a)
    return {
        "sleeve.tube": Scene(
            "The strip doubled, its long edges sewn to each other",
            (strip,),
            (seam(4.4), ("fold", ((0, 0), (20, 0)))),
            labels=(((19, 4.4), "sew"), ((19, 0), "fold")),
        ),
        "sleeve.press": Scene(
            "The tube with its seam pressed open in the middle of one side",
            (strip,),
            (seam(2.5),),
            wedges=(((10, 2.5), (0, 1)), ((10, 2.5), (0, -1))),
            labels=(((16, 2.5), "open"),),
        ),
        "sleeve.pin": Scene(
            "The tube pinned along the upper edge of the back",
            (back, tube),
            pins=((3, 1), (10, 1), (17, 1)),
            labels=(((18, 2.5), "tube, its seam inside"), ((19, 10), "back")),
        ),
        "sleeve.sew": Scene(
            "Both long edges of the tube to sew down",
            (back, tube),
            (seam(1.2, 1, 19), seam(3.8, 1, 19)),
            labels=(((18, 1.2), "sew by hand"), ((18, 3.8), "sew by hand")),
        ),
    }
