"""What `cutting.json` says of the cloth and the web of applique pieces."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from service.craft.document import Project
from service.craft.measure import MM_PER_INCH, Length, Number
from workers.cutting.applique_lengths import WEB_ROOM, AppliqueLengths, PieceCloth, Web
from workers.cutting.buying import length_to_buy

SQUARE_M = (1000 / MM_PER_INCH) ** 2
"""Square inches in a square metre."""

Write = Callable[[Number], Length]


def answer_applique(lengths: AppliqueLengths, project: Project, length: Write) -> list[dict[str, Any]]:
    """Each cloth of the pieces with what they take by themselves, once by boxes and once for each mat."""
    return [_cloth(cloth, project, length) for cloth in lengths.cloths]


def answer_fusible(lengths: AppliqueLengths, project: Project, length: Write) -> dict[str, Any] | None:
    """The fusible web, counted for the tracks that use it; None where no piece is fused on any."""
    if not lengths.webs:
        return None
    return {
        "width": length(project.web_width),
        "margin": length(WEB_ROOM),
        "counts": [_web(web, project, length) for web in lengths.webs],
    }


def _cloth(cloth: PieceCloth, project: Project, length: Write) -> dict[str, Any]:
    fabric = project.fabrics[cloth.fabric]
    return {
        "fabric": cloth.fabric,
        "name": fabric.name,
        "counted_by": cloth.counted_by,
        "mat": cloth.mat,
        "tracks": list(cloth.tracks),
        "pieces": list(cloth.pieces),
        "margin": length(cloth.room),
        "rectangles": [
            {"width": length(r.width), "height": length(r.height), "count": count}
            for r, count in cloth.rectangles
        ],
        "length": length(cloth.length),
        "buy_alone": length(length_to_buy(cloth.length, fabric.shrinkage, project.measure)),
    }


def _web(web: Web, project: Project, length: Write) -> dict[str, Any]:
    return {
        "counted_by": web.counted_by,
        "mat": web.mat,
        "tracks": list(web.tracks),
        "pieces": list(web.pieces),
        "area": _area(web.area),
        "length": length(web.length),
        "buy": length(length_to_buy(web.length, Fraction(0), project.measure)),
    }


def _area(area: Fraction) -> dict[str, float]:
    return {"square_inches": round(float(area), 2), "square_metres": round(float(area / SQUARE_M), 4)}
