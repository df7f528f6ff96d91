"""Which patches share a template, and what the templates of a project are called: A, B, C and so on."""

from __future__ import annotations

import string
from abc import ABC, abstractmethod
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import gcd
from typing import TypeVar, cast

from service.craft.planar.figures import Figure
from service.craft.planar.shapes import Signature, is_its_own_mirror, mirrored_signature, signature
from service.craft.planar.templates import PlanePoint, cut_outline, measure_box

AnyTemplate = TypeVar("AnyTemplate", bound="PatchTemplate")

Likeness = tuple[int, ...]
"""A signature in lowest terms, the same on every grid."""


@dataclass(frozen=True)
class PatchTemplate(ABC):
    """A template by its letter."""

    letter: str

    @property
    @abstractmethod
    def turns_over(self) -> bool:
        """Whether it may be turned over freely: the shape is its own mirror image."""

    @property
    @abstractmethod
    def seam_line(self) -> list[PlanePoint]:
        """The finished shape, corners in inches."""

    @abstractmethod
    def cut_line(self, seam_allowance: Fraction) -> list[PlanePoint]:
        """The shape to cut, corners in inches."""

    def box(self, seam_allowance: Fraction, round_to: Fraction) -> tuple[Fraction, Fraction]:
        """Width and height (inches) of the box round the shape to cut, rounded up."""
        return measure_box(self.cut_line(seam_allowance), round_to)


@dataclass(frozen=True)
class FigureTemplate(PatchTemplate):
    """A template of straight edges, as its first patch lies in its block. `per_inch` is the figure's grid."""

    figure: Figure
    per_inch: int

    @cached_property
    def turns_over(self) -> bool:
        """Whether the figure is its own mirror image."""
        return is_its_own_mirror(self.figure)

    @property
    def seam_line(self) -> list[PlanePoint]:
        """The figure."""
        return in_inches(self.figure, self.per_inch)

    def cut_line(self, seam_allowance: Fraction) -> list[PlanePoint]:
        """The figure with the allowance all round, its tips trimmed."""
        return cut_outline(self.seam_line, float(seam_allowance))


def in_inches(figure: Figure, per_inch: int) -> list[PlanePoint]:
    """A figure's corners in inches."""
    return [(x / per_inch, y / per_inch) for x, y in figure.corners]


class TemplateNames:
    """Gives each shape of a project its letter, in the order the document names them."""

    def __init__(self) -> None:
        self._figures: dict[Likeness, PatchTemplate] = {}
        self._shapes: dict[PatchTemplate, PatchTemplate] = {}

    def find(self, figure: Figure, per_inch: int) -> tuple[PatchTemplate, bool]:
        """The template a figure is cut with, and whether the template is turned over for it."""
        likeness = _reduce(signature(figure), per_inch)
        if likeness in self._figures:
            return self._figures[likeness], False
        mirrored = self._figures.get(_reduce(mirrored_signature(figure), per_inch))
        if mirrored is not None:
            return mirrored, True
        made = FigureTemplate(self._next_letter(), figure, per_inch)
        self._figures[likeness] = made
        return made, False

    def name(self, shape: AnyTemplate) -> AnyTemplate:
        """A template given without a letter, with the letter of those that are like it in all else."""
        if shape not in self._shapes:
            self._shapes[shape] = replace(shape, letter=self._next_letter())
        return cast(AnyTemplate, self._shapes[shape])

    def _next_letter(self) -> str:
        return letter(len(self._figures) + len(self._shapes))


def letter(order: int) -> str:
    """A to Z, then AA, AB and so on.

    >>> letter(0), letter(25), letter(26), letter(27 * 26)
    ('A', 'Z', 'AA', 'AAA')
    """
    high, low = divmod(order, 26)
    return (letter(high - 1) if high else "") + string.ascii_uppercase[low]


def _reduce(found: Signature, per_inch: int) -> Likeness:
    numbers = [per_inch * per_inch, *(number for step in found for number in step)]
    common = gcd(*numbers)
    return tuple(number // common for number in numbers)
