"""Blocks given by the corners of their patches: read whole or with every fault, cut like the units made for them."""

import math
from collections import Counter
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
import shapely
from hypothesis import given

from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults
from service.craft.readiness import check_readiness
from service.craft.units import Need, Polygons
from tests.straight_blocks import BLOCKS, RINGS, SET_IN, STRAIGHT, block, cut_ups, document, unit

SQUARE = [["0", "0"], ["6", "0"], ["6", "6"], ["0", "6"]]


def read(top: Any, **more: Any) -> Project:
    return read_document(document(top, **more))


def faults(top: Any, **more: Any) -> list[tuple[str, str, str]]:
    with pytest.raises(DocumentFaults) as caught:
        read(top, **more)
    return [(fault.pointer, fault.detail, fault.right) for fault in caught.value.faults]


def given_by(*patches: Any, size: Any = ("6", "6"), fabric: str = "frost") -> dict[str, Any]:
    listed = [{"points": points, "fabric": fabric} for points in patches]
    return {"unit": "polygons", "size": list(size), "patches": listed}


@pytest.mark.parametrize("name", BLOCKS)
def test_the_patches_of_a_block_fill_it(name: str) -> None:
    """Independent check: union and sum of areas, by Shapely."""
    project = read(block(name))
    shapes = [shapely.Polygon([(float(x), float(y)) for x, y in p.points]) for p in project.top.patches()]
    whole = shapely.box(0, 0, float(project.top.width), float(project.top.height))
    assert shapely.union_all(shapes).symmetric_difference(whole).area == pytest.approx(0, abs=1e-9)
    assert sum(shape.area for shape in shapes) == pytest.approx(whole.area)


@pytest.mark.parametrize("name", STRAIGHT)
def test_a_straight_seam_block_has_nothing_to_set_in(name: str) -> None:
    """By the old hands' practice all of these are sewn with straight seams alone."""
    top = read(block(name)).top
    assert isinstance(top, Polygons)
    assert top.set_in == []


@pytest.mark.parametrize("name", SET_IN)
def test_what_must_be_set_in_is_a_warning_and_no_fault(name: str) -> None:
    """It can be sewn, so a batch is made; the check says which patches."""
    project = read("b", blocks={"b": block(name)})
    ready = check_readiness(project, {})
    (warning,) = [w for w in ready.warnings if "set in" in w.detail]
    assert ready.ready
    assert warning.pointer.startswith("/blocks/b/patches/")
    assert warning.right


@pytest.mark.parametrize("name", RINGS)
def test_a_ring_of_patches_is_said_to_take_a_seam_in_two_goes_and_nothing_is_set_in(name: str) -> None:
    ready = check_readiness(read("b", blocks={"b": block(name)}), {})
    (warning,) = [w for w in ready.warnings if w.pointer.startswith("/blocks/b/patches/")]
    assert "part of the way" in warning.detail and "set in" not in warning.detail


def test_straight_seams_give_no_such_warning() -> None:
    assert not [w for w in check_readiness(read(block("shoofly")), {}).warnings if "set in" in w.detail]


def templates_of(top: Any, **more: Any) -> Counter[tuple[str, str]]:
    project = read(top, **more)
    return count_templates_of(project.top.needs(project.rules))


def count_templates_of(needs: list[Need]) -> Counter[tuple[str, str]]:
    counts: Counter[tuple[str, str]] = Counter()
    for need in needs:
        if need.template:
            counts[need.template, need.fabric] += need.pieces
    return counts


def test_a_shape_turned_is_one_template_and_its_mirror_image_is_that_one_turned_over() -> None:
    """A diamond in a rectangle: long triangles at opposite corners are turns, at neighbouring ones mirror images."""
    assert templates_of(block("diamond in a rectangle")) == {
        ("A", "leaf"): 1,
        ("B", "frost"): 2,
        ("B reversed", "frost"): 2,
    }


def test_a_mirrored_block_takes_its_templates_turned_over_but_for_symmetrical_ones() -> None:
    """Triangles and slanting stripes have a right and a left hand; a kite has none."""
    stripes, kites = read(block("slanting stripes")), read(block("kites"))
    assert count_templates_of(stripes.top.needs(stripes.rules)) == {
        ("A", "frost"): 2,
        ("B", "leaf"): 1,
        ("B", "soil"): 1,
    }
    assert count_templates_of(stripes.top.needs_in_mirror(stripes.rules)) == {
        ("A reversed", "frost"): 2,
        ("B reversed", "leaf"): 1,
        ("B reversed", "soil"): 1,
    }
    assert count_templates_of(kites.top.needs_in_mirror(kites.rules)) == {
        ("A", "leaf"): 4,
        ("B", "frost"): 4,
        ("B reversed", "frost"): 4,
    }


def test_blocks_of_one_project_share_their_templates_by_letter() -> None:
    """Letters in the order of the document, whatever grid a block is described on."""
    blocks = {
        "kites": block("kites", 6),
        "storm": block("storm at sea corner", 6),
        "diamond": block("diamond in a rectangle", 4),
    }
    project = read({"unit": "grid", "rows": [["kites", "storm"]]}, blocks=blocks)
    letters = {
        name: {patch.template.letter for patch in made.straight if patch.template}
        for name, made in project.blocks.items()
        if isinstance(made, Polygons)
    }
    assert letters == {"kites": {"A", "B"}, "storm": {"C", "D"}, "diamond": {"C", "D"}}


def test_templates_are_counted_through_the_whole_top() -> None:
    """Twice as it lies and once mirrored."""
    mirrored = {"unit": "mirrored", "inside": "b"}
    blocks = {"b": block("slanting stripes", 6)}
    project = read({"unit": "grid", "rows": [["b"], [mirrored], ["b"]]}, blocks=blocks)
    counts = {(t.letter, fabric, over): count for (t, fabric, over), count in project.patch_templates.items()}
    assert counts == {
        ("A", "frost", False): 4,
        ("A", "frost", True): 2,
        ("B", "leaf", False): 2,
        ("B", "leaf", True): 1,
        ("B", "soil", False): 2,
        ("B", "soil", True): 1,
    }


def test_a_template_is_planned_by_the_box_of_its_cut_shape() -> None:
    """A stripe 1 in wide, leaning 1 in on 3 in: its tips of atan 3 end s · tan(half of that) beyond the corner."""
    project = read(block("slanting stripes"))
    need = next(n for n in project.top.needs(project.rules) if n.fabric == "leaf")
    lean = math.atan(3)
    tip = 0.25 * (math.sin(lean) + math.tan(lean / 2) * math.cos(lean))
    assert (need.form, need.then, need.template) == ("polygon", "cut with template B", "B")
    assert need.height == Fraction(7, 2)
    assert need.width == Fraction(math.ceil((2 + 2 * tip) * 8), 8) == Fraction(21, 8)


@pytest.mark.parametrize(
    ("top", "pointer", "detail"),
    [
        (given_by(), "/top/patches", 'the list "patches" is empty'),
        ({"unit": "polygons", "size": ["6", "6"]}, "/top", 'the list "patches" is missing'),
        (given_by(SQUARE[:2]), "/top/patches/0/points", 'the list "points" is too short'),
        (given_by([*SQUARE[:3], ["leek", "6"]]), "/top/patches/0/points/3/0", "not a length"),
        (given_by([*SQUARE[:3], ["0"]]), "/top/patches/0/points/3", "not a pair"),
        (given_by([*SQUARE[:3], ["-1", "6"]]), "/top/patches/0/points/3/0", "less than nothing"),
        (
            given_by([*SQUARE[:3], ["0", "6 1/2"]]),
            "/top/patches/0/points/3/1",
            "at 6 1/2 in; the block is 6 in high",
        ),
        (given_by([SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3]]), "/top/patches/0/points", "its edges cross"),
        (given_by([["0", "0"], ["3", "3"], ["6", "6"]]), "/top/patches/0/points", "on one line"),
        (given_by(SQUARE, fabric="moss"), "/top/patches/0/fabric", "not among the fabrics"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_every_slip_is_named_where_it_is(top: Any, pointer: str, detail: str) -> None:
    found = faults(top)
    assert any(where == pointer and detail in what and right for where, what, right in found), found


def test_all_slips_come_in_one_answer() -> None:
    top = given_by([*SQUARE[:3], ["0", "7"]], SQUARE[:2], [*SQUARE[:3], ["0", "x"]])
    assert {where for where, _, _ in faults(top)} == {
        "/top/patches/0/points/3/1",
        "/top/patches/1/points",
        "/top/patches/2/points/3/1",
    }


LEFT = [["0", "0"], ["3", "0"], ["3", "6"], ["0", "6"]]


@pytest.mark.parametrize(
    ("right_half", "said"),
    [
        (
            [["3 1/2", "0"], ["6", "0"], ["6", "6"], ["3 1/2", "6"]],
            "there is a gap between patch 1 and patch 2",
        ),
        ([["2 1/2", "0"], ["6", "0"], ["6", "6"], ["2 1/2", "6"]], "patch 1 and patch 2 overlap"),
    ],
    ids=["gap", "overlap"],
)
def test_a_gap_and_an_overlap_are_named_with_their_place_and_both_patches(right_half: Any, said: str) -> None:
    (fault,) = [f for f in faults(given_by(LEFT, right_half)) if said in f[1]]
    assert fault[0] == "/top/patches/0"
    assert "(3 in, 0 in)" in fault[1]
    assert "(3 in, 6 in)" in fault[1] or "1/2 in" in fault[1]
    assert fault[2]


def test_a_gap_at_the_edge_of_the_block_says_so() -> None:
    found = faults(given_by(LEFT))
    assert any("patch 1 and the edge of the block" in detail for _, detail, _ in found)


def test_a_patch_laid_twice_overlaps_itself_and_not_its_neighbours() -> None:
    other = [["3", "0"], ["6", "0"], ["6", "6"], ["3", "6"]]
    found = faults(given_by(LEFT, other, LEFT))
    assert {detail.partition(" overlap")[0] for _, detail, _ in found} == {"patch 1 and patch 3"}


def test_corners_on_no_common_grid_are_refused_before_anything_is_computed() -> None:
    """Fractions of many kinds at once cost time and mean nothing on a ruler."""
    strange = ["1/10007", "1/10009", "1/10037", "1/10039"]
    points = [["0", "0"], ["6", strange[0]], ["6", strange[1]], [strange[2], strange[3]]]
    assert any("no common grid" in detail for _, detail, _ in faults(given_by(points)))


def test_a_metric_block_is_exact() -> None:
    """1 in = 25.4 mm: a block in tenths of a millimetre is covered without a rest."""
    thirds = ["0", "33.3", "66.6", "99.9"]
    patches = [
        {"points": [[a, "0"], [b, "0"], [b, "99.9"], [a, "99.9"]], "fabric": "leaf"}
        for a, b in pairwise(thirds)
    ]
    top = {"unit": "polygons", "size": ["99.9", "99.9"], "patches": patches}
    assert sum(1 for _ in read(top, measure="mm").top.patches()) == 3


@given(cut_ups())
def test_whatever_is_cut_up_from_edge_to_edge_is_read_and_sewn_straight(made: Any) -> None:
    """Cuts from edge to edge of a part are straight seams, backwards; no patch is lost on the way."""
    top = read(unit(*made)).top
    assert isinstance(top, Polygons)
    assert top.set_in == []
    assert sum(1 for _ in top.patches()) == len(made[0])


@given(cut_ups())
def test_the_cloth_cut_is_more_than_the_cloth_seen(made: Any) -> None:
    """Area of all cuts against the finished area: every patch has its allowance all round."""
    project = read(unit(*made))
    cut = sum(n.width * n.height * n.pieces / n.makes for n in project.top.needs(project.rules))
    assert cut > project.top.width * project.top.height


def fan(count: int) -> dict[str, Any]:
    """Triangles from one corner, each with a direction of its own."""
    ends = [(Fraction(6), Fraction(6 * i, count)) for i in range(count + 1)] + [(Fraction(0), Fraction(6))]
    return unit([([(0, 0), a, b], "leaf") for a, b in pairwise(ends)], 6, 6)


def test_seams_in_more_directions_than_anybody_sews_are_refused() -> None:
    assert read(fan(60)).top.width == 6
    assert any("directions" in detail for _, detail, _ in faults(fan(128)))


def test_more_patches_and_corners_than_anybody_sews_are_refused_at_once() -> None:
    """Before anything is computed that takes the square of their number."""
    assert any("6001 patches" in detail for _, detail, _ in faults(given_by(*[SQUARE] * 6001)))
    round_one = [[str(Fraction(i % 7)), str(Fraction(i, 20))] for i in range(61)]
    assert any("61 corners" in detail for _, detail, _ in faults(given_by(round_one)))


def test_seams_deeper_than_anybody_sews_are_a_fault_of_the_check() -> None:
    """Logs laid round a middle 38 times: each of 152 seams lies outside the one before."""
    shapes, left, top, right, bottom = [([(0, 0), (1, 0), (1, 1), (0, 1)], "soil")], 0, 0, 1, 1
    for _ in range(38):
        logs = [
            [(left, top - 1), (right, top - 1), (right, top), (left, top)],
            [(right, top - 1), (right + 1, top - 1), (right + 1, bottom), (right, bottom)],
            [(left, bottom), (right + 1, bottom), (right + 1, bottom + 1), (left, bottom + 1)],
            [(left - 1, top - 1), (left, top - 1), (left, bottom + 1), (left - 1, bottom + 1)],
        ]
        shapes += [(points, "leaf") for points in logs]
        left, top, right, bottom = left - 1, top - 1, right + 1, bottom + 1
    moved = [([(x - left, y - top) for x, y in points], cloth) for points, cloth in shapes]
    ready = check_readiness(read(unit(moved, right - left, bottom - top)), {})
    assert [(fault.pointer, "150 seams" in fault.detail) for fault in ready.faults] == [("/top", True)]


def test_a_print_on_its_corner_is_a_warning() -> None:
    """As of a square in a square: the middle is cut along the threads, so its print runs slantwise."""
    cloths = document("b")["fabrics"]
    cloths = cloths | {"leaf": cloths["leaf"] | {"directional": True}}
    ready = check_readiness(read(block("square in a square", 6), fabrics=cloths), {})
    assert any("runs slantwise" in warning.detail for warning in ready.warnings)
