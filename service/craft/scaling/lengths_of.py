"""Where the finished lengths of each kind of unit stand, and the units inside it: paths with `*` for every entry."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from service.craft.units import (
    Bordered,
    CornerSquares,
    Diamond,
    EightPointedStar,
    FanBladeRing,
    FlyingGeese,
    Grid,
    HalfSquareTriangle,
    Hexagons,
    Kite,
    Mirrored,
    OnPoint,
    PatchUnit,
    Polygons,
    QuarterSquareTriangle,
    SquareInASquare,
    StripSet,
    Turned,
)

Step = str | int
Path = tuple[Step, ...]

SIZE = "size/*"

LENGTHS: dict[str, tuple[str, ...]] = {
    PatchUnit.kind: (SIZE,),
    HalfSquareTriangle.kind: (SIZE,),
    QuarterSquareTriangle.kind: (SIZE,),
    FlyingGeese.kind: (SIZE,),
    CornerSquares.kind: (SIZE, "corners/size"),
    EightPointedStar.kind: (SIZE,),
    # a special case: its size and what lies inside depend on each other
    SquareInASquare.kind: (),
    # how long the strips are sewn together is a matter of the cloth, not of the top
    StripSet.kind: ("strips/*/width", "cut_into"),
    Grid.kind: ("sashing/width",),
    Bordered.kind: ("borders/*/width",),
    # what is added to be trimmed off stays
    OnPoint.kind: (),
    Turned.kind: (),
    Mirrored.kind: (),
    Kite.kind: (SIZE, "shoulder"),
    Diamond.kind: (SIZE,),
    # angles stay
    FanBladeRing.kind: (SIZE, "reach", "hole", "centre/size"),
    Hexagons.kind: ("side",),
    Polygons.kind: (SIZE, "patches/*/points/*/*"),
}
"""Finished lengths by kind of unit. What is not named here stays as it is."""

INSIDE: dict[str, tuple[str, ...]] = {
    SquareInASquare.kind: ("inside",),
    Grid.kind: ("rows/*/*",),
    Bordered.kind: ("inside",),
    OnPoint.kind: ("rows/*/*", "alternate"),
    Turned.kind: ("inside",),
    Mirrored.kind: ("inside",),
}
"""Units inside, by kind of unit."""


def find_paths(raw: Any, pattern: str) -> Iterator[Path]:
    """Every path in a JSON value that a pattern means; none where something on the way is not there.

    >>> list(find_paths({"rows": [["a"], ["b", "c"]]}, "rows/*/*"))
    [('rows', 0, 0), ('rows', 1, 0), ('rows', 1, 1)]
    """
    step, _, rest = pattern.partition("/")
    if step == "*":
        keys: list[Step] = list(range(len(raw))) if isinstance(raw, list) else []
    else:
        keys = [step] if isinstance(raw, dict) and raw.get(step) is not None else []
    for key in keys:
        if not rest:
            yield (key,)
            continue
        yield from ((key, *inner) for inner in find_paths(raw[key], rest))
