"""Which way seams fall when nothing else decides, and how that is said."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.fabric import Fabric
from workers.sewing.liking import name_press, name_towards, shows_through, weigh_darkness, weigh_sides
from workers.sewing.plan import SewingPlan
from workers.sewing.works import Beside, SeamLine

PlanOf = Callable[..., SewingPlan]

CLOTHS = {
    "light": Fabric("light", "frost white", "#eef1ee", usable_width=Fraction(40)),
    "dark": Fabric("dark", "soil brown", "#5b4636", usable_width=Fraction(40)),
}
LIGHT, DARK = Beside("cloth", "light", "frost white"), Beside("cloth", "dark", "soil brown")
PIECED = Beside("pieced", words="star")


def seam(left: Beside, right: Beside) -> SeamLine:
    """A level seam sewn from left to right: the left hand is up, the right hand down."""
    return SeamLine(0j, 3 + 0j, left, right)


def liked(left: Beside, right: Beside, bulk: tuple[int, int] = (0, 0)) -> str:
    up, down = weigh_sides(seam(left, right), bulk, CLOTHS)
    return "up" if up < down else "down" if down < up else "either"


@pytest.mark.parametrize(
    ("left", "right", "way"),
    [
        (LIGHT, DARK, "down"),
        (DARK, LIGHT, "up"),
        (LIGHT, LIGHT, "either"),
        (LIGHT, PIECED, "up"),
        (PIECED, DARK, "down"),
        (Beside("sashing", "light"), DARK, "up"),
        (Beside("border", "light"), Beside("inside", "dark"), "up"),
        (Beside("setting triangle", "light"), PIECED, "up"),
        (Beside("corner", "light"), Beside("base", "dark"), "up"),
        (Beside("cornerstone", "dark"), Beside("sashing", "light"), "down"),
    ],
)
def test_a_seam_falls_where_the_trade_lets_it_fall(left: Beside, right: Beside, way: str) -> None:
    """Darker cloth; the plain unit; sashing, border, triangle, flipped corner before all else.

    To the darker cloth: joomag quilting magazine, issue 5, p. 18. The others: common practice, no source.
    """
    assert liked(left, right) == way


def test_away_from_where_more_seams_end() -> None:
    """Between two sewn units the thinner one takes the allowance."""
    assert liked(PIECED, PIECED, (3, 1)) == "down"
    assert liked(PIECED, PIECED, (1, 3)) == "up"


def test_the_plain_unit_takes_the_seam_though_it_is_lighter(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Beside a unit of darker cloths whose seams end elsewhere, the plain square still takes the seam."""
    corner = units.corners("nw", base="soil", corner="leaf")
    plan = plan_of(units.document(units.grid([units.patch("frost"), corner])))
    (joined,) = plan.stages[-1].seams
    assert (joined.press, joined.towards) == ("left", "the plain unit")


@pytest.mark.parametrize(
    ("colour", "darkness"), [("#ffffff", 0.0), ("#000000", 1.0), ("#ff0000", 1 - 0.2126)]
)
def test_darkness_is_the_luminance_turned_round(colour: str, darkness: float) -> None:
    """White, black, and red with its weight of 0.2126 (ITU-R BT.709)."""
    cloth: Any = SimpleNamespace(colour=colour)
    assert weigh_darkness(cloth) == pytest.approx(darkness)


def test_ways_are_named_in_the_picture() -> None:
    """Level, upright and slanting seams, both hands; a fixed way stays as it is."""
    upright, slanting = SeamLine(0j, 3j, DARK, LIGHT), SeamLine(3j, 3 + 0j, DARK, LIGHT)
    assert [name_press(seam(LIGHT, DARK), side) for side in (0, 1)] == ["up", "down"]
    assert [name_press(upright, side) for side in (0, 1)] == ["right", "left"]
    assert [name_press(slanting, side) for side in (0, 1)] == ["up", "down"]
    mitre = SeamLine(0j, 1 + 1j, DARK, DARK, fixed="open")
    assert (name_press(mitre, 0), name_towards(mitre, 0)) == ("open", "both sides")


def test_sides_are_called_so_that_a_maker_finds_them() -> None:
    """A cloth by its name, the plain unit, the sewn unit, or the unit on that side."""
    assert name_towards(seam(LIGHT, DARK), 1) == "soil brown"
    assert name_towards(seam(LIGHT, PIECED), 0) == "the plain unit"
    assert name_towards(seam(LIGHT, PIECED), 1) == "the sewn unit"
    assert name_towards(SeamLine(0j, 3j, PIECED, PIECED), 1) == "the unit on the left"


def test_dark_cloth_under_light_cloth_shows_through() -> None:
    """Pressed to the dark nothing shows; to the light it does; one cloth on itself never does, nor what is sewn."""
    light_above = seam(LIGHT, DARK)
    assert [shows_through(light_above, side, CLOTHS) for side in (0, 1)] == [True, False]
    assert not any(shows_through(seam(DARK, DARK), side, CLOTHS) for side in (0, 1))
    assert not any(shows_through(seam(LIGHT, PIECED), side, CLOTHS) for side in (0, 1))


def test_where_nesting_asks_for_the_light_side_the_step_says_what_helps(
    units: SimpleNamespace, sewn: Callable[..., SimpleNamespace]
) -> None:
    """Half of the units of a pair that meets at its points go to the light cloth; a step before says to trim."""
    half = units.half("frost", "soil")
    made = sewn(units.document(units.grid([half, units.turned(half, 90)])))
    (shown,) = [s for s in made.plan["seams"] if s["stage"] != "top"]
    assert (shown["shadows"], shown["other_ways"][0]["shadows"]) == (False, True)
    (steps,) = made.steps.values()
    texts = {step["id"].rpartition(".")[2]: step["text"] for step in steps if "two-at-a-time." in step["id"]}
    assert "a thread narrower" in texts["grade"]
    assert list(texts).index("grade") < list(texts).index("press")
