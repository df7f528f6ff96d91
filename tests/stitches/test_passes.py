import numpy as np
import pytest
import shapely

from tests.stitches.shapes import ZOO, circle, rectangle
from workers.recipe import CannotMake
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import FINISH, PLACEMENT, TACK_DOWN, UNDERLAY
from workers.stitches.stop_words import say_stop

EDGES = ["satin", "zigzag", "blanket", "raw"]


def sewn_lines(sewn, kind):
    return shapely.union_all([shapely.LineString(p.points) for p in sewn.passes if p.kind == kind])


@pytest.mark.parametrize("name", ZOO)
def test_passes_come_as_placement_stop_tack_down_stop_underlay_finish(sew, name):
    rings = len(ZOO[name])
    kinds = [p.kind for p in sew(name).passes]
    assert kinds == [PLACEMENT] * rings + [TACK_DOWN] * rings + [UNDERLAY, FINISH] * rings
    stops = [i for i, p in enumerate(sew(name).passes) if p.then_stop]
    assert stops == [rings - 1, 2 * rings - 1]


@pytest.mark.parametrize("name", ZOO)
@pytest.mark.parametrize("edge", EDGES)
def test_the_tack_down_lies_inside_the_placement_line(sew, name, edge):
    shape = shapely.Polygon(ZOO[name][0], ZOO[name][1:])
    tack = sewn_lines(sew(name, edge), TACK_DOWN)
    assert tack.intersection(shape).length >= 0.97 * tack.length
    assert shape.buffer(0.3).covers(tack)


@pytest.mark.parametrize("name", ["circle", "square", "letter e", "ring"])
def test_the_tack_down_keeps_its_inset_where_there_is_room_and_turns_corners_at_it(sew, settings, name):
    outline = shapely.Polygon(ZOO[name][0], ZOO[name][1:]).boundary
    points = np.vstack([p.points[4:-4] for p in sew(name).passes if p.kind == TACK_DOWN])
    off = shapely.distance(outline, shapely.points(points))
    assert off.min() >= settings.tack_inset_mm - 0.16
    assert off.max() <= settings.tack_inset_mm * np.sqrt(2) + 0.05
    assert np.median(off) == pytest.approx(settings.tack_inset_mm, abs=0.05)


@pytest.mark.parametrize("name", ZOO)
def test_placement_tack_down_and_underlay_lie_beneath_the_satin(sew, name):
    satin = sewn_lines(sew(name), FINISH).buffer(0.2)
    for kind in (PLACEMENT, TACK_DOWN, UNDERLAY):
        lines = sewn_lines(sew(name), kind)
        assert lines.intersection(satin).length >= 0.985 * lines.length


def test_the_underlay_keeps_off_both_sides_of_the_band(sew, settings):
    satin = sewn_lines(sew("circle"), FINISH)
    underlay = next(p.points for p in sew("circle").passes if p.kind == UNDERLAY)
    radius = np.linalg.norm(underlay, axis=1)
    x0, _, x1, _ = satin.bounds
    assert radius.max() <= (x1 - x0) / 2 - settings.underlay_inset_mm
    assert radius.min() >= 20 - settings.inside_mm("satin") + settings.underlay_inset_mm


def test_holes_get_every_pass_as_well(sew):
    hole = shapely.Polygon(circle(11.5))
    for kind in (PLACEMENT, TACK_DOWN, UNDERLAY, FINISH):
        within = [
            p for p in sew("ring").passes if p.kind == kind and hole.covers(shapely.points(p.points)).all()
        ]
        assert len(within) == 1


def test_the_stops_say_what_to_do(sew, piece, settings):
    before = [say_stop(p.then_stop) for p in sew("square").passes if p.then_stop]
    assert before == [
        "lay the square inside the line, or its cloth over it where it is not cut yet",
        "check that the edge of the square lies on the line, or trim its cloth close to the tack-down",
    ]
    trimmed = sew_piece(piece("square", trim_in_place=True), settings)
    assert [say_stop(p.then_stop) for p in trimmed.passes if p.then_stop][
        1
    ] == "trim the cloth of the square close to the tack-down"


def test_an_edge_that_nobody_sews_is_refused_with_those_that_are(piece, settings):
    with pytest.raises(CannotMake, match='edge "fringe"') as refused:
        sew_piece(piece("square", edge="fringe"), settings)
    assert refused.value.pointer == "/pieces/square/edge"
    assert '"satin"' in refused.value.right


@pytest.mark.parametrize(
    ("rings", "words"),
    [
        ((np.array([[0, 0], [20, 20], [20, 0], [0, 20.0]]),), "meets itself"),
        ((rectangle(40, 1.2),), "nowhere wider than 1.2 mm"),
        ((circle(0.4, 24),), "nowhere wider"),
        ((np.array([[0, 0], [5, 5.0]]),), "no closed shape"),
        ((), "no closed shape"),
        ((circle(10), circle(20)), "meets itself"),
    ],
)
def test_an_outline_that_no_needle_can_sew_is_refused_by_the_pieces_name(piece, settings, rings, words):
    refused_piece = piece("square")
    refused_piece = type(refused_piece)("bean", rings, refused_piece.thread, pointer="/pieces/0")
    with pytest.raises(CannotMake, match=words) as refused:
        sew_piece(refused_piece, settings)
    assert '"bean"' in refused.value.detail and refused.value.pointer == "/pieces/0" and refused.value.right


@pytest.mark.parametrize("width", [1.6, 2.0, 3.0])
@pytest.mark.parametrize("edge", EDGES)
def test_very_narrow_pieces_are_still_sewn_all_round(piece, settings, width, edge):
    sewn = sew_piece(piece("strip", (rectangle(30, width),), edge=edge), settings)
    assert sewn_lines(sewn, FINISH).length > 60


def test_a_hole_that_the_finish_closes_is_noted(piece, settings):
    sewn = sew_piece(piece("bean", (circle(15), circle(1.5, 40))), settings)
    assert len(sewn.notes) == 1 and "hole 1" in sewn.notes[0] and "closes it" in sewn.notes[0]


@pytest.mark.parametrize("edge", EDGES)
def test_adding_a_hole_far_off_changes_nothing_in_the_outer_finish(piece, settings, edge):
    plain = sew_piece(piece("bean", (circle(20),), edge=edge), settings)
    holed = sew_piece(piece("bean", (circle(20), circle(6)), edge=edge), settings)
    one, other = (next(p.points for p in s.passes if p.kind == FINISH) for s in (plain, holed))
    assert (one == other).all()


def test_a_turned_outline_is_sewn_as_the_turned_stitches(piece, settings):
    """A quarter turn of the outline turns every needle point: nothing depends on the axes."""
    ring = ZOO["leek"][0]
    turned = np.stack([-ring[:, 1], ring[:, 0]], axis=1)
    one = sew_piece(piece("leek", (ring,)), settings).passes[-1].points
    other = sew_piece(piece("leek", (turned,)), settings).passes[-1].points
    assert len(one) == len(other)
    assert np.abs(np.stack([-one[:, 1], one[:, 0]], axis=1) - other).max() < 0.05
