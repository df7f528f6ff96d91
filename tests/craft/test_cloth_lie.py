"""Where up of a cloth points in every patch, held against squares cut and folded by hand (paper squares, no source)."""

import pytest

from service.craft.cloth_lie import lay_cloths
from service.craft.document import read_document
from tests.straight_blocks import BLOCKS, CLOTHS, block

NORTH, EAST, SOUTH, WEST = (0, -1), (1, 0), (0, 1), (-1, 0)
PLAIN = {"unit": "patch", "size": ["4", "4"], "fabric": "print"}
TALL = {"unit": "patch", "size": ["2", "8"], "fabric": "print"}


def ups(top, *, directional=True, fabric="print"):
    """Where up points in the patches of the print, in order."""
    cloth = {"directional": directional}
    project = read_document({"title": "Beds", "fabrics": {**CLOTHS, "print": cloth, "plain": {}}, "top": top})
    lies = lay_cloths(project.top, project.fabrics, project.rules)
    patches = list(project.top.patches())
    assert len(lies) == len(patches)
    return [
        tuple(round(side, 6) + 0.0 for side in up)
        for up, patch in zip(lies, patches, strict=True)
        if patch.fabric == fabric
    ]


def turned(inside, turn):
    return {"unit": "turned", "turn": turn, "inside": inside}


def test_a_print_stands_up_where_nothing_turns_it():
    assert ups({"unit": "grid", "rows": [[PLAIN, PLAIN]]}) == [NORTH, NORTH]
    assert ups(TALL) == [NORTH]


def test_a_turned_block_turns_its_print():
    assert [ups(turned(PLAIN, turn)) for turn in (90, 180, 270)] == [[EAST], [SOUTH], [WEST]]
    assert ups(turned(turned(PLAIN, 90), 90)) == [SOUTH]


def test_a_mirrored_block_keeps_up_up_and_turns_the_other_way():
    """Seen in a mirror left and right change: up stays, a quarter to the right is one to the left."""
    assert ups({"unit": "mirrored", "inside": PLAIN}) == [NORTH]
    assert ups({"unit": "mirrored", "inside": turned(PLAIN, 90)}) == [WEST]


def test_strips_of_cloth_without_a_direction_lie_across_it():
    assert ups(TALL, directional=False) == [EAST]
    assert ups(turned(TALL, 90), directional=False) == [SOUTH]


def test_a_block_on_point_stands_on_its_corner():
    on_point = {"unit": "on point", "rows": [[PLAIN]], "side": "plain", "corner": "plain"}
    [up] = ups(on_point)
    assert up == (pytest.approx(0.5**0.5, abs=1e-6), pytest.approx(-(0.5**0.5), abs=1e-6))


def test_corners_stand_up_and_setting_triangles_as_far_as_their_squares_give_one_for_each_side():
    """A row of three: two triangles above and two below out of one square: its upper and its lower one stand up, its
    right and left one come to stand above and below by a quarter to the left.
    """
    on_point = {
        "unit": "on point",
        "rows": [[{**PLAIN, "fabric": "plain"}] * 3],
        "side": "print",
        "corner": "print",
    }
    sides, corners = ups(on_point)[:4], ups(on_point)[4:]
    assert corners == [NORTH] * 4
    assert sides == [NORTH, NORTH, WEST, WEST]


def test_two_triangles_of_a_square_come_head_to_tail_and_the_other_cloth_lies_on_its_side():
    """Two squares face to face, sewn beside the diagonal and cut: one unit has the first print up and one down; the
    second, folded back over the seam, has turned by a quarter.
    """
    half = {"unit": "half-square triangle", "size": ["3", "3"], "fabrics": ["print", "plain"]}
    two = {"unit": "grid", "rows": [[half, half]]}
    assert ups(two) == [NORTH, SOUTH]
    assert ups(two, fabric="plain") == [EAST, WEST]
    cut = {**half, "method": "cut triangles"}
    assert ups({"unit": "grid", "rows": [[cut, cut]]}, fabric="plain") == [NORTH, SOUTH]


def test_a_flipped_corner_lies_on_its_side_and_its_base_stands():
    corner = {
        "unit": "corner squares", "size": ["4", "4"], "fabric": "plain",
        "corners": {"size": "1 1/2", "fabric": "print", "at": ["nw", "se"]},
    }  # fmt: skip
    assert ups(corner) == [EAST, EAST]
    assert ups(corner, fabric="plain") == [NORTH]


@pytest.mark.parametrize(
    ("cut", "up"), [("along the length", [NORTH, EAST]), ("across the width", [EAST, NORTH])]
)
def test_border_strips_lie_as_they_are_asked_to_be_cut(cut, up):
    """Along the cloth, up is at the end of a strip: up in the sides, to the right above and below; across, the rest."""
    borders = [{"width": "2", "fabric": "print", "corners": "butted", "first": "sides", "cut": cut}]
    bordered = {"unit": "bordered", "inside": {**PLAIN, "fabric": "plain"}, "borders": borders}
    found = ups(bordered)
    assert sorted(found) == sorted(up * 2)
    project = read_document({"title": "B", "fabrics": {"print": {}, "plain": {}}, "top": bordered})
    for patch, way in zip([p for p in project.top.patches() if p.fabric == "print"], found, strict=True):
        heights = [y for _, y in patch.points]
        stands = max(heights) - min(heights) > 2
        assert way == up[0 if stands else 1]


@pytest.mark.parametrize("name", sorted(BLOCKS))
def test_every_patch_of_every_straight_block_has_a_direction(name):
    lies = ups(block(name, 12), fabric="leaf")
    assert all(abs(x * x + y * y - 1) < 1e-6 for x, y in lies)
