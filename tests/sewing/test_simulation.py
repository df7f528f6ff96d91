"""Errors tried out some thousand times, held against what they must come to."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import sqrt
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from service.craft.accuracy import USUAL, Accuracy
from workers.sewing.lines import Line
from workers.sewing.plan import SewingPlan
from workers.sewing.simulation import DRAWS, Draws, Simulator, find_spread, share_beyond, simulate_line
from workers.sewing.tolerance import ErrorModel, find_variance

NONE = Fraction(0)
STANDARD_ERRORS = 4
"""So many standard errors a simulated figure may be off; the seed is fixed, so a test passes always or never."""


@pytest.mark.parametrize("seams", [0, 1, 2, 3, 8, 16, 40])
@pytest.mark.parametrize(
    "accuracy",
    [
        USUAL,
        Accuracy(habit=NONE),
        Accuracy(seam=NONE, cut=NONE, habit=Fraction(1, 32)),
        Accuracy(seam=Fraction(1, 32), cut=NONE, habit=NONE),
    ],
    ids=["usual", "no habit", "habit alone", "seams alone"],
)
def test_the_simulation_agrees_with_the_closed_form(seams: int, accuracy: Accuracy) -> None:
    """n strips joined: variance n·seam² + 2(n+1)·cut² + n²·habit², within its own standard error, σ²·√(2/draws).

    Mirrored draws say the same of a square twice: half as many count.
    """
    errors = simulate_line(Line(seams), accuracy, Draws())
    expected = float(find_variance(seams, accuracy))
    assert abs(float(np.mean(errors))) < 1e-12
    assert float(np.var(errors)) == pytest.approx(
        expected, abs=STANDARD_ERRORS * expected * sqrt(2 / (DRAWS / 2)) + 1e-15
    )


def test_sixteen_seams_off_by_a_thirty_second_alike_come_to_half_an_inch() -> None:
    """homeschoolquilting.com/block_construction.html: 1/32 x 16 = 1/2. That is a habit of one person.

    By chance alone the same error comes to a quarter of that: 1/32 x √16 = 1/8.
    """
    figure = STANDARD_ERRORS / sqrt(2 * DRAWS / 2)
    habit = simulate_line(Line(16), Accuracy(seam=NONE, cut=NONE, habit=Fraction(1, 32)), Draws())
    chance = simulate_line(Line(16), Accuracy(seam=Fraction(1, 32), cut=NONE, habit=NONE), Draws())
    assert float(np.std(habit)) == pytest.approx(1 / 2, rel=figure)
    assert float(np.std(chance)) == pytest.approx(1 / 8, rel=figure)
    one = simulate_line(Line(1), Accuracy(seam=NONE, cut=NONE, habit=Fraction(1, 32)), Draws())
    assert np.allclose(habit, 16 * one), "one person's seams are all off by the same"


def test_a_line_gives_the_same_to_the_byte_every_time() -> None:
    """The same document has to give the same plan."""
    line = Line(7, (0.0, 0.02), None)
    first, again = (simulate_line(line, USUAL, Draws()).tobytes() for _ in range(2))
    assert first == again
    assert simulate_line(line, USUAL, Draws(seed=2)).tobytes() != first


def test_what_is_trimmed_comes_out_alike_where_there_is_enough_to_trim() -> None:
    """With 1/8 in to trim only the two cuts count; with nothing to trim, what is too small stays too small."""
    cuts = USUAL.cut * Fraction(2)
    assert find_variance(0, USUAL) == cuts**2 / 2
    ample = find_spread(simulate_line(Line(1, (), 1 / 8), USUAL, Draws()), 2)
    none = find_spread(simulate_line(Line(1, (), 0.0), USUAL, Draws()), 2)
    sewn = find_spread(simulate_line(Line(1), USUAL, Draws()), 2)
    assert ample.below == pytest.approx(2 * float(USUAL.cut) * sqrt(2), rel=0.06)
    assert ample.below < none.below
    assert none.above < sewn.above


def test_a_row_of_trimmed_units_is_off_by_its_joins_alone() -> None:
    """Trimmed with room, half-square triangles make a row as true as squares do."""
    trimmed = Simulator(ErrorModel()).spread(Line(3, (1 / 8,) * 4))
    plain = Simulator(ErrorModel()).spread(Line(3))
    scant = Simulator(ErrorModel()).spread(Line(3, (0.0,) * 4))
    assert trimmed.below == pytest.approx(plain.below, rel=0.02)
    assert scant.below > 1.2 * plain.below


def test_the_share_left_out_is_that_of_the_normal_curve() -> None:
    """2.275 % beyond two deviations, 0.135 % beyond three: any table of the normal curve."""
    assert (round(share_beyond(2), 5), round(share_beyond(3), 5)) == (0.02275, 0.00135)


def test_careless_sewing_widens_the_limits_of_a_plan(
    units: SimpleNamespace, plan_of: Callable[..., SewingPlan]
) -> None:
    """The section "accuracy" is what the limits are worked out from."""
    row = units.grid([units.patch("soil", "3"), units.patch("leaf", "3")] * 3)
    raw: dict[str, Any] = units.document(row)
    usual = plan_of(raw).stages[-1].size
    careless = plan_of(raw | {"accuracy": {"seam": "1/16"}}).stages[-1].size
    assert careless.expected == usual.expected
    assert careless.low[0] < usual.low[0] < usual.expected[0] < usual.high[0] < careless.high[0]
