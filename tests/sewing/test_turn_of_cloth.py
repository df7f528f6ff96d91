"""What a fold uses up, from thickness."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import pi
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.accuracy import THICKNESS, THREAD
from service.craft.document import read_document
from service.craft.measure import MM_PER_INCH
from workers.sewing.turn_of_cloth import (
    measure_turn,
    read_strip_test,
    say_beside,
    scant_allowance,
    turn_of,
)

QUARTER = Fraction(1, 4)
Sewn = Callable[..., SimpleNamespace]


def test_a_seam_of_cotton_loses_about_a_thread() -> None:
    """π/2 · 0.25 + 0.15/2 = 0.468 mm. Between one and two thicknesses of the cloth: our own estimate; a thread of a
    cloth with 60 to the inch is 0.42 mm (derived).
    """
    loss = measure_turn(THICKNESS, THREAD).loss * MM_PER_INCH
    assert float(loss) == pytest.approx(0.4677, abs=1e-4)
    assert 0.25 < loss < 0.5


def test_thicker_cloth_and_thread_lose_more() -> None:
    """The loss is half a circle round the fold and half the thread."""
    one = Fraction(1) / MM_PER_INCH
    assert float(measure_turn(one, Fraction(0)).loss * MM_PER_INCH) == pytest.approx(pi / 2)
    assert measure_turn(Fraction(0), one).loss == one / 2
    assert measure_turn(one, one).loss > measure_turn(one, Fraction(0)).loss


def test_a_seam_sewn_scant_takes_what_is_planned(units: SimpleNamespace) -> None:
    """Two scant allowances and the loss are two full ones. The trade sews one or two threads less."""
    project = read_document(units.document(units.patch("soil")))
    scant = scant_allowance(project)
    assert 2 * scant + turn_of(project).loss == 2 * QUARTER
    assert Fraction("0.2167") < scant < QUARTER


def test_strips_that_measure_what_they_should_take_the_full_allowance() -> None:
    """Three strips of 1 1/2 measure 3 1/2 across (quiltcentric.com 2012/09/16)."""
    assert read_strip_test(QUARTER, Fraction(7, 2)) == QUARTER


def test_what_is_missing_is_shared_by_four_allowances() -> None:
    """3 7/16 for 3 1/2: 1/16 is missing, two seams have four allowances, each is 1/64 too wide (arithmetic)."""
    taken = read_strip_test(QUARTER, Fraction(55, 16))
    assert taken == Fraction(17, 64)
    assert 3 * Fraction(3, 2) - 4 * taken == Fraction(55, 16)


def test_a_corner_sewn_beside_its_diagonal_reaches_the_corner() -> None:
    """Folded about a line x outside the diagonal, a tip D inside lies D + 2x - L outside: it must be D (geometry)."""
    turn = measure_turn(THICKNESS, THREAD)
    depth = Fraction(2)
    assert depth + 2 * turn.beside_diagonal - turn.loss == depth


def _corner_text(sewn: Sewn, raw: dict[str, Any], what: str = "sew") -> str:
    steps = next(iter(sewn(raw).steps.values()))
    return next(s["text"] for s in steps if s["id"].endswith(f".{what}") and "beside the line" in s["text"])


def test_the_step_says_how_far_beside_the_line_and_on_which_side(units: SimpleNamespace, sewn: Sewn) -> None:
    """Cotton: a needle's width is enough; thick cloth: its own figure, from its thickness."""
    raw = units.document(units.corners())
    cotton = _corner_text(sewn, raw)
    assert "towards the corner that is trimmed off" in cotton
    assert "1/64 in at least" in cotton and "needle" in cotton
    corner = units.corners()["corners"]["fabric"]
    raw["fabrics"] = {**raw["fabrics"], corner: {**raw["fabrics"][corner], "thickness": "2 mm"}}
    assert say_beside(read_document(raw), corner) == Fraction(5, 64)
    thick = _corner_text(sewn, raw)
    assert "1/16 in" in thick or "5/64 in" in thick
    assert "needle" not in thick
