"""The templates a top is cut with: patches that no ruler cuts, counted by template, cloth and side."""

from __future__ import annotations

from collections import Counter

from service.craft.planar.naming import PatchTemplate
from service.craft.units import Mirrored, Unit

Use = tuple[PatchTemplate, str, bool]
"""A template, the key of a cloth, and whether the template is turned over for it."""


def count_templates(top: Unit) -> dict[Use, int]:
    """How many patches of a top are cut with each template from each cloth, by letter."""
    counts = _TemplateCounter().count(top, mirrored=False)
    return dict(sorted(counts.items(), key=lambda use: (len(use[0][0].letter), use[0][0].letter)))


class _TemplateCounter:
    """Looks at each shared unit once for either side."""

    def __init__(self) -> None:
        self._seen: dict[tuple[int, bool], Counter[Use]] = {}

    def count(self, unit: Unit, *, mirrored: bool) -> Counter[Use]:
        """What one unit takes, lying as it is or in a mirror."""
        key = (id(unit), mirrored)
        if key not in self._seen:
            found = _own(unit, mirrored=mirrored)
            inside = mirrored != isinstance(unit, Mirrored)
            for child, _ in unit.children():
                found.update(self.count(child, mirrored=inside))
            self._seen[key] = found
        return self._seen[key]


def _own(unit: Unit, *, mirrored: bool) -> Counter[Use]:
    return Counter(
        (template, fabric, turned_over != mirrored and not template.turns_over)
        for template, fabric, turned_over in unit.templates()
    )
