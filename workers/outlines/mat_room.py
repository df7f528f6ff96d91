"""Cutting mats: how much room is on them, and whether a piece has room enough."""

from __future__ import annotations

import math
from dataclasses import dataclass

from service.craft.cutting_choices import QUARTER_TURNS as BY_QUARTERS
from service.craft.document import Project
from service.craft.measure import MM_PER_INCH
from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine
from workers.outlines.asked import AskedPiece, at_origin
from workers.outlines.layout import ANY_TURN, AS_PLACED, QUARTER_TURNS
from workers.recipe import CannotMake

TURN_STEP = 1.0
"""Degrees between the turns tried for a piece that fits a mat neither upright nor lying."""


@dataclass(frozen=True)
class CutSettings:
    """Room on a mat, mm, and how pieces of cloth without a direction may be turned.

    Common practice, no source: cloth tears where two cuts come nearer than 5 mm.
    """

    spacing_mm: float = 5.0
    margin_mm: float = 6.0
    plain_turns: tuple[float, ...] = ANY_TURN


def read_settings(project: Project) -> CutSettings:
    """What the project says of its mats, in mm."""
    mat = project.cutting.mat
    turns = QUARTER_TURNS if mat.turns == BY_QUARTERS else ANY_TURN
    return CutSettings(float(mat.spacing * MM_PER_INCH), float(mat.margin * MM_PER_INCH), turns)


@dataclass(frozen=True)
class Mat:
    """A cutting mat and the tracks that have it."""

    label: str
    width_mm: float
    height_mm: float
    tracks: tuple[str, ...]


def list_mats(project: Project) -> list[Mat]:
    """The distinct mats of the project's tracks, in the tracks' order.

    Mats of one label differ by less than a millimetre: the smaller sides serve both.
    """
    found: dict[str, Mat] = {}
    for track in project.tracks:
        if track.cutter:
            width, height = float(track.cutter.width_mm), float(track.cutter.height_mm)
            other = found.get(track.cutter.label, Mat(track.cutter.label, width, height, ()))
            sides = min(width, other.width_mm), min(height, other.height_mm)
            found[track.cutter.label] = Mat(track.cutter.label, *sides, (*other.tracks, track.name))
    return list(found.values())


def fit_to_room(
    asked: AskedPiece, outline: Outline, turns: tuple[float, ...], mat: Mat, settings: CutSettings
) -> Outline:
    """The outline as it is if it fits the mat in a quarter turn, else turned aslant so that it does.

    `CannotMake` says what mat it needs where it fits in no turn that it may have.
    """
    room = mat.width_mm - 2 * settings.margin_mm, mat.height_mm - 2 * settings.margin_mm
    if _fits(outline, room) or (turns != AS_PLACED and _fits(outline, room[::-1])):
        return outline
    aslant = _turn_aslant(outline, room)
    if aslant is not None and turns == ANY_TURN:
        return aslant
    margin = settings.margin_mm
    needs = [math.ceil(side + 2 * margin) for side in (outline.width_mm, outline.height_mm)]
    held = "" if aslant is None else f"; it would fit aslant, {_say_why_straight(turns)}"
    raise CannotMake(
        f'"{asked.piece.name}" is {outline.width_mm:.1f} x {outline.height_mm:.1f} mm and does not fit the mat of'
        f" {mat.width_mm:.0f} x {mat.height_mm:.0f} mm ({', '.join(mat.tracks)}){held}",
        pointer=asked.piece.pointer,
        right=f"a mat of at least {needs[0]} x {needs[1]} mm, which leaves {margin:g} mm all round,"
        " or a smaller piece",
    )


def _say_why_straight(turns: tuple[float, ...]) -> str:
    if turns == AS_PLACED:
        return "but its cloth has a direction"
    return 'but "turns" of the mat is "quarter turns"'


def _turn_aslant(outline: Outline, room: tuple[float, float]) -> Outline | None:
    """The outline in the first turn in which its box fits the room; None where there is none."""
    for step in range(1, round(180 / TURN_STEP)):
        lying = at_origin(outline.moved(Affine.turning(step * TURN_STEP)))
        if _fits(lying, room):
            return lying
    return None


def _fits(outline: Outline, room: tuple[float, ...]) -> bool:
    return outline.width_mm <= room[0] and outline.height_mm <= room[1]
