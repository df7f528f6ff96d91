"""What viewers must own is in nothing that leaves: every public file is crawled for its curves, bundles unpacked."""

import copy
from functools import lru_cache

import numpy as np
import pytest

from service.craft.document import read_document
from service.craft.outlines import find_outline, flatten
from service.jobs.plan import plan_jobs
from tests.completeness.conftest import load
from tests.rights.curves import LIKE, find_like, read_curves, unlikeness
from workers.queue.recipes import TABLE, find_recipe
from workers.recipe import JobInput

MONTH, OWNED = "2027-03-rhubarb-cushion", "rhubarb.svg#leaf"
TRACKS = ("hoop and cutter", "by hand")


@lru_cache
def make_everything(rights):
    """Every job of the month as the queue runs it, on two tracks, with these rights on the leaf."""
    given, outlines = load(MONTH)
    document = copy.deepcopy(given)
    document["tracks"] = [track for track in document["tracks"] if track["name"] in TRACKS]
    document["sources"] = [
        {"name": "own drawing", "covers": ["rhubarb.svg#stalk"], "rights": "own"},
        {"name": "a neighbour's book of leaves", "covers": [OWNED], "rights": rights},
    ]
    made = {}
    for job in plan_jobs(read_document(document)):
        inputs = {f.name: f.data for parent in job.waits_for for f in made[parent]}
        given = JobInput(job.name.kind, document, outlines, inputs, job.name.track, "2027-03-19")
        made[job.name] = find_recipe(TABLE, job.name.kind)(given)
    return [file for files in made.values() for file in files]


@lru_cache
def crawl(rights):
    """The curves of every public file, with the file's name."""
    return [c for f in make_everything(rights) if f.public for c in read_curves(f.name, f.data)]


def ring(outline):
    found = find_outline(load(MONTH)[1], outline)
    return flatten(found.rings[0], tolerance_mm=0.05)


def test_the_crawl_finds_a_leaf_that_may_leave_in_every_kind_of_file():
    """The control: with the leaf as the studio's own, templates, cut files, stitch files and pictures all hold it."""
    names = {name for name, *_ in find_like(ring(OWNED), crawl("own"))}
    assert {"templates-by-hand.pdf", "handout-by-hand.pdf"} <= names
    assert {name.rpartition(".")[2] for name in names} == {"pdf", "svg", "dxf", "dst", "json"}


def test_no_public_file_holds_a_curve_of_what_viewers_must_own():
    curves = crawl("viewer must own")
    assert len(curves) > 500
    assert find_like(ring(OWNED), curves) == []
    # what may leave still does
    assert find_like(ring("rhubarb.svg#stalk"), curves)


def test_the_studio_still_gets_its_own_files_of_it():
    private = [f for f in make_everything("viewer must own") if not f.public]
    names = {n for n, *_ in find_like(ring(OWNED), [c for f in private for c in read_curves(f.name, f.data)])}
    assert any(name.endswith(".dst") for name in names) and any(name.endswith(".dxf") for name in names)


def test_every_step_list_says_to_bring_it_and_from_where():
    for file in make_everything("viewer must own"):
        if file.name.startswith("steps-"):
            assert b"Bring your own pattern for the leaf: a neighbour's book of leaves." in file.data


@pytest.mark.parametrize("turn", [0.3, 2.0, 4.4])
@pytest.mark.parametrize("scale", [0.2, 1.0, 7.0])
@pytest.mark.parametrize("mirror", [1, -1])
def test_a_curve_is_known_again_turned_scaled_mirrored_and_begun_elsewhere(turn, scale, mirror):
    leaf = ring(OWNED)
    way = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]]) * scale
    other = np.roll(leaf[:-1], 17, axis=0) * [mirror, 1] @ way + [40, -3]
    assert unlikeness(leaf, other) < LIKE / 3


def test_other_shapes_are_told_apart():
    circle = [(np.cos(t), np.sin(t)) for t in np.linspace(0, 2 * np.pi, 90)]
    assert unlikeness(ring(OWNED), circle) > LIKE
    assert unlikeness(ring(OWNED), ring("rhubarb.svg#stalk")) > LIKE
