"""Recipes that write for the viewers of their track, or for everybody who reads the project."""

from __future__ import annotations

from functools import wraps

from service.craft.audience import USUAL_AUDIENCE, Audience, writing_for
from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from workers.recipe import JobInput, MadeFile, Recipe


def in_their_words(recipe: Recipe) -> Recipe:
    """The recipe, writing for the viewers of the job's track, or for the project's where it has none."""

    @wraps(recipe)
    def written(job: JobInput) -> list[MadeFile]:
        with writing_for(_find_audience(job)):
            return recipe(job)

    return written


def _find_audience(job: JobInput) -> Audience:
    """A document with faults and a track that is not there are for the recipe to name."""
    try:
        project = read_document(job.document)
        return project.audience_of(project.track(job.track)) if job.track else project.audience
    except (DocumentFaults, KeyError):
        return USUAL_AUDIENCE
