"""A zoo of outlines in millimetres, closed polylines without the repeated point, x right and y down."""

import numpy as np
import shapely


def circle(radius=20.0, count=360):
    t = np.linspace(0, 2 * np.pi, count, endpoint=False)
    return radius * np.stack([np.cos(t), np.sin(t)], axis=1)


def square(side=40.0):
    return rectangle(side, side)


def rectangle(width, height):
    return np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=float)


def star(points=5, outer=25.0, inner=10.0):
    t = np.linspace(0, 2 * np.pi, 2 * points, endpoint=False) - np.pi / 2
    r = np.where(np.arange(2 * points) % 2 == 0, outer, inner)
    return np.stack([r * np.cos(t), r * np.sin(t)], axis=1)


def leaf(length=60.0, width=8.0, count=80):
    """Two arcs that meet in points: a willow leaf."""
    x = np.linspace(-length / 2, length / 2, count)
    y = width / 2 * (1 - (2 * x / length) ** 2)
    return np.vstack([np.stack([x, -y], axis=1), np.stack([x[::-1], y[::-1]], axis=1)[1:-1]])


def ring():
    """A disc with a round hole."""
    return circle(22.0), circle(9.0, 180)


def crescent():
    big = shapely.Point(0, 0).buffer(22, quad_segs=64)
    small = shapely.Point(9, 0).buffer(17, quad_segs=64)
    return np.array(big.difference(small).exterior.coords)[:-1]


def letter_e():
    return np.array(
        [
            [0, 0],
            [24, 0],
            [24, 7],
            [9, 7],
            [9, 14],
            [20, 14],
            [20, 21],
            [9, 21],
            [9, 29],
            [24, 29],
            [24, 36],
            [0, 36],
        ],
        dtype=float,
    )


def letter_a():
    outer = np.array(
        [[0, 44], [15, 0], [25, 0], [40, 44], [30, 44], [27, 34], [13, 34], [10, 44]], dtype=float
    )
    hole = np.array([[16, 25], [24, 25], [20, 11]], dtype=float)
    return outer, hole


def leek():
    """A stalk with a bulb below and three leaves above."""
    parts = [shapely.box(-6, -20, 6, 40), shapely.Point(0, 42).buffer(9, quad_segs=32)]
    for angle in (-28, 0, 28):
        blade = shapely.Polygon(leaf(56, 11)).buffer(0)
        blade = shapely.affinity.rotate(blade, 90, origin=(0, 0))
        blade = shapely.affinity.translate(blade, 0, -40)
        parts.append(shapely.affinity.rotate(blade, angle, origin=(0, -14)))
    shape = shapely.unary_union(parts).buffer(1.0).buffer(-2.0).buffer(1.0)
    return np.array(shape.exterior.coords)[:-1]


ZOO = {
    "circle": (circle(),),
    "square": (square(),),
    "star": (star(),),
    "leaf": (leaf(),),
    "thin leaf": (leaf(50, 3.0),),
    "ring": ring(),
    "crescent": (crescent(),),
    "letter e": (letter_e(),),
    "letter a": letter_a(),
    "tiny": (circle(2.0, 48),),
    "tiny square": (square(4.0),),
    "leek": (leek(),),
    "pinwheel": (star(9, 24, 15),),
}
