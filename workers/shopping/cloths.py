"""The cloths of a list: which projects use each, and what each of them takes of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.craft.fabric import Fabric
from service.craft.language import mark, phrase
from workers.cutting.cuts import Cut
from workers.cutting.stock.stock_plan import too_large
from workers.recipe import CannotMake
from workers.shopping.needs import Needs, lies
from workers.shopping.sameness import agree, name_cloth

Use = tuple[int, str]
"""A project by its place in the list, and the key under which it has a cloth."""

NOT_TOGETHER = mark(
    "not planned with the same cloth of other projects: its pieces do not fit on that width or direction"
)


@dataclass(frozen=True)
class Share:
    """What one project takes of a cloth: `cuts` for one make, and `ahead` for its step-outs."""

    needs: Needs
    keys: tuple[str, ...]
    cuts: tuple[Cut, ...]
    ahead: tuple[Cut, ...]


@dataclass(frozen=True)
class Cloth:
    """One cloth of the shop, with everybody's share of it, and in words what the documents do not agree on."""

    fabric: Fabric
    shares: tuple[Share, ...]
    notes: tuple[str, ...]

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """One make of every project."""
        return tuple(cut for share in self.shares for cut in share.cuts)

    @property
    def ahead(self) -> tuple[Cut, ...]:
        """The step-outs of every project."""
        return tuple(cut for share in self.shares for cut in share.ahead)

    @property
    def fits_pieces(self) -> bool:
        """Whether the pieces it is sold as hold everything that is cut from it."""
        sold_as, cuts = self.fabric.sold_as, dict(enumerate((*self.cuts, *self.ahead)))
        return sold_as is not None and not too_large(sold_as, cuts)


def gather_cloths(needs: Sequence[Needs], measure: str) -> list[Cloth]:
    """Every cloth that something is cut from, in the order in which it comes first.

    A project whose pieces do not fit on the cloth as all agree on it keeps that cloth by itself.
    """
    alone: set[Use] = set()
    while True:
        groups = _group(needs, alone)
        agreed = {group: agree(_name(needs, uses), measure) for group, uses in groups.items()}
        fabric_of = {use: agreed[group].fabric for group, uses in groups.items() for use in uses}
        cut, refused = _cut_from(needs, fabric_of)
        if not refused:
            break
        alone |= refused
    return [
        Cloth(
            fabric=agreed[group].fabric,
            shares=_share(cut, uses),
            notes=(*agreed[group].notes, *([phrase(NOT_TOGETHER)] if set(uses) & alone else [])),
        )
        for group, uses in groups.items()
    ]


def _group(needs: Sequence[Needs], alone: set[Use]) -> dict[tuple[object, ...], list[Use]]:
    groups: dict[tuple[object, ...], list[Use]] = {}
    for place, one in enumerate(needs):
        used = {cut.fabric for cut in (*one.cuts, *one.ahead)}
        for key, fabric in one.project.fabrics.items():
            if key in used:
                own = (place,) if (place, key) in alone else ()
                groups.setdefault((*name_cloth(fabric), *own), []).append((place, key))
    return groups


def _name(needs: Sequence[Needs], uses: Sequence[Use]) -> list[tuple[str, Fabric]]:
    return [(needs[place].project.title, needs[place].project.fabrics[key]) for place, key in uses]


def _cut_from(needs: Sequence[Needs], fabric_of: dict[Use, Fabric]) -> tuple[list[Needs], set[Use]]:
    """Every project cut from the cloths agreed on, and the uses of those that cannot be."""
    cut, refused = [], set()
    for place, one in enumerate(needs):
        own = one.project.fabrics
        agreed = {key: replace(fabric_of.get((place, key), f), key=key) for key, f in own.items()}
        try:
            cut.append(one.on_cloths(agreed))
        except CannotMake:
            refused |= {(place, key) for key, f in own.items() if lies(f) != lies(agreed[key])}
    return cut, refused


def _share(needs: Sequence[Needs], uses: Sequence[Use]) -> tuple[Share, ...]:
    """A share a project; two keys of one project that name the same cloth are one."""
    keys: dict[int, list[str]] = {}
    for place, key in uses:
        keys.setdefault(place, []).append(key)
    return tuple(
        Share(
            needs[place],
            tuple(own),
            tuple(cut for cut in needs[place].cuts if cut.fabric in own),
            tuple(cut for cut in needs[place].ahead if cut.fabric in own),
        )
        for place, own in keys.items()
    )
