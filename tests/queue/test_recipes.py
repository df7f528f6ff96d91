"""Every kind of job has a recipe, and what is missing is said by name."""

import inspect

import pytest

from service.jobs.plan import KINDS
from tests.queue.slow_recipes import TABLE as SLOW
from tests.queue.slow_recipes import make_slowly
from workers.queue.recipes import TABLE, NoRecipe, find_recipe, load_table


def test_every_kind_of_job_has_a_line_in_the_table():
    assert set(TABLE) == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_every_recipe_is_there_and_takes_one_input(kind):
    assert len(inspect.signature(find_recipe(TABLE, kind)).parameters) == 1


def test_the_own_table_is_the_usual_one_and_a_setting_names_another():
    assert load_table("") is TABLE
    assert load_table("tests.queue.slow_recipes:TABLE") == SLOW
    assert find_recipe(SLOW, "cutting").__name__ == make_slowly.__name__


@pytest.mark.parametrize("name", ["no.such.module:TABLE", "tests.queue.slow_recipes:NOTHING"])
def test_a_table_that_is_not_there_is_said(name):
    with pytest.raises(NoRecipe, match="cannot be loaded"):
        load_table(name)


def test_what_is_no_table_is_said():
    with pytest.raises(NoRecipe, match="not a table"):
        load_table("tests.queue.slow_recipes:make_slowly")


def test_a_kind_that_is_not_in_the_table_is_said():
    with pytest.raises(NoRecipe, match="no recipe makes 'quiche'"):
        find_recipe(TABLE, "quiche")
