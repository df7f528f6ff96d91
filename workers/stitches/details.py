"""Lines and filled areas on a piece, sewn after its edge."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely

from workers.recipe import CannotMake
from workers.stitches.curves import clean_ring
from workers.stitches.fill import TooBrokenUp, sew_fill
from workers.stitches.lines_along import sew_line, sew_satin_line, sew_thrice
from workers.stitches.pieces import DETAIL, DetailLine, Pass, Points, StitchPiece
from workers.stitches.running import tie_in, tie_off
from workers.stitches.settings import StitchSettings

WHERE = "draw it inside the outline of the piece, or at most as far out as the edge reaches"


def sew_details(piece: StitchPiece, shape: shapely.Polygon, settings: StitchSettings) -> list[Pass]:
    """A pass or more for each detail, in order; `CannotMake` for one that leaves the piece or cannot be sewn."""
    passes: list[Pass] = []
    columns: list[Points] = []
    for line in (turn_against(line, columns) for line in piece.details):
        room = shape.buffer(settings.outside_mm(piece.edge) + settings.pull_mm)
        if not shapely.covers(room, shapely.linestrings(line.paths[0])):
            raise CannotMake(
                f'a detail of "{piece.name}" reaches beyond the piece and its edge',
                pointer=line.pointer,
                right=WHERE,
            )
        longest = longest_of(line, settings)
        for points in sew_detail(piece, line, settings):
            tied = tie_off(tie_in(points, settings), settings)
            passes.append(
                Pass(DETAIL, piece.name, tied, thread=line.thread or piece.thread, longest_mm=longest)
            )
    return passes


def turn_against(line: DetailLine, columns: list[Points]) -> DetailLine:
    """An open satin line, turned round where the nearest one before it runs the same way; both are kept in `columns`.

    Neighbours sewn one up and one down draw the cloth to both sides alike (common practice, no source). The edges of
    pieces do so of themselves: all go round with the cloth on one side, so where two face each other they run opposite
    ways.
    """
    if line.sew != "satin line" or line.closed:
        return line
    turned = []
    for path in line.paths:
        here = shapely.LineString(path)
        nearest = min(
            columns, key=lambda other: shapely.distance(here, shapely.LineString(other)), default=None
        )
        alike = nearest is not None and float(np.dot(path[-1] - path[0], nearest[-1] - nearest[0])) > 0
        columns.append(path[::-1] if alike else path)
        turned.append(columns[-1])
    return replace(line, paths=tuple(turned))


def longest_of(line: DetailLine, settings: StitchSettings) -> float:
    """The longest stitch a detail may have."""
    if line.sew == "fill":
        return settings.longest_fill_mm
    if line.sew == "satin line" and line.width_mm >= settings.narrowest_line_mm:
        return max(settings.longest_line_mm(line.width_mm), settings.longest_running_mm)
    return settings.longest_running_mm


def sew_detail(piece: StitchPiece, line: DetailLine, settings: StitchSettings) -> list[Points]:
    """The needle points of one detail, without ties."""
    if line.sew == "fill":
        try:
            return sew_fill(area_of(line), line.angle_degrees, settings)
        except (TooBrokenUp, ValueError) as fault:
            raise CannotMake(
                f'a fill of "{piece.name}" cannot be sewn: {fault}',
                pointer=line.pointer,
                right="draw a plainer area that does not cross itself",
            ) from fault
    sewn = []
    for path in line.paths:
        ring = clean_ring(path) if line.closed else path
        if line.sew == "satin line":
            sewn.append(sew_satin_line(ring, settings, closed=line.closed, width_mm=line.width_mm))
            continue
        run = sew_line(ring, settings, closed=line.closed)
        sewn.append(sew_thrice(run) if line.sew == "triple run" else run)
    return sewn


def area_of(line: DetailLine) -> shapely.Polygon:
    """The area of a fill; a `ValueError` says where it meets itself."""
    area = shapely.Polygon(line.paths[0], line.paths[1:])
    if not area.is_valid:
        raise ValueError(f"its outline meets itself, {shapely.is_valid_reason(area)} (mm on the top)")
    return area
