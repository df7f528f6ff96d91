"""How far off is still fine: the closed form, and the line that decides."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import ceil, sqrt
from types import SimpleNamespace

import pytest

from service.craft.accuracy import Accuracy
from service.craft.measure import MM_PER_INCH
from workers.sewing.lines import Line, LineFinder
from workers.sewing.plan import SewingPlan
from workers.sewing.tolerance import STEPS, ErrorModel, find_variance, measure_slack, round_limits

PlanOf = Callable[..., SewingPlan]
SIXTEENTH = Fraction(1, 16)


@pytest.mark.parametrize("seams", [0, 1, 2, 3, 5, 8, 20, 100, 1000])
def test_the_slack_is_two_deviations_rounded_up(seams: int) -> None:
    """Against the same form in floats: 2·sqrt(k·σs² + 2(k+1)·σc² + k²·σh²), up to 1/16, never less than 1/16."""
    deviation = sqrt(seams / 64**2 + 2 * (seams + 1) / 128**2 + (seams / 256) ** 2)
    assert (
        measure_slack(seams, SIXTEENTH, ErrorModel()) == max(1, ceil(2 * deviation * 16 - 1e-9)) * SIXTEENTH
    )


def test_more_seams_never_give_less_slack() -> None:
    """Errors add up."""
    slack = [measure_slack(n, SIXTEENTH, ErrorModel()) for n in range(200)]
    assert slack == sorted(slack)


def test_the_model_can_be_tuned() -> None:
    """With careless seams the limits move outwards."""
    careless = ErrorModel(Accuracy(seam=Fraction(1, 32)))
    assert measure_slack(8, SIXTEENTH, careless) > measure_slack(8, SIXTEENTH, ErrorModel())


def test_a_habit_grows_with_every_seam_and_chance_with_their_root() -> None:
    """Sixteen seams are off by 4 times what one is by chance, by 16 times what one is by habit."""
    chance = Accuracy(seam=Fraction(1, 32), cut=Fraction(0), habit=Fraction(0))
    habit = Accuracy(seam=Fraction(0), cut=Fraction(0), habit=Fraction(1, 32))
    assert find_variance(16, chance) == Fraction(4, 32) ** 2
    assert find_variance(16, habit) == Fraction(16, 32) ** 2


def test_a_twelve_inch_block_is_allowed_an_eighth() -> None:
    """1/16 in a unit is good, 1/8 in a 12 in block of four units acceptable: from memory."""
    unit, block = (measure_slack(seams, SIXTEENTH, ErrorModel()) for seams in (1, 3))
    assert (unit, block) == (Fraction(1, 16), Fraction(1, 8))


def test_limits_are_rounded_outwards() -> None:
    """A size between two marks of the ruler keeps the slack on both sides."""
    size = Fraction(10, 3)
    low, high = round_limits(size, 0.05, 0.05, "in", ErrorModel())
    assert (low, high) == (Fraction(52, 16), Fraction(55, 16))


def test_metric_limits_are_whole_millimetres() -> None:
    """A ruler in millimetres has no sixteenths."""
    limits = round_limits(Fraction(100) / MM_PER_INCH, 0.07, 0.05, "mm", ErrorModel())
    assert [limit * MM_PER_INCH for limit in limits] == [98, 102]
    assert [(limit * MM_PER_INCH).denominator for limit in limits] == [1, 1]
    assert STEPS["cm"] == STEPS["mm"]


@pytest.mark.parametrize(
    ("what", "crossed"),
    [
        ("patch", (0, 0)),
        ("row", (2, 0)),
        ("half", (1, 1)),
        ("corners", (2, 2)),
        ("one corner", (1, 1)),
        ("nine patch", (6, 6)),
        ("framed", (8, 8)),
        ("on its corner", (10, 10)),
    ],
)
def test_seams_are_counted_along_the_worst_line(
    units: SimpleNamespace, plan_of: PlanOf, what: str, crossed: tuple[int, int]
) -> None:
    """Counted by hand on the drawing: a level line and an upright one, where they cross most seams."""
    framed = units.bordered(units.nine_patch(), {"width": "1", "fabric": "soil"})
    tops = {
        "patch": units.patch("soil"),
        "row": units.grid([units.patch("soil"), units.patch("leaf"), units.patch("soil")]),
        "half": units.half("soil", "leaf"),
        "corners": units.corners(),
        "one corner": units.corners("sw"),
        # the top third of a row: two corners of each of two units, and two joins
        "nine patch": units.nine_patch(),
        "framed": framed,
        # the middle, turned, is crossed slantwise: at least the straight count, and the two triangles
        "on its corner": units.on_corner(framed),
    }
    plan = plan_of(units.document(tops[what]))
    level, upright = LineFinder(plan.project.rules).find(plan.stages[-1].work)
    counted = level.seams, upright.seams
    if what == "on its corner":
        assert counted >= crossed
    else:
        assert counted == crossed


def test_a_unit_that_is_trimmed_is_one_piece_of_a_line(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Three half-square triangles in a row: two joins, and no seam of their own; by 7/8 each has 0.0214 to trim."""
    half = units.half("soil", "leaf")
    plan = plan_of(units.document(units.grid([half, half, half])))
    level, upright = LineFinder(plan.project.rules).find(plan.stages[-1].work)
    assert (level.seams, len(level.trimmed), level.own) == (2, 3, None)
    assert level.trimmed[0] == pytest.approx(7 / 8 - (2 + sqrt(2)) / 4)
    assert (upright.seams, len(upright.trimmed)) == (0, 1)
    first = LineFinder(plan.project.rules).find(plan.stages[0].work)[0]
    assert first == Line(1, (), level.trimmed[0])
