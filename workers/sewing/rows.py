"""Grids: units into rows, rows and sashing into a block."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.craft.language import mark, phrase, phrase_count
from service.craft.measure import Exact, exact, format_length, format_size
from service.craft.units import Grid, Sashing
from workers.sewing.names import composite_id, digest, listed
from workers.sewing.small_units import ClothNames
from workers.sewing.works import (
    Beside,
    Cut,
    Laid,
    Made,
    SeamLine,
    Work,
    content,
    lay,
    rectangle,
    turned_size,
)

NOWHERE = Fraction(0)

JOIN, JOIN_SASHING = mark("Join the rows of {whole}"), mark("Join the rows and the sashing of {whole}")
ROW_NAMES = mark("row of {count}"), mark("rows of {count}")
SASH_NAMES = mark("sashing strip of {count}"), mark("sashing strips of {count}")


@dataclass(frozen=True)
class Cell:
    """One thing in a row: a piece as it lies, and what it is as the side of a seam."""

    made: Made
    beside: Beside

    @property
    def width(self) -> Exact:
        """Finished width as it lies, inches."""
        return turned_size(self.made)[0]

    @property
    def height(self) -> Exact:
        """Finished height as it lies, inches."""
        return turned_size(self.made)[1]


Course = list[Cell]
"""What one row is sewn of: units, or units and sashing, or sashing and cornerstones."""


@dataclass(frozen=True)
class Naming:
    """How the works of one grid are called: ids begin with `base`, sentences say `called`."""

    base: str
    called: str
    pointer: str
    block: str


def sew_rows(
    unit: Grid, rows: Sequence[Sequence[Made]], about: Hashable, names: ClothNames, *, mirrored: bool
) -> Made:
    """The work a grid is: its rows, then the rows joined. `about` is the grid's whole content."""
    naming = Naming(
        composite_id(unit.kind, unit.pointer, unit.block, about, mirrored=mirrored),
        unit.block or call_unnamed(unit.pointer, unit.width, unit.height, names),
        unit.pointer,
        unit.block,
    )
    cells = [[Cell(made, _beside(made, names)) for made in row] for row in rows]
    courses = cells if unit.sashing is None else with_sashing(cells, unit.sashing, names)
    if len(courses) == 1:
        return _only_row(courses[0], naming)
    joined = join_courses(courses, naming)
    title = JOIN if unit.sashing is None else JOIN_SASHING
    return stack_courses(joined, naming, phrase(title, whole=naming.called)), 0


def call_unnamed(pointer: str, width: Exact, height: Exact, names: ClothNames) -> str:
    """What something without a name is called in a sentence."""
    if pointer == "/top":
        return phrase("the top")
    if pointer.startswith("/top") and not any(step.isdigit() for step in pointer.split("/")):
        return phrase("the middle of the top")
    if width == height:
        return phrase("the small block, {side} square finished", side=format_length(width, names.measure))
    return phrase("the small block, {size} finished", size=format_size(width, height, names.measure))


def _beside(made: Made, names: ClothNames) -> Beside:
    piece = made[0]
    if isinstance(piece, Cut):
        return names.beside(piece.fabric)
    return Beside("pieced", words=piece.called)


def with_sashing(cells: list[Course], sashing: Sashing, names: ClothNames) -> list[Course]:
    """The rows with strips between their units, and the strips between the rows."""
    width = exact(sashing.width)
    rows = [
        _between(row, _strip(sashing, width, row[0].height, names), around=sashing.around) for row in cells
    ]
    across = _sash_course(cells[0], rows[0], sashing, names)
    courses = [course for row in rows for course in (across, row)]
    return [*courses, across] if sashing.around else courses[1:]


def _strip(sashing: Sashing, width: Exact, height: Exact, names: ClothNames) -> Cell:
    beside = names.beside(sashing.fabric, "sashing", phrase("the sashing"))
    return Cell((rectangle(sashing.fabric, width, height), 0), beside)


def _between(cells: Course, strip: Cell, *, around: bool) -> Course:
    found = [cell for unit in cells for cell in (strip, unit)]
    return [*found, strip] if around else found[1:]


def _sash_course(cells: Course, row: Course, sashing: Sashing, names: ClothNames) -> Course:
    """One run of sashing across: a single strip, or strips with cornerstones where strips cross."""
    width = exact(sashing.width)
    if not sashing.cornerstones:
        return [_strip(sashing, sum((cell.width for cell in row), exact(0)), width, names)]
    square = rectangle(sashing.cornerstones, width, width)
    stone = Cell((square, 0), names.beside(sashing.cornerstones, "cornerstone"))
    strips = [_strip(sashing, cell.width, width, names) for cell in cells]
    return _between(strips, stone, around=sashing.around)


def _only_row(course: Course, naming: Naming) -> Made:
    """A grid of a single row is that row; of a single unit, that unit."""
    if len(course) == 1:
        return course[0].made
    title = phrase("The row of {whole}", whole=naming.called)
    return row_work(course, naming.base, title, naming, called=naming.called, whole=True), 0


@dataclass(frozen=True)
class Joined:
    """A course sewn together, and what it is as the side of a seam."""

    made: Made
    beside: Beside


def join_courses(courses: Sequence[Course], naming: Naming) -> list[Joined]:
    """Each course as one piece. Equal courses are one work, but for neighbours: those are pressed in turn."""
    keys = [(tuple(content(cell.made) for cell in c), i % 2, _is_sash(c)) for i, c in enumerate(courses)]
    works: dict[Hashable, Made] = {}
    unit_rows = [i for i, course in enumerate(courses) if not _is_sash(course)]
    for key, course in zip(keys, courses, strict=True):
        if key in works:
            continue
        alike = [i for i, other in enumerate(keys) if other == key]
        second = any(k[0] == key[0] for k in works)  # type: ignore[index]  # a key is a tuple
        works[key] = _course_made(course, key, alike, unit_rows, naming, second=second)
    found = []
    for i, (key, course) in enumerate(zip(keys, courses, strict=True)):
        found.append(Joined(works[key], _course_beside(course, i, unit_rows)))
    return found


def _is_sash(course: Course) -> bool:
    return all(cell.beside.role in ("sashing", "cornerstone") for cell in course)


def _course_made(
    course: Course,
    key: tuple[Hashable, ...],
    alike: list[int],
    unit_rows: list[int],
    naming: Naming,
    *,
    second: bool,
) -> Made:
    if len(course) == 1:
        return course[0].made
    variant = ".turn-about" if second else ""
    if _is_sash(course):
        title = phrase("Sashing with cornerstones for {whole}", whole=naming.called)
        work_id = f"{naming.base}.sashing{variant}"
        return row_work(course, work_id, title, naming, called=phrase("the sashing")), 0
    numbers = [str(unit_rows.index(i) + 1) for i in alike]
    title = phrase_count(
        "Row {numbers} of {whole}",
        "Rows {numbers} of {whole}",
        len(numbers),
        numbers=listed(numbers),
        whole=naming.called,
    )
    work_id = f"{naming.base}.row.{digest(key[0])}{variant}"
    return row_work(course, work_id, title, naming, called=phrase("row {number}", number=numbers[0])), 0


def _course_beside(course: Course, index: int, unit_rows: list[int]) -> Beside:
    if _is_sash(course):
        return Beside("sashing", course[0].beside.fabric, phrase("the sashing"))
    words = phrase("row {number}", number=unit_rows.index(index) + 1)
    return Beside("row", course[0].beside.fabric if len(course) == 1 else "", words)


def row_work(
    course: Course, work_id: str, title: str, naming: Naming, *, called: str, whole: bool = False
) -> Work:
    """Cells sewn side by side."""
    items, seams, x, height = [], [], exact(0), course[0].height
    for i, cell in enumerate(course):
        if i:
            top, bottom = complex(float(x), 0), complex(float(x), float(height))
            seams.append(SeamLine(top, bottom, left=cell.beside, right=course[i - 1].beside))
        items.append(lay(cell.made, complex(float(x), 0)))
        x = x + cell.width
    one, many = SASH_NAMES if _is_sash(course) else ROW_NAMES
    return Work(
        id=work_id,
        kind="row",
        title=title,
        one=phrase(one, count=len(course)),
        many=phrase(many, count=len(course)),
        width=x,
        height=height,
        items=tuple(items),
        seams=tuple(seams),
        pointer=naming.pointer,
        block=naming.block,
        whole=whole,
        called=called,
        facts={"of": naming.called, "parts": str(len(course)), "sashing": "yes" if _is_sash(course) else ""},
    )


def stack_courses(courses: Sequence[Joined], naming: Naming, title: str) -> Work:
    """Courses sewn one under the other."""
    width, y = turned_size(courses[0].made)[0], exact(0)
    items: list[Laid] = []
    seams: list[SeamLine] = []
    for i, course in enumerate(courses):
        if i:
            left, right = complex(0, float(y)), complex(float(width), float(y))
            seams.append(SeamLine(left, right, left=courses[i - 1].beside, right=course.beside))
        items.append(lay(course.made, complex(0, float(y))))
        y = y + turned_size(course.made)[1]
    return Work(
        id=naming.base,
        kind="rows",
        title=title,
        one=naming.called,
        many=phrase("blocks ({whole})", whole=naming.called),
        width=width,
        height=y,
        items=tuple(items),
        seams=tuple(seams),
        pointer=naming.pointer,
        block=naming.block,
        called=naming.called,
        facts={"of": naming.called, "parts": str(len(courses))},
    )
