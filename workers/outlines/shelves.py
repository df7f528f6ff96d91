"""Boxes on mats, row by row: simple to cut, simple to check, and the same every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True)
class BoxItem:
    """What is to be laid: its size in mm, and whether it may lie a quarter turn round."""

    width: float
    height: float
    may_turn: bool = False

    def ways(self) -> list[tuple[float, float, bool]]:
        """Width, height and whether turned: the lower way first, since a row is as high as its highest box."""
        upright = (self.width, self.height, False)
        turned = (self.height, self.width, True)
        return sorted([upright, turned] if self.may_turn else [upright], key=lambda way: way[1])


@dataclass(frozen=True)
class Spot:
    """Where an item lies: which mat, the upper left corner of its box, and whether it was turned."""

    mat: int
    x: float
    y: float
    turned: bool


@dataclass
class _Row:
    mat: int
    y: float
    height: float
    used: float = 0.0


@dataclass
class _Table:
    """The rows laid so far, on mats of one size."""

    width: float
    height: float
    spacing: float
    rows: list[_Row] = field(default_factory=list)
    ends: list[float] = field(default_factory=list)

    def lay(self, item: BoxItem) -> Spot:
        for row in self.rows:
            for width, height, turned in item.ways():
                start = row.used + self.spacing if row.used else 0.0
                if height <= row.height and start + width <= self.width:
                    row.used = start + width
                    return Spot(row.mat, start, row.y, turned)
        return self._lay_in_new_row(item)

    def _lay_in_new_row(self, item: BoxItem) -> Spot:
        for mat in range(len(self.ends) + 1):
            fresh = mat == len(self.ends)
            y = 0.0 if fresh else self.ends[mat] + self.spacing
            for width, height, turned in item.ways():
                if width <= self.width and y + height <= self.height:
                    self.ends[mat:] = [y + height] if fresh else [y + height, *self.ends[mat + 1 :]]
                    self.rows.append(_Row(mat, y, height, width))
                    return Spot(mat, 0.0, y, turned)
        raise ValueError(f"a box of {item.width:.1f} x {item.height:.1f} mm fits no mat")


def lay_boxes(items: Sequence[BoxItem], width: float, height: float, *, spacing: float) -> list[Spot]:
    """A spot for every item, in the items' order, on as many mats of `width` x `height` as it takes.

    First fit by falling height (next row where none is left); at least `spacing` between boxes. A
    `ValueError` for a box larger than a mat, which the caller has sorted out before.

    >>> lay_boxes([BoxItem(4.0, 3.0), BoxItem(5.0, 4.0)], 10, 10, spacing=1)[0]
    Spot(mat=0, x=6.0, y=0.0, turned=False)
    """
    table = _Table(width, height, spacing)
    order = sorted(range(len(items)), key=lambda i: (-items[i].ways()[0][1], -items[i].ways()[0][0], i))
    spots = {i: table.lay(items[i]) for i in order}
    return [spots[i] for i in range(len(items))]
