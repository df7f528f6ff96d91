"""A patch: one square or rectangle of cloth."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.measure import Exact, exact
from service.craft.units.base import CuttingRules, Need, Patch, Unit, box
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "fabric"})


@dataclass(frozen=True, kw_only=True)
class PatchUnit(Unit):
    """A plain square or rectangle of one cloth."""

    kind: ClassVar[str] = "patch"
    size: tuple[Fraction, Fraction]
    fabric: str

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.size[0])

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.size[1])

    def own_patches(self) -> list[Patch]:
        """The one rectangle."""
        return [Patch(box(*self.size), self.fabric, self.pointer)]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Finished size plus two allowances each way."""
        return [Need(self.fabric, rules.plain(self.size[0]), rules.plain(self.size[1]))]


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> PatchUnit | None:
    """A patch from the document."""
    size = units.reader.size(raw, pointer)
    fabric = units.reader.fabric(raw, "fabric", pointer, "the patch")
    return None if size is None or fabric is None else PatchUnit(pointer=pointer, size=size, fabric=fabric)
