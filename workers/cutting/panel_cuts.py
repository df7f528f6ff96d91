"""Cuts for pieces wider than their cloth: panels that are sewn side by side before anything else."""

from __future__ import annotations

from dataclasses import replace

from service.craft.document import Project
from service.craft.measure import format_length
from service.craft.panels import Panels
from workers.cutting.cuts import RECTANGLE, SQUARE, STRIP, Cut

ONE_WAY_UP = "{what}: the panels stand side by side, none turned, so that {kept} in all of them"


def piece_of_panels(cut: Cut, panels: Panels, project: Project) -> Cut:
    """The cut of a piece that does not fit, in its panels: `count` panels for as many pieces as before."""
    joined = panels.joined
    return replace(
        cut,
        width=joined.length,
        height=panels.height,
        count=cut.count * joined.pieces,
        shape=STRIP if cut.shape == STRIP else SQUARE if joined.length == panels.height else RECTANGLE,
        then=say_panels(panels, project) + (f"; {cut.then}" if cut.then else ""),
        may_turn=False,
        notes=(*cut.notes, *_note_direction(cut, project)),
        joined=joined,
    )


def say_panels(panels: Panels, project: Project) -> str:
    """How the panels of one piece are joined, and how wide that is then."""
    joined, measure = panels.joined, project.measure
    seam = format_length(project.seam_allowance, measure)
    words = f"join {joined.pieces} {joined.laid} with straight {seam} seams, pressed open"
    if joined.total > joined.wanted:
        words += f", then trim to {format_length(joined.wanted, measure)} wide"
    return words


def _note_direction(cut: Cut, project: Project) -> tuple[str, ...]:
    fabric = project.fabrics[cut.fabric]
    if fabric.directional:
        return (ONE_WAY_UP.format(what="directional cloth", kept="the print is upright"),)
    if fabric.napped:
        return (ONE_WAY_UP.format(what="napped cloth", kept="the pile runs down"),)
    return ()
