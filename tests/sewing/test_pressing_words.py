"""Which seam goes which way, and which copies lie on which pile: in words that somebody can act on with cloth in hand.

What the words say is held against `sewing.json`, which is read for itself; how they say it is our own choice.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from functools import cache
from types import SimpleNamespace
from typing import Any

import pytest

from tests.sewing.conftest import TOPS, document, odd_block
from tests.straight_blocks import block
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan

Sewn = Callable[..., SimpleNamespace]

COUNT_ALONE = re.compile(r"\b(?:one seam|two seams|[0-9]+ seams) (?:towards|to the|upwards|downwards|open)\b")
"""A number of seams with no word of which they are."""

VAGUE = (
    "it to the other side",
    "seam to the other side",
    "Do so with",
    "Keep them apart",
    "towards the in a ring",
    "towards both sides",
)


@cache
def sew_top(name: str) -> SimpleNamespace:
    """The plan and the steps of one of the tops, made once."""
    files = make_sewing_plan(JobInput("sewing", document(TOPS[name], {"b": odd_block()})))
    read = {file.name: json.loads(file.data) for file in files}
    steps = {told["track"]: told["steps"] for file, told in read.items() if file.startswith("steps-")}
    return SimpleNamespace(plan=read["sewing.json"], steps=steps)


def list_texts(made: SimpleNamespace) -> dict[str, str]:
    """The texts of the first track by the ids of their steps."""
    return {step["id"]: step["text"] for step in next(iter(made.steps.values()))}


def make_quarters(
    units: SimpleNamespace, rows: list[list[int]], *fabrics: str, **more: Any
) -> dict[str, Any]:
    """Quarter-square triangles, each turned by so many quarters."""
    unit = units.quarters(*fabrics, **more)
    turned = [unit, *({"unit": "turned", "inside": unit, "turn": 90 * n} for n in (1, 2, 3))]
    return units.document(units.grid(*[[turned[n] for n in row] for row in rows]))


@pytest.mark.parametrize("name", TOPS)
def test_no_step_gives_a_number_of_seams_alone(name: str) -> None:
    """Whoever holds the block has to see which ones are meant, in every kind of unit."""
    for step, text in list_texts(sew_top(name)).items():
        assert not COUNT_ALONE.search(text), (step, text)
        assert not any(words in text for words in VAGUE), (step, text)


@pytest.mark.parametrize("name", TOPS)
def test_every_pile_is_numbered_before_a_step_takes_from_it(name: str) -> None:
    """A stage with piles has a step that numbers them; each later step about its parts comes after that one."""
    made = sew_top(name)
    (steps,) = made.steps.values()
    order = {step["id"]: place for place, step in enumerate(steps)}
    for stage in made.plan["stages"]:
        if len(stage["piles"]) > 1:
            numbered = order[f"piecing.{stage['id']}.piles"]
            takers = [
                s["id"] for s in made.plan["stages"] if any(p["stage"] == stage["id"] for p in s["parts"])
            ]
            laid = [
                order[step]
                for step in order
                if step.endswith((".in-turn", ".lay")) and _stage_of(step) in takers
            ]
            assert takers and laid and all(numbered < place for place in laid)


@pytest.mark.parametrize("name", TOPS)
def test_every_pile_is_told_by_a_look_of_its_own(name: str) -> None:
    """No two piles of a stage are described alike, and their counts are those of the plan."""
    made = sew_top(name)
    said = list_texts(made)
    for stage in made.plan["stages"]:
        if len(stage["piles"]) > 1:
            text = said[f"piecing.{stage['id']}.piles"]
            told = re.findall(r"pile \d+ holds the (?:(one)|(\d+)) (.*?)(?=; pile \d+ |\.$)", text)
            assert [1 if one else int(many) for one, many, _ in told] == [p["copies"] for p in stage["piles"]]
            assert len({look for _, _, look in told}) == len(told)
            assert all(look for _, _, look in told)


def _stage_of(name: str) -> str:
    return name.removeprefix("piecing.").rpartition(".")[0]


def test_seams_of_a_row_are_counted_where_they_lie_once_the_whole_is_turned(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """Rows become columns when the top is turned: its seams are then counted from the left."""
    top = units.turned("b", 270)
    said = list_texts(sewn(units.document(top, {"b": units.odd_block()})))
    assert said["piecing.block.b.press"].startswith(
        "Press seam 1, counted from the left, to the left; seam 2 to the right"
    )


def test_seams_of_diagonal_rows_are_named_by_the_rows_they_join(units: SimpleNamespace, sewn: Sewn) -> None:
    """And those of the corner triangles by these."""
    top = units.on_point(units.nine_patch(), 1, 3)
    text = list_texts(sewn(units.document(top)))["piecing.top.press"]
    assert "the seam between diagonal rows 1 and 2 towards" in text
    assert "the 4 seams of the corner triangles towards the corner triangle" in text


def test_the_two_seams_of_a_goose_are_left_and_right(units: SimpleNamespace, sewn: Sewn) -> None:
    """Geese head to tail: one seam of each falls to the goose."""
    goose = units.geese()
    top = units.grid(
        [units.turned(goose, 90), units.grid([units.mirrored(goose)], [units.turned(goose, 180)])]
    )
    said = {name.rpartition(".")[2]: text for name, text in list_texts(sewn(units.document(top))).items()}
    assert "for pile 1, press the left seam towards the frost white." in said["press-first"]


def test_a_mitred_border_names_its_seams_by_side_and_corner(units: SimpleNamespace, sewn: Sewn) -> None:
    """Four seams along the sides, four at the corners, as the trade speaks of them."""
    border = {"width": "2", "fabric": "soil", "corners": "mitred"}
    text = list_texts(sewn(units.document(units.bordered(units.nine_patch(), border))))["piecing.top.press"]
    assert text.startswith(
        "Press the 4 seams along the sides towards the border; the 4 slanting seams at the corners open."
    )


def test_a_spun_seam_says_which_half_goes_which_way(units: SimpleNamespace, sewn: Sewn) -> None:
    """Both halves of the long seam, by where they lie in the drawing; the plan gives the same sides."""
    made = sewn(make_quarters(units, [[0, 1], [1, 0]], "soil", "frost", "soil", "frost"))
    (stage,) = [stage for stage in made.plan["stages"] if stage["kind"] == "quarter-square triangle"]
    long = next(seam for seam in made.plan["seams"] if seam["id"] == stage["seams"][2])
    words = {"up": "upwards", "down": "downwards"}
    first, second = (words[half["press"]] for half in long["halves"])
    text = list_texts(made)[f"piecing.{stage['id']}.press"]
    assert f"press its upper left half {first} and its lower right half {second}" in text


class TestHalvesOfQuarterSquares:
    """Units that are pressed in several ways are kept apart from their halves on."""

    def test_cloths_are_named_by_the_half_that_they_are_in(self, units: SimpleNamespace, sewn: Sewn) -> None:
        """A half of one cloth has no cloth to press towards that is not on both sides: its long side says the way."""
        made = sewn(make_quarters(units, [[0, 1], [2, 3]], "leaf", "soil", "frost", "frost"))
        text = next(t for name, t in list_texts(made).items() if name.endswith(".press-halves"))
        assert re.search(
            r"frost white alone (?:press the seam )?to the (?:left|right), the long side of the half", text
        )
        assert re.search(r"leek green and soil brown dot (?:press the seam )?towards the", text)

    @pytest.mark.parametrize("rows", [0, 1, 2, 3])
    def test_halves_are_counted_for_their_piles_and_sorted(
        self, rows: int, units: SimpleNamespace, sewn: Sewn
    ) -> None:
        """Each unit takes two halves of one heap; in pairs two units come of two halves, so the last may be over."""
        quarter, layout = MIXED[rows]
        made = sewn(
            units.document(units.grid(*[[lay(units, quarter, word) for word in row] for row in layout]))
        )
        said = list_texts(made)
        (stage,) = [stage for stage in made.plan["stages"] if stage["kind"] == "quarter-square triangle"]
        assert len(stage["piles"]) > 1
        presses = said[f"piecing.{stage['id']}.press-halves"]
        counted = sum(int(n) for n in re.findall(r"the seam of (\d+) hal", presses))
        heaps = {tuple(way) for way in short_seams(made, stage)}
        sorted_out = f"piecing.{stage['id']}.sort-halves" in said
        assert sorted_out == (len(heaps) > 1)
        if sorted_out:
            exact = 2 * stage["count"]
            pairs = "two at a time" in stage["id"].replace("-", " ")
            assert counted == (2 * ((stage["count"] + 1) // 2) if pairs else exact)


def lay(units: SimpleNamespace, quarter: dict[str, Any], word: str) -> dict[str, Any]:
    """A unit by its letter, `q` or `h`, and how it is turned."""
    unit = (
        units.quarters(*quarter["fabrics"], method=quarter["method"]) if word[0] == "q" else units.half(*PAIR)
    )
    return units.turned(unit, int(word[1:])) if word[1:] != "0" else unit


def short_seams(made: SimpleNamespace, stage: dict[str, Any]) -> list[list[str]]:
    """How the first two seams are pressed in each way, by the plan."""
    seams = {seam["id"]: seam for seam in made.plan["seams"]}
    first = [seams[name] for name in stage["seams"][:2]]
    others = range(len(first[0].get("other_ways") or []))
    return [
        [s["press"] for s in first],
        *[[(s["other_ways"][n] or s)["press"] for s in first] for n in others],
    ]


PAIR = ("frost", "soil")
CROSSED = {"fabrics": ["soil", "frost", "soil", "frost"], "method": "two at a time"}
MIXED = [
    (
        {"fabrics": ["leaf", "soil", "leaf", "frost"], "method": "cut triangles"},
        [["h90", "h0", "q180"], ["q180", "q180", "h180"], ["q180", "h180", "h270"]],
    ),
    (
        CROSSED,
        [["q0", "h180", "q180"], ["q180", "h180", "h180"], ["q90", "q270", "h180"], ["q90", "q270", "h270"]],
    ),
    (
        CROSSED | {"method": "cut triangles"},
        [
            ["q90", "h0", "h180", "q0"],
            ["q0", "h270", "q270", "q270"],
            ["q0", "h0", "h270", "q90"],
            ["q90", "h0", "q270", "q90"],
        ],
    ),
    (CROSSED, [["q0", "h270", "q90"], ["q180", "q270", "h90"], ["h90", "q90", "h0"]]),
]
"""Units beside half-square triangles that bind them to be pressed in several ways."""


def test_a_block_whose_seams_share_their_places_points_to_the_drawing_or_names_them(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """A spool has eight seams towards three sides: each is named by where it lies."""
    made = sewn(units.document(block("spool", 6)))
    texts = [t for name, t in list_texts(made).items() if name.endswith(".press")]
    assert any("the upper, left, lower and right seams towards" in text for text in texts)
