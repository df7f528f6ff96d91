"""Pieces and hoopings of the zoo, sewn once for all tests."""

from functools import cache

import pytest

from service.craft.fabric import Thread
from tests.stitches.shapes import ZOO
from workers.stitches.findings import Checked
from workers.stitches.hooping import plan_hoopings
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import StitchPiece
from workers.stitches.reading import read_stitch_file
from workers.stitches.record import record_passes
from workers.stitches.settings import Field, StitchSettings

SETTINGS = StitchSettings()
WHITE = Thread("white", "#ffffff")


def make_piece(name, rings=None, **more):
    return StitchPiece(name, rings or ZOO[name], more.pop("thread", WHITE), pointer=f"/pieces/{name}", **more)


@cache
def sew_zoo(name, edge="satin"):
    return sew_piece(make_piece(name, edge=edge), SETTINGS)


@cache
def write_zoo(name, edge="satin"):
    """The checked file of one shape, and its bytes."""
    hooping = plan_hoopings([sew_zoo(name, edge)], Field(100, 140), SETTINGS)[0]
    recorded = record_passes(hooping.passes, SETTINGS, label=hooping.name)
    return Checked(hooping, read_stitch_file(recorded.data), recorded.ranges, SETTINGS), recorded.data


@pytest.fixture
def settings():
    return SETTINGS


@pytest.fixture
def sew():
    return sew_zoo


@pytest.fixture
def write():
    return write_zoo


@pytest.fixture
def piece():
    return make_piece
