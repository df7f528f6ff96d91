"""Applique and finishing in Dutch: the same steps, all of their words, and each trade word where it is first used."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.audience import Audience, writing_for
from service.craft.document import read_document
from service.craft.language import LANGUAGES, phrase
from service.craft.outlines import read_svg, to_json
from tests.sewing.test_split_steps import FILES, LEEK, leaves
from tests.stitches.test_recipe import document as stitched
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.finishing_pictures import draw_finishing
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.sewing.steps.care_words import KINDS
from workers.sewing.steps.hazards import ALWAYS, FULL, SHORT
from workers.sewing.steps.step import APPLIQUE, FINISHING
from workers.sewing.steps.terms import EXPLANATIONS, is_used

Steps = list[dict[str, Any]]
DUTCH = Audience(language="nl")
ENGLISH = re.compile(r"\b(?:the|and|with|from|sew|cut(?!-)|lay|its|to|edge|back|it)\b", re.IGNORECASE)
"""Words that no Dutch sentence holds and hardly an English one does without. From memory."""

KEPT = ("id", "chapter", "stage", "tools", "files", "pieces")
"""What programs compare: the same in every language."""

TRACKS = [
    {"name": "a", "has": ["hoop 130x180", "cutter 12x12"], "reading": "new to everything"},
    {"name": "b", "has": ["hoop 130x180"], "reading": "new to everything"},
    {"name": "c", "has": ["cutter 12x12"], "reading": "new to everything"},
    {"name": "d", "has": [], "reading": "new to everything"},
]
EDGES = ("satin", "zigzag", "blanket", "raw", "triple run", "turned")
LEAF = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">'
    '<rect id="leaf" width="40" height="40"/></svg>'
)
BINDINGS = [
    {"cut": "straight"},
    {"cut": "straight", "join": "straight", "fold": "single"},
    {"cut": "bias"},
    {"cut": "continuous bias", "fold": "single"},
]


def blad(number: int, **more: Any) -> dict[str, Any]:
    """A piece with a Dutch name: what the maker wrote is not translated."""
    at = [str(3 + 3 * (number % 9)), str(4 + 5 * (number // 9))]
    thread = {"name": "prei", "colour": "#5f8f4e"}
    return {
        "name": f"blad {number}",
        "outline": "leaf.svg",
        "fabric": "leaf",
        "at": at,
        "thread": thread,
    } | more


@pytest.fixture
def both(
    units: SimpleNamespace, sewn: Callable[..., SimpleNamespace]
) -> Callable[..., list[tuple[Steps, Steps]]]:
    """The steps of each track in English and in Dutch."""
    cloths = {
        key: {**cloth, "name": key} for key, cloth in units.document(units.patch("frost"))["fabrics"].items()
    }
    cloths["fleece"] = {"name": "fleece", "cut": "trim in place", "usable_width": "58"}

    def make(side: str = "40", **more: Any) -> list[tuple[Steps, Steps]]:
        raw = units.document(units.patch("frost", side, side), **{"tracks": TRACKS, **more}) | {
            "fabrics": cloths
        }
        outlines = {"leaf.svg": to_json(read_svg(LEAF.encode(), "leaf.svg"))}
        english, dutch = (
            sewn(raw | {"language": language}, outlines=outlines).steps for language in LANGUAGES
        )
        return [(english[track], dutch[track]) for track in english]

    return make


def in_chapters(steps: Steps, *chapters: str) -> Steps:
    return [step for step in steps if step["chapter"] in chapters]


def say(step: dict[str, Any]) -> str:
    """Everything that is read of a step, besides what stands in its drawing."""
    terms = [word for term in step["terms"] for word in term.values()]
    return " ".join([step["heading"], step["text"], step["why"], step["caution"], *terms])


def english_left(steps: Steps) -> list[str]:
    return [f"{step['id']}: {say(step)}" for step in steps if ENGLISH.search(say(step))]


def agree(english: Steps, dutch: Steps) -> bool:
    """Whether two lists of steps are one to a program."""
    return [{key: s[key] for key in KEPT} for s in english] == [{key: s[key] for key in KEPT} for s in dutch]


def all_pieces() -> Iterator[dict[str, Any]]:
    """Two of every edge, of cloth cut beforehand and of cloth trimmed in place; one lies on another."""
    number = 0
    for fabric, edges in (("leaf", EDGES), ("fleece", EDGES[:-1])):
        for edge in edges:
            for turn in (0, 25):
                above = {"above": ["blad 0"]} if number == 1 else {}
                yield blad(number, edge=edge, fabric=fabric, turn=turn) | above
                number += 1


def test_every_way_of_applique_is_taught_in_dutch_and_to_programs_in_the_same_steps(both) -> None:
    """On all four tracks, the first of its kind and the next."""
    owned = {"name": "patroon van oma", "covers": ["leaf.svg"], "rights": "viewer must own"}
    for more in ({}, {"sources": [owned]}):
        for english, dutch in both(pieces=list(all_pieces()), **more):
            assert agree(english, dutch)
            told = in_chapters(dutch, APPLIQUE)
            assert len(told) > 20 and english_left(told) == []


@pytest.mark.parametrize("binding", BINDINGS, ids=lambda binding: " ".join(binding.values()))
@pytest.mark.parametrize("side", ["12", "60"])
def test_every_finish_is_taught_in_dutch_and_to_programs_in_the_same_steps(both, binding, side) -> None:
    """With and without layers below, over a top that one width of cloth holds and over one that it does not."""
    cloth = {"fabric": "soil"}
    finishes = (
        {"backing": cloth, "batting": {}, "binding": cloth | binding, "sleeve": cloth},
        {"backing": cloth | {"overhang": "4"}, "batting": {"overhang": "2"}, "binding": cloth | binding},
        {"backing": cloth, "sleeve": cloth},
        {"batting": {}},
    )
    for finish in finishes:
        for english, dutch in both(side, finish=finish):
            assert agree(english, dutch)
            assert english_left(in_chapters(dutch, FINISHING)) == []


def test_a_piece_sewn_in_parts_and_a_motif_that_comes_again_are_taught_in_dutch() -> None:
    for pieces in ([LEEK], [{**LEEK, "edge": "turned"}], [{**LEEK, "edge": "raw"}], leaves("0", "0", "90")):
        raw = stitched(*pieces, tracks=("hoop 130x180", "cutter 12x12")) | {"language": "nl"}
        for file in make_sewing_plan(JobInput("sewing", raw, FILES)):
            if file.name.startswith("steps-"):
                assert english_left(in_chapters(json.loads(file.data)["steps"], APPLIQUE)) == []


def first_uses(steps: Steps) -> dict[str, int]:
    """Where the steps of applique and finishing explain which term."""
    told = in_chapters(steps, APPLIQUE, FINISHING)
    return {entry["term"]: number for number, step in enumerate(told) for entry in step["terms"]}


def test_dutch_steps_explain_the_terms_that_english_ones_do_and_none_of_them_later(both) -> None:
    """In applique and finishing, for whom all is new. Dutch is sooner where it has one word for what English says in
    two, as "plakvlies" for fusible web and web, and explains what it has a word for: "festonrand" for blanket edge.
    """
    cloth = {"fabric": "soil"}
    finish = {"backing": cloth, "batting": {}, "binding": {**cloth, "cut": "bias"}, "sleeve": cloth}
    with writing_for(DUTCH):
        said = {term: phrase(term) for term in EXPLANATIONS}
    for english, dutch in both("60", pieces=list(all_pieces()), finish=finish):
        ours = {said[term]: place for term, place in first_uses(english).items()}
        theirs = first_uses(dutch)
        assert len(ours) > 15 and ours.keys() <= theirs.keys()
        assert [term for term in ours if theirs[term] > ours[term]] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_pattern_of_a_trade_word_can_be_searched_for(language: str) -> None:
    with writing_for(Audience(language=language)):
        for term, (looks, meaning) in EXPLANATIONS.items():
            assert re.compile(phrase(looks)).search("") is None, f"{term} is found in nothing"
            assert phrase(meaning).endswith(".")


def test_every_trade_word_and_every_caution_has_its_dutch() -> None:
    with writing_for(DUTCH):
        for _, meaning in EXPLANATIONS.values():
            assert phrase(meaning) != meaning
        for caution in (*FULL.values(), *SHORT.values(), ALWAYS):
            assert phrase(caution) != caution and not ENGLISH.search(phrase(caution))


@pytest.mark.parametrize(
    ("term", "found", "other"),
    [
        ("binding", "Vouw de bies recht omhoog.", "Bied hem aan."),
        ("tack-down", "Stik van achteren: zo zet je het stuk blad vast.", "Zet de naald vast."),
        ("backing", "Leg de achterkant van linnen neer.", "Teken op de achterkant van het vierkant."),
        ("border", "Naai de randstroken aan.", "Trek niet aan de rand."),
        ("hooping", "Zet het borduurraam op de machine.", "Zet het raam open."),
        ("strip", "Snijd stroken van 5 cm.", "Naai de strokenset."),
    ],
)
def test_a_dutch_word_of_everyday_is_no_trade_word(term: str, found: str, other: str) -> None:
    with writing_for(DUTCH):
        looks, _ = EXPLANATIONS[term]
        assert is_used(looks, found) and not is_used(looks, other)


def test_the_drawings_of_the_finishing_stand_under_the_dutch_headings(both, units: SimpleNamespace) -> None:
    """A back of two panels, and a binding on the bias: each drawing finds its steps by their heading."""
    cloth = {"fabric": "soil"}
    finish = {"backing": cloth, "binding": {**cloth, "cut": "bias"}}
    (_, dutch), *_ = both("60", finish=finish)
    raw = units.document(units.patch("frost", "60", "60"), finish=finish, language="nl")
    (plan,) = (
        json.loads(f.data) for f in make_cutting_plan(JobInput("cutting", raw)) if f.name == "cutting.json"
    )
    with writing_for(DUTCH):
        drawn = draw_finishing(read_document(raw), plan)
    assert set(drawn) == {"Lagen en quilten", "Bies"} <= {step["heading"] for step in dutch}


def test_every_kind_of_work_has_a_word_for_where_it_has_no_name(any_top, plan_of) -> None:
    """As in "leave the half-square triangle lying flat"."""
    kinds = {stage.work.kind for stage in plan_of(any_top).stages}
    assert kinds <= set(KINDS)
    with writing_for(DUTCH):
        assert [kind for kind in kinds if phrase(kind) == kind] == []
