"""Projects that can be planned, and a reader that asks for nothing more."""

import pytest

from tests.queue.stage import TRACKS, read_view


@pytest.fixture
def read():
    return read_view


@pytest.fixture
def document():
    """A project with pieces, one track with hoop and cutter, one by hand."""
    return {"title": "Leek Row", "tracks": TRACKS, "pieces": [{"name": "leek"}]}
