"""What is bought for a colourway, worked out on its own cloths; and what at home comes near its colours.

Areas and lengths are held against the cutting plan of a document written out by hand with the other cloths.
"""

import json
from copy import deepcopy

import numpy as np
import pytest
from skimage.color import deltaE_cie76, rgb2lab

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.look.colour_vision import measure_difference
from workers.cutting.recipe import make_cutting_plan
from workers.handouts.colourway_cloth import reckon
from workers.handouts.colourway_notes import note_cloths
from workers.handouts.colourways import view_colourways
from workers.handouts.inputs import Inputs
from workers.handouts.recipe import make_colourways
from workers.outlines.asked import read_pieces
from workers.patience import endless
from workers.recipe import JobInput

PLAIN = {"unit": "patch", "size": ["6", "6"]}
SIX = {
    "title": "Bean Row",
    "summary": "Beds in three cloths.",
    "measure": "in",
    "fabrics": {
        "bean": {"name": "bean green", "colour": "#4f7a3a", "usable_width": "40"},
        "soil": {"name": "soil brown", "colour": "#5b4636", "usable_width": "40"},
        "sun": {"name": "sun yellow", "colour": "#f2cf5b", "usable_width": "40"},
    },
    "top": {
        "unit": "grid",
        "rows": [[{**PLAIN, "fabric": key} for key in ("bean", "soil", "sun")] * 2 for _ in range(6)],
    },
    "finish": {"binding": {"fabric": "soil", "strip": "2 1/4", "cut": "straight"}},
}


def with_colourway(**changes):
    return {**deepcopy(SIX), "colourways": [{"name": "other", "fabrics": changes}]}


def notes_of(document, materials=()):
    inputs = Inputs(JobInput("colourways", document, materials=materials))
    views = view_colourways(inputs.project, inputs.top)
    return note_cloths(inputs, [dict(view.top.cloths) for view in views])


def bought_by_plan(document):
    plan = json.loads(make_cutting_plan(JobInput("cutting", document))[0].data)
    return {entry["fabric"]: entry["buy_words"] for entry in plan["fabrics"]}


def by_words(text, old, new):
    """The document with one cloth's key in another's place everywhere in its text."""
    return json.loads(json.dumps(text).replace(f'"fabric": "{old}"', f'"fabric": "{new}"'))


@pytest.mark.parametrize(
    "change", [{"usable_width": "20"}, {"shrinkage": 0.2}, {"usable_width": "13", "directional": True}]
)
def test_a_changed_cloth_is_bought_as_if_the_document_had_been_written_so(change):
    """The same quantity as the cutting plan of a document with that cloth; every other cloth stays."""
    other = deepcopy(SIX)
    other["fabrics"]["soil"].update(change)
    before, after = bought_by_plan(SIX), bought_by_plan(other)
    [row] = notes_of(with_colourway(soil=change))[1].rows
    assert (row.cloth, row.designed, row.here) == ("soil brown", before["soil"], after["soil"])
    assert before["soil"] != after["soil"]


def test_two_cloths_merged_are_bought_as_one():
    """Their cuts are laid together, as in a document that names one cloth in both places; of the other none."""
    merged = by_words(SIX, "sun", "bean")
    rows = {row.cloth: row for row in notes_of(with_colourway(sun={"same_as": "bean"}))[1].rows}
    assert rows["bean green"].here == bought_by_plan(merged)["bean"]
    assert (rows["sun yellow"].designed, rows["sun yellow"].here) == (bought_by_plan(SIX)["sun"], "none")
    assert "bean green" in rows["sun yellow"].why


def test_a_merged_cloth_is_drawn_as_the_other_and_is_no_neighbour_of_it():
    """One colour, one line in the legend, and no warning that a cloth runs together with itself."""
    inputs = Inputs(JobInput("colourways", with_colourway(sun={"same_as": "bean"})))
    designed, merged = view_colourways(inputs.project, inputs.top)
    assert set(designed.top.cloths) - set(merged.top.cloths) == {"sun"}
    assert {patch.cloth for patch in merged.top.patches} == {"bean", "soil"}
    assert not any("bean green" in pair and pair.count("bean green") == 2 for pair in merged.close)


def test_cloth_sold_in_pieces_is_bought_in_pieces_there():
    """As many as hold its twelve squares of 6 1/2 in: 18 by 20 in holds two by three of them, by hand."""
    piece = {"name": "bean packet", "width": "18", "length": "20"}
    [row] = notes_of(with_colourway(sun={"sold_as": piece}))[1].rows
    assert row.here == "2 × bean packet"


def test_a_colourway_of_colours_alone_works_nothing_out():
    """Its lengths are those of the design, and the sheet says nothing of them."""
    assert [note.worked_out for note in notes_of(with_colourway(sun={"colour": "#ffffff"}))] == [False, False]


def test_a_cloth_too_narrow_for_its_patches_is_said_on_the_sheet():
    """The job is done all the same: the other colourways are of use."""
    document = with_colourway(sun={"usable_width": "3", "directional": True})
    document["top"]["rows"][0][2] = {
        "unit": "half-square triangle",
        "size": ["6", "6"],
        "fabrics": ["sun", "soil"],
    }
    project = read_document(document)
    pieces = read_pieces(JobInput("colourways", document), project)
    assert reckon(project, pieces, project.colourways[0], endless).trouble
    assert make_colourways(JobInput("colourways", document))[1].data.startswith(b"%PDF")


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        ({"sun": {"same_as": "moon"}}, "/colourways/0/fabrics/sun/same_as"),
        ({"sun": {"same_as": "sun"}}, "/colourways/0/fabrics/sun/same_as"),
        ({"sun": {"same_as": "soil"}, "soil": {"same_as": "bean"}}, "/colourways/0/fabrics/sun/same_as"),
        ({"sun": {"same_as": "soil", "colour": "#ffffff"}}, "/colourways/0/fabrics/sun/colour"),
        ({"sun": {"same_as": ["soil"]}}, "/colourways/0/fabrics/sun/same_as"),
        ({"sun": {"usable_width": "0"}}, "/colourways/0/fabrics/sun/usable_width"),
        ({"sun": {"shrinkage": 0.9}}, "/colourways/0/fabrics/sun/shrinkage"),
        ({"sun": {"directional": "yes"}}, "/colourways/0/fabrics/sun/directional"),
        ({"sun": {"usable_with": "40"}}, "/colourways/0/fabrics/sun/usable_with"),
    ],
)
def test_a_faulty_change_is_named_with_its_place(changes, pointer):
    """One fault each, at the field that is wrong."""
    with pytest.raises(DocumentFaults) as found:
        read_document(with_colourway(**changes))
    assert [fault.pointer for fault in found.value.faults] == [pointer]


def test_a_cloth_that_only_gets_a_name_keeps_its_colour():
    project = read_document(with_colourway(sun={"name": "sunflower"}))
    assert (project.colourways[0].colours, project.colourways[0].names) == ({}, {"sun": "sunflower"})


def cloth(name, colour, width="44", length="3 yd", **more):
    return {"name": name, "kind": "cloth", "colour": colour, "usable_width": width, "length": length, **more}


def test_what_is_at_home_is_suggested_nearest_first_where_it_is_enough():
    """Too small, too few, of another kind, without a size, or of another colour is not."""
    materials = [
        cloth("butter", "#f0d070", quantity=1),
        cloth("straw", "#ecc860", quantity=1),
        cloth("scrap", "#f2cf5b", length="6 1/2", quantity=1),
        cloth("lent away", "#f2cf5b", quantity=0),
        cloth("sun thread", "#f2cf5b", quantity=1) | {"kind": "thread"},
        cloth("unmeasured", "#f2cf5b", length=None, quantity=1),
        cloth("night", "#202040", quantity=1),
    ]
    [designed] = notes_of(SIX, materials)
    matches = {row.cloth.key: [match.name for match in row.matches] for row in designed.matches}
    nearer = sorted(("butter", "straw"), key=lambda name: measure_difference(
        "#f2cf5b", {"butter": "#f0d070", "straw": "#ecc860"}[name]
    ))  # fmt: skip
    assert matches == {"sun": nearer}


def test_enough_is_found_by_laying_the_cuts_and_not_by_area():
    """Twelve squares of 6 1/2 in take 507 square inches: a strip of 6 by 100 in has more and holds none."""
    strip, piece = (
        cloth("ribbon", "#f2cf5b", width="6", length="100", quantity=1),
        cloth("exact", "#f2cf5b", width="26", length="19 1/2", quantity=1),
    )
    [designed] = notes_of(SIX, [strip, piece])
    assert [match.name for row in designed.matches for match in row.matches] == ["exact"]


def test_distances_are_those_of_scikit_image():
    """Source: scikit-image, `rgb2lab` (D65, 2 degrees) and `deltaE_cie76`; it has more decimals of the sRGB matrix."""
    colours = ["#000000", "#ffffff", "#f2cf5b", "#4f7a3a", "#5b4636", "#39405a", "#a12d47", "#00ff80"]
    channels = [[int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)] for colour in colours]
    lab = rgb2lab(np.array(channels)[None])[0]
    for i, one in enumerate(colours):
        for j, other in enumerate(colours):
            expected = float(deltaE_cie76(lab[i], lab[j]))
            assert measure_difference(one, other) == pytest.approx(expected, abs=0.05)
