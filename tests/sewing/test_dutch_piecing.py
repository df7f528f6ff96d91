"""Cutting and piecing in Dutch: the same steps, all of their words, for every kind of top."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from api_docs.collect_words import read_all, read_catalogue
from service.craft.audience import Audience, writing_for
from service.craft.document import read_document
from service.craft.planar.round_shapes import TIPS
from tests.sewing.beds import bed
from tests.sewing.conftest import CLOTHS, TOPS, document, geese, grid, mirrored, odd_block, quarters, turned
from tests.sewing.test_dutch_names import RING
from workers.recipe import JobInput
from workers.sewing.plan import plan_sewing
from workers.sewing.recipe import make_sewing_plan
from workers.sewing.steps.pressing_words import press_sentence
from workers.sewing.steps.seam_names import name_seams
from workers.sewing.steps.step import CUTTING, PIECING

STEPS = Path(__file__).parents[2] / "workers" / "sewing" / "steps"
SEED = sorted((Path(__file__).parents[2] / "seed_data").glob("2027-*/project.json"))
TRACK = {"name": "met de hand", "has": [], "reading": "new to everything"}
KEPT = ("id", "chapter", "stage", "tools", "files", "size", "pieces")
"""What programs compare: the same in every language."""

ENGLISH = re.compile(
    r"\b(the|and|with|from|to|sew|sewn|press|pressed|cut(?!-)|each|every|both|its|it|they|them|their|this|that|these|are"
    r"|which|where|when|so|as|at|seams?|rows?|edges?|sides?|corners?|squares?|triangles?|pieces?|patch|patches|parts?"
    r"|lay|trim|fold|draw|mark|join|left|right|upper|lower|towards|counted|place|places)\b",
    re.IGNORECASE,
)
"""Words that Dutch texts about sewing do not hold, and nearly every English one does. From memory."""

PLACE = re.compile(r"{(\w+)[^}]*}")


def ring(**more: Any) -> dict[str, Any]:
    """A ring of blades, its cloths in turn."""
    return RING | more


def make_more() -> dict[str, dict[str, Any]]:
    """Documents of what the tops do not show: templates, panels, long strips, steps that give away halves."""
    soil = {"fabrics": {"frost": {}, "leaf": {}, "soil": {"usable_width": "18"}}}
    unit = quarters("frost", "leaf", "soil", "leaf", method="cut triangles")
    rows = [[unit, turned(unit, 90), unit], [mirrored(unit), unit, turned(unit, 270)]]
    spare = {"unit": "corner squares", "size": ["6", "6"], "fabric": "frost"}
    spare |= {"corners": {"size": "3", "fabric": "leaf", "at": ["nw", "se"]}, "spare_triangles": True}
    made = {f"blades, {tips}": document(ring(tips=tips)) for tips in TIPS}
    made |= {f"{blades} blades": document(ring(blades=blades)) for blades in (12, 15, 18)}
    cloths = {"frost": CLOTHS["frost"] | {"directional": True}, "leaf": CLOTHS["leaf"] | {"napped": True}}
    made["cloths with a direction"] = document(geese(), fabrics=CLOTHS | cloths)
    made["halves of cut triangles"] = document(grid(*rows))
    made["spare triangles"] = document(spare)
    made |= {f"long strips, {join}": bed("30", cutting={"join": join}) for join in ("straight", "diagonal")}
    made["panels"] = document({"unit": "patch", "size": ["30", "40"], "fabric": "soil"}) | soil
    return made


DOCUMENTS = {name: document(top, {"b": odd_block()}) for name, top in TOPS.items()} | make_more()
NAMES = {"frost": "rijp", "leaf": "prei", "soil": "aarde", "fleece": "vlies"}
"""Names that a Dutch maker gives her cloths: they are not translated."""


def steps_of(raw: dict[str, Any]) -> list[dict[str, Any]]:
    """The steps of cutting and piecing, for viewers who are new to them."""
    cloths = {key: cloth | {"name": NAMES[key]} for key, cloth in raw["fabrics"].items()}
    files = make_sewing_plan(JobInput("sewing", raw | {"fabrics": cloths, "tracks": [TRACK]}))
    told = next(json.loads(file.data)["steps"] for file in files if file.name.startswith("steps-"))
    return [step for step in told if step["chapter"] in (CUTTING, PIECING)]


@cache
def both(name: str) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """The steps of a document in English and in Dutch."""
    return steps_of(DOCUMENTS[name]), steps_of(DOCUMENTS[name] | {"language": "nl"})


def without_text(value: Any) -> Any:
    """A size with its lengths in numbers alone."""
    if isinstance(value, dict):
        return {key: without_text(inner) for key, inner in value.items() if key != "text"}
    return value


def keep(step: dict[str, Any]) -> list[Any]:
    """What programs compare of a step."""
    return [without_text(step[key]) for key in KEPT]


def say(step: dict[str, Any]) -> str:
    """What is read of a step, besides its drawing, its cautions and its terms."""
    return " ".join([step["heading"], step["text"], step["why"], step["if_not"]])


@pytest.mark.parametrize("name", DOCUMENTS)
def test_the_steps_are_the_same_to_programs_in_both_languages(name: str) -> None:
    english, dutch = both(name)
    assert list(map(keep, dutch)) == list(map(keep, english))


@pytest.mark.parametrize("name", DOCUMENTS)
def test_no_dutch_step_holds_an_english_word(name: str) -> None:
    """The same words are found in nine of ten English steps, so that none here means something."""
    english, dutch = ([step for step in steps if ENGLISH.search(say(step))] for steps in both(name))
    assert len(english) > 0.9 * len(both(name)[0])
    assert [f"{step['id']}: {say(step)}" for step in dutch] == []


@pytest.mark.parametrize("path", SEED, ids=lambda path: path.parent.name)
def test_every_track_of_a_month_has_its_steps_under_the_same_ids_in_dutch(path: Path) -> None:
    raw = json.loads(path.read_text())
    english, dutch = (
        {file.name: json.loads(file.data) for file in make_sewing_plan(JobInput("sewing", raw | language))}
        for language in ({}, {"language": "nl"})
    )
    lists = [name for name in english if name.startswith("steps-")]
    assert lists
    for name in lists:
        assert [step["id"] for step in dutch[name]["steps"]] == [s["id"] for s in english[name]["steps"]]


def literals() -> Iterator[tuple[str, str]]:
    """Every message that the code of the steps says or marks, with its file."""
    for path in sorted(STEPS.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in (
                "phrase",
                "phrase_count",
                "mark",
            ):
                first = node.args[0]
                if isinstance(first, ast.Constant):
                    yield path.name, str(first.value)


def test_every_message_of_the_steps_was_collected() -> None:
    """A message inside the words of another one can escape the collector."""
    known = {one[0] if isinstance(one, tuple) else one for one in read_all("nl")}
    assert [(file, message) for file, message in literals() if message not in known] == []


def test_every_message_of_the_steps_has_its_dutch_with_the_same_places_to_fill() -> None:
    for message in read_catalogue("nl", "steps"):
        if not message.id:
            continue
        ids, said = ([one] if isinstance(one, str) else list(one) for one in (message.id, message.string))
        assert all(said), f"no Dutch for {message.id}"
        assert len(said) == len(ids), message.id
        for one in said:
            assert set(PLACE.findall(one)) == set(PLACE.findall(ids[-1])), message.id


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("one row", "Pers de naad naar de kant van soil brown dot."),
        ("hexagons in a border", "Pers elke naad naar de rand."),
        ("on point 2 by 2", "Pers naad 1, geteld vanaf links, naar rechts; naad 2 naar links."),
    ],
)
def test_pressing_is_said_as_dutch_says_it(name: str, expected: str) -> None:
    """Imperative first, the way last, cloths without an article. Common practice, no source."""
    with writing_for(Audience(language="nl")):
        plan = plan_sewing(read_document(DOCUMENTS[name]))
        assert expected in {press_sentence(stage) for stage in plan.stages}


def test_seams_that_lie_in_places_have_names_of_their_own_in_dutch_too() -> None:
    with writing_for(Audience(language="nl")):
        plan = plan_sewing(read_document(DOCUMENTS["diamonds"]))
        names = next(name_seams(stage.work) for stage in plan.stages if len(stage.work.seams) == 4)
    assert set(names.names) == {"linksboven", "rechtsboven", "linksonder", "rechtsonder"}
    assert len(names.placed) == 4
