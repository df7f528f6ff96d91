"""What pieced parts are called, by their shape."""

from __future__ import annotations

from service.craft.language import mark, phrase
from workers.sewing.polygon_groups import PART, RECTANGLE, SQUARE, TRIANGLE

THE_PART = {
    SQUARE: mark("the pieced square"),
    RECTANGLE: mark("the pieced rectangle"),
    TRIANGLE: mark("the pieced triangle"),
    PART: mark("the pieced part"),
}
ONE_PART = {
    SQUARE: mark("pieced square of {count} patches"),
    RECTANGLE: mark("pieced rectangle of {count} patches"),
    TRIANGLE: mark("pieced triangle of {count} patches"),
    PART: mark("pieced part of {count} patches"),
}
MANY_PARTS = {
    SQUARE: mark("pieced squares of {count} patches"),
    RECTANGLE: mark("pieced rectangles of {count} patches"),
    TRIANGLE: mark("pieced triangles of {count} patches"),
    PART: mark("pieced parts of {count} patches"),
}


def name_part(shape: str) -> str:
    """The part of a shape in a sentence.

    >>> name_part("triangle")
    'the pieced triangle'
    """
    return phrase(THE_PART[shape])


def count_patches(shape: str, count: int, *, many: bool) -> str:
    """A part of a shape, or several, of so many patches.

    >>> count_patches("square", 3, many=False), count_patches("part", 2, many=True)
    ('pieced square of 3 patches', 'pieced parts of 2 patches')
    """
    return phrase((MANY_PARTS if many else ONE_PART)[shape], count=count)
