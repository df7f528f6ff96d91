"""Pieces laid by their shapes: how long against boxes.

Run by hand: python tests/bench/bench_nesting.py [--seeds 3] [--counts 10 16] [--sets letters]

Three sets of outlines on a strip as wide as the room of a 12 in mat, 5 mm apart, against packings of
their boxes with quarter turns: the same pieces, width and spacing. `rows` are the project's shelves, `lowest` the best
of four orders laid bottom-left. `bound` is the length below which no layout can be: that in which the pieces, with half
the spacing round them, leave nothing free. `filled` is how much of the strip they take as laid, and `at 24 %` how much
they would where it was 24 % shorter than the shorter of the two packings. `--patience 4` waits four times as long for
shorter strips as cut files do.
"""

import argparse
import random
import resource
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import numpy as np
import shapely
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.ttLib import TTFont

from service.craft.outlines import Outline, read_svg
from service.craft.outlines.affine import Affine
from service.craft.outlines.model import Line, Ring
from service.craft.outlines.polygons import to_polygon
from workers.outlines.asked import at_origin
from workers.outlines.layout import ANY_TURN
from workers.outlines.nesting import mats, strip
from workers.outlines.nesting.check import find_layout_faults
from workers.outlines.shelves import BoxItem, lay_boxes

ROOT = Path(__file__).resolve().parents[2]
WIDTH, SPACING, LONG = 292.8, 5.0, 100_000.0
COUNTS = (10, 16, 24, 40)
AIM = 0.24


def demo_outlines():
    files = sorted(ROOT.glob("seed_data/*/*.svg"))
    shapes = [shape for file in files for shape in read_svg(file.read_bytes(), file.name).shapes]
    return [at_origin(s) for s in shapes if max(s.width_mm, s.height_mm) < WIDTH and s.area_mm2 > 100]


def sample(outlines, count, seed):
    """Outlines by chance, each between its own and two and a half times its size, no side over 200 mm."""
    chance = random.Random(seed)
    picked = []
    for _ in range(count):
        outline = chance.choice(outlines)
        scale = min(chance.uniform(1, 2.5), 200 / max(outline.width_mm, outline.height_mm))
        picked.append(at_origin(outline.moved(Affine.scaling(scale, scale))))
    return picked


def rows_length(outlines):
    items = [BoxItem(o.width_mm, o.height_mm, may_turn=True) for o in outlines]
    spots = lay_boxes(items, WIDTH, LONG, spacing=SPACING)
    sides = [i.width if s.turned else i.height for i, s in zip(items, spots, strict=True)]
    return max(spot.y + side for spot, side in zip(spots, sides, strict=True))


def lowest_length(outlines):
    """Boxes bottom-left: each where its far edge comes to lie nearest the start; the best of four orders and ways."""
    orders = (lambda s: s[0] * s[1], lambda s: s[1], lambda s: s[0], max)
    boxes = [(o.width_mm + SPACING, o.height_mm + SPACING) for o in outlines]
    return min(_lay_lowest(sorted(boxes, key=order, reverse=True)) for order in orders) - SPACING


def _lay_lowest(boxes):
    placed = []
    for box in boxes:
        ways = [(w, h, x, y) for w, h in (box, box[::-1]) for x, y in _corners(placed, w)]
        w, h, x, y = min(ways, key=lambda way: (way[3] + way[1], way[3], way[2]))
        placed.append((x, y, x + w, y + h))
    return max(p[3] for p in placed)


def _corners(placed, width):
    """The lowest free place at every left edge that there is reason to try."""
    xs = {0.0, *(p[2] for p in placed), *(p[0] - width for p in placed)}
    for x in (x for x in xs if x >= 0 and x + width <= WIDTH + SPACING):
        yield x, max((p[3] for p in placed if p[0] < x + width - 1e-9 and x < p[2] - 1e-9), default=0.0)


def lay_shapes(outlines):
    return mats._lay_strip([mats.Shape(o, ANY_TURN) for o in outlines], WIDTH, LONG, SPACING)


def garden(count, seed):
    """Leaves, hearts, flowers, rings cut open, stars, stems, hooks and blobs by chance, 30 to 102 mm long."""
    chance = random.Random(seed)
    return [_draw(chance, 25.4 * chance.uniform(1.2, 4.0 if count <= 20 else 3.0)) for _ in range(count)]


def _draw(chance, size):
    t, half = np.linspace(0, 2 * np.pi, 48, endpoint=False), np.linspace(0, np.pi, 18)
    round_about, phase = np.c_[np.cos(t), np.sin(t)], chance.random() * 6
    bow = np.c_[np.linspace(-1, 1, 18), 0.38 * np.sin(half)]
    heart = 13 * np.cos(t) - 5 * np.cos(2 * t) - 2 * np.cos(3 * t) - np.cos(4 * t)
    rays, arc = np.arange(10) * np.pi / 5, np.linspace(0.7, 2 * np.pi - 0.7, 24)
    long_way, crook = np.where(np.arange(10) % 2 == 0, 1, 0.45), np.c_[np.cos(arc), np.sin(arc)]
    bent = np.linspace(-1, 1, 20)
    stem = shapely.LineString(np.c_[bent, 0.35 * np.sin(bent * 2.5)]).buffer(0.09, quad_segs=3)
    kinds = [
        *[np.r_[bow, (bow * (1, -1))[::-1][1:-1]]] * 2,
        np.c_[16 * np.sin(t) ** 3, heart] / 17,
        round_about * (1 + 0.25 * np.cos(5 * t))[:, None],
        round_about,
        np.c_[long_way * np.sin(rays), long_way * np.cos(rays)],
        np.array(stem.exterior.coords)[:-1],
        np.array([[0, 0], [1, 0], [1, 0.35], [0.35, 0.35], [0.35, 1.6], [0, 1.6]]),
        np.r_[crook, 0.6 * crook[::-1]],
        round_about * (1 + 0.15 * np.cos(2 * t + phase) + 0.12 * np.cos(3 * t - phase))[:, None],
    ]
    return _outline(chance.choice(kinds) * size / 2)


def _outline(corners):
    first, *rest = [tuple(map(float, corner)) for corner in corners]
    return at_origin(Outline("shape", (Ring(first, tuple(Line(corner) for corner in rest)),)))


def letters(count, seed):
    """Letters of the typeface that ships with the project, 40 to 100 mm high."""
    chance = random.Random(seed)
    font = TTFont(ROOT / "service/look/fonts/source-serif-4-latin-600-normal.woff2")
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    picked = []
    while len(picked) < count:
        pen = SVGPathPen(glyphs)
        glyphs[names[ord(chance.choice("CFGJLSTVXYZceknrsvxyz357"))]].draw(pen)
        path = f'<path d="{pen.getCommands()}"/>'
        page = f'<svg width="2000mm" height="2000mm" viewBox="-500 -1500 2000 2000">{path}</svg>'
        outline = max(read_svg(page.encode(), "letter").shapes, key=lambda shape: shape.area_mm2)
        scale = chance.uniform(40, 100) / outline.height_mm
        picked.append(at_origin(outline.moved(Affine.scaling(scale, scale))))
    return picked


SETS = {
    "demo": lambda count, seed: sample(demo_outlines(), count, seed),
    "garden": garden,
    "letters": letters,
}


def compare(counts, seeds, names):
    print(
        "set      pieces seed    rows  lowest  shapes   bound  of rows  of lowest  filled  at 24 %  faults  cpu s"
    )
    every = []
    for name in names:
        found = [
            _compare_one(name, seed, SETS[name](count, seed)) for count in counts for seed in range(seeds)
        ]
        _sum_up(name, found)
        every += found
    _sum_up("all", every)


def _sum_up(name, found):
    """Least and mean of what was saved, and the computing it took: in all, and at most."""
    of_rows, of_lowest, took = zip(*found, strict=True)
    print(f"{name}: shorter than rows by {100 * min(of_rows):.1f} % at least,", end=" ")
    print(f"{100 * sum(of_rows) / len(found):.1f} % on average;", end=" ")
    print(
        f"than lowest by {100 * min(of_lowest):.1f} and {100 * sum(of_lowest) / len(found):.1f} %;", end=" "
    )
    print(f"cpu s {sum(took) / len(found):.1f} on average, {max(took):.1f} at most", flush=True)


def _compare_one(name, seed, picked):
    start = _count_cpu_s()
    laid = lay_shapes(picked)
    took = _count_cpu_s() - start
    mine, count = max(o.box_mm[3] for o in laid), len(picked)
    rows, lowest = rows_length(picked), lowest_length(picked)
    faults = find_layout_faults(laid, picked, [ANY_TURN] * count, (0, 0, WIDTH, mine), SPACING)
    bound = bound_length(picked)
    filled, asked = (
        (bound + SPACING) / (length + SPACING) for length in (mine, (1 - AIM) * min(rows, lowest))
    )
    print(f"{name:8s} {count:6d} {seed:4d} {rows:7.1f} {lowest:7.1f} {mine:7.1f} {bound:7.1f}", end=" ")
    print(f"{1 - mine / rows:8.3f} {1 - mine / lowest:10.3f} {filled:7.3f} {asked:8.3f}", end=" ")
    print(f"{len(faults):7d} {took:6.1f}", flush=True)
    return 1 - mine / rows, 1 - mine / lowest, took


def bound_length(outlines):
    """The pieces widened by half the spacing overlap nowhere, and reach no further than that out of the strip."""
    taken = sum(shapely.Polygon(to_polygon(o).exterior).buffer(SPACING / 2).area for o in outlines)
    return taken / (WIDTH + SPACING) - SPACING


def _count_cpu_s():
    """Of this process and those it waited for."""
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(one.ru_utime + one.ru_stime for one in used)


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--seeds", type=int, default=3)
    parser.add_argument("--patience", type=float, default=1.0)
    parser.add_argument("--counts", type=int, nargs="*", default=COUNTS)
    parser.add_argument("--sets", nargs="*", default=list(SETS))
    asked = parser.parse_args()
    strip.STUCK, strip.CPU_SECONDS = strip.STUCK * asked.patience, 600
    strip.STEPS = round(strip.STEPS * asked.patience)
    compare(asked.counts, asked.seeds, asked.sets)
