"""Cloth at home that comes near a colour and is enough for what is cut from it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from markupsafe import Markup

from service.craft.document import Project
from service.craft.drawing import draw_swatch
from service.craft.fabric import Fabric, StashPiece
from service.craft.measure import NotALength, parse_length
from service.look.colour_vision import measure_difference
from workers.cutting.stock.stock_plan import plan_stash
from workers.handouts.colourway_cloth import ClothBought
from workers.patience import Left, share

CLOTH = "cloth"
"""The kind of a material that patches are cut from."""

FARTHEST = 20.0
"""A cloth farther away in CIELAB is another colour to everybody: our own judgement."""

MOST_SHOWN, MOST_TRIED = 3, 8
"""Of one cloth: so many are shown, and the nearest so many are tried for whether they are enough."""


@dataclass(frozen=True)
class AtHome:
    """A cloth at home: its name, its sRGB colour, its pieces, and whether its print or pile runs one way."""

    name: str
    colour: str
    pieces: tuple[StashPiece, ...]
    one_way: bool = False


@dataclass(frozen=True)
class Match:
    """A cloth at home that is enough, and how far its colour is away (CIELAB 1976, 0 is the same)."""

    name: str
    colour: str
    difference: int

    @property
    def swatch(self) -> Markup:
        """Its colour, drawn."""
        return Markup(draw_swatch(self.colour, self.name))  # noqa: S704 - our own, escaped by the sheet


def list_at_home(project: Project, materials: Iterable[Mapping[str, Any]]) -> list[AtHome]:
    """Every cloth at home of known colour and size: the stash of the document, and what the studio has entered."""
    stash = [
        AtHome(fabric.name, fabric.colour, fabric.stash, fabric.one_way)
        for fabric in project.fabrics.values()
        if fabric.stash
    ]
    return stash + list(_read_materials(materials))


def find_matches(bought: ClothBought, colour: str, at_home: Sequence[AtHome], left: Left) -> list[Match]:
    """The nearest cloths at home that everything can be cut from, the nearest first.

    Whether one is enough is worked out by laying every cut on its pieces, not by its area. A cloth that runs one way
    is suggested only where the cuts are laid for one. Nothing stands in for cloth that is trimmed in place: that is
    chosen for its pile.
    """
    if bought.fabric.trim_in_place:
        return []
    near = sorted(
        (measure_difference(colour, one.colour), i)
        for i, one in enumerate(at_home)
        if bought.fabric.one_way or not one.one_way
    )
    found: list[Match] = []
    for difference, i in near[:MOST_TRIED]:
        if difference > FARTHEST or len(found) == MOST_SHOWN:
            break
        if _is_enough(at_home[i], bought, share(left, 0.2)):
            found.append(Match(at_home[i].name, at_home[i].colour, round(difference)))
    return found


def _is_enough(one: AtHome, bought: ClothBought, left: Left) -> bool:
    area = sum(piece.width * piece.length * piece.count for piece in one.pieces)
    if area < sum(cut.area for cut in bought.cuts.values()):
        return False
    cloth: Fabric = replace(bought.fabric, stash=one.pieces, sold_as=None)
    plan = plan_stash(cloth, bought.cuts, left)
    return plan is not None and plan.enough


def _read_materials(materials: Iterable[Mapping[str, Any]]) -> Iterator[AtHome]:
    """The cloths among the materials; one without colour, width or length cannot be suggested."""
    for one in materials:
        sides = one.get("usable_width"), one.get("length")
        count = int(one.get("quantity") or 0)
        if one.get("kind") != CLOTH or not one.get("colour") or None in sides or count < 1:
            continue
        try:
            width, length = (parse_length(side, "in") for side in sides)
        except NotALength:
            continue
        yield AtHome(
            str(one.get("name", "")), str(one["colour"]).lower(), (StashPiece(width, length, count),)
        )
