"""Cuts for pieces wider than their cloth: panels that are sewn side by side before anything else."""

from __future__ import annotations

from dataclasses import replace

from service.craft.cutting_words import and_then
from service.craft.document import Project
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from service.craft.panels import Panels
from workers.cutting.cuts import RECTANGLE, SQUARE, STRIP, Cut

PRINT_UP = mark(
    "directional cloth: the panels stand side by side, none turned, so that the print is upright in all of them"
)
PILE_DOWN = mark(
    "napped cloth: the panels stand side by side, none turned, so that the pile runs down in all of them"
)


def piece_of_panels(cut: Cut, panels: Panels, project: Project) -> Cut:
    """The cut of a piece that does not fit, in its panels: `count` panels for as many pieces as before."""
    joined = panels.joined
    return replace(
        cut,
        width=joined.length,
        height=panels.height,
        count=cut.count * joined.pieces,
        shape=STRIP if cut.shape == STRIP else SQUARE if joined.length == panels.height else RECTANGLE,
        then=and_then(say_panels(panels, project), cut.then),
        together=True,
        may_turn=False,
        notes=(*cut.notes, *_note_direction(cut, project)),
        joined=joined,
    )


def say_panels(panels: Panels, project: Project) -> str:
    """How the panels of one piece are joined, and how wide that is then."""
    joined, measure = panels.joined, project.measure
    seam = format_length(project.seam_allowance, measure)
    if joined.total <= joined.wanted:
        return phrase(
            "join {count} side by side with straight {seam} seams, pressed open",
            count=joined.pieces,
            seam=seam,
        )
    return phrase(
        "join {count} side by side with straight {seam} seams, pressed open, then trim to {width} wide",
        count=joined.pieces,
        seam=seam,
        width=format_length(joined.wanted, measure),
    )


def _note_direction(cut: Cut, project: Project) -> tuple[str, ...]:
    fabric = project.fabrics[cut.fabric]
    if fabric.directional:
        return (phrase(PRINT_UP),)
    if fabric.napped:
        return (phrase(PILE_DOWN),)
    return ()
