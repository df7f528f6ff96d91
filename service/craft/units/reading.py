"""Reads units: written in place, or by the name of a block; each block is read once and shared."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import Any

from service.craft.faults import show, suggest
from service.craft.planar.naming import TemplateNames
from service.craft.reading import Reader, at
from service.craft.units.base import Unit

ReadUnit = Callable[[Mapping[str, Any], str, "UnitReader"], Unit | None]

LIKE_A_UNIT = '{"unit": "patch", "size": ["3", "3"], "fabric": "frost"}'
"""An example of a unit."""

DEEPEST = 40
"""Units inside units. No top goes beyond ten; a document that does is a slip or an attack."""

MOST_UNITS = 20_000
"""Units of a whole top, blocks counted as often as they are used; of a block given by corners each patch counts."""


class UnitReader:
    """Turns raw units into `Unit`s; faults go to `reader`. A unit that cannot be read is None."""

    def __init__(
        self,
        reader: Reader,
        blocks: Mapping[str, Any],
        readers: Mapping[str, tuple[frozenset[str], ReadUnit]],
    ) -> None:
        self.reader = reader
        self._raw_blocks = blocks
        self._readers = readers
        self.templates = TemplateNames()
        self._blocks: dict[str, Unit | None] = {}
        self._open: list[str] = []
        self._depth = 0
        self._counts: dict[int, int] = {}
        self._depths: dict[int, int] = {}

    def unit(self, raw: Any, pointer: str) -> Unit | None:
        """A unit: an object with `unit`, or the name of a block."""
        if isinstance(raw, str):
            return self._named(raw, pointer)
        if raw is None:
            self.reader.fault(
                pointer, "a unit is missing", f"{LIKE_A_UNIT}, or the name of a block in quotes"
            )
            return None
        fields = self.reader.mapping(raw, pointer, "a unit", like=LIKE_A_UNIT)
        if fields is None:
            return None
        kind = fields.get("unit")
        if not isinstance(kind, str) or kind not in self._readers:
            where = at(pointer, "unit") if "unit" in fields else pointer
            self.reader.fault(
                where,
                f"there is no unit called {show(kind)}"
                if "unit" in fields
                else "the unit does not say what it is",
                suggest(kind if isinstance(kind, str) else "", self._readers),
            )
            return None
        return self._read(kind, fields, pointer)

    def block(self, name: str) -> Unit | None:
        """A named block, read at its first use."""
        if name in self._open:
            circle = " in ".join(f'"{n}"' for n in [*self._open[self._open.index(name) :], name])
            self.reader.fault(
                at("/blocks", name), f"the block lies inside itself: {circle}", "blocks made of smaller ones"
            )
            return None
        if name not in self._blocks:
            self._open.append(name)
            read = self.unit(self._raw_blocks[name], at("/blocks", name))
            self._open.pop()
            self._blocks[name] = read and (read if read.block else self._name(read, name))
        return self._blocks[name]

    @property
    def block_names(self) -> Iterable[str]:
        """The names of all blocks."""
        return self._raw_blocks

    def is_block(self, name: object) -> bool:
        """Whether a block has that name."""
        return isinstance(name, str) and name in self._raw_blocks

    def _name(self, unit: Unit, name: str) -> Unit:
        named = replace(unit, block=name)
        self._counts[id(named)] = self._counts.get(id(unit), 1)
        self._depths[id(named)] = self._depths.get(id(unit), 1)
        return named

    def _named(self, name: str, pointer: str) -> Unit | None:
        if name in self._raw_blocks:
            return self.block(name)
        if name in self.reader.fabric_keys:
            detail = f"there is no block called {show(name)}; it is a cloth"
            self.reader.fault(pointer, detail, f"a patch of it: {LIKE_A_UNIT.replace('frost', name)}")
            return None
        right = (
            suggest(name, self._raw_blocks)
            if self._raw_blocks
            else 'a block of that name in "blocks", or a unit'
        )
        self.reader.fault(pointer, f"there is no block called {show(name)}", right)
        return None

    def _read(self, kind: str, fields: Mapping[str, Any], pointer: str) -> Unit | None:
        known, read = self._readers[kind]
        self.reader.known_fields(fields, pointer, known | {"unit"})
        self._depth += 1
        try:
            if self._depth > DEEPEST:
                self._too_deep(pointer)
                return None
            return self._counted(read(fields, pointer, self), pointer)
        finally:
            self._depth -= 1

    def _counted(self, unit: Unit | None, pointer: str) -> Unit | None:
        """Refuses a top of more units than anybody sews, before anything walks through it.

        The depth is measured again here: a block read before is not read again where it is used.
        """
        if unit is None:
            return None
        inside = [id(child) for child, _ in unit.children()]
        depth = 1 + max((self._depths.get(i, 1) for i in inside), default=0)
        if depth > DEEPEST:
            self._too_deep(pointer)
            return None
        count = unit.weight + sum(self._counts.get(i, 1) for i in inside)
        if count > MOST_UNITS:
            self.reader.fault(
                pointer, f"this comes to more than {MOST_UNITS} units", "a smaller top, or several projects"
            )
            return None
        self._counts[id(unit)], self._depths[id(unit)] = count, depth
        return unit

    def _too_deep(self, pointer: str) -> None:
        self.reader.fault(pointer, f"units lie more than {DEEPEST} deep inside each other", "fewer layers")
