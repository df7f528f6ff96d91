"""The steps of a piece sewn in several hoopings, and of motifs that come again: which file, where, how turned."""

import json

import pytest

from tests.stitches.shapes import leaf
from tests.stitches.test_recipe import document, outline
from tests.stitches.test_split import ACROSS, OUTLINES
from workers.recipe import JobInput
from workers.sewing.recipe import make_sewing_plan
from workers.stitches.recipe import make_stitches

FILES = {**OUTLINES, "leaf.svg": outline("leaf.svg", leaf(60, 20))}
LEEK = {"name": "leek", "outline": "leek.svg", "fabric": "frost", "at": ["15", "15"], "split": ACROSS}


def leaves(*turns, **more):
    """Leaves 9 in from one another, turned."""
    return [
        {
            "name": f"leaf {n}",
            "outline": "leaf.svg",
            "fabric": "frost",
            "at": [str(5 + 9 * n), "5"],
            "turn": turn,
            **more,
        }
        for n, turn in enumerate(turns)
    ]


def steps(*pieces, track=0, has=("hoop 130x180", ""), sources=()):
    raw = document(*pieces, tracks=has, sources=sources)
    made = {file.name: file.data for file in make_sewing_plan(JobInput("sewing", raw, FILES))}
    listed = json.loads(made[f"steps-track-{track}.json"])["steps"]
    return {step["id"]: step for step in listed if step["chapter"] == "applique"}


def reports(*pieces, has=("hoop 130x180",)):
    made = make_stitches(JobInput("stitches", document(*pieces, tracks=has), FILES))
    return [json.loads(file.data) for file in made if file.name.endswith(".json")]


def test_the_split_and_all_middles_are_marked_before_the_first_part_is_hooped():
    """On the flat top: the line's ends are said from the cut edges."""
    listed = list(steps(LEEK))
    mark, first, second = (
        listed.index(f"applique.piece.leek.{what}")
        for what in ("mark-split", "part-1.rehoop", "part-2.rehoop")
    )
    assert mark < first < second
    text = steps(LEEK)["applique.piece.leek.mark-split"]["text"]
    assert text.count("from the left cut edge") == 2 and "2 hoopings" in text


def test_each_part_names_the_file_and_the_place_of_its_own_hooping():
    """As the reports of the stitch files have them: a quarter inch of allowance to the cut edge."""
    made = steps(LEEK)
    for report in reports(LEEK):
        number = report["parts"]["leek"]["part"]
        step = made[f"applique.piece.leek.part-{number}.rehoop"]
        assert step["files"] == [f"stitch-{report['hooping']}.dst"]
        x, y = (round((side / 25.4 + 0.25) * 16) for side in report["centre_mm"])
        assert f"{x // 16}" in step["text"] and f"{y // 16}" in step["text"]
        assert report["parts"]["leek"]["name"] in step["text"]


def test_the_rest_of_the_cloth_is_folded_away_laid_down_and_matched_to_the_sewn_edge():
    """Cut with the first part, it stays one piece: fold, match, lay, tack down, finish."""
    made = steps(LEEK)
    second = [name.rpartition(".")[2] for name in made if ".part-2." in name]
    kept = ("fold", "rehoop", "placement", "lay", "tack-down", "trim", "finish")
    assert [what for what in second if what in kept] == list(kept)
    assert "hoop again" in made["applique.piece.leek.part-2.placement"]["text"]
    assert "hoop again" not in made["applique.piece.leek.part-1.placement"]["text"]


def test_every_step_of_a_part_is_drawn_and_the_stretch_of_each_part_differs():
    """The pictures show what this hooping sews."""
    made = steps(LEEK)
    drawn = [made[f"applique.piece.leek.part-{n}.placement"]["picture"]["svg"] for n in (1, 2)]
    assert drawn[0] != drawn[1]
    assert "split" in made["applique.piece.leek.mark-split"]["picture"]["alt"]


@pytest.mark.parametrize("has", ["hoop 200x300", ""])
def test_a_track_that_takes_the_piece_whole_or_has_no_hoop_hears_nothing_of_the_split(has):
    """A large field, or none."""
    made = steps(LEEK, has=(has,))
    assert not [step for step in made.values() if "split" in step["text"] or ".part-" in step["id"]]


def test_a_motif_that_comes_again_names_the_one_file_its_place_and_how_the_top_is_turned():
    """As the reports of the stitch files say: the top turned by so much clockwise in the hoop."""
    pieces = leaves(0, 45, 90)
    made = [step for step in steps(*pieces).values() if step["id"].endswith((".placement", ".sew"))]
    told = reports(*pieces)
    for step, report in zip(made, told, strict=True):
        same = report["same_as"]
        if same is None:
            assert "also sews the leaf 1 and the leaf 2" in step["text"]
            continue
        assert f"stitch-{same['hooping']}.dst once more" in step["text"]
        assert f"turned {same['top_turned_degrees']:.4g} degrees clockwise in the hoop" in step["text"]


def test_a_piece_that_is_one_of_its_kind_hears_nothing_of_other_places():
    """No hoopings are planned for its steps."""
    assert not [step for step in steps(*leaves(0)).values() if "once more" in step["text"]]


def test_a_motif_that_viewers_must_own_names_no_file():
    """It is sewn from a file of the viewer's own."""
    sources = [{"name": "bought", "covers": ["leaf.svg"], "rights": "viewer must own"}]
    assert not [step for step in steps(*leaves(0, 45), sources=sources).values() if ".dst" in step["text"]]


def test_a_piece_that_cannot_be_sewn_still_has_its_steps():
    """The job of the stitch files says why; the steps are written without hoopings."""
    large = {**LEEK, "outline": "e.svg", "split": {"from": ["9", "-1"], "to": ["9", "1"]}}
    assert "applique.piece.leek.placement" in steps(large)
