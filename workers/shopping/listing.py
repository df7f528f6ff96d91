"""The shopping list, from documents to plain JSON: found by the web side through its entry point."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from service.craft.audience import ENGLISH, Audience, writing_for
from service.craft.language import LANGUAGES
from service.craft.shopping import ShoppingAsked
from workers.shopping.answer import Writer, write_costs
from workers.shopping.cloths import gather_cloths
from workers.shopping.needs import Needs, read_needs
from workers.shopping.notions import list_batting, list_threads, list_webs
from workers.shopping.reckoning import Planner, count_plans, reckon_cloth


def plan_shopping(asked: ShoppingAsked) -> dict[str, Any]:
    """What to buy for so many kits of the projects; `CannotShop` where some cannot be cut or sewn.

    The guide of the API says what each field means. Where time runs out, plans are those of the rules of
    thumb, and say that they are not proved. Words are in the language that all the documents name, else in English.
    """
    with writing_for(Audience(language=choose_language(asked))):
        return _plan(asked)


def _plan(asked: ShoppingAsked) -> dict[str, Any]:
    needs = read_needs(asked.projects, asked.seconds_left)
    measure = choose_measure(needs)
    cloths = gather_cloths(needs, measure)
    planner = Planner(asked.seconds_left, count_plans(cloths))
    figures = [reckon_cloth(cloth, asked.kits, planner) for cloth in cloths]
    writer = Writer(measure, asked.kits)
    return {
        "kits": asked.kits,
        "measure": measure,
        "projects": [writer.project(one) for one in needs],
        "cloths": [writer.cloth(one) for one in figures],
        "batting": [writer.batting(one) for one in list_batting(needs)],
        "fusible": [writer.web(one) for one in list_webs(needs)],
        "threads": [writer.thread(one) for one in list_threads(needs)],
        "cost": write_costs(figures),
        "proved": all(one.roll.proved for one in figures),
        "notes": [note for one in needs for note in one.notes],
    }


def choose_language(asked: ShoppingAsked) -> str:
    """The language of all the documents; English where they differ, or where one has a fault there."""
    languages = [one.document.get("language", ENGLISH) for one in asked.projects]
    return next(
        (known for known in LANGUAGES if languages and all(one == known for one in languages)), ENGLISH
    )


def choose_measure(needs: Sequence[Needs]) -> str:
    """The measure that most of the projects are written in; the first one's where as many are."""
    counts = Counter(one.project.measure for one in needs)
    return counts.most_common(1)[0][0] if counts else "in"
