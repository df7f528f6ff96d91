"""The plan and the drawings as Dutch viewers have them: other words, and nothing but other words."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from service.craft.audience import Audience, writing_for
from service.craft.document import read_document
from service.craft.drawing.scenes import Scene
from tests.sewing.conftest import TOPS, document, odd_block
from workers.recipe import JobInput
from workers.sewing.names import has_article
from workers.sewing.plan import plan_sewing
from workers.sewing.recipe import make_sewing_plan
from workers.sewing.steps import list_steps
from workers.sewing.steps.scenes.finding import find_scene
from workers.sewing.steps.step import Lesson

CUSHION = Path("seed_data/2027-03-rhubarb-cushion/project.json")
DUTCH = {"language": "nl"}
SAID = {"title", "makes", "towards", "why", "help", "text"}
"""The fields of a plan that hold words for viewers; any other is the same whoever reads."""

ALIKE = {"open", "ring", "stop", "top"}
"""Labels that are one word in both languages."""

ENGLISH = re.compile(
    r"\b(the|and|with|from|its|each|to|on|by|sew|sewn|cut|seams?|rows?|borders?|squares?|triangles?|pieces?|patches"
    r"|back|sides?|edges?|lines?|cloths?|pressed|finished)\b",
    re.IGNORECASE,
)
"""English words that are none in Dutch, and in no name that the makers of these projects gave. From memory."""

RING = {
    "unit": "fan blade ring",
    "size": ["14", "14"],
    "fabric": "frost",
    "fabrics": ["leaf", "soil"],
    "blades": 20,
    "tips": "pointed",
    "reach": "6",
    "hole": "1 1/2",
    "centre": {"fabric": "leaf", "size": "3 1/2"},
}
NAMED = (
    "borders of each corner",
    "border with squares",
    "deep",
    "cornerstones around",
    "stars",
    "strip sets",
)
SHAPED = (
    "by corners, spool",
    "by corners, ring in a row",
    "hexagons",
    "diamonds",
    "quarter squares, three cloths",
)
TRIED = (
    *NAMED,
    *SHAPED,
    "geese, four at a time",
    "geese, corner squares",
    "turned on point",
    "ring of blades",
)


def raw_of(name: str) -> dict[str, Any]:
    """The document of a top by its name."""
    return document(RING if name == "ring of blades" else TOPS[name], {"b": odd_block()})


def plan_of(raw: dict[str, Any]) -> Any:
    """The `sewing.json` of a document."""
    made = make_sewing_plan(JobInput("sewing", raw))
    return json.loads(next(file.data for file in made if file.name == "sewing.json"))


@cache
def plans_of(name: str) -> tuple[Any, Any]:
    """The plan of a top in English and in Dutch."""
    return plan_of(raw_of(name)), plan_of(raw_of(name) | DUTCH)


def without_words(value: Any) -> Any:
    """A plan, its words left out."""
    if isinstance(value, dict):
        return {key: without_words(inner) for key, inner in value.items() if key not in SAID}
    return [without_words(inner) for inner in value] if isinstance(value, list) else value


def words_of(plan: Any) -> Iterator[str]:
    """Every title and name in a plan."""
    for stage in plan["stages"]:
        yield from (stage["title"], stage["makes"])
    yield from (seam["towards"] for seam in plan["seams"])
    for failing in plan["junctions"]["not_nesting"]:
        yield from (failing["why"], failing["help"])


def scenes_in(language: str, raw: dict[str, Any]) -> list[Scene]:
    """The drawings of all steps of all tracks."""
    with writing_for(Audience(language=language)):
        project = read_document(raw)
        plan = plan_sewing(project)
        lessons = [Lesson(plan, track) for track in project.tracks]
        return [find_scene(step, lesson) for lesson in lessons for step in list_steps(lesson)]


@pytest.mark.parametrize("name", TRIED)
def test_a_plan_in_dutch_has_the_ids_piles_seams_and_order_of_the_english_one(name: str) -> None:
    english, dutch = plans_of(name)
    assert without_words(dutch) == without_words(english)


@pytest.mark.parametrize("name", TRIED)
def test_no_title_or_name_of_a_dutch_plan_holds_an_english_word(name: str) -> None:
    """The same words are found in the English plan, so that none here means something."""
    english, dutch = ({text for text in words_of(plan) if ENGLISH.search(text)} for plan in plans_of(name))
    assert english
    assert dutch == set()


@pytest.mark.parametrize("name", TRIED)
def test_titles_tell_the_stages_of_a_dutch_plan_apart(name: str) -> None:
    titles = [stage["title"] for stage in plans_of(name)[1]["stages"]]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("name", [*TRIED, "cushion"])
def test_every_label_and_description_of_a_drawing_is_dutch(name: str) -> None:
    """On every track of the cushion: cutting, applique and finishing as well."""
    raw = json.loads(CUSHION.read_text()) if name == "cushion" else raw_of(name)
    scenes = scenes_in("nl", raw)
    said = {text for scene in scenes for text in (scene.alt, *(text for _, text in scene.labels))}
    assert {text for text in said - ALIKE if ENGLISH.search(text)} == set()


def test_drawings_in_dutch_show_what_the_english_ones_show() -> None:
    """Cloth, lines, pins and places of labels are the same; the words alone differ."""
    raw = raw_of("borders of each corner")
    for english, dutch in zip(scenes_in("en", raw), scenes_in("nl", raw), strict=True):
        assert (dutch.pieces, dutch.lines, dutch.pins) == (english.pieces, english.lines, english.pins)
        assert [at for at, _ in dutch.labels] == [at for at, _ in english.labels]
        assert dutch.alt != english.alt


def test_a_language_leaves_no_word_behind_for_the_next_reader() -> None:
    """English, Dutch and English again, in one process and in one document."""
    raw = raw_of("ring of blades")
    first, _ = plan_of(raw), plan_of(raw | DUTCH)
    assert plan_of(raw) == first
    tracks = [{"name": "by hand", "has": []}, {"name": "met de hand", "has": [], **DUTCH}]
    files = {file.name: file.data for file in make_sewing_plan(JobInput("sewing", raw | {"tracks": tracks}))}
    dutch = json.loads(files["sewing-nl-as-written.json"])
    assert json.loads(files["sewing.json"]) == first
    assert dutch == plan_of(raw | DUTCH)


def test_a_name_has_its_article_in_the_language_of_the_reader() -> None:
    """Dutch has two: "de" and "het"."""
    with writing_for(Audience(language="nl")):
        assert has_article("de top")
        assert has_article("het midden van de top")
        assert not has_article("deel 3")
        assert not has_article("the top")
