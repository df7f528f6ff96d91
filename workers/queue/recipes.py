"""Which function makes which kind of job. Rooms are imported when a job of theirs first comes."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import Any

from workers.recipe import Recipe

TABLE: Mapping[str, str] = {
    "cutting": "workers.cutting.recipe:make_cutting_plan",
    "sewing": "workers.sewing.recipe:make_sewing_plan",
    "colourways": "workers.handouts.recipe:make_colourways",
    "stitches": "workers.stitches.recipe:make_stitches",
    "cut files": "workers.outlines.cut_files:make_cut_files",
    "templates": "workers.outlines.templates:make_templates",
    "handout": "workers.handouts.recipe:make_handout",
    "run sheet": "workers.handouts.recipe:make_run_sheet",
    "bundle": "workers.handouts.recipe:make_bundle",
}
"""Kind of job -> `module:function`. A new kind needs a line here and one in `service.jobs.plan`."""


class NoRecipe(LookupError):
    """A kind of job that no recipe stands for, or whose recipe cannot be found."""


def load_table(name: str) -> Mapping[str, str]:
    """The table a setting names as `module:NAME`; the own one for an empty name."""
    if not name:
        return TABLE
    table = _load(name)
    if not isinstance(table, Mapping):
        raise NoRecipe(f"{name} is not a table of recipes")
    return table


def find_recipe(table: Mapping[str, str], kind: str) -> Recipe:
    """The function for a kind of job; `NoRecipe` says what is missing."""
    if kind not in table:
        raise NoRecipe(f"no recipe makes {kind!r}; there are {', '.join(table)}")
    recipe: Recipe = _load(table[kind])
    return recipe


def _load(name: str) -> Any:
    module, _, attribute = name.partition(":")
    try:
        return getattr(import_module(module), attribute)
    except (ImportError, AttributeError) as why:
        raise NoRecipe(f"{name} cannot be loaded: {why}") from why
