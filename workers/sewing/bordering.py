"""Borders: strips round a unit, pair by pair in the right order, with squares or mitres at the corners."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace

from service.craft.language import mark, phrase
from service.craft.measure import Exact, exact
from service.craft.tracks import slug
from service.craft.units import Border, Bordered
from service.craft.units.bordered import MITRED, SQUARES
from workers.sewing.names import as_sentence, composite_id, label
from workers.sewing.rows import Cell, Naming, call_unnamed, row_work
from workers.sewing.small_units import ClothNames
from workers.sewing.works import (
    Beside,
    Cut,
    Laid,
    Made,
    SeamLine,
    Work,
    box,
    lay,
    polygon,
    rectangle,
    turned_size,
)

SIDES, ENDS = PAIRS = ("sides", "top and bottom")

ORDINALS = (
    mark("first"),
    mark("second"),
    mark("third"),
    mark("fourth"),
    mark("fifth"),
    mark("sixth"),
)

NAMED = {"first": mark("{border}, first pair: {sides}"), "second": mark("{border}, second pair: {sides}")}
WITH_PAIR = {
    "first": mark("{whole} with the first pair of border strips"),
    "second": mark("{whole} with the second pair of border strips"),
}


@dataclass(frozen=True)
class Round:
    """One border on its way round: the border, how its works are called, and the cloth names."""

    border: Border
    naming: Naming
    names: ClothNames
    ordinal: str

    @property
    def cloth(self) -> str:
        """The cloth's name."""
        return self.names.cloth(self.border.fabric)

    @property
    def plain(self) -> str:
        """The border in a sentence, by its place among several."""
        return phrase("{nth} border", nth=self.ordinal) if self.ordinal else phrase("border")

    @property
    def of_cloth(self) -> str:
        """The same with its cloth."""
        if self.ordinal:
            return phrase("{nth} border of {cloth}", nth=self.ordinal, cloth=self.cloth)
        return phrase("border of {cloth}", cloth=self.cloth)


def sew_borders(unit: Bordered, inside: Made, about: Hashable, names: ClothNames, *, mirrored: bool) -> Made:
    """The work a bordered unit is: each border sewn onto what lies inside it, innermost first."""
    base = composite_id(unit.kind, unit.pointer, unit.block, about, mirrored=mirrored)
    called = unit.block or call_unnamed(unit.pointer, unit.width, unit.height, names)
    made, uses = inside, dict.fromkeys((border.fabric for border in unit.borders), 0)
    for i, border in enumerate(unit.borders):
        uses[border.fabric] += 1
        work_id = f"{base}.border.{label(border.fabric)}.{uses[border.fabric]}"
        ordinal = "" if len(unit.borders) == 1 else _ordinal(i)
        made = _sew_border(made, Round(border, Naming(work_id, called, unit.pointer, ""), names, ordinal))
    piece = made[0]
    whole = isinstance(piece, Work) and replace(piece, id=base, block=unit.block, called=called, whole=True)
    return (whole or piece), made[1]


def _ordinal(index: int) -> str:
    return phrase(ORDINALS[index]) if index < len(ORDINALS) else phrase("{number}th", number=index + 1)


def _sew_border(inside: Made, go: Round) -> Made:
    if go.border.corners == MITRED:
        return _mitred(inside, go), 0
    width, height = turned_size(inside)
    first = SIDES if go.border.sides_first(width, height) else ENDS
    second = ENDS if first == SIDES else SIDES
    made = (_sew_pair(inside, first, go, nth="first", corners=False), 0)
    return _sew_pair(made, second, go, nth="second", corners=go.border.corners == SQUARES), 0


def _sew_pair(inside: Made, pair: str, go: Round, *, nth: str, corners: bool) -> Work:
    """Two strips on opposite sides of what is there. With `corners` each strip has a square at both ends."""
    width, height = turned_size(inside)
    strip = _strip_with_squares(inside, pair, go) if corners else _strip(width, height, pair, go)
    b = float(go.border.width)
    w, h = float(width), float(height)
    whole = (width + 2 * go.border.width, height) if pair == SIDES else (width, height + 2 * go.border.width)
    if pair == SIDES:
        items = (lay(inside, complex(b, 0)), lay(strip, 0j), lay(strip, complex(b + w, 0)))
    else:
        items = (lay(inside, complex(0, b)), lay(strip, 0j), lay(strip, complex(0, b + h)))
    where = "left and right" if pair == SIDES else pair
    return Work(
        id=f"{go.naming.base}.{slug(pair)}",
        kind="border pair",
        title=as_sentence(phrase(NAMED[nth], border=go.of_cloth, sides=phrase(where))),
        one=phrase(WITH_PAIR[nth], whole=go.naming.called),
        many=phrase(WITH_PAIR[nth], whole=go.naming.called),
        width=whole[0],
        height=whole[1],
        items=items,
        seams=_pair_seams(pair, b, w, h, _inside_of(inside), _border_side(go)),
        pointer=go.naming.pointer,
        whole=False,
        called=phrase("{whole} so far", whole=go.naming.called),
        facts={
            "pair": where,
            "nth": nth,
            "cloth": go.cloth,
            "squares": go.names.cloth(go.border.corner_fabric) if corners else "",
        },
    )


def _border_side(go: Round) -> Beside:
    return Beside("border", go.border.fabric, phrase("the border"))


def _inside_of(made: Made) -> Beside:
    piece = made[0]
    return Beside("inside", piece.fabric if isinstance(piece, Cut) else "", phrase("the middle"))


def _pair_seams(
    pair: str, b: float, w: float, h: float, inside: Beside, border: Beside
) -> tuple[SeamLine, ...]:
    if pair == SIDES:
        return (
            SeamLine(complex(b, 0), complex(b, h), left=inside, right=border),
            SeamLine(complex(b + w, 0), complex(b + w, h), left=border, right=inside),
        )
    return (
        SeamLine(complex(0, b), complex(w, b), left=border, right=inside),
        SeamLine(complex(0, b + h), complex(w, b + h), left=inside, right=border),
    )


def _strip(width: Exact, height: Exact, pair: str, go: Round) -> Made:
    across = exact(go.border.width)
    if pair == SIDES:
        return rectangle(go.border.fabric, across, height), 0
    return rectangle(go.border.fabric, width, across), 0


def _strip_with_squares(inside: Made, pair: str, go: Round) -> Made:
    """A strip as long as what lies inside both borders, with a square at each end; lying across, or turned to stand."""
    across = exact(go.border.width)
    whole = turned_size(inside)[0 if pair == ENDS else 1]
    stone = Cell(
        (rectangle(go.border.corner_fabric, across, across), 0),
        go.names.beside(go.border.corner_fabric, "cornerstone"),
    )
    strip = Cell((rectangle(go.border.fabric, whole - 2 * across, across), 0), _border_side(go))
    cloths = phrase(
        "{cloth} with {corner} squares", cloth=go.cloth, corner=go.names.cloth(go.border.corner_fabric)
    )
    work = row_work(
        [stone, strip, stone],
        f"{go.naming.base}.squares",
        as_sentence(phrase("{border}: strips of {cloths}", border=go.plain, cloths=cloths)),
        go.naming,
        called=phrase("the border strip"),
    )
    work = replace(
        work,
        one=phrase("border strip of {cloths}", cloths=cloths),
        many=phrase("border strips of {cloths}", cloths=cloths),
        facts=work.facts | {"squares": "yes"},
    )
    return work, 0 if pair == ENDS else 1


def _mitred(inside: Made, go: Round) -> Work:
    """All four strips, then the four slanting seams at the corners, which are pressed open."""
    width, height = turned_size(inside)
    b = float(go.border.width)
    outer = box(width + 2 * go.border.width, height + 2 * go.border.width)
    inner = box(width, height, complex(b, b))
    sides = range(4)
    strips = [(outer[k], outer[(k + 1) % 4], inner[(k + 1) % 4], inner[k]) for k in sides]
    border = _border_side(go)
    # round the inside clockwise the border lies at the left hand
    straight = [SeamLine(inner[k], inner[(k + 1) % 4], left=border, right=_inside_of(inside)) for k in sides]
    slanting = [SeamLine(inner[k], outer[k], left=border, right=border, fixed="open") for k in sides]
    items: Sequence[Laid] = [lay(inside, complex(b, b)), *(polygon(go.border.fabric, s) for s in strips)]
    return Work(
        id=go.naming.base,
        kind="mitred border",
        title=as_sentence(phrase("{border} with mitred corners", border=go.of_cloth)),
        one=phrase("{whole} with a mitred border", whole=go.naming.called),
        many=phrase("{whole} with a mitred border", whole=go.naming.called),
        width=width + 2 * go.border.width,
        height=height + 2 * go.border.width,
        items=tuple(items),
        seams=(*straight, *slanting),
        pointer=go.naming.pointer,
        whole=False,
        called=phrase("{whole} so far", whole=go.naming.called),
        facts={"cloth": go.cloth},
    )
