"""The tools that steps name: keys in what programs read, words of their readers in what is printed."""

from __future__ import annotations

import re

from service.craft.language import mark, phrase

TOOLS = {
    "basting thread": mark("basting thread"),
    "clips": mark("clips"),
    "curved scissors": mark("curved scissors"),
    "cutting machine": mark("cutting machine"),
    "cutting mat": mark("cutting mat"),
    "embroidery machine": mark("embroidery machine"),
    "fabric pen": mark("fabric pen"),
    "fusible web": mark("fusible web"),
    "hand needle": mark("hand needle"),
    "hoop machine": mark("hoop machine"),
    "iron": mark("iron"),
    "ironing board": mark("ironing board"),
    "light table": mark("light table"),
    "marking pencil": mark("marking pencil"),
    "mat of the cutting machine": mark("mat of the cutting machine"),
    "paper": mark("paper"),
    "pencil": mark("pencil"),
    "pins": mark("pins"),
    "rotary cutter": mark("rotary cutter"),
    "ruler": mark("ruler"),
    "safety pins": mark("safety pins"),
    "scissors": mark("scissors"),
    "seam ripper": mark("seam ripper"),
    "sewing machine": mark("sewing machine"),
    "small curved scissors": mark("small curved scissors"),
    "stabiliser": mark("stabiliser"),
    "tape": mark("tape"),
    "tape measure": mark("tape measure"),
    "towel": mark("towel"),
    "walking foot": mark("walking foot"),
    "washable marker": mark("washable marker"),
}
"""By its key, what a tool is called."""

HOOP = re.compile(r"hoop with a field of (?P<field>.+)")
"""The one tool that is named with its size."""


def say_tool(tool: str) -> str:
    """A tool in the words of who reads.

    >>> say_tool("iron"), say_tool("hoop with a field of 130 × 180 mm")
    ('iron', 'hoop with a field of 130 × 180 mm')
    """
    sized = HOOP.fullmatch(tool)
    if sized:
        return phrase("hoop with a field of {field}", field=sized["field"])
    return phrase(TOOLS[tool]) if tool in TOOLS else tool
