"""The small project of the outlines, here too."""

from tests.outlines.conftest import job

__all__ = ["job"]
