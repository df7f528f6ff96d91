"""The passes of one piece: placement line, stop, tack-down, stop, underlay and finish, ring by ring."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely

from service.craft.language import phrase, say_number
from service.craft.pieces import HOOP_EDGES
from workers.recipe import CannotMake
from workers.stitches.curves import (
    clean_ring,
    draw_outlines,
    find_corners,
    lengths_along,
    orient,
    points_at,
    start_at,
)
from workers.stitches.details import sew_details
from workers.stitches.guides import make_guide
from workers.stitches.lines_along import sew_line
from workers.stitches.open_edges import sew_blanket, sew_raw
from workers.stitches.pieces import (
    FINISH,
    PLACEMENT,
    TACK_DOWN,
    UNDERLAY,
    Pass,
    Points,
    SewnPiece,
    StitchPiece,
)
from workers.stitches.rails import Lines
from workers.stitches.running import drop_short, tie_in, tie_off
from workers.stitches.satin import finish_lines, inset_path, sew_finish, sew_underlay, split_long
from workers.stitches.settings import LINES_INSIDE, StitchSettings
from workers.stitches.stop_words import lay_words, trim_words
from workers.stitches.stretches import (
    Path,
    finish_runs,
    inset_paths,
    placement_paths,
    sew_open_edge,
    sew_open_underlay,
)


@dataclass(frozen=True)
class RingToSew:
    """One ring of a piece, begun where its passes begin, with the lines of its finish."""

    ring: Points
    lines: Lines


def check_piece(piece: StitchPiece, settings: StitchSettings) -> tuple[Points, ...]:
    """The piece's rings, cleaned; raises `CannotMake` where no needle could sew them."""
    if piece.edge not in HOOP_EDGES:
        raise CannotMake(
            f'the piece "{piece.name}" asks for the edge "{piece.edge}", which is not sewn in the hoop',
            pointer=f"{piece.pointer}/edge",
            right="write " + " or ".join(f'"{edge}"' for edge in HOOP_EDGES),
        )
    try:
        rings = tuple(clean_ring(ring) for ring in piece.rings)
        shape = shapely.Polygon(rings[0], rings[1:])
    except (ValueError, IndexError) as fault:
        raise CannotMake(
            f'the outline of "{piece.name}" is no closed shape: {fault}',
            pointer=piece.pointer,
            right="draw a closed outline that goes once round the cloth",
        ) from fault
    if not shape.is_valid:
        raise CannotMake(
            f'the outline of "{piece.name}" meets itself: {shapely.is_valid_reason(shape)} (mm on the top)',
            pointer=piece.pointer,
            right="draw an outline that does not cross itself, with its holes inside",
        )
    check_width(piece, shape, settings)
    return rings


def check_width(piece: StitchPiece, shape: shapely.Polygon, settings: StitchSettings) -> None:
    """Refuse a piece with no place wide enough to hold cloth under a tack-down."""
    widest = 2 * float(shapely.length(shapely.maximum_inscribed_circle(shape, tolerance=0.05)))
    if widest < settings.narrowest_mm:
        raise CannotMake(
            f'the piece "{piece.name}" is nowhere wider than {widest:.1f} mm: the needle would cut it to shreds',
            pointer=piece.pointer,
            right=f"make it at least {settings.narrowest_mm:g} mm wide somewhere, or sew it as a line",
        )


def sew_piece(piece: StitchPiece, settings: StitchSettings) -> SewnPiece:
    """All passes of a piece in sewing order, on the top; raises `CannotMake` for what cannot be sewn."""
    rings = check_piece(piece, settings)
    prepared = prepare_rings(rings, piece.edge, settings)
    passes = (
        pass_round(piece, prepared, settings) if piece.part is None else pass_part(piece, prepared, settings)
    )
    threaded = [replace(one, thread=piece.thread) for one in passes]
    threaded += sew_details(piece, shapely.Polygon(rings[0], rings[1:]), settings)
    return SewnPiece(piece, tuple(threaded), note_oddities(piece, rings, settings))


def pass_round(piece: StitchPiece, prepared: list[RingToSew], settings: StitchSettings) -> list[Pass]:
    """The passes once round every ring."""
    placed = [Path(r.ring, closed=True) for r in prepared]
    tacked = [Path(inset_path(r.lines, settings.tack_inset_mm), closed=True) for r in prepared]
    return [
        *running_passes(piece, PLACEMENT, placed, settings),
        *running_passes(piece, TACK_DOWN, tacked, settings),
        *(one for ring in prepared for one in finish_passes(piece, ring.lines, settings)),
    ]


def pass_part(piece: StitchPiece, prepared: list[RingToSew], settings: StitchSettings) -> list[Pass]:
    """The passes of one part of a piece, stretch by stretch."""
    part = piece.part
    assert part is not None, "asked only for a part"  # noqa: S101
    placed = [path for r in prepared for path in placement_paths(r.ring, part)]
    tacked = [path for r in prepared for path in inset_paths(r.lines, part, settings.tack_inset_mm)]
    finish: list[Pass] = []
    for ring in prepared:
        for run in finish_runs(ring.lines, part):
            finish += finish_passes(piece, run, settings, closed=len(run) == len(ring.lines))
    return [
        *running_passes(piece, PLACEMENT, placed, settings),
        *running_passes(piece, TACK_DOWN, tacked, settings),
        *finish,
    ]


def prepare_rings(rings: tuple[Points, ...], edge: str, settings: StitchSettings) -> list[RingToSew]:
    """Each ring turned so that its normals point onto the cloth, begun on its longest side, with its lines."""
    degrees = settings.corner_degrees
    turned = [orient(ring, cloth_inside=number == 0) for number, ring in enumerate(rings)]
    begun = [start_at(ring, find_corners(ring, degrees=degrees)) for ring in turned]
    guides = [make_guide(ring, degrees=degrees) for ring in begun]
    outlines = draw_outlines(guide.ring for guide in guides)
    return [
        RingToSew(ring, finish_lines(guide, ring[0], outlines, edge, settings))
        for ring, guide in zip(begun, guides, strict=True)
    ]


def running_passes(piece: StitchPiece, kind: str, paths: list[Path], settings: StitchSettings) -> list[Pass]:
    """A pass a path in running stitches, tied at both ends; the machine stops after the last."""
    stop = lay_words(piece) if kind == PLACEMENT else trim_words(piece)
    last = len(paths) - 1
    return [
        Pass(kind, piece.name, run_along(piece, kind, path, settings), stop if i == last else None)
        for i, path in enumerate(paths)
    ]


def run_along(piece: StitchPiece, kind: str, path: Path, settings: StitchSettings) -> Points:
    """The needle points of a placement line or a tack-down."""
    if path.closed and len(path.points) < 3:
        raise CannotMake(
            f'the piece "{piece.name}" is so thin that no {kind} fits inside it',
            right="draw it wider, or sew it as a line on another piece",
        )
    points = sew_line(path.points, settings, closed=path.closed)
    if kind == TACK_DOWN:
        points = sew_tack_down(points, path, settings)
    return tie_off(tie_in(points, settings), settings)


def sew_tack_down(run: Points, path: Path, settings: StitchSettings) -> Points:
    """A tack-down from its single run: as it is, twice along, or as a narrow zigzag astride its line."""
    if settings.tack_down == "double":
        again = run[1:] if path.closed else run[-2::-1]
        return drop_short(np.vstack([run, again]), least_mm=settings.shortest_mm + 0.15)
    if settings.tack_down == "zigzag":
        half = settings.tack_zigzag_mm / 2
        along = lengths_along(path.whole)
        count = max(8, 2 * round(float(along[-1]) / settings.tack_pitch_mm))
        at = np.linspace(0.0, along[-1], count + 1)
        points = points_at(path.whole, along, at)
        ahead = np.mod(at + 0.2, along[-1]) if path.closed else at + 0.2
        way = points_at(path.whole, along, ahead) - points_at(path.whole, along, at)
        aside = (
            np.stack([-way[:, 1], way[:, 0]], axis=1) / np.maximum(np.linalg.norm(way, axis=1), 1e-9)[:, None]
        )
        swung = points + aside * np.where(np.arange(count + 1) % 2, half, -half)[:, None]
        return drop_short(swung, least_mm=settings.shortest_mm + 0.15)
    return run


def finish_passes(
    piece: StitchPiece, lines: Lines, settings: StitchSettings, *, closed: bool = True
) -> list[Pass]:
    """Underlay and finish of a ring, or of a stretch of one: tied at the underlay's start and the finish's end, sewn in
    one go.
    """
    finish = (sew_edge if closed else sew_open_edge)(lines, piece.edge, settings)
    if piece.edge != "satin" or settings.underlay == "none":
        return [Pass(FINISH, piece.name, tie_off(tie_in(finish, settings), settings))]
    beneath = (sew_underlay if closed else sew_open_underlay)(lines, piece.edge, settings)
    under = tie_in(beneath, settings)
    joined = drop_short(np.vstack([under[-1:], finish]), least_mm=settings.shortest_mm + 0.15)
    joined = split_long(joined, settings.longest_stitch_mm(piece.edge))[1:]
    return [
        Pass(UNDERLAY, piece.name, under),
        Pass(FINISH, piece.name, tie_off(joined, settings), joined=True),
    ]


def sew_edge(lines: Lines, edge: str, settings: StitchSettings) -> Points:
    """The needle points of an edge finish by its name."""
    if edge == "blanket":
        return sew_blanket(lines, settings)
    if edge in LINES_INSIDE:
        return sew_raw(lines, edge, settings)
    return sew_finish(lines, edge, settings)


def note_oddities(piece: StitchPiece, rings: tuple[Points, ...], settings: StitchSettings) -> tuple[str, ...]:
    """What somebody should know before sewing: holes that the finish closes, lines that it does not hide."""
    least = 2 * settings.outside_mm(piece.edge)
    notes = []
    if piece.edge in ("blanket", *LINES_INSIDE):
        notes.append(
            phrase(
                'placement line and tack-down of "{piece}" stay in sight: choose a thread like the cloth',
                piece=piece.name,
            )
        )
    for number, ring in enumerate(rings[1:], start=1):
        radius = shapely.length(shapely.maximum_inscribed_circle(shapely.Polygon(ring), tolerance=0.05))
        if 2 * radius < least:
            notes.append(
                phrase(
                    'hole {number} of "{piece}" is {width} mm wide: the finish closes it',
                    number=number,
                    piece=piece.name,
                    width=say_number(2 * radius, ".1f"),
                )
            )
    return tuple(notes)
