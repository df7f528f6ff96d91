"""Panels: patches that are wider than their cloth are cut of a piece sewn first, of equal panels side by side.

A patch of it is drawn without that seam, and no other is nested with it: it is pressed open, and lies flat.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from service.craft.document import Project
from service.craft.language import phrase
from service.craft.measure import exact, format_length
from service.craft.panels import Panels, find_panels, fits_on, lie_on_cloth, may_be_pieced
from service.craft.units import Unit
from service.craft.units.base import Need
from workers.sewing.names import label, size_label
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Cut, Laid, Made, Piece, SeamLine, Work, rectangle

PANELS = "panels"
"""The kind of work that panels are sewn in."""

CLOSE = 1e-6
ON_ITS_SIDE = ".on-its-side"


@dataclass(frozen=True)
class _Pieced:
    """A need whose pieces come of panels, and the work that these are."""

    need: Need
    work: Work


@dataclass
class PanelSewer:
    """Finds patches that do not fit on their cloth, and hangs the works that they are cut of on them."""

    project: Project
    names: ClothNames
    _works: dict[str, Work] = field(default_factory=dict)
    _changed: dict[tuple[Work, tuple[str, ...]], Work] = field(default_factory=dict)
    _apart: dict[Work, Work] = field(default_factory=dict)

    def piece(self, unit: Unit, made: Made, *, sideways: bool) -> Made:
        """What a unit is, its patches cut of panels where its cloth is too narrow for them."""
        pieced = [
            _Pieced(need, self._sew(panels, need, unit))
            for need in unit.needs(self.project.rules)
            if (panels := self._find(need, sideways=sideways)) is not None
        ]
        return (self._hang(made[0], pieced), made[1]) if pieced else made

    @property
    def one_way(self) -> bool:
        """Whether a cloth has a direction: its panels lie otherwise in a unit that is turned."""
        return any(fabric.one_way for fabric in self.project.fabrics.values())

    def keep_apart(self, piece: Piece, upright: Piece) -> Piece:
        """A piece that lies on its side; under another id if it is sewn of other panels than upright."""
        if piece is upright or not isinstance(piece, Work):
            return piece
        if piece not in self._apart:
            items = tuple(replace(item, piece=self.keep_apart(item.piece, upright)) for item in piece.items)
            self._apart[piece] = replace(piece, id=piece.id + ON_ITS_SIDE, items=items)
        return self._apart[piece]

    def _find(self, need: Need, *, sideways: bool) -> Panels | None:
        fabric = self.project.fabrics.get(need.fabric)
        if fabric is None or not may_be_pieced(need):
            return None
        lying = lie_on_cloth(need, fabric, sideways=sideways)
        return None if fits_on(lying, fabric) else find_panels(lying, fabric, self.project.rules)

    def _sew(self, panels: Panels, need: Need, unit: Unit) -> Work:
        """The work of those panels, made when it is first asked for: equal pieces are sewn in one stage."""
        name = f"{PANELS}.{label(need.fabric)}.{size_label(panels.width, panels.height)}"
        if name not in self._works:
            self._works[name] = self._make(name, panels, need.fabric, unit)
        return self._works[name]

    def _make(self, name: str, panels: Panels, fabric: str, unit: Unit) -> Work:
        s, joined, cloth = self.project.seam_allowance, panels.joined, self.names.cloth(fabric)
        width, height = panels.width - 2 * s, panels.height - 2 * s
        places = [width * i / joined.pieces for i in range(joined.pieces + 1)]
        side = self.names.beside(fabric)
        measure = self.names.measure
        return Work(
            id=name,
            kind=PANELS,
            title=phrase("Join panels of {cloth}: the piece is wider than the cloth", cloth=cloth),
            one=phrase("piece of {cloth}, of {count} panels", cloth=cloth, count=joined.pieces),
            many=phrase("pieces of {cloth}, each of {count} panels", cloth=cloth, count=joined.pieces),
            width=exact(width),
            height=exact(height),
            items=tuple(
                Laid(rectangle(fabric, exact(right - left), exact(height)), shift=complex(left, 0))
                for left, right in pairwise(places)
            ),
            seams=tuple(
                SeamLine(complex(x, 0), complex(x, float(height)), side, side, fixed="open")
                for x in map(float, places[1:-1])
            ),
            pointer=unit.pointer,
            whole=False,
            called=phrase("the piece of {cloth}", cloth=cloth),
            facts={
                "cloth": cloth,
                "panels": str(joined.pieces),
                "to trim": str(joined.total - joined.wanted or ""),
                "trim to": format_length(panels.width, measure),
                "one way": "yes" if self.project.fabrics[fabric].one_way else "",
            },
        )

    def _hang(self, piece: Piece, pieced: Sequence[_Pieced]) -> Piece:
        """The same piece with works hung on the patches that they are for."""
        if isinstance(piece, Cut):
            return piece if piece.pieced else replace(piece, pieced=self._find_for(piece, pieced))
        key = (piece, tuple(one.work.id for one in pieced))
        if key not in self._changed:
            items = tuple(replace(item, piece=self._hang(item.piece, pieced)) for item in piece.items)
            self._changed[key] = piece if items == piece.items else replace(piece, items=items)
        return self._changed[key]

    def _find_for(self, cut: Cut, pieced: Sequence[_Pieced]) -> Work | None:
        """The work a patch is cut of, by its cloth and size; a square flipped over a corner has the size of its box."""
        rules = self.project.rules
        for one in pieced:
            if one.need.fabric != cut.fabric:
                continue
            wanted = sorted(
                float(side - 2 * rules.seam_allowance) for side in (one.need.width, one.need.height)
            )
            for sides in _measure(cut):
                over = [want - side for want, side in zip(wanted, sorted(sides), strict=True)]
                if all(-CLOSE <= o < float(rules.round_to) - CLOSE for o in over):
                    return one.work
        return None


def _measure(cut: Cut) -> list[tuple[float, float]]:
    """The sides of the box round a patch, and, of one with four corners, its own."""
    xs, ys = [c.real for c in cut.corners], [c.imag for c in cut.corners]
    found = [(max(xs) - min(xs), max(ys) - min(ys))]
    if len(cut.corners) == len("nesw"):
        first, second, third = cut.corners[:3]
        found.append((abs(second - first), abs(third - second)))
    return found
