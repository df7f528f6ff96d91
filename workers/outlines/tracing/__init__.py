"""Outlines from pictures: grey levels, sub-pixel edges, true corners, few smooth curves, in millimetres.

The edge of a shape is where the grey is halfway between its ink and the paper beside it, found between the
pixels; only points are moved to their true place, never the picture.
"""

from workers.outlines.tracing.trace import trace_picture

__all__ = ["trace_picture"]
