"""The works lie where the units lie: turned, mirrored, on point, one inside another."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from types import SimpleNamespace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.craft.document import read_document
from workers.sewing.assemble import assemble
from workers.sewing.plan import SewingPlan
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Cut, Laid, Work, walk_patches

Corners = Iterable[tuple[float, float]]


def as_set(patches: Iterable[tuple[str, Corners]]) -> list[tuple[str, tuple[tuple[float, float], ...]]]:
    """Patches so that they can be compared: corners in any order, to a ten-thousandth of an inch."""
    return sorted(
        (fabric, tuple(sorted((round(float(x) + 1e-7, 4), round(float(y) + 1e-7, 4)) for x, y in points)))
        for fabric, points in patches
    )


def check_same_patches(raw: dict[str, Any]) -> None:
    project = read_document(raw)
    top = assemble(project, ClothNames(project.fabrics, project.measure))
    sewn = as_set((cut.fabric, [(c.real, c.imag) for c in cut.corners]) for cut in walk_patches(top))
    drawn = as_set((p.fabric, [(float(x), float(y)) for x, y in p.points]) for p in project.top.patches())
    assert sewn == drawn


def test_every_patch_lies_where_the_unit_has_it(any_top: dict[str, Any]) -> None:
    """The patches reached through the works are the patches of the top, each once, each in its place."""
    check_same_patches(any_top)


def test_every_patch_is_sewn_in_by_exactly_one_stage(
    any_top: dict[str, Any], plan_of: Callable[..., SewingPlan]
) -> None:
    """Counting the cut patches that each stage takes by itself, times its copies, gives the patches of the top."""
    plan = plan_of(any_top)
    taken = sum(
        stage.count * sum(isinstance(item.piece, Cut) for item in stage.work.items) for stage in plan.stages
    )
    assert taken == sum(1 for _ in plan.project.top.patches())


def test_items_of_a_work_fill_it_without_gap_or_overlap(
    any_top: dict[str, Any], plan_of: Callable[..., SewingPlan]
) -> None:
    """The areas of what a work is sewn of come to the area of its outline."""
    for stage in plan_of(any_top).stages:
        whole = area(stage.work.corners)
        inside = sum(area(cut.corners) for cut in walk_patches(Laid(stage.work)))
        assert abs(whole - inside) < 1e-6, stage.id


def area(corners: tuple[complex, ...]) -> float:
    """Shoelace formula."""
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return abs(sum((a.conjugate() * b).imag for a, b in pairs)) / 2


def test_every_seam_parts_two_things(any_top: dict[str, Any], plan_of: Callable[..., SewingPlan]) -> None:
    """Beside the middle of every seam, a hair to each side, lie two different items of the work."""
    for stage in plan_of(any_top).stages:
        for seam in stage.work.seams:
            middle, hair = (seam.start + seam.end) / 2, seam.to_right * 1e-4
            # not right in the middle: there the items' own seams may end
            middle += (seam.end - seam.start) * 0.01357
            left, right = item_at(stage.work, middle - hair), item_at(stage.work, middle + hair)
            assert None not in (left, right), (stage.id, seam)
            assert left != right, (stage.id, seam)


def item_at(work: Work, point: complex) -> int | None:
    for number, item in enumerate(work.items):
        if any(is_inside(point, cut.corners) for cut in walk_patches(item)):
            return number
    return None


def is_inside(point: complex, corners: tuple[complex, ...]) -> bool:
    """Whether a point lies in a convex polygon."""
    turns = [
        ((b - a).conjugate() * (point - a)).imag
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]
    return all(t > 0 for t in turns) or all(t < 0 for t in turns)


FABRICS = st.sampled_from(["frost", "leaf", "soil"])
PLACES = st.lists(st.sampled_from(["nw", "ne", "se", "sw"]), min_size=1, unique=True)


def small_unit(side: str) -> st.SearchStrategy[dict[str, Any]]:
    patch = st.builds(lambda f: {"unit": "patch", "size": [side, side], "fabric": f}, FABRICS)
    half = st.builds(
        lambda a, b: {"unit": "half-square triangle", "size": [side, side], "fabrics": [a, b]},
        FABRICS,
        FABRICS,
    )
    corner = st.builds(
        lambda f, g, at: {
            "unit": "corner squares",
            "size": [side, side],
            "fabric": f,
            "corners": {"size": "1/2", "fabric": g, "at": at},
        },
        FABRICS,
        FABRICS,
        PLACES,
    )
    return st.one_of(patch, half, corner)


def moved(unit: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    turn = st.builds(
        lambda u, t: {"unit": "turned", "inside": u, "turn": t}, unit, st.sampled_from([90, 180, 270])
    )
    mirror = st.builds(lambda u: {"unit": "mirrored", "inside": u}, unit)
    return st.one_of(unit, turn, mirror, st.builds(lambda u: {"unit": "mirrored", "inside": u}, turn))


def square_of(unit: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.builds(lambda a, b, c, d: {"unit": "grid", "rows": [[a, b], [c, d]]}, *[moved(unit)] * 4)


def set_on_point(unit: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.builds(
        lambda a, b, c, r, k: {
            "unit": "on point",
            "rows": [[a if (i + j) % 2 else b for j in range(k)] for i in range(r)],
            "side": "leaf",
            "corner": "soil",
            **({"alternate": c} if r > 1 and k > 1 else {}),
        },
        unit,
        unit,
        unit,
        st.integers(1, 3),
        st.integers(1, 3),
    )


BLOCKS = square_of(small_unit("2"))
LAYOUTS = st.one_of(
    moved(square_of(BLOCKS)),
    moved(set_on_point(moved(BLOCKS))),
    moved(st.builds(lambda u: {"unit": "square in a square", "inside": u, "fabric": "soil"}, moved(BLOCKS))),
)


@settings(max_examples=60, deadline=None)
@given(top=LAYOUTS)
def test_any_layout_is_assembled_true(top: dict[str, Any]) -> None:
    """Whatever is turned, mirrored and set into each other, every patch ends where the unit has it."""
    fabrics = {name: {"name": name} for name in ("frost", "leaf", "soil")}
    check_same_patches({"title": "Any bed", "fabrics": fabrics, "top": top})


def test_units_that_differ_by_a_turn_are_one_work(
    units: SimpleNamespace, plan_of: Callable[..., SewingPlan]
) -> None:
    """A half-square triangle in all its turns and mirrorings is sewn as one kind of unit."""
    one = units.half("frost", "leaf")
    other = units.half("leaf", "frost")
    top = units.grid([one, units.turned(one, 90), units.mirrored(one), other])
    small = [s for s in plan_of(units.document(top)).stages if s.work.kind == "half-square triangle"]
    assert [s.count for s in small] == [4]


def test_a_mirrored_block_is_a_work_of_its_own(
    units: SimpleNamespace, plan_of: Callable[..., SewingPlan]
) -> None:
    """A block that is not its own mirror image cannot be turned into it: it is sewn apart."""
    plan = plan_of(units.document(units.grid(["b", units.mirrored("b")]), {"b": units.odd_block()}))
    assert {"block.b", "block.b.mirrored"} <= {stage.id for stage in plan.stages}
