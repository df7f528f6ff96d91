"""The picture beside the test of the seam: three strips as they lie once they are sewn and pressed."""

from __future__ import annotations

from service.craft.document import Project
from service.craft.drawing import PatchView, SeamView, StageView, draw_stage, view_cloths
from service.craft.language import phrase
from service.craft.measure import format_length
from workers.sewing.steps.seam_test import HEADING, MIDDLE, WHOLE

OUTER = (WHOLE - MIDDLE) // 2
"""In seam allowances: what an outer strip shows, its own allowance at the edge with it."""

HIGH = 10
"""In seam allowances: how much of their length the picture shows."""


def draw_seam_test(project: Project) -> dict[str, str]:
    """The drawing (SVG) by the heading it stands under, in the first two cloths of the top."""
    s, measure = float(project.seam_allowance), project.measure
    used = project.cloths_of_top
    outer, middle = used[0], used[min(1, len(used) - 1)]
    edges = [0.0, OUTER * s, (OUTER + MIDDLE) * s, WHOLE * s]
    strips = zip(edges, edges[1:], (outer, middle, outer), strict=False)
    whole, shown = (format_length(project.seam_allowance * times, measure) for times in (WHOLE, MIDDLE))
    view = StageView(
        title=phrase(HEADING),
        width=WHOLE * s,
        height=HIGH * s,
        cloths=view_cloths(project.fabrics),
        patches=tuple(
            PatchView(((a, 0.0), (b, 0.0), (b, HIGH * s), (a, HIGH * s)), cloth) for a, b, cloth in strips
        ),
        seams=tuple(SeamView((at, 0.0), (at, HIGH * s), "right") for at in edges[1:3]),
        width_text=whole,
    )
    return {phrase(HEADING): draw_stage(view, note=phrase("The middle strip shows {length}", length=shown))}
