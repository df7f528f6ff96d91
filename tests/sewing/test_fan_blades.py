"""Rings of blades: every seam between neighbours, pressed one way round; steps with sizes and what an error does."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import atan2, cos, pi, radians, sin, tan
from types import SimpleNamespace
from typing import Any

import pytest
from shapely import Point, Polygon

from service.craft.document import read_document
from service.craft.measure import parse_length
from service.craft.planar.round_shapes import BladeTemplate
from workers.handouts.pictures import list_patches
from workers.sewing.assemble import assemble
from workers.sewing.fan_blade_sizes import RingSteps
from workers.sewing.plan import SewingPlan, Stage
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Laid, walk_patches

Sewn = Callable[..., SimpleNamespace]
PlanOf = Callable[..., SewingPlan]

KIND = "fan blade ring"
UNEVEN = [{"angle": angle} for angle in (14, 22)] * 10


def ring(**more: Any) -> dict[str, Any]:
    unit = {
        "unit": KIND,
        "size": ["14", "12 1/2"],
        "fabric": "frost",
        "fabrics": ["leaf", "soil", "frost", "soil"],
        "reach": "6",
        "hole": "1 1/2",
        "centre": {"fabric": "leaf", "size": "3 1/2"},
    }
    return unit | more


def only(plan: SewingPlan) -> Stage:
    (stage,) = [stage for stage in plan.stages if stage.work.kind == KIND]
    return stage


def steps_of(made: SimpleNamespace) -> dict[str, dict[str, Any]]:
    (steps,) = made.steps.values()
    return {step["id"].rpartition(".")[2]: step for step in steps if step["stage"]}


@pytest.mark.parametrize("blades", [20, 7, UNEVEN], ids=["20", "7", "uneven"])
@pytest.mark.parametrize("way", ["as it is", "mirrored", "turned"])
def test_each_side_of_a_seam_is_the_blade_that_lies_there(
    units: SimpleNamespace, plan_of: PlanOf, way: str, blades: Any
) -> None:
    """A hair beside the middle of each seam lies a patch of the cloth the seam names (Shapely says which)."""
    top = ring(blades=blades)
    whole = {"mirrored": units.mirrored(top), "turned": units.turned(top, 90)}.get(way, top)
    stage = only(plan_of(units.document(whole)))
    shapes = [
        (Polygon([(c.real, c.imag) for c in cut.corners], _hole(cut)), cut.fabric)
        for cut in walk_patches(Laid(stage.work))
    ]
    assert len(stage.seams) == (20 if blades != 7 else 7)
    for seam in stage.seams:
        middle = (seam.line.start + seam.line.end) / 2
        for side, hand in ((seam.line.left, -1), (seam.line.right, 1)):
            beside = middle + hand * 0.01 * seam.line.to_right
            assert [c for shape, c in shapes if shape.contains(Point(beside.real, beside.imag))] == [
                side.fabric
            ]


def _hole(cut: Any) -> list[list[tuple[float, float]]]:
    return [[(c.real, c.imag) for c in cut.hole]] if cut.hole else []


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_the_works_lie_where_the_unit_lies(units: SimpleNamespace, turn: int) -> None:
    """Also turned and mirrored, holes among them."""
    inside = units.mirrored(ring(blades=UNEVEN))
    project = read_document(units.document(units.turned(inside, turn) if turn else inside))
    top = assemble(project, ClothNames(project.fabrics, project.measure))
    sewn = {
        (cut.fabric, *(frozenset(map(_near, ring)) for ring in (cut.corners, cut.hole)))
        for cut in walk_patches(top)
    }
    drawn = {
        (p.fabric, *(frozenset(_near(complex(float(x), float(y))) for x, y in r) for r in (p.points, p.hole)))
        for p in project.top.patches()
    }
    assert sewn == drawn


def _near(place: complex) -> tuple[float, float]:
    return round(place.real + 1e-7, 4), round(place.imag + 1e-7, 4)


def test_the_plan_says_what_is_hidden_of_the_background_and_pictures_read_it(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """Every patch of a stage as it is seen: only the background has a hole, and all come to the whole."""
    [stage] = sewn(units.document(ring())).plan["stages"]
    assert ["hole" in patch for patch in stage["patches"]] == [True, *[False] * 21]
    shapes = [Polygon(p.points, [p.hole] if p.hole else []) for p in list_patches(stage, {})]
    assert sum(shape.area for shape in shapes) == pytest.approx(14 * 12.5, abs=1e-3)


def test_all_seams_fall_the_same_way_round(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Seen from the middle each is pressed clockwise, or each against the clock."""
    stage = only(plan_of(units.document(ring())))
    ways = {"up": -1j, "down": 1j, "left": -1 + 0j, "right": 1 + 0j}
    hands = {((ways[seam.press] * seam.line.to_right.conjugate()).real > 0) for seam in stage.seams}
    assert len(hands) == 1


def test_seams_on_a_whole_background_add_nothing_to_what_it_may_be_off(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    """A single patch may be off by 1/16 in; twenty seams side by side would make it more."""
    size = only(plan_of(units.document(ring()))).size
    assert size.expected == (Fraction(29, 2), 13)
    assert size.low == (Fraction(29, 2) - Fraction(1, 16), 13 - Fraction(1, 16))


def test_two_rings_of_one_kind_are_one_stage(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Turned by a quarter, the work is the same; in a mirror it is another, for its cloths go the other way round."""
    square = ring(size=["13", "13"], fabrics=["leaf", "soil", "frost"], blades=18)
    row = [square, units.turned(square, 90), units.mirrored(square)]
    stages = [s for s in plan_of(units.document(units.grid(row))).stages if s.work.kind == KIND]
    assert sorted(stage.count for stage in stages) == [1, 2]


@pytest.mark.parametrize(
    ("tips", "first"),
    [
        ("pointed", ["lay", "fold-half", "fold", "clip", "turn-out", "turn"]),
        ("flat", ["lay", "turn", "clip"]),
        ("round", ["lay", "card", "gather", "draw-up", "turn"]),
    ],
)
def test_the_steps_make_tips_ring_and_centre_in_turn(
    units: SimpleNamespace, sewn: Sewn, tips: str, first: list[str]
) -> None:
    steps = steps_of(sewn(units.document(ring(tips=tips))))
    rest = [
        "pairs",
        "groups",
        "press",
        "look-groups",
        *("ring", "press-ring", "look-ring", "crease", "place", "pin", "stitch"),
        *("disc-card", "disc-gather", "disc-draw-up", "disc", "pin-cover", "cover", "press-whole"),
    ]
    assert list(steps) == [*first, *rest, "check"]
    assert steps["check"]["size"]["width"]["text"] == "14 1/2 in"
    assert "quarters of the ring, 5 blades each" in steps["groups"]["text"]
    assert "same way round" in steps["press"]["text"]
    assert "Scissors" in " ".join(step["caution"] for step in steps.values())


@pytest.mark.parametrize(
    ("fabrics", "said"),
    [
        (["leaf", "soil"], "leek green and soil brown dot in turn, as"),
        (["leaf", "soil", "frost", "soil"], "leek green, soil brown dot and frost white, as"),
        (["leaf"], "leek green, as"),
    ],
)
def test_cloths_are_said_to_come_in_turn_where_they_do(
    units: SimpleNamespace, sewn: Sewn, fabrics: list[str], said: str
) -> None:
    assert said in steps_of(sewn(units.document(ring(fabrics=fabrics))))["lay"]["text"]


def test_the_steps_say_what_a_blade_measures(units: SimpleNamespace, sewn: Sewn) -> None:
    """Reckoned anew with the mathematics library: to the point, and the length of the tip."""
    steps = steps_of(sewn(units.document(ring())))
    half = radians(9)
    length = _length_before(steps["turn"]["text"], "from the narrow cut edge")
    assert length == pytest.approx(6 - (1.5 * cos(half) - 0.25), abs=1 / 32)
    tip = _length_before(steps["turn"]["why"], "when it is sewn in")
    assert tip == pytest.approx(6 * tan(half) / (1 + tan(half)), abs=1 / 32)
    covers = _length_before(steps["pin-cover"]["text"], "over the narrow cut edges")
    assert covers == pytest.approx(1.75 - (1.5 * cos(half) - 0.25), abs=1 / 32)


def _length_before(text: str, words: str) -> float:
    """The length that stands before some words, in inches."""
    before = text[: text.index(words)].split()
    number = before[-3:-1] if before[-3].isdigit() else before[-2:-1]
    return float(parse_length(" ".join(number), "in"))


def test_the_steps_say_which_allowance_is_off_and_by_how_much(units: SimpleNamespace, sewn: Sewn) -> None:
    """A cone comes of blades that got narrower at the wide end, a ripple of blades that got wider (geometry).

    1/32 in more in both allowances of 20 seams takes 40/32 in from the way round. Even allowances keep the angle, and
    each blade moves inwards by 1/32 / sin 9°.
    """
    look = steps_of(sewn(units.document(ring())))["look-ring"]["text"]
    assert "like a bowl, the allowances are too deep at the wide ends" in look
    assert "ripples, they are too shallow" in look
    assert "takes 1 1/4 in from the way round: divide what is wrong by 40" in look
    assert 2 / 32 / sin(radians(9)) == pytest.approx(3 / 8, abs=1 / 32)
    assert "1/32 in deeper each makes it 3/8 in smaller" in look


def test_allowances_deeper_at_the_wide_ends_leave_the_gap_that_is_told() -> None:
    """Sewn along a line that is right at the narrow end and 1/32 in too deep at the wide one, twenty blades are short
    of 360 degrees, by the directions of their sewn sides; laid flat that is a gap in the way round."""
    [(x0, y0), *_, (x1, y1), (x2, y2)] = BladeTemplate(
        "A", Fraction(18), Fraction(6), Fraction(3, 2), "flat"
    ).seam_line
    narrow, wide = complex(x2, y2), complex(x1, y1)
    side = abs(wide - narrow)
    inwards = (wide - narrow) / side * -1j
    sewn = wide + inwards / 32 - narrow
    angle = 2 * atan2(sewn.real, -sewn.imag)
    gap = (2 * pi - 20 * angle) * side
    assert (x0, y0) == pytest.approx((-x2, y2))
    assert gap == pytest.approx(float(steps_for(20).lost_round(Fraction(1, 32), 20)), rel=0.01)


def steps_for(blades: int, tips: str = "flat", angles: Sequence[Fraction] = ()) -> RingSteps:
    """The ring of this file, by itself."""
    each = tuple(angles) or (Fraction(360, blades),) * blades
    size = Fraction(14), Fraction(25, 2)
    return RingSteps(each, tips, Fraction(6), Fraction(3, 2), Fraction(7, 4), size, Fraction(1, 4))


@pytest.mark.parametrize(
    ("blades", "groups", "words"),
    [
        (20, [5, 5, 5, 5], "quarters of the ring, 5 blades each"),
        (10, [5, 5], "halves of the ring, 5 blades each"),
        (7, [], "about a quarter"),
        (UNEVEN, [10, 10], "halves of the ring, 10 blades each"),
    ],
    ids=["20", "10", "7", "uneven"],
)
def test_groups_end_where_a_seam_makes_a_quarter_or_a_half(
    units: SimpleNamespace, sewn: Sewn, blades: Any, groups: list[int], words: str
) -> None:
    angles = [Fraction(e["angle"]) for e in blades] if isinstance(blades, list) else []
    steps = steps_for(20 if angles else blades, angles=angles)
    assert steps.groups == groups
    told = steps_of(sewn(units.document(ring(blades=blades))))
    assert words in told["groups"]["text"]
    assert ("look-groups" in told) == bool(groups)


@pytest.mark.parametrize("tips", ["pointed", "flat", "round"])
def test_the_way_from_the_edge_to_the_nearest_tips_is_that_of_the_drawing(
    units: SimpleNamespace, tips: str
) -> None:
    """The highest and the leftmost corner of any blade, and an allowance."""
    unit = read_document(units.document(ring(tips=tips))).top
    highest = min(float(y) for patch in unit.own_patches()[1:] for _, y in patch.points)
    leftmost = min(float(x) for patch in unit.own_patches()[1:] for x, _ in patch.points)
    steps = steps_for(20, tips)
    sides, above = map(float, steps.edge_gap)
    # round edges are drawn as chords, less than 1/100 in inside
    assert sides == pytest.approx(leftmost + 0.25, abs=0.01)
    assert above == pytest.approx(highest + 0.25, abs=0.01)


def test_a_ruler_of_the_angle_serves_where_the_ends_are_straight(units: SimpleNamespace, sewn: Sewn) -> None:
    def told(tips: str) -> list[str]:
        (steps,) = sewn(units.document(ring(tips=tips))).steps.values()
        return [step["text"] for step in steps if step["id"].startswith("cutting.blades")]

    [pointed] = told("pointed")
    assert "18 degrees" in pointed and "5 1/8 in wide" in pointed
    assert len(told("flat")) == 1
    assert told("round") == []
