"""A small bed of leeks to draw."""

import pytest

from service.craft.drawing import ClothView, PatchView, PieceView, TopView
from service.craft.outlines import Cubic, Line, Ring


@pytest.fixture
def cloths():
    colours = {"frost": "#eef1ee", "leaf": "#5f8f4e", "night": "#23283a"}
    return {
        key: ClothView(key, f"{key} cloth", colour, order)
        for order, (key, colour) in enumerate(colours.items())
    }


@pytest.fixture
def leek():
    ring = Ring((60.0, 20.0), (Cubic((80, 20), (80, 90), (60, 90)), Line((60.0, 20.0))))
    return PieceView("leek", "leaf", (ring,), (60.0, 20.0, 75.0, 90.0))


@pytest.fixture
def bed(cloths, leek):
    """A top of two patches, 8 in wide and 4 in high, with a leek on it."""
    patches = (
        PatchView(((0, 0), (4, 0), (4, 4), (0, 4)), "frost"),
        PatchView(((4, 0), (8, 0), (8, 4), (4, 4)), "night"),
    )
    return TopView("Leek bed", 8.0, 4.0, "in", cloths, patches, (leek,))
