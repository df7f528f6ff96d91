"""Which copies are made alike: never at the price of a junction, and as many as can be."""

from __future__ import annotations

import itertools
import random
import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.document import read_document
from tests.sewing.test_nesting import look, random_top
from workers.sewing import piles as piles_room
from workers.sewing.assemble import assemble
from workers.sewing.copies import UnfoldedTop
from workers.sewing.least_failing import LeastFailing, join_all
from workers.sewing.nesting import find_nesting, press_with_spins
from workers.sewing.ordering import order_works
from workers.sewing.piles import PileSearch
from workers.sewing.plan import plan_sewing
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Work

MOST_SEAMS = 16


def unfold(raw: dict[str, Any]) -> UnfoldedTop:
    """Every copy of a document's top."""
    project = read_document(raw)
    whole = assemble(project, ClothNames(project.fabrics, project.measure)).piece
    assert isinstance(whole, Work)
    finder_top = press_with_spins(
        whole, lambda _s, _b: (0.0, 0.0), frozenset(w.id for w in order_works(whole))
    )
    return UnfoldedTop(whole, finder_top.meetings)


def fewest_of_all(top: UnfoldedTop) -> int:
    """The fewest junctions that fail over every side of every seam of every copy, and every choice of what is spun."""
    fewest = len(top.links)
    could = top.could_spin
    for spun in itertools.product((False, True), repeat=len(could)):
        fixed = dict(enumerate(spun))
        joined = join_all(top.size, LeastFailing(top).bind(fixed))
        if joined is None:
            continue
        ends = [(joined.root(a), joined.root(b), odd) for a, b, odd in top.links]
        roots = sorted({root for first, second, _ in ends for root, _ in (first, second)})
        assert len(roots) <= MOST_SEAMS
        place = {root: i for i, root in enumerate(roots)}
        bonds = [(place[a], place[b], odd ^ odd_a ^ odd_b) for (a, odd_a), (b, odd_b), odd in ends]
        for way in range(2 ** len(roots)):
            fewest = min(fewest, sum((way >> a ^ way >> b) & 1 != odd for a, b, odd in bonds))
            if not fewest:
                return 0
    return fewest


def layouts(units: SimpleNamespace) -> Iterator[tuple[str, dict[str, Any]]]:
    """Pairs and squares of odd and mixed blocks, mirrored and turned; sashed; on point."""
    half, large = units.half("frost", "leaf"), units.corners("nw", "se", leg="3/2")
    blocks = {
        "rows": units.grid([units.patch("frost")], [units.patch("leaf")]),
        "odd": units.grid([half, units.patch("soil")]),
        "mixed": units.grid([large, half]),
    }
    for name, block in blocks.items():
        images = {"a": "b", "t": units.turned("b", 180), "m": units.mirrored("b")}
        for pair in itertools.product(images, repeat=2):
            laid = [images[p] for p in pair]
            yield f"{name} row {pair}", units.document(units.grid(laid), {"b": block})
            yield f"{name} column {pair}", units.document(units.grid(*[[one] for one in laid]), {"b": block})
        sashing = {"width": "1", "fabric": "soil"}
        yield f"{name} sashed", units.document(units.grid(["b", "b"], sashing=sashing), {"b": block})
    for name in ("corner", "half"):
        block = large if name == "corner" else half
        square = units.grid([block, units.mirrored(block)], [units.turned(block, 90), block])
        yield f"{name} square", units.document(square)
        yield f"{name} on point", units.document(units.on_point(block, 1, 2))


def test_no_way_of_pressing_each_copy_leaves_fewer(units: SimpleNamespace) -> None:
    """All sides of all seams (at most 16) of all copies are tried, with all choices of spun ones: none leaves fewer
    junctions than the plan, and the plan says that it knows."""
    looked = 0
    for name, raw in layouts(units):
        plan = plan_sewing(read_document(raw))
        assert plan.nested.failing_in_top == fewest_of_all(unfold(raw)) == look(plan)[1], name
        assert plan.nested.at_least == plan.nested.failing_in_top, name
        looked += 1
    assert looked > 50


def mixed_top(units: SimpleNamespace, seed: int) -> dict[str, Any]:
    """A row of blocks of two units, turned and mirrored at random."""
    chance = random.Random(seed)
    half = units.half("frost", "leaf")
    cells = [units.patch("soil"), half, units.turned(half, 90), units.corners("nw", leg="3/2")]
    block = units.grid([chance.choice(cells)], [chance.choice(cells)])
    images = ["b", units.turned("b", 180), units.mirrored("b"), units.turned(units.mirrored("b"), 180)]
    return units.document(units.grid([chance.choice(images) for _ in range(4)]), {"b": block})  # type: ignore[no-any-return]


def fewest_piles(top: UnfoldedTop, kept: Any) -> int:
    """By trying all sides that keep the bonds: the fewest different copies there are in any of them."""
    roots = sorted({kept.root(node)[0] for node in range(top.size)})
    assert len(roots) <= MOST_SEAMS
    best = len(top.copies)
    for way in range(2 ** len(roots)):
        side = {root: way >> i & 1 for i, root in enumerate(roots)}
        made: list[int] = []
        seen: dict[tuple[object, ...], int] = {}
        for copy in top.copies:
            seams = tuple(side[root] ^ odd for root, odd in map(kept.root, copy.nodes))
            parts = tuple(made[part] if part >= 0 else -1 for part in copy.parts)
            made.append(seen.setdefault((copy.work, seams, parts), len(seen)))
        best = min(best, len(seen))
    return best


@pytest.mark.parametrize("seed", range(25))
def test_no_choice_of_sides_takes_fewer_piles(units: SimpleNamespace, seed: int) -> None:
    """Every choice of sides in which as many junctions nest is tried: none makes more copies alike."""
    top = unfold(mixed_top(units, seed))
    least = LeastFailing(top)
    fewest = least.search()
    fixed = {i: could.copy in fewest.spun for i, could in enumerate(top.could_spin)}
    links = [*least.bind(fixed), *(link for i, link in enumerate(top.links) if i not in fewest.failing)]
    kept = join_all(top.size, links)
    assert kept is not None
    found = PileSearch(top, kept).search()
    assert found.count == fewest_piles(top, kept)
    assert found.at_least == found.count


def test_a_search_that_runs_out_of_tries_claims_no_more_than_it_proved(
    units: SimpleNamespace, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without a single try the bound may fall short, and never lies above what a full search finds."""
    raws = [mixed_top(units, seed) for seed in range(25)]
    full = [weigh_piles(raw) for raw in raws]
    monkeypatch.setattr(piles_room, "MOST_TRIED", 0)
    cut = [weigh_piles(raw) for raw in raws]
    assert all(least <= count for (_, least), (count, _) in zip(cut, full, strict=True))


def weigh_piles(raw: dict[str, Any]) -> tuple[int, int]:
    """The piles of a plan, and how many it claims at least."""
    nested = plan_sewing(read_document(raw)).nested
    return len(nested.works), nested.piles_at_least


@pytest.mark.parametrize("seed", [26, 58])
def test_more_ways_than_two_are_said_and_each_copy_has_its_place(
    units: SimpleNamespace, sewn: Callable[..., SimpleNamespace], seed: int
) -> None:
    """A stage of these tops is pressed in three ways: the steps count the copies of each, and what takes the copies
    says from which pile."""
    made = sewn(random_top(units, seed) | {"tracks": [{"name": "by hand", "has": []}]})
    (steps,) = made.steps.values()
    said = {step["id"]: step["text"] for step in steps}
    most = 0
    for stage in made.plan["stages"]:
        counts = Counter[int]()
        for pile in stage["piles"]:
            counts[pile["way"]] += pile["copies"]
        most = max(most, len(counts))
        if len(counts) > 2:
            press = said[f"piecing.{stage['id']}.press"]
            told = re.findall(rf"\b(\d+) of the {stage['count']},|the other (\d+),|the last (one),", press)
            assert sum(counts.values()) == stage["count"]
            assert sum(int("".join(way).replace("one", "1")) for way in told) == stage["count"]
        ways = [len(seam["other_ways"]) for seam in made.plan["seams"] if seam["stage"] == stage["id"]]
        assert set(ways) <= {max(len(counts) - 1, 0)}
        taken = {number for pile in stage["piles"] for number in pile["takes"] if number}
        laid = " ".join(text for id, text in said.items() if id.startswith(f"piecing.{stage['id']}.in-turn"))
        assert all(re.search(rf"from pile {number}\b", laid) for number in taken)
    assert most > 2


@pytest.mark.parametrize("seed", [26, 58])
def test_parts_of_one_name_are_told_apart_by_the_titles_of_their_stages(
    units: SimpleNamespace, sewn: Callable[..., SimpleNamespace], seed: int
) -> None:
    """A step that says which piles the parts come from never lists one name twice: rows of 2 are rows of something."""
    made = sewn(random_top(units, seed) | {"tracks": [{"name": "by hand", "has": []}]})
    (steps,) = made.steps.values()
    lists = [step["text"] for step in steps if ".in-turn" in step["id"]]
    names = [re.findall(r"the rows of \d+(?: \([^)]*\))?", said) for said in lists]
    assert any(len(listed) > 1 for listed in names)
    assert all(len(set(listed)) == len(listed) for listed in names)


def test_what_takes_no_part_in_a_conflict_stays_alike(units: SimpleNamespace) -> None:
    """Adding a border to a row of odd blocks adds no pile."""

    def piles(raw: dict[str, Any]) -> Sequence[int]:
        project = read_document(raw)
        top = assemble(project, ClothNames(project.fabrics, project.measure))
        nested = find_nesting(top, lambda _s, _b: (0.0, 0.0))
        return len(nested.works) - len({work.stage for work in nested.works}), nested.failing_in_top

    row, blocks = units.grid(["b", "b", "b"]), {"b": units.odd_block()}
    border = {"width": "1", "fabric": "soil"}
    assert piles(units.document(row, blocks)) == piles(units.document(units.bordered(row, border), blocks))
