"""Sets of outlines for `bench_nesting.py`: so many pieces by chance, the same for the same seed.

`demo` are the outlines of the demo months. `garden` are organic applique shapes of our own: leaves, hearts, flowers,
rings cut open, stars, stems, hooks and blobs. `letters` are those of the typeface that ships with the project, chosen
for their bays.
"""

import random
from functools import lru_cache
from pathlib import Path

import numpy as np
import shapely
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.ttLib import TTFont

from service.craft.measure import MM_PER_INCH
from service.craft.outlines import Outline, read_svg
from service.craft.outlines.affine import Affine
from service.craft.outlines.model import Line, Ring
from workers.outlines.asked import at_origin

ROOT = Path(__file__).resolve().parents[2]
LONGEST = 292.0
"""mm; no demo outline that is longer, for it would not lie across the strip."""


@lru_cache(maxsize=1)
def _demo_outlines():
    files = sorted(ROOT.glob("seed_data/*/*.svg"))
    shapes = [shape for file in files for shape in read_svg(file.read_bytes(), file.name).shapes]
    return [at_origin(s) for s in shapes if max(s.width_mm, s.height_mm) < LONGEST and s.area_mm2 > 100]


def demo(count, seed):
    """Outlines by chance, each between its own and two and a half times its size, no side over 200 mm."""
    chance = random.Random(seed)
    picked = []
    for _ in range(count):
        outline = chance.choice(_demo_outlines())
        scale = min(chance.uniform(1, 2.5), 200 / max(outline.width_mm, outline.height_mm))
        picked.append(at_origin(outline.moved(Affine.scaling(scale, scale))))
    return picked


def garden(count, seed):
    """Organic shapes by chance, 30 to 102 mm long; to 76 mm where they are more than twenty."""
    chance = random.Random(seed)
    longest = 4.0 if count <= 20 else 3.0
    return [_draw(chance, float(MM_PER_INCH) * chance.uniform(1.2, longest)) for _ in range(count)]


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
    """Letters by chance, 40 to 100 mm high."""
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


SETS = {"demo": demo, "garden": garden, "letters": letters}
