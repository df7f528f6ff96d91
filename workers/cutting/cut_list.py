"""The cutting list of a top: what every unit needs, put together wherever it may share a cut."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import partial
from math import ceil

from service.craft.document import Project
from service.craft.fabric import Fabric
from service.craft.language import phrase
from service.craft.measure import format_length
from service.craft.panels import find_panels, fits_on, is_strip, lie_on_cloth, may_be_pieced
from service.craft.units import Bordered, Grid, Need, StripSet
from service.craft.units.counting import TOP, UnitUse, count_units
from workers.cutting.choosing import Ways, choose_ways
from workers.cutting.cut_notes import note_direction
from workers.cutting.cuts import Cut
from workers.cutting.panel_cuts import piece_of_panels
from workers.cutting.part_words import BORDER, SASHING
from workers.cutting.shared_strips import share_strips
from workers.cutting.strip_ways import StripCutter
from workers.patience import Left, endless, share
from workers.recipe import CannotMake

Key = tuple[str, Fraction, Fraction, str, str, int, str, int, str, str]


@dataclass
class _Pool:
    """Needs that share their cuts. `in_sets`: they are strips of a strip set."""

    need: Need
    pointer: str
    in_sets: bool
    pieces: int = 0
    uses: dict[str, None] = field(default_factory=dict)


def list_cuts(project: Project, beside: Iterable[Cut] = (), left: Left = endless) -> list[Cut]:
    """Every cut of the top, cloth by cloth in the document's order, the largest first.

    `beside` is what else is cut from the same cloths: it decides with them how long strips are cut. Raises
    `CannotMake` where a piece is wider than its cloth in every direction allowed, and cannot be pieced.
    """
    ways: dict[str, list[Ways]] = {key: [] for key in project.fabrics}
    others: dict[str, list[Cut]] = {key: [] for key in project.fabrics}
    for pool in _pool(project).values():
        ways[pool.need.fabric].append(_list_ways(pool, project))
    for cut in beside:
        others[cut.fabric].append(cut)
    put_together = partial(share_strips, project=project)
    chosen = [
        choose_ways(ways[key], others[key], fabric, put_together, share(left, 1 / (len(ways) - i)))
        for i, (key, fabric) in enumerate(project.fabrics.items())
    ]
    return in_order([cut for cuts in chosen for cut in cuts], project)


def list_all_cuts(project: Project, beside: Iterable[Cut], left: Left = endless) -> list[Cut]:
    """Every cut of a project, the top's and those `beside` them, in order."""
    others = list(beside)
    return in_order([*list_cuts(project, others, left), *others], project)


def in_order(cuts: list[Cut], project: Project) -> list[Cut]:
    """Cuts cloth by cloth in the document's order, the largest piece first; the same order on every run."""
    place = {key: i for i, key in enumerate(project.fabrics)}
    return sorted(
        cuts,
        key=lambda c: (
            place[c.fabric],
            -c.width * c.height,
            -c.width,
            c.then,
            c.method,
            c.shape,
            c.uses,
            c.template,
        ),
    )


def _pool(project: Project) -> dict[Key, _Pool]:
    """All needs by what they may share. Each unit is asked once."""
    pools: dict[Key, _Pool] = {}
    asked: dict[tuple[int, bool], list[Need]] = {}
    for use in count_units(project.top):
        key = (id(use.unit), use.mirrored)
        if key not in asked:
            ask = use.unit.needs_in_mirror if use.mirrored else use.unit.needs
            asked[key] = ask(project.rules)
        for need in asked[key]:
            lying = lie_on_cloth(need, project.fabrics[need.fabric], sideways=use.sideways)
            pool = pools.setdefault(
                _key(lying), _Pool(lying, use.unit.pointer, isinstance(use.unit, StripSet))
            )
            pool.pieces += need.pieces * use.times
            pool.uses[_use_name(use)] = None
    return pools


def _key(need: Need) -> Key:
    return (
        need.fabric,
        need.width,
        need.height,
        need.form,
        need.then,
        need.makes,
        need.pool,
        need.sets,
        need.template,
        need.lay,
    )


def _use_name(use: UnitUse) -> str:
    """The named block, or what part of the top it is."""
    if use.block != TOP:
        return use.block
    return BORDER if isinstance(use.unit, Bordered) else SASHING if isinstance(use.unit, Grid) else TOP


def _list_ways(pool: _Pool, project: Project) -> Ways:
    """The ways in which what a pool needs may be cut; more than one for long strips alone."""
    need, fabric = pool.need, project.fabrics[pool.need.fabric]
    count = ceil(Fraction(pool.pieces, need.makes * need.sets)) * need.sets
    cut = Cut(
        fabric=need.fabric,
        width=need.width,
        height=need.height,
        count=count,
        makes=count * need.makes,
        wanted=pool.pieces,
        shape=need.form,
        then=need.then,
        method=_method(need, project),
        uses=tuple(pool.uses),
        may_turn=not fabric.one_way and need.width != need.height,
        pointer=pool.pointer,
        notes=note_direction(need, fabric),
        template=need.template,
        in_sets=pool.in_sets,
    )
    if is_strip(need):
        ways = StripCutter(project, fabric).list_ways(cut, need.lay)
    elif fits_on(need, fabric):
        ways = (cut,)
    else:
        panels = find_panels(need, fabric, project.rules) if may_be_pieced(need) else None
        ways = (piece_of_panels(cut, panels, project),) if panels else ()
    if not ways:
        raise _too_wide(cut, fabric, project.measure)
    return ways


def _method(need: Need, project: Project) -> str:
    if not need.method:
        return ""
    cloth = project.fabrics[need.partner].name
    return phrase("{method} with {cloth}", method=phrase(need.method), cloth=cloth)


def _too_wide(cut: Cut, fabric: Fabric, measure: str) -> CannotMake:
    size = " by ".join(format_length(side, measure) for side in (cut.width, cut.height))
    usable = format_length(fabric.usable_width, measure)
    turn = " (a cloth without a direction could be turned)" if fabric.one_way else ""
    return CannotMake(
        f'a piece of {size} for {", ".join(cut.uses)} does not fit on "{fabric.name}", which is {usable} wide',
        pointer=cut.pointer,
        right=f"smaller patches, or a wider cloth{turn}",
    )
