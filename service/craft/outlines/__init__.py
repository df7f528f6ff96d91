"""Outlines in millimetres: the model (lines and cubic curves), the reader, the placing on the top."""

from service.craft.outlines.faults import OutlineNotFound, OutlineUnreadable
from service.craft.outlines.model import (
    Cubic,
    Line,
    OpenLine,
    Outline,
    OutlineFile,
    Ring,
    Segment,
    flatten,
    flatten_line,
    from_json,
    to_json,
)
from service.craft.outlines.placing import (
    find_detail,
    find_lines,
    find_outline,
    find_placing,
    place,
    read_files,
)
from service.craft.outlines.svg import read_svg

__all__ = [
    "Cubic",
    "Line",
    "OpenLine",
    "Outline",
    "OutlineFile",
    "OutlineNotFound",
    "OutlineUnreadable",
    "Ring",
    "Segment",
    "find_detail",
    "find_lines",
    "find_outline",
    "find_placing",
    "flatten",
    "flatten_line",
    "from_json",
    "place",
    "read_files",
    "read_svg",
    "to_json",
]
