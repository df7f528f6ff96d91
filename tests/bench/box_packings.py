"""Packings of the boxes round outlines on a strip, which `bench_nesting.py` holds layouts by shape against.

Each gives a length in mm for outlines on a strip `width` wide, boxes `spacing` apart and any of them turned a quarter.

- `rows` are the project's own shelves.
- `lowest` are boxes bottom-left, the best of four orders.
- `rects` and `aslant` come of a library that knows nothing of the project: free rectangles kept as large as they come
  ("maximal rectangles"), each box into the one where its shorter side leaves least, the largest box first, on the
  shortest of some strips that holds them all. `rects` takes the upright boxes and strips a millimetre apart; `aslant`
  the least boxes in any turn, and strips a quarter of an inch apart.
"""

from itertools import count
from math import ceil, hypot

import rectpack
import shapely

from service.craft.measure import MM_PER_INCH
from service.craft.outlines.polygons import to_polygon
from workers.outlines.shelves import BoxItem, lay_boxes

LONG = 100_000.0
QUARTER_INCH = float(MM_PER_INCH) / 4


def rows_length(outlines, width, spacing):
    items = [BoxItem(o.width_mm, o.height_mm, may_turn=True) for o in outlines]
    spots = lay_boxes(items, width, LONG, spacing=spacing)
    sides = [i.width if s.turned else i.height for i, s in zip(items, spots, strict=True)]
    return max(spot.y + side for spot, side in zip(spots, sides, strict=True))


def lowest_length(outlines, width, spacing):
    """Each box where its far edge comes to lie nearest the start."""
    orders = (lambda s: s[0] * s[1], lambda s: s[1], lambda s: s[0], max)
    boxes = [(o.width_mm + spacing, o.height_mm + spacing) for o in outlines]
    lengths = [_lay_lowest(sorted(boxes, key=order, reverse=True), width + spacing) for order in orders]
    return min(lengths) - spacing


def _lay_lowest(boxes, width):
    placed = []
    for box in boxes:
        ways = [(w, h, x, y) for w, h in (box, box[::-1]) for x, y in _list_spots(placed, w, width)]
        w, h, x, y = min(ways, key=lambda way: (way[3] + way[1], way[3], way[2]))
        placed.append((x, y, x + w, y + h))
    return max(p[3] for p in placed)


def _list_spots(placed, box_width, width):
    """The lowest free place at every left edge that there is reason to try."""
    xs = {0.0, *(p[2] for p in placed), *(p[0] - box_width for p in placed)}
    for x in (x for x in xs if x >= 0 and x + box_width <= width):
        yield x, max((p[3] for p in placed if p[0] < x + box_width - 1e-9 and x < p[2] - 1e-9), default=0.0)


def rects_length(outlines, width, spacing):
    return _find_shortest([(o.width_mm, o.height_mm) for o in outlines], width, spacing, 1.0)


def aslant_length(outlines, width, spacing):
    return _find_shortest([_least_box(outline) for outline in outlines], width, spacing, QUARTER_INCH)


def _least_box(outline):
    a, b, c, *_ = shapely.minimum_rotated_rectangle(to_polygon(outline)).exterior.coords
    return hypot(b[0] - a[0], b[1] - a[1]), hypot(c[0] - b[0], c[1] - b[1])


def _find_shortest(boxes, width, spacing, step):
    """The first strip that holds all boxes, of a whole number of steps, from the length below which none can."""
    least = sum((w + spacing) * (h + spacing) for w, h in boxes) / (width + spacing) - spacing
    return next(n * step for n in count(ceil(least / step)) if _holds(boxes, width, n * step, spacing))


def _holds(boxes, width, length, spacing):
    """Whether the library finds a place for every box; it wants whole numbers, here hundredths of a millimetre."""
    packer = rectpack.newPacker(
        rotation=True,
        mode=rectpack.PackingMode.Offline,
        pack_algo=rectpack.MaxRectsBssf,
        sort_algo=rectpack.SORT_AREA,
    )
    for i, box in enumerate(boxes):
        packer.add_rect(*(ceil(100 * (side + spacing)) for side in box), rid=i)
    packer.add_bin(int(100 * (length + spacing)), int(100 * (width + spacing)))
    packer.pack()
    return len(packer.rect_list()) == len(boxes)


PACKINGS = {"rows": rows_length, "lowest": lowest_length, "rects": rects_length, "aslant": aslant_length}
