"""On point: blocks and alternates in diagonal rows, side triangles at their ends, rows joined, corners last.

A diagonal row rises from the lower left to the upper right. It is sewn lying flat: its own picture is turned
clockwise by an eighth against the top's.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace

from service.craft.language import mark, phrase, phrase_count
from service.craft.measure import format_length
from service.craft.units import OnPoint
from workers.sewing.names import composite_id, digest, listed
from workers.sewing.rows import Cell, Naming, call_unnamed, row_work
from workers.sewing.small_units import ClothNames
from workers.sewing.works import (
    ROTATIONS,
    Beside,
    Cut,
    Laid,
    Made,
    SeamLine,
    Work,
    as_complex,
    content,
    lay_patch,
    polygon,
)

RISING = 7
"""Eighths by which a row that lies flat is turned to lie in the top: an eighth back."""

CORNERS, ROWS_AND_CORNERS = (
    mark("Sew on the corner triangles of {whole}"),
    mark("Sew on the diagonal rows and the corner triangles of {whole}"),
)

NO_TRIANGLE, LONG_ABOVE, LONG_BELOW = ("", "above", "below")
"""What lies at an end of a row: a corner triangle (sewn on later), or a side triangle by where its long point is."""


@dataclass(frozen=True)
class Place:
    """A place in a diagonal row: the block at row i and column j, or the alternate to its lower right."""

    i: int
    j: int
    alternate: bool


@dataclass(frozen=True)
class Setting:
    """One on-point top on its way: the unit, its blocks as they lie in their rows, and how it is called."""

    unit: OnPoint
    rows: Sequence[Sequence[Made]]
    alternate: Made | None
    naming: Naming
    names: ClothNames

    @property
    def side(self) -> float:
        """Finished side of a block, inches."""
        return float(self.unit.block_side)

    def made(self, place: Place) -> Made:
        """What lies at a place, as it lies in its row."""
        if place.alternate:
            assert self.alternate is not None, "a setting with places between blocks has an alternate"  # noqa: S101
            return self.alternate
        return self.rows[place.i][place.j]

    def places(self, diagonal: int) -> list[Place]:
        """What lies in a diagonal (0 is the upper left block alone), from the lower left on."""
        r, c = len(self.rows), len(self.rows[0])
        found = [Place(i, diagonal - i, False) for i in range(r) if 0 <= diagonal - i < c]
        found += [Place(i, diagonal - 1 - i, True) for i in range(r - 1) if 0 <= diagonal - 1 - i < c - 1]
        return sorted(found, key=lambda p: p.j - p.i)

    def ends(self, places: list[Place]) -> tuple[str, str]:
        """What lies at the left and at the right end of a row that lies flat."""
        r, c = len(self.rows), len(self.rows[0])
        first, last = places[0], places[-1]
        left = LONG_ABOVE if first.j else (LONG_BELOW if first.i + 1 < r else NO_TRIANGLE)
        right = LONG_ABOVE if last.i else (LONG_BELOW if last.j + 1 < c else NO_TRIANGLE)
        return left, right


def sew_diagonally(
    unit: OnPoint,
    rows: Sequence[Sequence[Made]],
    alternate: Made | None,
    about: Hashable,
    names: ClothNames,
    *,
    mirrored: bool,
) -> Made:
    """The work an on-point setting is. `rows` and `alternate` hold blocks as they lie in their diagonal rows."""
    naming = Naming(
        composite_id(unit.kind, unit.pointer, unit.block, about, mirrored=mirrored),
        unit.block or call_unnamed(unit.pointer, unit.width, unit.height, names),
        unit.pointer,
        unit.block,
    )
    setting = Setting(unit, rows, alternate, naming, names)
    flat = _sew_rows(setting)
    joined, seams = _lay_rows(setting, flat)
    if min(len(rows), len(rows[0])) > 1:
        whole = _joined_work(setting, joined, seams)
        joined, seams = [Laid(whole)], []
    return _corner_work(setting, joined, seams), 0


@dataclass(frozen=True)
class Row:
    """A row that lies flat: the piece, where its blocks begin, how many blocks, and what lies at its ends."""

    made: Made
    begins: float
    count: int
    ends: tuple[str, str]
    places: list[Place]


def _sew_rows(setting: Setting) -> list[Row]:
    diagonals = range(len(setting.rows) + len(setting.rows[0]) - 1)
    places = [setting.places(d) for d in diagonals]
    keys: list[tuple[Hashable, int]] = [
        ((tuple(content(setting.made(p)) for p in row), setting.ends(row)), d % 2)
        for d, row in enumerate(places)
    ]
    works: dict[Hashable, Row] = {}
    for d, key in enumerate(keys):
        if key not in works:
            numbers = [str(other + 1) for other, k in enumerate(keys) if k == key]
            second = (key[0], 1 - key[1]) in works
            works[key] = _sew_row(setting, places[d], numbers, digest(key[0]), second=second)
    return [replace(works[key], places=places[d]) for d, key in enumerate(keys)]


def _sew_row(setting: Setting, places: list[Place], numbers: list[str], told: str, *, second: bool) -> Row:
    work_id = f"{setting.naming.base}.diagonal.{told}" + (".turn-about" if second else "")
    title = phrase_count(
        "Diagonal row {numbers} of {whole}",
        "Diagonal rows {numbers} of {whole}",
        len(numbers),
        numbers=listed(numbers),
        whole=setting.naming.called,
    )
    cells = [Cell(made, _beside(made, setting)) for made in (setting.made(p) for p in places)]
    made: Made = cells[0].made
    if len(cells) > 1:
        called = phrase("diagonal row {number}", number=numbers[0])
        blocks = phrase("{row}: the blocks", row=title)
        made = (row_work(cells, f"{work_id}.blocks", blocks, setting.naming, called=called), 0)
    ends = setting.ends(places)
    if not any(ends):
        return Row(made, 0.0, len(places), ends, places)
    work = _with_triangles(setting, made, cells, ends, Naming(work_id, title, "", ""))
    return Row((work, 0), setting.side if ends[0] else 0.0, len(places), ends, places)


def _beside(made: Made, setting: Setting) -> Beside:
    if isinstance(made[0], Cut):
        return setting.names.beside(made[0].fabric)
    return Beside("pieced", words=made[0].called)


def _with_triangles(
    setting: Setting, made: Made, cells: list[Cell], ends: tuple[str, str], naming: Naming
) -> Work:
    """The row with its side triangles, lying flat. `naming` holds the id and the title."""
    b, tips = setting.side, sum(map(bool, ends))
    begins = b if ends[0] else 0.0
    stops = begins + b * len(cells)
    triangle = Beside("setting triangle", setting.unit.side, phrase("the setting triangle"))
    items = [Laid(made[0], 2 * made[1], _corner_shift(made, begins))]
    seams, outline = [], [complex(begins, 0), complex(stops, 0), complex(stops, b), complex(begins, b)]
    if ends[0]:
        tip = complex(begins - b, 0 if ends[0] == LONG_ABOVE else b)
        items.append(polygon(setting.unit.side, (tip, complex(begins, 0), complex(begins, b))))
        seams.append(SeamLine(complex(begins, 0), complex(begins, b), left=cells[0].beside, right=triangle))
        outline[0 if ends[0] == LONG_ABOVE else 3] = tip
    if ends[1]:
        tip = complex(stops + b, 0 if ends[1] == LONG_ABOVE else b)
        items.append(polygon(setting.unit.side, (complex(stops, 0), tip, complex(stops, b))))
        seams.append(SeamLine(complex(stops, 0), complex(stops, b), left=triangle, right=cells[-1].beside))
        outline[1 if ends[1] == LONG_ABOVE else 2] = tip
    return Work(
        id=naming.base,
        kind="diagonal row",
        title=phrase("{row}: side triangles", row=naming.called),
        one=phrase("diagonal row with its side triangles"),
        many=phrase("diagonal rows with their side triangles"),
        width=setting.unit.block_side * (len(cells) + tips),
        height=setting.unit.block_side,
        items=tuple(items),
        seams=tuple(seams),
        pointer=setting.naming.pointer,
        whole=False,
        called=phrase("the diagonal row"),
        outline=tuple(outline),
        tips=tips,
        extra=setting.unit.extra,
        facts=_triangle_facts(setting, ends),
    )


def _corner_shift(made: Made, begins: float) -> complex:
    """The move of a piece whose turned box begins at (begins, 0)."""
    w, h = float(made[0].width), float(made[0].height)
    return begins + (0j, complex(h, 0), complex(w, h), complex(0, w))[made[1] % 4]


def _say_ends(ends: tuple[str, str]) -> str:
    if all(ends):
        return phrase("both ends")
    return phrase("the left end") if ends[0] else phrase("the right end")


def _triangle_facts(setting: Setting, ends: tuple[str, str]) -> dict[str, str]:
    return {
        "cloth": setting.names.cloth(setting.unit.side),
        "ends": _say_ends(ends),
        "extra": format_length(setting.unit.extra, setting.names.measure) if setting.unit.extra else "",
        "same": "yes" if len(set(ends)) == 1 else "",
    }


def _lay_rows(setting: Setting, rows: list[Row]) -> tuple[list[Laid], list[SeamLine]]:
    """Each row where it lies in the top, and the seams between rows."""
    laid, seams = [], []
    d = float(setting.unit.diagonal)
    turn = ROTATIONS[RISING]
    for number, row in enumerate(rows, start=1):
        first = row.places[0]
        shift = complex(d * first.j, d * (first.i + 0.5)) - turn * row.begins
        # a block that is a row by itself keeps its own turn
        alone = _corner_shift(row.made, 0.0)
        laid.append(Laid(row.made[0], (RISING + 2 * row.made[1]) % 8, shift + turn * alone))
        if number < len(rows):
            seams.append(_row_seam(setting, row, shift, number))
    return laid, seams


def _row_seam(setting: Setting, row: Row, shift: complex, number: int) -> SeamLine:
    """The seam along the lower side of a row."""
    b, turn = setting.side, ROTATIONS[RISING]
    begins = row.begins - (b if row.ends[0] == LONG_BELOW else 0)
    stops = row.begins + b * row.count + (b if row.ends[1] == LONG_BELOW else 0)
    above = Beside("row", words=phrase("diagonal row {number}", number=number))
    below = Beside("row", words=phrase("diagonal row {number}", number=number + 1))
    return SeamLine(
        turn * complex(begins, b) + shift, turn * complex(stops, b) + shift, left=above, right=below
    )


def _joined_work(setting: Setting, laid: list[Laid], seams: list[SeamLine]) -> Work:
    """The diagonal rows joined; the four corners are still missing."""
    w, h, half = float(setting.unit.width), float(setting.unit.height), float(setting.unit.diagonal) / 2
    outline = (
        complex(half, 0),
        complex(w - half, 0),
        complex(w, half),
        complex(w, h - half),
        complex(w - half, h),
        complex(half, h),
        complex(0, h - half),
        complex(0, half),
    )
    return _top_work(
        setting,
        f"{setting.naming.base}.rows",
        "diagonal rows joined",
        phrase("Join the diagonal rows of {whole}", whole=setting.naming.called),
        tuple(laid),
        tuple(seams),
        outline,
    )


def _corner_work(setting: Setting, laid: list[Laid], seams: list[SeamLine]) -> Work:
    """The four corner triangles, sewn on last."""
    corners = setting.unit.own_patches()[-4:]
    inside = Beside("inside", words=phrase("the diagonal rows"))
    triangle = Beside("setting triangle", setting.unit.corner, phrase("the corner triangle"))
    for patch in corners:
        before, _, after = as_complex(patch)
        seams = [*seams, SeamLine(before, after, left=triangle, right=inside)]
    title = ROWS_AND_CORNERS if len(seams) > 4 else CORNERS
    return _top_work(
        setting,
        setting.naming.base,
        "setting corners",
        phrase(title, whole=setting.naming.called),
        (*laid, *(lay_patch(patch) for patch in corners)),
        tuple(seams),
        (),
    )


def _top_work(
    setting: Setting,
    work_id: str,
    kind: str,
    title: str,
    items: tuple[Laid, ...],
    seams: tuple[SeamLine, ...],
    outline: tuple[complex, ...],
) -> Work:
    unit, names = setting.unit, setting.names
    return Work(
        id=work_id,
        kind=kind,
        title=title,
        one=setting.naming.called,
        many=phrase("settings ({whole})", whole=setting.naming.called),
        width=unit.width,
        height=unit.height,
        items=items,
        seams=seams,
        pointer=setting.naming.pointer,
        block=setting.naming.block,
        whole=kind == "setting corners",
        called=setting.naming.called,
        outline=outline,
        facts={
            "cloth": names.cloth(unit.corner),
            "extra": format_length(unit.extra, names.measure) if unit.extra else "",
            "rows": "yes" if len(seams) > 4 or kind != "setting corners" else "",
        },
    )
