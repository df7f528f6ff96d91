"""The hoopings that steps speak of: planned as the stitch files are, where a step depends on them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from service.craft.document import Project
from workers.recipe import CannotMake, JobInput
from workers.stitches.pieces import Hooping
from workers.stitches.planning import plan_fields, sew_pieces

MOST_PIECES = 60
"""With more pieces than this no step says which file serves again; the handout does, from the stitch files."""


def find_hoopings(job: JobInput, project: Project) -> Mapping[str, tuple[Hooping, ...]]:
    """The hoopings of every sewing field by its label; none where every piece is one of its kind and sewn whole.

    Empty also where a piece cannot be sewn: the job of the stitch files says why.
    """
    hooped = any(track.hoop is not None for track in project.tracks)
    if not hooped or not (has_splits(project) or has_repeats(project)):
        return {}
    try:
        sewn = sew_pieces(job, project, lambda share, words: None)
        return {label: tuple(hoopings) for label, hoopings in plan_fields(job, project, sewn).items()}
    except CannotMake:
        return {}


def has_splits(project: Project) -> bool:
    """Whether a piece has a line to be split along."""
    return any(piece.split for piece in project.pieces)


def has_repeats(project: Project) -> bool:
    """Whether a motif comes again, among so few pieces that its hoopings are quickly planned."""
    motifs = Counter((piece.outline, piece.scale, piece.mirror) for piece in project.pieces)
    return len(project.pieces) <= MOST_PIECES and any(count > 1 for count in motifs.values())
