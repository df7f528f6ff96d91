"""Grain arrows and symmetry, worked by hand."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from workers.outlines.asked import read_pieces, read_project
from workers.outlines.template_plan import Template, plan_templates
from workers.recipe import JobInput

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]


def plan(job: JobInput) -> list[Template]:
    return plan_templates(read_pieces(job, read_project(job)))


@pytest.mark.parametrize(
    ("fabric", "turn", "mirror", "arrow"),
    [
        ("leaf", 0, False, (0, -1)),
        # Turned a quarter clockwise on the top: up on the top was left on the piece, and right seen from its back.
        ("leaf", 90, False, (1, 0)),
        ("leaf", 90, True, (1, 0)),
        # Trimmed in place, the piece is drawn from its front.
        ("fleece", 90, False, (-1, 0)),
    ],
)
def test_grain_arrow_turns_back_with_the_piece(
    job: Job, piece: Make, fabric: str, turn: int, mirror: bool, arrow: tuple[float, float]
) -> None:
    (template,) = plan(job(piece("one", "leek.svg#stalk", fabric=fabric, turn=turn, mirror=mirror)))
    assert template.grain == pytest.approx(arrow)


def test_no_arrow_where_pieces_of_a_shape_lie_at_several_angles(job: Job, piece: Make) -> None:
    (template,) = plan(job(piece("one", "leek.svg#bed"), piece("two", "leek.svg#bed", turn=30)))
    assert template.grain is None
    assert "any way of the grain" in " ".join(template.words)


@pytest.mark.parametrize(("shape", "expected"), [("bed", True), ("ring", True), ("stalk", False)])
def test_symmetry_is_seen(job: Job, piece: Make, shape: str, expected: bool) -> None:
    asked = job(piece("one", f"leek.svg#{shape}"))
    assert read_pieces(asked, read_project(asked))[0].symmetrical is expected


def test_a_shape_that_is_even_along_a_diagonal_is_symmetrical(job: Job, piece: Make) -> None:
    """A right angle of two equal arms is its own mirror image after a quarter turn."""
    angle = '<svg xmlns="http://www.w3.org/2000/svg" width="9mm"><path id="angle" d="M0 0h90v20h-70v70h-20z"/></svg>'
    asked = job(piece("one", "angle.svg"), files={"angle.svg": angle})
    assert read_pieces(asked, read_project(asked))[0].symmetrical


def test_sizes_apart_are_templates_apart(job: Job, piece: Make) -> None:
    templates = plan(job(piece("one", "leek.svg#bed"), piece("two", "leek.svg#bed", scale="1.5")))
    assert [template.outline.width_mm for template in templates] == pytest.approx([60, 90])
