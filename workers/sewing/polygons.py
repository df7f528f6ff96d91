"""Straight-seam blocks: single patches into parts, parts into the block, along the seams that run straight through.

Parts that differ by a move and quarter turns alone are one work. A base with corner squares is sewn first, as the
unit of that kind is. Where no seam runs through, parts that go round a middle are one work with a partial seam
(`rings`); others are patches whose seams are set in.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable

from service.craft.language import mark, phrase
from service.craft.planar.pinwheels import Pinwheel, find_pinwheel
from service.craft.planar.splitting import DEEPEST, Direction, Parting, TooDeep, part
from service.craft.units import Polygons
from workers.sewing.clipped_corners import make_clipped
from workers.sewing.names import as_sentence, composite_id, digest, listed
from workers.sewing.part_words import count_patches, name_part
from workers.sewing.polygon_groups import Group, Key, find_inner_points, find_shared_edges
from workers.sewing.rings import RING, lay_seams
from workers.sewing.rows import Naming, call_unnamed
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Beside, Laid, Made, SeamLine, Work, lay, rectangle

JOINED, SET_IN = "joined parts", "set-in parts"
ENDINGS = {SET_IN: mark("{title}, with a seam set in"), RING: mark("{title}, with a partial seam")}
MOST_CLOTHS_NAMED = 3


class PolygonSewer:
    """Makes the works of straight-seam blocks; equal parts are one work, also of different blocks.

    `share` gives the small unit of the same content that the top has already, laid as the one it is given.
    """

    def __init__(self, names: ClothNames, share: Callable[[Made], Made]) -> None:
        self._names = names
        self._share = share
        self._parts: dict[Key, Made] = {}

    def sew(self, unit: Polygons, *, mirrored: bool) -> tuple[Hashable, Made]:
        """The block's content, and what it is: a work, or the patch that a block of a single patch is."""
        group = Group.of(unit).mirrored() if mirrored else Group.of(unit)
        about = (group.per_inch, tuple(zip(group.fabrics, (f.corners for f in group.figures), strict=True)))
        if len(group.figures) == 1:
            return about, (rectangle(group.fabrics[0], unit.width, unit.height), 0)
        if len(group.parts.figures) == 1:
            return about, self._share(make_clipped(group, unit.pointer, unit.block, self._names, whole=True))
        called = unit.block or call_unnamed(unit.pointer, unit.width, unit.height, self._names)
        work_id = composite_id(unit.kind, unit.pointer, unit.block, about, mirrored=mirrored)
        naming = Naming(work_id, called, unit.pointer, unit.block)
        return about, (self._work(group, naming, called, None, depth=0, whole=True), 0)

    def _lay(self, group: Group, naming: Naming, prefer: Direction | None, depth: int) -> Laid:
        """A part where its box begins at nought."""
        if len(group.figures) == 1:
            return group.lay_patch(0)
        key, turn = group.likeness
        if key not in self._parts:
            made, own_turn = self._make(group, key, naming, prefer, depth)
            self._parts[key] = made, turn + own_turn
        piece, first_turn = self._parts[key]
        return lay((piece, (first_turn - turn) % 4), 0j)

    def _make(self, group: Group, key: Key, naming: Naming, prefer: Direction | None, depth: int) -> Made:
        if len(group.parts.figures) == 1:
            return self._share(make_clipped(group, naming.pointer, "", self._names, whole=False))
        part_naming = Naming(f"part.{digest(key)}", naming.called, naming.pointer, "")
        called = name_part(group.shape_words)
        return self._work(group, part_naming, called, prefer, depth=depth, whole=False), 0

    def _work(
        self,
        group: Group,
        naming: Naming,
        called: str,
        prefer: Direction | None,
        *,
        depth: int,
        whole: bool,
    ) -> Work:
        if depth > DEEPEST:
            raise TooDeep
        figures = group.parts.figures
        found = part(figures, prefer) or find_pinwheel(figures)
        if found is None:
            kind, (items, seams, facts) = SET_IN, self._set_in(group, naming, depth)
        else:
            kind = RING if isinstance(found, Pinwheel) else JOINED
            items, seams = (
                self._go_round(group, found, naming, depth)
                if isinstance(found, Pinwheel)
                else self._join(group, found, naming, depth)
            )
            facts = {"parts": str(len(items))}
        width, height = group.size
        return Work(
            id=naming.base,
            kind=kind,
            title=self._title(group, naming, kind, whole=whole),
            one=naming.called if whole else _count_words(group, many=False),
            many=phrase("blocks ({whole})", whole=naming.called) if whole else _count_words(group, many=True),
            width=width,
            height=height,
            items=items,
            seams=seams,
            pointer=naming.pointer,
            block=naming.block,
            whole=whole,
            called=called,
            outline=() if group.is_rectangle else tuple(map(group.place, group.outline)),
            slanted=not group.is_rectangle,
            facts=facts | {"of": naming.called, "shape": group.shape_words},
        )

    def _title(self, group: Group, naming: Naming, kind: str, *, whole: bool) -> str:
        joined = phrase("Join the parts of {whole}", whole=naming.called)
        title = joined if whole else self._title_part(group, naming)
        return phrase(ENDINGS[kind], title=title) if kind in ENDINGS else title

    def _title_part(self, group: Group, naming: Naming) -> str:
        cloths = list(dict.fromkeys(self._names.cloth(fabric) for fabric in group.fabrics))
        words = (
            listed(cloths)
            if len(cloths) <= MOST_CLOTHS_NAMED
            else phrase("{count} cloths", count=len(cloths))
        )
        part = as_sentence(_count_words(group, many=False))
        return phrase("{part} for {whole}: {cloths}", part=part, whole=naming.called, cloths=words)

    def _join(
        self, group: Group, parting: Parting, naming: Naming, depth: int
    ) -> tuple[tuple[Laid, ...], tuple[SeamLine, ...]]:
        """The parts laid in the group's picture, and the seams between them."""
        prefer = parting.lines[0].a, parting.lines[0].b
        parts = [group.pick_parts(numbers) for numbers in parting.parts]
        items = [self._lay_in(group, inner, naming, prefer, depth) for inner in parts]
        seams = []
        for number, line in enumerate(parting.lines):
            ends = [c for figure in parts[number].figures for c in figure.corners if not line.side(c)]
            start, end = min(ends, key=line.along), max(ends, key=line.along)
            left_side, right_side = (_beside(parts[i], items[i], self._names) for i in (number, number + 1))
            seams.append(SeamLine(group.place(start), group.place(end), left_side, right_side))
        return tuple(items), tuple(seams)

    def _go_round(
        self, group: Group, pinwheel: Pinwheel, naming: Naming, depth: int
    ) -> tuple[tuple[Laid, ...], tuple[SeamLine, ...]]:
        """The parts round a middle and the middle, laid in the group's picture, and the seams of those round it."""
        parts = [group.pick_parts(numbers) for numbers in pinwheel.parts]
        items = tuple(self._lay_in(group, inner, naming, None, depth) for inner in parts)
        sides = [_beside(inner, item, self._names) for inner, item in zip(parts, items, strict=True)]
        return items, tuple(lay_seams(pinwheel, parts, group, sides))

    def _lay_in(
        self, group: Group, inner: Group, naming: Naming, prefer: Direction | None, depth: int
    ) -> Laid:
        """A part where it lies in the picture of its group."""
        laid = self._lay(inner, naming, prefer, depth + 1)
        left, top, _, _ = inner.box
        return Laid(laid.piece, laid.eighths, laid.shift + group.place((left, top)))

    def _set_in(
        self, group: Group, naming: Naming, depth: int
    ) -> tuple[tuple[Laid, ...], tuple[SeamLine, ...], dict[str, str]]:
        """Every patch by itself, or base with its corners, a seam wherever two meet, and how many points turn."""
        parts = [group.pick_parts([number]) for number in range(len(group.parts.figures))]
        items = tuple(self._lay_in(group, inner, naming, None, depth) for inner in parts)
        sides = [_beside(inner, item, self._names) for inner, item in zip(parts, items, strict=True)]
        edges = find_shared_edges(group.parts.figures)
        seams = [
            SeamLine(group.place(edge.start), group.place(edge.end), sides[edge.left], sides[edge.right])
            for edge in edges
        ]
        turning = sum(not straight for _, straight in find_inner_points(edges))
        return items, tuple(seams), {"parts": str(len(parts)), "turning": str(turning)}


def _count_words(group: Group, *, many: bool) -> str:
    return count_patches(group.shape_words, len(group.figures), many=many)


def _beside(group: Group, item: Laid, names: ClothNames) -> Beside:
    if isinstance(item.piece, Work):
        return Beside("pieced", words=item.piece.called)
    return names.beside(group.fabrics[0])
