"""A small project with outlines, and the job inputs made from it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from service.craft.outlines import read_svg, to_json
from workers.recipe import JobInput

LEEK = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">'
    '<rect id="bed" width="60" height="40"/>'
    '<path id="stalk" d="M80 0 H110 C120 30 100 60 110 90 H90 z"/>'
    '<path id="ring" d="M150 50A30 30 0 0 1 210 50A30 30 0 0 1 150 50zM170 50A10 10 0 0 0 190 50A10 10 0 0 0 170 50z"/>'
    "</svg>"
)
POD = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">'
    '<circle id="pea" cx="50" cy="50" r="12"/></svg>'
)

TRACKS = [
    {"name": "by hand", "has": []},
    {"name": "cutter", "has": ["cutter 12x12"]},
    {"name": "hoop and cutter", "has": ["hoop 130x180", "cutter 12x12"]},
]


def a_piece(name: str, outline: str, **changes: Any) -> dict[str, Any]:
    piece = {"name": name, "outline": outline, "fabric": "leaf"}
    return {**piece, "thread": {"name": "leaf green", "colour": "#3f6f34"}, **changes}


def a_place(number: int) -> list[str]:
    """A place of its own for each piece that is given none: far enough apart that none lies on another."""
    return [str(8 + 16 * (number % 8)), str(8 + 16 * (number // 8))]


@pytest.fixture
def piece() -> Callable[..., dict[str, Any]]:
    """One piece of a document: its name, its outline, and what differs."""
    return a_piece


@pytest.fixture
def job() -> Callable[..., JobInput]:
    """A job on a project with these pieces; `tracks`, `sources` and `more` as the document has them."""

    def make(
        *pieces: dict[str, Any],
        track: str | None = None,
        tracks: list[dict[str, Any]] = TRACKS,
        sources: tuple[dict[str, Any], ...] = (),
        files: dict[str, str] | None = None,
        more: dict[str, Any] | None = None,
    ) -> JobInput:
        document: dict[str, Any] = {
            "title": "Plot Twelve",
            "fabrics": {
                "leaf": {"name": "leek green", "colour": "#5f8f4e", "usable_width": "42"},
                "soil": {"name": "soil brown dot", "colour": "#5b4636", "usable_width": "42"},
                "print": {
                    "name": "seed print",
                    "colour": "#aa8855",
                    "usable_width": "42",
                    "directional": True,
                },
                "fleece": {
                    **{"name": "thin white fleece", "colour": "#ffffff", "usable_width": "58"},
                    "cut": "trim in place",
                },
            },
            "top": {"unit": "patch", "size": ["20", "20"], "fabric": "soil"},
            "pieces": [{"at": a_place(i), **one} for i, one in enumerate(pieces)],
            "tracks": tracks,
            "sources": list(sources),
            **(more or {}),
        }
        drawings = {"leek.svg": LEEK, "pod.svg": POD, **(files or {})}
        outlines = {name: to_json(read_svg(svg.encode(), name)) for name, svg in drawings.items()}
        return JobInput(kind="", document=document, outlines=outlines, track=track)

    return make
