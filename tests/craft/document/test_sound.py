"""What a sound document says."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.document import DEFAULTS, FIELDS, read_document
from service.craft.fabric import SoldAs
from service.craft.finish import CHAPTERS

from .conftest import faults_of


def least(**more):
    patch = {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}
    return {"title": "Leek", "fabrics": {"frost": {}}, "top": patch} | more


def test_the_whole_document_is_sound_and_uses_every_field(garden):
    assert faults_of(garden) == []
    assert set(garden) == FIELDS


def test_what_is_written_is_what_is_read(garden):
    project = read_document(garden)
    frost, fleece = project.fabrics["frost"], project.fabrics["fleece"]
    assert (frost.usable_width, frost.shrinkage, frost.price) == (
        40,
        Fraction(3, 100),
        (Fraction("12.5"), 36),
    )
    assert (frost.stash[0].width, frost.stash[0].length, frost.stash[0].count) == (18, 21, 2)
    assert frost.sold_as == SoldAs("fat quarter", Fraction(22), Fraction(18), Fraction("4.2"))
    assert (project.cutting.worth_keeping, project.cutting.stacked) == (3, True)
    assert fleece.trim_in_place and not frost.trim_in_place
    leek, leaf = project.pieces
    assert (leek.at, leek.turn, leek.mirror, leek.scale, leek.edge) == (
        (4, 2),
        15,
        True,
        Fraction(3, 2),
        "zigzag",
    )
    assert (leek.outline_file, leek.outline_shape, leaf.above) == ("leek.svg", "stalk", ("leek",))
    assert project.finish.binding is not None and project.finish.binding.cut == "bias"
    assert project.finish.backing is not None and project.finish.backing.overhang == 2
    assert project.finish.batting_overhang == 2
    assert project.track("by machine").reading == "new to piecing"
    assert [p.covers for p in project.parts] == [("cutting", "piecing"), ("applique", "finishing")]
    assert project.may_leave(leek)
    assert project.seam_allowance == Fraction(1, 4)


def test_what_is_left_out_has_its_default():
    project = read_document(least())
    frost = project.fabrics["frost"]
    assert (frost.name, frost.usable_width, frost.colour, frost.directional) == (
        "frost",
        40,
        "#c8c8c8",
        False,
    )
    assert [t.name for t in project.tracks] == ["by hand"]
    assert [p.covers for p in project.parts] == [CHAPTERS]
    assert (project.finish.binding, project.finish.backing, project.finish.batting_overhang) == (
        None,
        None,
        None,
    )
    assert (project.pieces, project.colourways, project.sources, project.summary) == ((), (), (), "")


@pytest.mark.parametrize("measure", DEFAULTS)
def test_every_measure_has_a_seam_and_a_step_of_its_own(measure):
    """1/4 in and 1/8 in; 7.5 mm (reginasquiltblog.blogspot.com) and 1 mm."""
    rules = read_document(least(measure=measure)).rules
    expected = (Fraction(1, 4), Fraction(1, 8)) if measure == "in" else (Fraction(75, 254), Fraction(5, 127))
    assert (rules.seam_allowance, rules.round_to) == expected


@pytest.mark.parametrize(
    "field", ["seam_allowance", "round_to", "pieces", "finish", "tracks", "summary", "blocks"]
)
def test_an_empty_optional_field_is_as_good_as_none(field):
    empty = {"seam_allowance": None, "round_to": None, "summary": "", "finish": {}, "blocks": {}}
    assert faults_of(least(**{field: empty.get(field, [])})) == []


def test_null_stands_for_what_is_left_out_in_a_cloth():
    cloth = {"usable_width": None, "shrinkage": None, "price_per_length": None}
    assert read_document(least(fabrics={"frost": cloth})).fabrics["frost"].usable_width == 40


@pytest.mark.parametrize(
    ("measure", "step", "lost"),
    [("in", Fraction(9, 2), Fraction(1)), ("cm", Fraction(500, 127), Fraction(125, 127))],
)
def test_cloth_is_bought_by_the_eighth_of_a_yard_or_the_tenth_of_a_metre_and_loses_an_inch(
    measure, step, lost
):
    """4 1/2 in and 1 in, or 100 mm and 25 mm; common practice, no source."""
    cloth = read_document(least(measure=measure)).fabrics["frost"]
    assert (cloth.buying_step, cloth.straightening) == (step, lost)


def test_a_choice_for_all_cloths_gives_way_to_one_for_a_single_cloth():
    cutting = {"plan": "tight", "join": "diagonal", "buying_step": "1/4 yd", "straightening": "2"}
    own = {"buying_step": "0.25 m", "straightening": 0, "napped": True}
    project = read_document(least(cutting=cutting, fabrics={"frost": own, "leaf": {}}))
    frost, leaf = project.fabrics["frost"], project.fabrics["leaf"]
    assert (frost.buying_step, frost.straightening) == (Fraction(1250, 127), 0)
    assert (leaf.buying_step, leaf.straightening) == (9, 2)
    assert frost.one_way and not leaf.one_way
    assert (project.cutting.plan, project.cutting.join) == ("tight", "diagonal")


def test_a_field_of_ones_own_is_let_be():
    assert faults_of(least(remark="sown in March", pattern_number=7)) == []


def test_a_chapter_no_part_names_comes_with_the_last():
    project = read_document(
        least(parts=[{"title": "One", "covers": ["piecing"]}, {"title": "Two", "covers": []}])
    )
    assert [p.covers for p in project.parts] == [("piecing",), ("cutting", "applique", "finishing")]


def test_a_size_rounded_for_planning_is_taken_for_the_exact_one():
    """17 5/8 for 12 1/2 on its corner, which is 17.678 (common practice, no source)."""
    inside = {"fabric": "frost", "size": ["12 1/2", "12 1/2"]}
    top = {"unit": "square in a square", "fabric": "frost", "size": ["17 5/8", "17 5/8"], "inside": inside}
    width = read_document(least(top=top)).top.width
    assert width * width == 2 * Fraction(25, 2) ** 2


def test_blocks_may_name_blocks_and_keep_the_first_name():
    patch = {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}
    project = read_document(least(top="path", blocks={"path": "bed", "bed": patch}))
    assert project.top.block == "bed"


def test_the_order_of_blocks_does_not_matter():
    patch = {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}
    blocks = {"row": {"unit": "grid", "rows": [["bed", "bed"]]}, "bed": patch}
    forwards = read_document(least(top="row", blocks=blocks))
    backwards = read_document(least(top="row", blocks=dict(reversed(blocks.items()))))
    assert forwards.top == backwards.top
