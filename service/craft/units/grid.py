"""Units in rows, edge to edge or with sashing between them, and cornerstones where the sashing crosses."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import accumulate
from typing import Any, ClassVar

from service.craft.cutting_choices import LEAST_CLOTH, STRIP_CUTS
from service.craft.measure import Exact, exact, format_length
from service.craft.reading import at
from service.craft.units.base import ZERO, CuttingRules, Frame, Need, Patch, Unit, box, move
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"rows", "sashing", "cornerstones"})
SASHING_FIELDS = frozenset({"width", "fabric", "around", "cut"})

Rows = tuple[tuple[Unit, ...], ...]


@dataclass(frozen=True)
class Sashing:
    """Strips between units. `width` finished, in inches; `around` puts them at the outer edge too.

    Without `cornerstones` the strips between rows run through; with it, squares of that cloth lie where
    strips cross. `cut` is which way of the cloth the strips lie.
    """

    width: Fraction
    fabric: str
    around: bool = False
    cornerstones: str = ""
    cut: str = LEAST_CLOTH


@dataclass(frozen=True)
class Sash:
    """One strip or cornerstone where it lies: finished inches. `across` is "row", "between rows" or "cornerstone"."""

    fabric: str
    x: Exact
    y: Exact
    width: Exact
    height: Exact
    across: str


@dataclass(frozen=True, kw_only=True)
class Grid(Unit):
    """Rows of units. All units of a row are equally high; all rows come out equally wide."""

    kind: ClassVar[str] = "grid"
    rows: Rows
    sashing: Sashing | None = None

    @cached_property
    def _edge(self) -> Exact:
        return exact(self.sashing.width) if self.sashing and self.sashing.around else ZERO

    @cached_property
    def _gap(self) -> Exact:
        return exact(self.sashing.width) if self.sashing else ZERO

    @cached_property
    def width(self) -> Exact:
        """Finished width in inches."""
        row = self.rows[0]
        return sum((u.width for u in row), ZERO) + self._gap * (len(row) - 1) + 2 * self._edge

    @cached_property
    def height(self) -> Exact:
        """Finished height in inches."""
        return sum((r[0].height for r in self.rows), ZERO) + self._gap * (len(self.rows) - 1) + 2 * self._edge

    @cached_property
    def tops(self) -> tuple[Exact, ...]:
        """Where each row begins, in inches from the top."""
        return _starts([row[0].height for row in self.rows], self._edge, self._gap)

    def lefts(self, row: int) -> tuple[Exact, ...]:
        """Where each unit of a row begins, in inches from the left."""
        return _starts([u.width for u in self.rows[row]], self._edge, self._gap)

    def children(self) -> list[tuple[Unit, Frame]]:
        """The units, row by row."""
        return [
            (unit, move(x, y))
            for i, (row, y) in enumerate(zip(self.rows, self.tops, strict=True))
            for unit, x in zip(row, self.lefts(i), strict=True)
        ]

    def sashes(self) -> list[Sash]:
        """Every strip and cornerstone; none without sashing."""
        if self.sashing is None:
            return []
        return [*self._sashes_in_rows(self.sashing), *self._sashes_between_rows(self.sashing)]

    def own_patches(self) -> list[Patch]:
        """The sashing and the cornerstones."""
        return [
            Patch(box(s.width, s.height, s.x, s.y), s.fabric, at(self.pointer, "sashing"))
            for s in self.sashes()
        ]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Each strip and cornerstone, finished plus two allowances.

        A strip that runs through between rows may be longer than the cloth is wide. Counts agree with
        susanintexas.blogspot.com 2009/02 (4 rows of 5: 49 sashes, 30 cornerstones all round).
        """
        through = "strip" if self.sashing and not self.sashing.cornerstones else ""
        return [
            Need(
                s.fabric,
                rules.plain(s.width),
                rules.plain(s.height),
                shape=through if s.across == "between rows" else "",
                lay=self.sashing.cut if self.sashing and s.across != "cornerstone" else LEAST_CLOTH,
            )
            for s in self.sashes()
        ]

    def _sashes_in_rows(self, sashing: Sashing) -> list[Sash]:
        found = []
        for i, (row, y) in enumerate(zip(self.rows, self.tops, strict=True)):
            for x in _gaps(self.lefts(i), [u.width for u in row], self._gap, around=sashing.around):
                found.append(Sash(sashing.fabric, x, y, self._gap, row[0].height, "row"))
        return found

    def _sashes_between_rows(self, sashing: Sashing) -> list[Sash]:
        ys = _gaps(self.tops, [row[0].height for row in self.rows], self._gap, around=sashing.around)
        if not sashing.cornerstones:
            return [Sash(sashing.fabric, ZERO, y, self.width, self._gap, "between rows") for y in ys]
        lefts, widths = self.lefts(0), [u.width for u in self.rows[0]]
        xs = _gaps(lefts, widths, self._gap, around=sashing.around)
        found = []
        for y in ys:
            found += [
                Sash(sashing.fabric, x, y, w, self._gap, "between rows")
                for x, w in zip(lefts, widths, strict=True)
            ]
            found += [Sash(sashing.cornerstones, x, y, self._gap, self._gap, "cornerstone") for x in xs]
        return found


def _starts(lengths: list[Exact], edge: Exact, gap: Exact) -> tuple[Exact, ...]:
    return tuple(accumulate(lengths[:-1], lambda place, length: place + length + gap, initial=edge))


def _gaps(starts: tuple[Exact, ...], lengths: list[Exact], gap: Exact, *, around: bool) -> list[Exact]:
    """Where the strips begin that lie after each start, and before the first and after the last if `around`."""
    ends = [s + length for s, length in zip(starts, lengths, strict=True)]
    return [starts[0] - gap, *ends] if around else ends[:-1]


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Grid | None:
    """A grid from the document; every unit that does not fit its neighbours is named with both sizes."""
    reader = units.reader
    sashing, sound = _read_sashing(raw, pointer, units)
    where = at(pointer, "rows")
    raw_rows = reader.sequence(
        raw.get("rows"), where if "rows" in raw else pointer, 'the list "rows"', least=1
    )
    if raw_rows is None:
        return None
    rows: list[list[Unit | None]] = []
    for i, raw_row in enumerate(raw_rows):
        row = reader.sequence(raw_row, at(where, i), "a row", least=1)
        rows.append([units.unit(u, at(where, i, j)) for j, u in enumerate(row or [])])
    fits = _rows_fit(rows, where, units, columns=sashing is not None)
    read_rows = tuple(tuple(u for u in row if u is not None) for row in rows)
    whole = all(row and None not in row for row in rows)
    return Grid(pointer=pointer, rows=read_rows, sashing=sashing) if whole and fits and sound else None


def _read_sashing(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> tuple[Sashing | None, bool]:
    """The sashing, and whether it could be read as far as it is there."""
    reader = units.reader
    stones = raw.get("cornerstones")
    stone = (
        reader.fabric_name(stones, at(pointer, "cornerstones"), "the cornerstones")
        if stones is not None
        else ""
    )
    if raw.get("sashing") is None:
        if stones is not None:
            reader.fault(
                at(pointer, "cornerstones"),
                "cornerstones lie where sashing crosses, and there is no sashing",
                '"sashing" beside them',
            )
        return None, stones is None
    where = at(pointer, "sashing")
    fields = reader.mapping(raw["sashing"], where, "the sashing", like='{"width": "1", "fabric": "frost"}')
    if fields is None:
        return None, False
    reader.known_fields(fields, where, SASHING_FIELDS)
    width = reader.length(fields.get("width"), at(where, "width"), "the width of the sashing")
    fabric = reader.fabric(fields, "fabric", where, "the sashing")
    around = reader.flag(fields, "around", where)
    cut = reader.choice(fields, "cut", where, STRIP_CUTS, LEAST_CLOTH)
    if width is None or fabric is None or stone is None:
        return None, False
    return Sashing(width, fabric, around, stone, cut), True


def _rows_fit(rows: list[list[Unit | None]], where: str, units: UnitReader, *, columns: bool) -> bool:
    before = len(units.reader.faults)
    for i, row in enumerate(rows):
        _check_heights(row, at(where, i), units)
    if columns:
        _check_columns(rows, where, units)
    else:
        _check_widths(rows, where, units)
    return len(units.reader.faults) == before


def _check_heights(row: list[Unit | None], where: str, units: UnitReader) -> None:
    first = next((u for u in row if u is not None), None)
    for j, unit in enumerate(row):
        if unit is not None and first is not None and unit.height != first.height:
            here, there = (format_length(u.height, units.reader.measure) for u in (unit, first))
            detail = f"the unit is {here} high (finished), its neighbour in the row {there}"
            units.reader.fault(at(where, j), detail, f"{there} high, like the rest of the row")


def _check_widths(rows: list[list[Unit | None]], where: str, units: UnitReader) -> None:
    widths = [None if not row or None in row else sum((u.width for u in row if u), ZERO) for row in rows]
    first = next((w for w in widths if w is not None), None)
    for i, width in enumerate(widths):
        if width is not None and first is not None and width != first:
            here, there = (format_length(w, units.reader.measure) for w in (width, first))
            detail = f"the row comes to {here} (finished), the row it is sewn to is {there} wide"
            units.reader.fault(at(where, i), detail, f"units that come to {there}")


def _check_columns(rows: list[list[Unit | None]], where: str, units: UnitReader) -> None:
    """With sashing the units of a column lie over each other: as many in every row, equally wide."""
    for i, row in enumerate(rows[1:], start=1):
        if row and len(row) != len(rows[0]):
            detail = (
                f"the row has {len(row)} unit{'' if len(row) == 1 else 's'}, the first row {len(rows[0])}"
            )
            units.reader.fault(
                at(where, i), detail, "as many units in every row, so that the sashing lines up"
            )
        for j, (unit, above) in enumerate(zip(row, rows[0], strict=False)):
            if unit is not None and above is not None and unit.width != above.width:
                here, there = (format_length(u.width, units.reader.measure) for u in (unit, above))
                detail = f"the unit is {here} wide (finished), the one at the head of its column {there}"
                units.reader.fault(at(where, i, j), detail, f"{there} wide, so that the sashing lines up")
