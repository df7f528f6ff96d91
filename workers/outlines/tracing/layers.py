"""Flat tones that touch, each taken as a shape of its own, where today's one level would see one silhouette."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from service.craft.tracing import SPECK_MM
from workers.outlines.tracing.counting import count_of
from workers.outlines.tracing.edges import RIM_PX, PaperEdge
from workers.outlines.tracing.flat_edges import JOINT_PX, FlatEdge, settle_flat_edge
from workers.outlines.tracing.flat_regions import FlatMap, Patch, find_patches, map_tones
from workers.outlines.tracing.flat_tones import Tones, Values
from workers.outlines.tracing.ink import REACH_PX, soften
from workers.outlines.tracing.paper import Tiles, even_out
from workers.outlines.tracing.picture import Picture
from workers.outlines.tracing.plane import Plane
from workers.outlines.tracing.points import Points
from workers.outlines.tracing.tone_words import say_tone

LEAST_CONTACT_MM = 2.0
"""Two tones touch where they lie side by side for so long."""

SHARPEST_SHADE_PX = 3.0
"""A light patch whose edge is more blurred than this is a shadow on the paper."""

NEAR_PX = 6.0
"""A line this near to a patch is its edge."""


@dataclass(frozen=True)
class Layer:
    """One flat patch: its outer edge and its holes in mm, and its tone in words."""

    edges: tuple[PaperEdge, ...]
    tone: str


@dataclass(frozen=True)
class Layers:
    """The patches that are shapes of their own; `near` is where no other line is an edge, in pixels."""

    layers: tuple[Layer, ...]
    near: shapely.Geometry

    def others(self, lines: list[Points]) -> list[Points]:
        """The lines that run along no patch: they are still to be traced as dark on light."""
        return [line for line in lines if shapely.contains_xy(self.near, line[:, 0], line[:, 1]).mean() < 0.5]


@dataclass(frozen=True)
class _Traced:
    patch: Patch
    edges: tuple[FlatEdge, ...]


def part_layers(
    picture: Picture, light: Tiles, tones: Tones, level: float | None, plane: Plane, notes: list[str]
) -> Layers:
    """The patches of flat tone that touch each other or that the one level does not see, apart from the rest."""
    fields = _fields(picture, light)
    middle = np.array([picture.width, picture.height]) / 2
    mm = plane.mm_per_pixel(middle) * picture.reduced
    flat, small = map_tones(fields, tones, (SPECK_MM / mm) ** 2)
    traced = [_settled(fields, flat, tones, patch) for patch in find_patches(flat)]
    chosen = [one for one in traced if _is_layer(one, tones, level, mm)]
    whole = [one for one in chosen if not _at_rim(one, picture)]
    near = shapely.union_all([one.patch.polygon.buffer(0).buffer(NEAR_PX) for one in chosen])
    shapely.prepare(near)
    if not chosen:
        return Layers((), near)
    if small:
        notes.append(
            f"{count_of(small, 'flat patch')} smaller than {SPECK_MM**2:g} mm² taken for what lies round"
        )
    if len(whole) < len(chosen):
        notes.append(
            f"left out: {count_of(len(chosen) - len(whole), 'flat patch')} cut off by the picture's rim"
        )
    layers = tuple(_in_mm(one, tones, picture, plane) for one in whole)
    return Layers(layers, near)


def _fields(picture: Picture, light: Tiles) -> Values:
    if picture.colour is None:
        return soften(even_out(picture.grey, light))[..., None]
    bands = [np.asarray(band, dtype=np.float32) for band in picture.colour.split()]
    return np.stack([soften(even_out(band, light)) for band in bands], axis=-1)


def _settled(fields: Values, flat: FlatMap, tones: Tones, patch: Patch) -> _Traced:
    return _Traced(
        patch, tuple(settle_flat_edge(fields, flat, tones, patch.tone, ring) for ring in patch.rings)
    )


def _is_layer(one: _Traced, tones: Tones, level: float | None, mm: float) -> bool:
    contact = sum(edge.contact_px for edge in one.edges) * mm
    if contact >= LEAST_CONTACT_MM:
        return True
    unseen = level is None or tones.light(one.patch.tone) >= level
    return unseen and one.edges[0].blur_px < SHARPEST_SHADE_PX < REACH_PX


def _at_rim(one: _Traced, picture: Picture) -> bool:
    rows, columns = picture.grey.shape
    outer = one.edges[0].points
    return bool((outer <= RIM_PX).any() or (outer >= np.array([columns - 1, rows - 1]) - RIM_PX).any())


def _in_mm(one: _Traced, tones: Tones, picture: Picture, plane: Plane) -> Layer:
    edges = []
    for edge in one.edges:
        at = (edge.points + 0.5) * picture.reduced
        size = plane.mm_per_pixel(at.mean(axis=0)) * picture.reduced
        joints = plane.to_mm((edge.joints + 0.5) * picture.reduced) if len(edge.joints) else edge.joints
        edges.append(PaperEdge(plane.to_mm(at), edge.blur_px * size, joints, JOINT_PX * size))
    return Layer(tuple(edges), say_tone(tones.tone(one.patch.tone)))
